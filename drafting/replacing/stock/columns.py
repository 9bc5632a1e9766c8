"""What the columns of a stock list mean: headings as dotted fields, or as people say them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.factors import KINDS
from drafting.model.catalog import mounts_by_end
from drafting.records import dataclass
from drafting.replacing.stock.sheets import Cell, letter
from drafting.replacing.table import RULES
from drafting.spec.field import Field, TableFields
from drafting.spec.fields import TABLES
from drafting.spec.mount_fields import with_words

NAME, UNITS = "number", "units"
OTHERS = {
    NAME: Field(NAME, "text", "what the row is called", '"K-0877"'),
    UNITS: Field(UNITS, "word", "what bare sizes of the row are in", '"in"', choices=("in", "mm")),
    "mass": Field("mass", "mass", "weight", '"40 lb"'),
}
"""Columns that no rule reads, and the weight."""
SAID = {
    "cylinder.retracted": "closed retracted collapsed closed_length retracted_length",
    "cylinder.extended": "open extended open_length extended_length",
    "cylinder.stroke": "stroke travel",
    "cylinder.bore": "bore",
    "cylinder.rod": "rod rod_diameter rod_dia",
    "cylinder.barrel_outside": "barrel_od tube_od outside barrel_outside",
    "cylinder.working_pressure": "pressure rated_pressure working_pressure max_pressure",
    "body_mount.mount": "base_end base_mount base",
    "rod_mount.mount": "rod_end rod_mount",
    "base_port.thread": "base_port",
    "rod_port.thread": "rod_port",
    "number": "number part part_number part_no item name no code",
    "mass": "weight mass",
    "units": "units unit",
}
"""What stands over a column in shops (common practice), beside ``base pin`` and the like."""
ENDS = {
    "body_mount": ("base", "base_end", "cap_end", "body"),
    "rod_mount": ("rod_end", "rod"),
    "base_port": ("base_port", "base_end_port"),
    "rod_port": ("rod_port", "rod_end_port"),
    "cylinder": ("cylinder",),
}
"""What people call the tables of a spec."""
BOTH = {
    "pin pins pin_diameter pin_dia pin_size": ("body_mount.pin", "rod_mount.pin"),
    "hole holes pin_hole pin_holes": ("body_mount.hole", "rod_mount.hole"),
    "mount mounts ends both_ends mounting": ("body_mount.mount", "rod_mount.mount"),
    "port ports port_size port_thread port_threads": ("base_port.thread", "rod_port.thread"),
}
"""What stands once for both ends (common practice), where no column of one end says otherwise."""
SKIPPED = ("duty", "column", "matched_set", "cylinder.largest_outside", "body_pin", "rod_pin")
UNIT_WORDS = {
    "in": "in", "inch": "in", "inches": "in", '"': "in", "mm": "mm", "millimeter": "mm",
    "millimetre": "mm", "millimeters": "mm", "psi": "psi", "bar": "bar", "mpa": "MPa",
    "lb": "lb", "lbs": "lb", "kg": "kg",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its place (0 is A), the field it holds, and what a bare number in it is in."""

    place: int
    heading: str
    field: Field
    name: str
    unit: str = ""

    @property
    def letter(self) -> str:
        """Give its letters."""
        return letter(self.place)


@dataclass(frozen=True, slots=True)
class Map:
    """A file of columns: headings to dotted fields, empty for one that is left out; bare units."""

    headings: Mapping[str, str]
    units: str = ""


@cache
def fields() -> Mapping[str, Field]:
    """Give every field that a column may hold, by its dotted name."""
    asked = {name.removesuffix("_from_rod") for rule in RULES for name in rule.reads}
    found = {
        name: field
        for name in sorted(asked)
        if not name.startswith(SKIPPED) and (field := _field(name)) is not None
    }
    return {**OTHERS, **found}


def _field(name: str) -> Field | None:
    first, *rest = name.split(".")
    table = TABLES.get(first)
    if table is None or not rest:
        return None
    if first.endswith("_mount"):
        table = with_words(table, mounts_by_end()[first])
    inside: TableFields | Field | None = table
    for part in rest:
        inner = inside.fields if inside is not None else ()
        inside = next((f for f in inner if f.name == part), None)
    if isinstance(inside, Field) and inside.kind in ("word", "text", "thread", "flag", "clock"):
        return inside
    return inside if isinstance(inside, Field) and inside.kind in KINDS else None


@cache
def spoken() -> Mapping[str, str]:
    """Give the field that each known heading means, by its key."""
    found: dict[str, str] = {}
    for name in fields():
        table, _, last = name.partition(".")
        for end in ENDS.get(table, ()):
            found[key(f"{end}_{last}")] = name
        found[key(name)] = name
    for name, words in SAID.items():
        found |= {key(w): name for w in words.split()}
    return found


def key(heading: str) -> str:
    """Give a heading without its unit, case, marks and spaces."""
    bare = re.sub(r"[(\[].*?[)\]]", " ", heading.casefold())
    return re.sub(r"[^a-z0-9]+", "", bare)


def nearest(heading: str) -> list[str]:
    """Give the three fields whose usual headings are most like this one."""
    near = get_close_matches(key(heading), spoken(), 12, 0.0)
    return list(dict.fromkeys(spoken()[n] for n in near))[:3]


def read_map(path: Path) -> Map:
    """Read a file of columns; raises Refused with every fault."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as wrong:
        raise Refused([Fault(str(path), 1, 1, "not-readable", "", str(wrong.strerror))]) from None
    except ValueError as wrong:
        raise Refused([Fault(str(path), 1, 1, "not-toml", "", str(wrong))]) from None
    units = data.pop("units", "")
    faults = []
    if units not in ("", "in", "mm"):
        faults.append(Fault(str(path), 1, 1, "unknown-word", "units", 'write "in" or "mm"'))
    table = data.pop("columns", data)
    for heading, name in table.items() if isinstance(table, dict) else ():
        if not isinstance(name, str) or (name and name not in fields()):
            near = ", ".join(nearest(str(name)))
            message = f'"{name}" is no field of a column; nearest: {near}; "" leaves it out'
            faults.append(Fault(str(path), 1, 1, "unknown-field", heading, message))
    if faults:
        raise Refused(faults)
    return Map({str(h).casefold().strip(): n for h, n in table.items()}, str(units))


def meaning(heading: str, told: Map, place: int = -1) -> str | None:
    """Give the field that a heading means, "" for one that is left out, None for an unknown one.

    A file of columns may name a heading, or a column by its letters.
    """
    for said in (heading.casefold().strip(), letter(place).casefold() if place >= 0 else ""):
        if said and said in told.headings:
            return told.headings[said]
    return spoken().get(key(heading))


def of_both(heading: str) -> tuple[str, ...]:
    """Give the fields of both ends that a heading without an end means; none for another."""
    wanted = key(heading)
    return next((both for words, both in BOTH.items() if wanted in map(key, words.split())), ())


def unit_of(text: str) -> str:
    """Give the unit that a heading or a cell of a units row says, empty for none."""
    tail = re.search(r"[(\[,/]\s*([A-Za-z\"]+)\.?\s*[)\]]?\s*$", text)
    word = (tail[1] if tail else text).strip().casefold()
    return UNIT_WORDS.get(word, "")


def said(cell: Cell) -> str:
    """Give a cell's text as a heading has it."""
    return "" if cell is None else " ".join(str(cell).split())


def with_group(groups: Sequence[Cell], headings: Sequence[Cell]) -> list[str]:
    """Put the heading of a merged cell above before each of those it stands over."""
    over, found = "", []
    for k, heading in enumerate(headings):
        above = said(groups[k]) if k < len(groups) else ""
        over = above or over
        found.append(f"{over} {said(heading)}".strip() if said(heading) else "")
    return found
