"""A page of their own for the views of loose pins that found no room on the drawing page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from drafting.drawing.compose.insets import drawn
from drafting.drawing.dimension.job import Job
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.papers import PAPERS, Paper
from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import Small


def pin_page(job: Job, paper: Paper, pins: Sequence[Small]) -> tuple[Sheet, ...]:
    """Give a landscape page of the smallest size with the pins one above the other."""
    if not pins:
        return ()
    small = next(p for p in PAPERS if p.family == paper.family)
    style = Style()
    made = [(pin.scales[0], *ways[0]) for pin in pins if (ways := drawn(pin, style))]
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
