"""What already stands in a view, and what it would cost to put a dimension among it.

Paper millimetres from the view's origin. A cost of ``HARD`` or more means that something touches.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from drafting.drawing.clash import (
    Quad,
    Segment,
    as_array,
    crossings,
    in_quad,
    lies_on,
    quads_meet,
    text_quad,
)
from drafting.drawing.explode import Drawn
from drafting.drawing.plane import Box, hull
from drafting.drawing.sheet import Text

HARD = 100.0
_AIR = 0.7
"""Free paper (mm) round every text."""

_LINE_ON_EXTENSION = 12.0
_EXTENSION_ON_EXTENSION = 0.5
_LINE_ON_STROKE = 1.5
_EXTENSION_ON_STROKE = 0.4
_TEXT_ON_PLANNED = 20.0


class Scene:
    """Strokes and centre lines of a view, and the dimensions placed so far."""

    def __init__(self, strokes: Any, centres: Any, texts: Sequence[Text]) -> None:
        self.strokes = strokes
        self.centres = centres
        self.fixed = [text_quad(t, _AIR) for t in texts]
        self.planned: Any = as_array([])
        self.placed: dict[int, Drawn] = {}
        self._gather()

    def put(self, key: int, drawn: Drawn) -> None:
        """Place a dimension."""
        self.placed[key] = drawn
        self._gather()

    def take(self, key: int) -> None:
        """Take a dimension away."""
        self.placed.pop(key, None)
        self._gather()

    def _gather(self) -> None:
        drawn = self.placed.values()
        self.lines = as_array([s for d in drawn for s in _solid(d)])
        self.extensions = as_array([s for d in drawn for s in d.extensions])
        self.quads = [*self.fixed, *(q for d in drawn for q in quads(d))]
        self.boxes = np.array([hull(q) for q in self.quads], float).reshape(len(self.quads), 4)

    def cost(self, d: Drawn) -> float:
        """Give the cost of a dimension in its place."""
        total = 0.0
        for quad in quads(d):
            total += HARD * int(in_quad(quad, self.strokes).sum() > 0)
            total += HARD * int(in_quad(quad, self.centres).sum() > 0)
            total += HARD * int(in_quad(quad, self.lines).sum())
            total += HARD * int(in_quad(quad, self.extensions).sum())
            total += _TEXT_ON_PLANNED * int(in_quad(quad, self.planned).sum())
            total += HARD * sum(quads_meet(quad, q) for q in self._near(hull(quad)))
        solid, thin = _solid(d), d.extensions
        for segment in (*solid, *thin):
            one = as_array([segment])
            total += HARD * sum(bool(in_quad(q, one)[0]) for q in self._near(hull(segment)))
        for segment in solid:
            total += HARD * int(crossings(segment, self.lines).sum())
            total += HARD * int(lies_on(segment, self.lines).sum())
            total += _LINE_ON_EXTENSION * int(crossings(segment, self.extensions).sum())
        for segment in d.lines:
            total += _LINE_ON_STROKE * int(crossings(segment, self.strokes).sum())
        for segment in thin:
            total += _LINE_ON_EXTENSION * int(crossings(segment, self.lines).sum())
            total += _EXTENSION_ON_EXTENSION * int(crossings(segment, self.extensions).sum())
            total += _EXTENSION_ON_STROKE * int(crossings(segment, self.strokes).sum())
        return total

    def _near(self, box: Box) -> list[Quad]:
        if not len(self.boxes):
            return []
        b = self.boxes
        hit = (b[:, 0] < box[2]) & (b[:, 2] > box[0]) & (b[:, 1] < box[3]) & (b[:, 3] > box[1])
        return [self.quads[i] for i in np.flatnonzero(hit)]


def _solid(d: Drawn) -> tuple[Segment, ...]:
    """Give what nothing may cross: dimension lines, leaders, arrows, the frame of a flag."""
    arrows = tuple((a[0], b) for a in d.arrows for b in a[1:])
    return (*d.lines, *arrows, *d.flag)


def quads(d: Drawn) -> list[Quad]:
    """Give the rectangles of the texts, with air; the flag's frame belongs to them."""
    return [text_quad(t, _AIR) for t in d.texts]
