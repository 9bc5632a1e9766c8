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
    crossings,
    in_quads,
    lies_on,
    quads,
    quads_meet,
    segments,
    text_quad,
)
from drafting.drawing.explode import Drawn

HARD = 100.0
_AIR = 1.2
"""Free paper (mm) round every text."""
_STROKE, _CENTRE, _EXTENSION, _LINE, _PLANNED = range(5)

# What a crossing costs: a row for lines of the new dimension, a row for its extension lines.
_ON_CROSSING = np.array([[3.0, 0.2, 12.0, HARD, 0.0], [0.8, 0.1, 0.5, 12.0, 0.0]])
# What a line through a text of the new dimension costs.
_ON_TEXT = np.array([HARD, HARD, HARD, HARD, 20.0])


class Batch:
    """Some dimensions as arrays: their lines and texts, and which of them each belongs to."""

    def __init__(self, drawn: Sequence[Drawn]) -> None:
        self.drawn, self.count = drawn, len(drawn)
        firm = [solid(d) for d in drawn]
        boxes = [text_quads(d) for d in drawn]
        self.lines = segments(
            [s for d, f in zip(drawn, firm, strict=True) for s in (*f, *d.extensions)]
        )
        self.line_of = np.repeat(
            np.arange(self.count),
            [len(f) + len(d.extensions) for d, f in zip(drawn, firm, strict=True)],
        )
        self.thin = np.array(
            [
                k
                for d, f in zip(drawn, firm, strict=True)
                for k in [0] * len(f) + [1] * len(d.extensions)
            ],
            int,
        )
        self.texts = quads([q for b in boxes for q in b])
        self.text_of = np.repeat(np.arange(self.count), [len(b) for b in boxes])
        self.on_ground: Any = None


class Scene:
    """Strokes and centre lines of a view, and the dimensions placed so far."""

    def __init__(self, strokes: Any, centres: Any) -> None:
        self.ground = np.concatenate([strokes, centres])
        self.ground_kinds = np.repeat([_STROKE, _CENTRE], [len(strokes), len(centres)])
        self.planned: Any = segments([])
        self.placed: dict[int, Drawn] = {}
        self._gather()

    def plan(self, planned: Sequence[Segment]) -> None:
        """Keep texts off the extension lines that are still to come."""
        self.planned = segments(planned)
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
        extensions = segments([s for d in drawn for s in d.extensions])
        lines = segments([s for d in drawn for s in solid(d)])
        self.lines = np.concatenate([extensions, lines, self.planned])
        self.kinds = np.repeat(
            [_EXTENSION, _LINE, _PLANNED], [len(extensions), len(lines), len(self.planned)]
        )
        self.texts = quads([q for d in drawn for q in text_quads(d)])

    def costs(self, batch: Batch) -> Any:
        """Give the costs of dimensions, each as if it alone came to what already stands."""
        if batch.on_ground is None:
            batch.on_ground = _through(batch, self.ground, self.ground_kinds)
        total = batch.on_ground + _through(batch, self.lines, self.kinds)
        i, _ = quads_meet(batch.texts, self.texts)
        _add(total, batch.text_of[i], HARD)
        _, j = in_quads(self.texts, batch.lines)
        _add(total, batch.line_of[j], HARD)
        firm = np.flatnonzero(batch.thin == 0)
        i, _ = lies_on(batch.lines[firm], self.lines[self.kinds == _LINE])
        _add(total, batch.line_of[firm[i]], HARD)
        return total


def _through(batch: Batch, lines: Any, kinds: Any) -> Any:
    """Give what lines of known kinds cost that run through texts or cross lines of a batch."""
    total = np.zeros(batch.count)
    i, j = in_quads(batch.texts, lines)
    _add(total, batch.text_of[i], _ON_TEXT[kinds[j]])
    i, j = crossings(batch.lines, lines)
    _add(total, batch.line_of[i], _ON_CROSSING[batch.thin[i], kinds[j]])
    return total


def _add(total: Any, owners: Any, costs: Any) -> None:
    np.add.at(total, owners, costs)


def solid(d: Drawn) -> tuple[Segment, ...]:
    """Give what nothing may cross: dimension lines, leaders, arrows, the frame of a flag."""
    arrows = tuple((a[0], b) for a in d.arrows for b in a[1:])
    return (*d.lines, *arrows, *d.flag)


def text_quads(d: Drawn) -> list[Quad]:
    """Give the rectangles of the texts, with air."""
    return [text_quad(t, _AIR) for t in d.texts]
