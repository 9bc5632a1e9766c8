"""Pages of their own for what found no room on the drawing page: pins, views."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.insets import drawn
from drafting.drawing.compose.opened import OPEN_TITLE
from drafting.drawing.compose.page import Page
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.papers import PAPERS, Paper, scale_text, scales
from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import Small
from drafting.drawing.views.view import as_view

_AIR = 4.0
"""Free paper round the view (mm)."""


def own_pages(dresser: Dresser, page: Page) -> tuple[Sheet, ...]:
    """Give a page of the same paper for each view that has to stand alone."""
    found = (_own_page(dresser, page, name) for name in page.alone)
    return tuple(sheet for sheet in found if sheet)


def _own_page(dresser: Dresser, page: Page, name: ViewName) -> Sheet | None:
    """Show one view at the largest scale that has room."""
    job, paper, style = dresser.job, page.paper, page.style
    title = OPEN_TITLE if name == "extended" else dresser.pictures[name].title
    for scale in scales("auto", paper):
        border = bordered(job, paper, scale, style)
        x0, _, x1, y1 = paper.frame
        foot = border.column[3]
        view = dresser.view(name, scale, style, None, f"{title} {scale_text(scale)}")
        wide, high = view.box[2] - view.box[0], view.box[3] - view.box[1]
        if wide <= x1 - x0 - 2 * _AIR and high <= y1 - foot - 2 * _AIR:
            at = (
                (x0 + x1 - view.box[0] - view.box[2]) / 2,
                (foot + y1 - view.box[1] - view.box[3]) / 2,
            )
            units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
            size = (paper.name, paper.width, paper.height)
            ink = (border.marks, border.texts, dict(job.meta))
            views = (as_view(view, name, at, float(scale)),)
            return Sheet(*size, units, views, *ink, model_units=job.units)
    return None


def pin_page(job: Job, paper: Paper, pins: Sequence[Small]) -> tuple[Sheet, ...]:
    """Give a landscape page of the smallest size with the pins one above the other."""
    if not pins:
        return ()
    small = next(p for p in PAPERS if p.family == paper.family)
    style = Style()
    made = [(pin.scales[0], *way) for pin in pins if (way := next(drawn(pin, style), None))]
    if not made:
        return ()
    border = bordered(job, small, made[0][0], style)
    x0, _, x1, y1 = small.frame
    foot = border.column[3]
    free = y1 - foot - sum(b[3] - b[1] for _, b, _ in made)
    gap = free / (len(made) + 1)
    views, y = [], y1
    for _, box, view in made:
        y -= gap + box[3] - box[1]
        views.append(replace(view, at=((x0 + x1 - box[0] - box[2]) / 2, y - box[1])))
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (small.name, small.width, small.height)
    ink = (border.marks, border.texts, dict(job.meta))
    return (Sheet(*size, units, tuple(views), *ink, model_units=job.units),)
