"""Small views that stand where the sheet has room: a loose pin alone.

They never move another view nor make the sheet larger. Paper millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from drafting.drawing.dimension.assign import Choice, assign
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import measure
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.lists.papers import Paper, scale_text, scales
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import Box, union
from drafting.drawing.sheet.strokes import SIDE, Point2
from drafting.model.pins.details import PinDetail
from drafting.records import dataclass

_LEAST_PIN = 8.0
"""A pin thinner than this on paper is drawn larger, if need be on a page of its own."""
_LONGEST = 110.0
_AIR = 5.0
"""Free paper round a small view."""
_STEP = 3.0
_PLACES = 8


@dataclass(frozen=True, slots=True)
class Small:
    """A view to be placed: its job (its own symbols), what it shows, scales in order of liking."""

    name: str
    job: Job
    picture: Picture
    choices: tuple[Choice, ...]
    scales: tuple[Fraction, ...]

    def titled(self, scale: Fraction) -> Small:
        """Give it with the scale in its title and its choices on that picture."""
        picture = replace(self.picture, title=f"{self.picture.title} ({scale_text(scale)})")
        choices = tuple(replace(c, picture=picture) for c in self.choices)
        return replace(self, picture=picture, choices=choices)


def small_views(job: Job, scale: Fraction, paper: Paper) -> tuple[Small, ...]:
    """Give the small views that a job asks for."""
    return tuple(_pin(job, pin, scale, paper) for pin in job.pins)


def _pin(job: Job, pin: PinDetail, scale: Fraction, paper: Paper) -> Small:
    strokes = project(pin.parts, SIDE, hidden=False)
    picture = Picture("small", pin.title, SIDE, "retracted", strokes, table=pin.table)
    choices = assign(pin.wishes, (picture,))
    wide = Fraction(picture.box[2] - picture.box[0])
    shank = next(measure(w) for w in pin.wishes if w.name == f"{pin.table}.diameter")
    series = sorted(scales("auto", paper))
    fitting = [s for s in series if s * wide <= _LONGEST]
    thick = [s for s in fitting if s * Fraction(shank) >= _LEAST_PIN]
    liked = [scale] if scale in thick else []
    rest = thick[:2] or fitting[:-3:-1]
    own = replace(job, symbols=pin.symbols)
    return Small(pin.table, own, picture, choices, tuple(dict.fromkeys((*liked, *rest))))


def free_places(
    size: Box, blocked: Sequence[Box], frame: Box, near: Point2, apart: float = 0.0
) -> list[Point2]:
    """Give places of a view's origin where its box touches nothing, those near a point first.

    ``size`` is the box round the origin. With ``apart`` no two places lie nearer to each other.
    """
    x = np.arange(frame[0] + _AIR - size[0], frame[2] - _AIR - size[2], _STEP)
    y = np.arange(frame[1] + _AIR - size[1], frame[3] - _AIR - size[3], _STEP)
    free = np.ones((len(x), len(y)), bool)
    for b in blocked:
        across = (x + size[0] < b[2] + _AIR) & (x + size[2] > b[0] - _AIR)
        along = (y + size[1] < b[3] + _AIR) & (y + size[3] > b[1] - _AIR)
        free &= ~(across[:, None] & along[None, :])
    i, j = np.nonzero(free)
    middle = ((size[0] + size[2]) / 2, (size[1] + size[3]) / 2)
    far = np.hypot(x[i] + middle[0] - near[0], y[j] + middle[1] - near[1])
    order = np.argsort(far, kind="stable")
    rows = np.stack([x[i], y[j]], 1)[order]
    found: list[Point2] = []
    while len(rows) and len(found) < _PLACES:
        found.append((float(rows[0][0]), float(rows[0][1])))
        rows = rows[np.hypot(*(rows - rows[0]).T) > max(apart, _STEP / 2)]
    return found


def middle_of(boxes: Sequence[Box]) -> Point2:
    """Give the middle of the box round boxes."""
    x0, y0, x1, y1 = union(list(boxes))
    return ((x0 + x1) / 2, (y0 + y1) / 2)
