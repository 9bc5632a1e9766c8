"""What already stands in a view, and what each way to show a wish would cost among it.

Paper millimetres from the view's origin. A cost of ``HARD`` or more means that something touches.
Costs add up: what a line or text costs with one thing does not depend on the rest. So each thing
that comes is weighed once against all ways of all wishes.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from drafting.drawing.dimension.ways import AIR, Ways
from drafting.drawing.sheet.clash import (
    APART,
    BESIDE,
    Quad,
    Segment,
    Things,
    crossings,
    in_quads,
    lies_on,
    quads,
    quads_meet,
    segments,
    text_quad,
)
from drafting.drawing.sheet.explode import Exploded

HARD = 100.0
_STROKE, _CENTRE, _EXTENSION, _LINE, _PLANNED = range(5)

# What a crossing costs: a row for lines of the new dimension, a row for its extension lines.
_ON_CROSSING = np.array([[3.0, 0.2, 24.0, HARD, 0.0], [0.8, 0.1, 0.5, 24.0, 0.0]])
# What a line through a text of the new dimension costs.
_ON_TEXT = np.array([HARD, HARD, HARD, HARD, 20.0])
_ALONG = 30.0
"""What a dimension line costs beside a parallel stroke, nearer than 3 mm; on it, ``HARD`` more."""
_ON = 1.0
_CLOSE = 60.0
"""What a dimension line costs beside a parallel one, nearer than they stand apart."""


class Scene:
    """All ways of the wishes of a view among its strokes, and the dimensions placed so far."""

    def __init__(self, ways: Sequence[Ways], strokes: Any, centres: Any, hidden: Any) -> None:
        """Weigh all ways against what is drawn; ``hidden`` strokes may be crossed freely."""
        self.ways = ways
        self.first_line = np.cumsum([0, *(len(w.lines) for w in ways)]).tolist()
        self.first_text = np.cumsum([0, *(len(w.texts) for w in ways)]).tolist()
        self.lines = Things(np.concatenate([segments([]), *(w.lines for w in ways)]))
        self.thin = np.concatenate([np.zeros(0, bool), *(w.thin for w in ways)]).astype(int)
        self.main = np.concatenate([np.zeros(0, bool), *(w.main for w in ways)])
        self.texts = Things(np.concatenate([quads([]), *(w.texts for w in ways)]))
        ground = np.concatenate([strokes, centres])
        self.ground = self._against(
            ground, np.repeat([_STROKE, _CENTRE], [len(strokes), len(centres)])
        )
        drawn = np.concatenate([ground, hidden])
        main = np.flatnonzero(self.main)
        mains = Things(self.lines.shapes[main])
        near = mains.pairs(Things(drawn), BESIDE)
        for beside, cost in ((BESIDE, _ALONG), (_ON, HARD)):
            along, _ = lies_on(mains.shapes, drawn, beside, near)
            self.ground[0][main[along]] += cost  # once, however many it runs along
        self.planned: tuple[Any, Any] | None = None
        self.placed: dict[int, tuple[int, Exploded]] = {}
        self.weighed: dict[tuple[int, int], tuple[Any, Any]] = {}

    def plan(self, planned: Sequence[Segment]) -> None:
        """Keep texts off the extension lines that are still to come."""
        lines = segments(planned)
        self.planned = self._against(lines, np.repeat(_PLANNED, len(lines))) if planned else None

    def put(self, i: int, way: int, drawn: Exploded) -> None:
        """Place wish i by one of its ways."""
        self.placed[i] = way, drawn

    def take(self, i: int) -> None:
        """Take the dimension of a wish away."""
        self.placed.pop(i, None)

    def costs(self, i: int) -> Any:
        """Give the costs of the ways of wish i, each as if it alone came to what stands."""
        ways = self.ways[i]
        line = self.ground[0][self.first_line[i] : self.first_line[i + 1]].copy()
        text = self.ground[1][self.first_text[i] : self.first_text[i + 1]].copy()
        more = [self.planned] if self.planned else []
        for other in (*more, *(self._weight(j, *put) for j, put in self.placed.items())):
            line += other[0][self.first_line[i] : self.first_line[i + 1]]
            text += other[1][self.first_text[i] : self.first_text[i + 1]]
        return ways.costs + line[ways.line_of].sum(1) + text[ways.text_of].sum(1)

    def _weight(self, i: int, way: int, drawn: Exploded) -> tuple[Any, Any]:
        """Give what every line and every text costs with wish i by one of its ways."""
        if (i, way) not in self.weighed:
            self.weighed[i, way] = self._among(drawn, bool(self.ways[i].main.any()))
        return self.weighed[i, way]

    def _against(self, lines: Any, kinds: Any) -> tuple[Any, Any]:
        """Give what every line and every text costs with some lines of known kinds."""
        there = Things(lines)
        i, j = crossings(self.lines.shapes, lines, self.lines.pairs(there))
        line = self._summed(self.lines, i, _ON_CROSSING[self.thin[i], kinds[j]])
        i, j = in_quads(self.texts.shapes, lines, self.texts.pairs(there))
        return line, self._summed(self.texts, i, _ON_TEXT[kinds[j]])

    def _among(self, drawn: Exploded, is_length: bool) -> tuple[Any, Any]:
        """Give what every line and every text costs with a placed dimension."""
        firm, thin = solid(drawn), drawn.extensions
        kinds = np.repeat([_LINE, _EXTENSION], [len(firm), len(thin)])
        there, words = Things(segments((*firm, *thin))), Things(quads(text_quads(drawn)))
        lines, texts = self.lines.shapes, self.texts.shapes
        near = self.lines.pairs(there, APART)  # which holds those that cross, or lie nearer
        i, j = crossings(lines, there.shapes, near)
        line = self._summed(self.lines, i, _ON_CROSSING[self.thin[i], kinds[j]])
        j, i = in_quads(words.shapes, lines, self.lines.pairs(words)[::-1])
        line += self._summed(self.lines, i, HARD)
        i, j = near
        both = (self.thin[i] == 0) & (j < len(firm))
        i, _ = lies_on(lines, there.shapes, BESIDE, (i[both], j[both]))
        line += self._summed(self.lines, i, HARD)
        if is_length:
            i, j = near
            both = self.main[i] & (j < len(drawn.lines))
            i, _ = lies_on(lines, there.shapes, APART, (i[both], j[both]))
            line[i] += _CLOSE  # once, however many lie near
        i, j = in_quads(texts, there.shapes, self.texts.pairs(there))
        text = self._summed(self.texts, i, _ON_TEXT[kinds[j]])
        i, j = quads_meet(texts, words.shapes, self.texts.pairs(words))
        return line, text + self._summed(self.texts, i, HARD)

    def _summed(self, things: Things, rows: Any, costs: Any) -> Any:
        """Give the sum of the costs of each thing."""
        weights = np.broadcast_to(costs, rows.shape)
        return np.bincount(rows, weights, len(things)).astype(float)


def solid(d: Exploded) -> tuple[Segment, ...]:
    """Give what nothing may cross: dimension lines, leaders, arrows, the frame of a flag."""
    arrows = tuple((a[0], b) for a in d.arrows for b in a[1:])
    return (*d.lines, *arrows, *d.flag)


def text_quads(d: Exploded) -> list[Quad]:
    """Give the rectangles of the texts, with air."""
    return [text_quad(t, AIR) for t in d.texts]
