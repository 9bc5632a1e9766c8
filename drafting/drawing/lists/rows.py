"""What is said on the sheet beside the views: its lists, in their order, and their words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from drafting.drawing.dimension.job import Job, Row
from drafting.drawing.dimension.labels import DELTA
from drafting.drawing.lists.columns import PAD, Listing
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.style import Style
from drafting.units import dual

_SMALL = Style().small_text
_CLAUSE = re.compile(r"[;(]| — |, at least|, but")
_LABEL = 36.0
"""The most that labels take of a row (mm); longer ones are broken."""
_PLACES = {
    "body_mount": "base",
    "rod_mount": "rod",
    "base_port": "base port",
    "rod_port": "rod port",
    "body_pin": "base pin",
    "rod_pin": "rod pin",
}
_ROUNDED = {"in": ".001", "mm": "0.01"}
UNITS = {
    "in": "inches",
    "mm": "mm",
    "in [mm]": "inches [mm]",
    "mm [in]": "mm [inches]",
}


def listings(job: Job) -> tuple[Listing, ...]:
    """Give the lists in their order; the last ones go to the next sheet first."""
    open_points = [
        f"{_plain(f.field)}: {f.message}" if f.field else f.message
        for f in job.findings
        if f.level in ("warning", "error")
    ]
    notes = (*job.notes, *_standing_notes(job))
    derived = derived_rows(job)
    flag = f"{DELTA}{job.meta.get('revision', '')}"
    lists = (
        Listing("must", "MUST HOLD", job.must_hold, _labels(job.must_hold)),
        Listing("cautions", "CAUTIONS", _numbered(job.cautions), 5.0),
        Listing("notes", "NOTES", _numbered(notes), 5.0),
        Listing("changes", f"CHANGES {flag}", job.changes, _labels(job.changes)),
        Listing("facts", "DATA", job.facts, _labels(job.facts)),
        Listing("parts", "PARTS THAT COME WITH IT", job.parts, _labels(job.parts)),
        Listing("findings", "TO BE CONFIRMED", _numbered(open_points), 5.0),
        Listing("derived", "D = DERIVED, TO BE CONFIRMED", derived, _labels(derived), True),
    )
    return tuple(entry for entry in lists if entry.rows)


def _numbered(lines: Sequence[str]) -> tuple[Row, ...]:
    return tuple((f"{i}", line) for i, line in enumerate(lines, 1))


def _standing_notes(job: Job) -> tuple[str, ...]:
    main, _, other = job.dimensions.partition(" ")
    units = f"Dimensions in {UNITS[main]}"
    if other:
        unit = other.strip("[]")
        units += f", {UNITS[unit]} in [brackets] for information, rounded to {_ROUNDED[unit]}"
    return (
        f"{units}. Sizes in (parentheses) are for reference.",
        "Drawn retracted but for the view marked EXTENDED. The sheet is no manufacturing drawing.",
    )


def _labels(rows: Sequence[Row]) -> float:
    """Give the room that the labels of a list take."""
    widest = max((width(label, _SMALL) for label, _ in rows), default=0.0)
    return min(widest + 2 * PAD, _LABEL)


def derived_rows(job: Job) -> tuple[Row, ...]:
    """Give the sizes that nobody gave, in a few words why; those on the drawing first.

    What two places share is one row. The whole reasons stand in the JSON and in the report.
    """
    derived = job.derived
    shown = {w.name for w in job.wishes}
    rows: dict[tuple[str, float, str], list[tuple[bool, str]]] = {}
    for v in job.values:
        if v.name in derived and v.unit == "mm" and isinstance(v.value, float) and v.value:
            table, _, field = v.name.rpartition(".")
            key = (field.replace("_", " "), v.value, _brief(v.why))
            rows.setdefault(key, []).append((v.name not in shown, table))
    found = []
    for (field, size, why), places in rows.items():
        words = _together([p for _, t in places if (p := _place(t))])
        label = f"{words} {field}" if words else field
        number, other = dual(size, job.dimensions, job.fractions)
        text = f"{number}{f' [{other}]' if other else ''}: {why}"
        found.append((min(hidden for hidden, _ in places), label[:1].upper() + label[1:], text))
    return tuple((label, text) for _, label, text in sorted(found, key=lambda f: f[0]))


def _brief(why: str) -> str:
    """Give the first clause of a reason."""
    return _CLAUSE.split(why, maxsplit=1)[0].strip()


def _together(places: Sequence[str]) -> str:
    words = " and ".join(places)
    return {"base and rod": "both ends'", "base port and rod port": "ports'"}.get(words, words)


def _place(table: str) -> str:
    return "" if table == "cylinder" else _PLACES.get(table, table.replace("_", " "))


def _plain(name: str) -> str:
    """Write a dotted name in words."""
    table, _, field = name.rpartition(".")
    words = f"{_place(table)} {field.replace('_', ' ')}".strip()
    return words[:1].upper() + words[1:]
