"""Upright pages of sections with the head and foot of the data sheet, and blanks to fill in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Literal

from drafting.drawing.dimension.job import Job
from drafting.drawing.lists.data_sheet import (
    BOTTOM,
    FOOT,
    LEFT,
    PAPERS,
    RIGHT,
    TOP,
    foot,
    head,
    inked,
)
from drafting.drawing.lists.pages import BETWEEN, paged
from drafting.drawing.lists.strips import Section
from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.write.form import Blank
from drafting.records import dataclass

PITCH = 6.6
"""Height of a row with a blank."""
HIGH = 4.6
"""Height of a blank of one line."""
MARK = "blank:"
"""What begins the name of a line under a blank; the name of the field follows."""


@dataclass(frozen=True, slots=True)
class Filled:
    """What stands in a blank at first, and what is told of it."""

    text: str = ""
    told: str = ""
    fixed: bool = False
    high: float = HIGH


def inner(family: str) -> float:
    """Give the width between the margins (mm)."""
    return PAPERS[family][1] - LEFT - RIGHT


def pages(job: Job, family: str, sections: Sequence[Section], document: str) -> Sheet:
    """Give the first page with the others behind it."""
    name, wide, high = PAPERS[family]
    room = inner(family)
    top = head(job, room, document)
    shared = paged(sections, high - TOP - BOTTOM - top.height - BETWEEN)
    sheets = []
    for k, strips in enumerate(shared, 1):
        placed = [(0.0, top), *((top.height + BETWEEN + y, s) for y, s in strips)]
        placed.append((high - TOP - FOOT, foot(job, room)))
        marks, texts = inked(placed, high)
        numbered = tuple(
            replace(t, text=f"{k} / {len(shared)}") if t.name == "sheet" else t for t in texts
        )
        units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
        sheets.append(Sheet(name, wide, high, units, (), marks, numbered, dict(job.meta)))
    return replace(sheets[0], following=tuple(sheets[1:]))


def blanks(sheet: Sheet, filled: Mapping[str, Filled]) -> list[list[Blank]]:
    """Give the fields over the lines under blanks, page by page, in reading order."""
    return [
        [_blank(name, line, filled) for name, line in _lines(page)]
        for page in (sheet, *sheet.following)
    ]


def _lines(page: Sheet) -> list[tuple[str, Line]]:
    found = [
        (m.name, m.curve)
        for m in page.marks
        if m.name.startswith(MARK) and isinstance(m.curve, Line)
    ]
    return sorted(found, key=lambda m: (-round(m[1].a[1], 1), m[1].a[0]))


def _blank(mark: str, line: Line, filled: Mapping[str, Filled]) -> Blank:
    name = mark.removeprefix(MARK).removesuffix(" line")
    put = filled.get(name, Filled())
    size = (line.b[0] - line.a[0], put.high)
    return Blank(name, line.a, size, put.text, put.told, put.fixed, lines=put.high > HIGH)
