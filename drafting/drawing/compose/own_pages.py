"""Pages of their own for what found no room on the drawing page: pins, views."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from typing import Literal

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.insets import drawn
from drafting.drawing.compose.opened import OPEN_TITLE
from drafting.drawing.compose.page import Page
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.papers import PAPERS, Paper, scale_text, scales
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Sheet, View
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import Small
from drafting.drawing.views.view import as_view

_AIR = 4.0
"""Free paper round the view (mm)."""
_Drawn = tuple[Box, View]
"""A view as it is drawn, with its box."""
_FINEST = 10_000
"""No scale is finer than 1 to so many."""


def own_pages(dresser: Dresser, page: Page) -> tuple[Sheet, ...]:
    """Give pages of the same paper for the views that stand alone, as many on one as have room."""
    job, paper, style = dresser.job, page.paper, page.style
    x0, _, x1, y1 = paper.frame
    field = (x0, bordered(job, paper, page.scale, style).column[3], x1, y1)
    made = (_own_view(dresser, page, name, field) for name in page.alone)
    return _stacked(job, paper, style, field, filter(None, made))


def _own_view(dresser: Dresser, page: Page, name: ViewName, field: Box) -> _Drawn | None:
    """Show one view at the scale that was named, else at the largest that has room."""
    job, paper, style = dresser.job, page.paper, page.style
    title = OPEN_TITLE if name == "extended" else dresser.pictures[name].title
    x0, foot, x1, y1 = field
    for scale in (*scales(job.scale, paper), *scales("auto", paper)):
        view = dresser.view(name, scale, style, None, f"{title} {scale_text(scale)}")
        wide, high = view.box[2] - view.box[0], view.box[3] - view.box[1]
        if wide <= x1 - x0 - 2 * _AIR and high <= y1 - foot - 2 * _AIR:
            return view.box, as_view(view, name, (0.0, 0.0), float(scale))
    return None


def pin_pages(job: Job, paper: Paper, pins: Sequence[Small]) -> tuple[Sheet, ...]:
    """Give landscape pages of the smallest size for the pins.

    All stand on one at the largest scale that has room, full size unless they are thin; where none
    has, each has its own.
    """
    small = next(p for p in PAPERS if p.family == paper.family)
    style = Style()
    x0, _, x1, y1 = small.frame
    field = (x0, bordered(job, small, Fraction(1), style).column[3], x1, y1)
    largest = max((Fraction(1), *(min(pin.scales) for pin in pins)))
    for scale in scales("auto", small) if pins else ():
        made = list(_drawn(pins, scale, style)) if scale <= largest else []
        if len(made) < len(pins):
            continue
        wide, high = field[2] - field[0], field[3] - field[1]
        if _high(made) <= high and all(_wide([one]) <= wide for one in made):
            return (_sheet(job, small, style, _below(field, made)),)
        if _wide(made) <= wide and all(_high([one]) <= high for one in made):
            return (_sheet(job, small, style, _beside(field, made)),)
    own = filter(None, (next(drawn(pin, style), None) for pin in pins))
    return _stacked(job, small, style, field, own)


def _drawn(pins: Iterable[Small], scale: Fraction, style: Style) -> Iterator[_Drawn]:
    """Give those of the pins that can be drawn at a scale."""
    for pin in pins:
        yield from islice(drawn(replace(pin, scales=(scale,)), style), 1)


def _stacked(
    job: Job, paper: Paper, style: Style, field: Box, made: Iterable[_Drawn]
) -> tuple[Sheet, ...]:
    """Give pages with views one above the other in a field, as many on one as have room."""
    pages: list[list[_Drawn]] = []
    for one in made:
        if not pages or _high([*pages[-1], one]) > field[3] - field[1]:
            pages.append([])
        pages[-1].append(one)
    return tuple(_sheet(job, paper, style, _below(field, some)) for some in pages)


def _high(made: Sequence[_Drawn]) -> float:
    """Give the room that views take one above the other."""
    return _AIR + sum(b[3] - b[1] + _AIR for b, _ in made)


def _wide(made: Sequence[_Drawn]) -> float:
    """Give the room that views take side by side."""
    return _AIR + sum(b[2] - b[0] + _AIR for b, _ in made)


def _below(field: Box, made: Sequence[_Drawn]) -> tuple[View, ...]:
    """Place views one above the other in the middle of a field."""
    x0, foot, x1, y1 = field
    gap = (y1 - foot - sum(b[3] - b[1] for b, _ in made)) / (len(made) + 1)
    views, y = [], y1
    for box, view in made:
        y -= gap + box[3] - box[1]
        views.append(replace(view, at=((x0 + x1 - box[0] - box[2]) / 2, y - box[1])))
    return tuple(views)


def _beside(field: Box, made: Sequence[_Drawn]) -> tuple[View, ...]:
    """Place views side by side in the middle of a field, their axes level."""
    x0, foot, x1, y1 = field
    gap = (x1 - x0 - sum(b[2] - b[0] for b, _ in made)) / (len(made) + 1)
    low, high = min(b[1] for b, _ in made), max(b[3] for b, _ in made)
    views, x = [], x0
    for box, view in made:
        x += gap
        views.append(replace(view, at=(x - box[0], (foot + y1 - low - high) / 2)))
        x += box[2] - box[0]
    return tuple(views)


def _sheet(job: Job, paper: Paper, style: Style, views: tuple[View, ...]) -> Sheet:
    """Give one page with views that have their places."""
    scale = Fraction(views[0].scale).limit_denominator(_FINEST)
    border = bordered(job, paper, scale, style)
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (paper.name, paper.width, paper.height)
    ink = (border.marks, border.texts, dict(job.meta))
    return Sheet(*size, units, views, *ink, model_units=job.units)
