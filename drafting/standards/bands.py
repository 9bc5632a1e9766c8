"""What a caliper and a pitch gauge read on each thread that the tables know.

Each ``[[identify]]`` of a TOML says which columns bound the outside of the male and the inside of
the female, how common the family is (``order``), and what fools a reader (``trap``).
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from drafting.records import dataclass
from drafting.standards.port_thread import Family, families, port_of
from drafting.standards.table import DATA, Row, table
from drafting.standards.threads import parse_thread
from drafting.standards.words import fill

Band = tuple[float, float]


@dataclass(frozen=True, slots=True)
class KnownThread:
    """A thread by what can be read on it; lengths in mm, angles in degrees.

    ``thread`` is its spelling, ``port`` the word that a port of the spec takes (None when it is no
    port), ``screw`` the word for a plain thread of a rod or stud. ``male`` and ``female`` are the
    least and the greatest diameter over crests. ``seats`` are the angles that its seat has.
    """

    family: str
    order: int
    thread: str
    male_name: str
    port: str | None
    screw: str | None
    dash: str | None
    tube: str | None
    male: Band
    female: Band
    pitch_mm: float
    taper: bool
    flank_deg: float
    seats: tuple[float, ...]
    seals: str
    trap: str
    where: str
    source: str
    confidence: str

    @property
    def tpi(self) -> float:
        """Give the threads per inch."""
        return 25.4 / self.pitch_mm


@cache
def known_threads(folder: Path = DATA) -> tuple[KnownThread, ...]:
    """Give every thread of the tables, the commoner families first."""
    found = [
        _known(entry, row, folder)
        for entry in families("identify", folder)
        for row in entry.table.rows
        if not _elsewhere(entry.entry, row, folder)
    ]
    return tuple(sorted(found, key=lambda k: (k.order, k.male)))


def _elsewhere(entry: Mapping[str, Any], row: Row, folder: Path) -> bool:
    """Tell whether a port's table lists the same thread, and with more to say."""
    tables = (table(name, folder) for name in entry.get("unless", ()))
    return any(t.where(thread=row.word("thread")) for t in tables)


def _known(found: Family, row: Row, folder: Path) -> KnownThread:
    e = found.entry
    port = None
    if "port" in e:
        ports = families("port", folder)
        family = next(f for f in ports if f.table is found.table and f.entry["family"] == e["port"])
        port = port_of(family, row)
    screw = parse_thread(row.word(e["screw"])) if "screw" in e else None
    usual = port.spelling if port else screw.name if screw else ""
    thread = fill(e.get("thread", usual), row)
    half = port.sizes.seat_half_angle_deg if port else None
    seats = (half, 2 * half) if half else tuple(float(s) for s in e.get("seats", ()))
    return KnownThread(
        family=e.get("metric_family" if screw and screw.metric else "", e["family"]),
        order=e["order"],
        thread=thread,
        male_name=fill(e.get("male_name", thread), row),
        port=port.spelling if port else None,
        screw=screw.name if screw else None,
        dash=port.dash if port else fill(e["dash"], row) if "dash" in e else None,
        tube=port.tube if port else fill(e["tube"], row) if "tube" in e else None,
        male=_band(row, e["male"]),
        female=_band(row, e["female"]),
        pitch_mm=screw.pitch_mm if screw else _pitch(e, row),
        taper=e["taper"],
        flank_deg=e["flank"],
        seats=seats,
        seals=e["seals"],
        trap=fill(e["trap"], row),
        where=row.where,
        source=row.source,
        confidence=row.confidence,
    )


def _pitch(e: Mapping[str, Any], row: Row) -> float:
    return row.required(e["pitch"]) if "pitch" in e else 25.4 / row.required(e["tpi"])


def _band(row: Row, columns: list[str]) -> Band:
    low, high = (row.required(c) for c in columns)
    return low, high
