"""A port as a table has it: its sizes by role, its words, and what the standard leaves open.

What differs between standards lies in their tables: each ``[[port]]`` of a TOML says which column
plays which role. A role with an empty column is one that the standard leaves open.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

from drafting.records import dataclass
from drafting.standards.table import DATA, Row, Table, table
from drafting.standards.words import fill, magnitude, match

OPEN = "by builder"


@dataclass(frozen=True, slots=True)
class FlangeHead:
    """A four-bolt pattern in mm: ``long_mm`` by ``short_mm``; a bolt is ``bolt_mm`` thick.

    ``bolts`` are the threads that the standard allows; which one is to be confirmed.
    """

    long_mm: float
    short_mm: float
    bolt_mm: float
    bolts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PortSizes:
    """What a table can say of a port, by role; lengths in mm, None where it says nothing.

    ``minor_mm`` is the drilled diameter, ``major_mm`` the thread's (a flange's bore).
    ``engagement_mm`` is the useful length of a taper thread, ``seat_half_angle_deg`` is from the
    axis.
    """

    major_mm: float | None = None
    minor_mm: float | None = None
    pitch_mm: float | None = None
    tpi: float | None = None
    taper: float | None = None
    thread_depth_mm: float | None = None
    drill_depth_mm: float | None = None
    engagement_mm: float | None = None
    spotface_dia_mm: float | None = None
    spotface_depth_mm: float | None = None
    seat_dia_mm: float | None = None
    seat_half_angle_deg: float | None = None
    seat_depth_mm: float | None = None
    bore_mm: float | None = None
    oring_inside_mm: float | None = None
    oring_section_mm: float | None = None
    oring_dash: float | None = None
    bolt_long_mm: float | None = None
    bolt_short_mm: float | None = None
    bolt_tolerance_mm: float | None = None
    bolt_metric: str | None = None
    bolt_inch: str | None = None
    bolt_thread_depth_mm: float | None = None
    head_dia_mm: float | None = None
    pressure_mpa: float | None = None


ROLES = tuple(f.name for f in fields(PortSizes))
WORDS = {
    "thread_depth_mm": "thread depth",
    "drill_depth_mm": "tap drill depth",
    "spotface_dia_mm": "spotface diameter",
    "spotface_depth_mm": "spotface depth",
    "bolt_thread_depth_mm": "bolt thread depth",
    "bore_mm": "bore",
}
"""The roles whose hole a drawing tells, with their printed words."""


@dataclass(frozen=True, slots=True)
class PortThread:
    """A port as the table has it.

    ``spelling`` is what a spec accepts, ``echo`` says it in full, ``short`` as a callout does,
    ``brief`` where a sheet has room for the designation alone.
    ``holes`` are the roles that the standard leaves open. ``confidence`` is the row's own:
    computed, witnessed-N or memory.
    """

    family: str
    kind: str
    standard: str
    spelling: str
    dash: str | None
    tube: str | None
    echo: str
    words: tuple[str, ...]
    short: str
    brief: str
    sizes: PortSizes
    flange: FlangeHead | None
    holes: tuple[str, ...]
    confidence: str
    source: str
    where: str

    @property
    def is_flange(self) -> bool:
        """Tell whether four bolts hold it."""
        return self.flange is not None

    @property
    def major_mm(self) -> float:
        """Give the thread's outside diameter (a flange's bore) in mm."""
        assert self.sizes.major_mm is not None
        return self.sizes.major_mm

    @property
    def minor_mm(self) -> float | None:
        """Give the drilled diameter in mm."""
        return self.sizes.minor_mm

    @property
    def thread_depth_mm(self) -> float | None:
        """Give the least full thread in mm, for a taper thread its useful length."""
        return self.sizes.thread_depth_mm or self.sizes.engagement_mm

    @property
    def drill_depth_mm(self) -> float | None:
        """Give the least depth of the tap drill in mm."""
        return self.sizes.drill_depth_mm

    @property
    def spotface_dia_mm(self) -> float | None:
        """Give the least spotface diameter in mm."""
        return self.sizes.spotface_dia_mm

    @property
    def spotface_depth_mm(self) -> float | None:
        """Give the greatest depth of the spotface in mm."""
        return self.sizes.spotface_depth_mm

    @property
    def callout(self) -> tuple[str, ...]:
        """Give the lines that name the port on a drawing, and what the standard leaves open."""
        left = [f"{WORDS[h]}: {OPEN}".upper() for h in self.holes if h in WORDS]
        return (*self.words, *left)


@dataclass(frozen=True, slots=True)
class Family:
    """A ``[[port]]`` or ``[[reading]]`` of a TOML with its table."""

    table: Table
    entry: Mapping[str, Any]

    def said(self, pattern: str, text: str) -> dict[str, str] | None:
        """Give what a tidy text says by a pattern, column by column, or None."""
        return match(pattern, self.entry.get("parts", {}), text)


@cache
def families(kind: str = "port", folder: Path = DATA) -> tuple[Family, ...]:
    """Give every ``[[port]]`` (or ``[[reading]]``) of the tables in a folder."""
    mark = f"[[{kind}]]"
    found = sorted(p for p in folder.glob("*.toml") if mark in p.read_text(encoding="utf-8"))
    tables = [table(p.stem, folder) for p in found]
    return tuple(Family(t, entry) for t in tables for entry in t.about[kind])


def port_of(family: Family, row: Row) -> PortThread:
    """Give the port of a table's row, by the roles of the family."""
    e = family.entry
    roles: Mapping[str, str] = e["roles"]
    given = {role: _value(row, column) for role, column in roles.items() if column}
    sizes = PortSizes(**given)  # type: ignore[arg-type]
    return PortThread(
        family=e["family"],
        kind=e["kind"],
        standard=e["standard"],
        spelling=fill(e["spelling"], row),
        dash=fill(e["dash"], row) if "dash" in e else None,
        tube=fill(e["tube"], row) if "tube" in e else None,
        echo=fill(e["echo"], row),
        words=tuple(fill(line, row) for line in e["callout"]),
        short=fill(e.get("short", e["spelling"]), row),
        brief=fill(e.get("brief", e.get("short", e["spelling"])), row),
        sizes=sizes,
        flange=_flange(sizes),
        holes=tuple(role for role in roles if given.get(role) is None),
        confidence=row.confidence,
        source=row.source,
        where=row.where,
    )


def _value(row: Row, column: str) -> float | str | None:
    """Give a column's value in mm, MPa or as it stands."""
    if column.endswith(("_mm", "_in")):
        return row.length(column)
    value = row.cells[column]
    return value / 10 if isinstance(value, float) and column.endswith("_bar") else value


def _flange(sizes: PortSizes) -> FlangeHead | None:
    if sizes.bolt_long_mm is None or sizes.bolt_short_mm is None:
        return None
    bolts = tuple(b for b in (sizes.bolt_metric, sizes.bolt_inch) if b)
    thick = magnitude(bolts[0]) * (1.0 if sizes.bolt_metric else 25.4)
    return FlangeHead(sizes.bolt_long_mm, sizes.bolt_short_mm, thick, bolts)


@cache
def ports(folder: Path = DATA) -> tuple[PortThread, ...]:
    """Give every port of the tables."""
    return tuple(port_of(f, row) for f in families("port", folder) for row in f.table.rows)
