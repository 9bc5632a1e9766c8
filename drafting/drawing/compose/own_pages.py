"""Pages of their own for what found no room on the drawing page: pins, views."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
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
    """Give landscape pages of the smallest size with the pins one above the other."""
    small = next(p for p in PAPERS if p.family == paper.family)
    style = Style()
    x0, _, x1, y1 = small.frame
    field = (x0, bordered(job, small, Fraction(1), style).column[3], x1, y1)
    made = filter(None, (next(drawn(pin, style), None) for pin in pins))
    return _stacked(job, small, style, field, made)


def _stacked(
    job: Job, paper: Paper, style: Style, field: Box, made: Iterable[_Drawn]
) -> tuple[Sheet, ...]:
    """Give pages with views one above the other in a field, as many on one as have room."""
    pages: list[list[_Drawn]] = []
    free = 0.0
    for one in made:
        high = one[0][3] - one[0][1] + _AIR
        if not pages or high > free:
            pages.append([])
            free = field[3] - field[1] - _AIR
        pages[-1].append(one)
        free -= high
    return tuple(_stack(job, paper, style, field, some) for some in pages)


def _stack(job: Job, paper: Paper, style: Style, field: Box, made: Sequence[_Drawn]) -> Sheet:
    """Give one page with views one above the other in a field."""
    x0, foot, x1, y1 = field
    gap = (y1 - foot - sum(b[3] - b[1] for b, _ in made)) / (len(made) + 1)
    views, y = [], y1
    for box, view in made:
        y -= gap + box[3] - box[1]
        views.append(replace(view, at=((x0 + x1 - box[0] - box[2]) / 2, y - box[1])))
    scale = Fraction(views[0].scale).limit_denominator(_FINEST)
    border = bordered(job, paper, scale, style)
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (paper.name, paper.width, paper.height)
    ink = (border.marks, border.texts, dict(job.meta))
    return Sheet(*size, units, tuple(views), *ink, model_units=job.units)
