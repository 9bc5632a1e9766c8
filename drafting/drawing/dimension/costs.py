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
    boxes,
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
"""What a dimension line costs beside a parallel stroke, nearer than 3 mm; twice that on it."""
_ON = 1.0
_CLOSE = 60.0
"""What a dimension line costs beside a parallel one, nearer than they stand apart."""


class _Things:
    """Shapes (n, k, 2) with their boxes, so that the few in reach of something are found fast."""

    def __init__(self, shapes: Any) -> None:
        self.shapes = shapes
        self.lo, self.hi = boxes(shapes)

    def __len__(self) -> int:
        return len(self.shapes)

    def near(self, others: Any, slack: float = 0.0) -> Any:
        """Give the rows whose box meets the box round all others."""
        if not len(others):
            return np.zeros(0, int)
        track = others.reshape(-1, 2)
        lo, hi = track.min(0) - slack, track.max(0) + slack
        near = self.lo[0] <= hi[0]
        near &= self.hi[0] >= lo[0]
        near &= self.lo[1] <= hi[1]
        near &= self.hi[1] >= lo[1]
        return np.flatnonzero(near)


class Scene:
    """All ways of the wishes of a view among its strokes, and the dimensions placed so far."""

    def __init__(self, ways: Sequence[Ways], strokes: Any, centres: Any, hidden: Any) -> None:
        """Weigh all ways against what is drawn; ``hidden`` strokes may be crossed freely."""
        self.ways = ways
        self.first_line = np.cumsum([0, *(len(w.lines) for w in ways)]).tolist()
        self.first_text = np.cumsum([0, *(len(w.texts) for w in ways)]).tolist()
        self.lines = _Things(np.concatenate([segments([]), *(w.lines for w in ways)]))
        self.thin = np.concatenate([np.zeros(0, bool), *(w.thin for w in ways)]).astype(int)
        main = [np.zeros(0, bool), *(w.main for w in ways)]
        self.main = np.flatnonzero(np.concatenate(main))
        self.mains = _Things(self.lines.shapes[self.main])
        self.texts = _Things(np.concatenate([quads([]), *(w.texts for w in ways)]))
        ground = np.concatenate([strokes, centres])
        self.ground = self._against(
            ground, np.repeat([_STROKE, _CENTRE], [len(strokes), len(centres)])
        )
        for beside in (BESIDE, _ON):
            self.ground[0][self._along(np.concatenate([ground, hidden]), beside)] += _ALONG
        self.planned: tuple[Any, Any] | None = None
        self.placed: dict[int, tuple[Exploded, tuple[Any, Any]]] = {}
        self.weighed: dict[tuple[int, int], tuple[Any, Any]] = {}

    def plan(self, planned: Sequence[Segment]) -> None:
        """Keep texts off the extension lines that are still to come."""
        lines = segments(planned)
        self.planned = self._against(lines, np.repeat(_PLANNED, len(lines))) if planned else None

    def put(self, i: int, way: int, drawn: Exploded) -> None:
        """Place wish i by one of its ways."""
        if (i, way) not in self.weighed:
            self.weighed[i, way] = self._among(drawn, bool(self.ways[i].main.any()))
        self.placed[i] = drawn, self.weighed[i, way]

    def take(self, i: int) -> None:
        """Take the dimension of a wish away."""
        self.placed.pop(i, None)

    def costs(self, i: int) -> Any:
        """Give the costs of the ways of wish i, each as if it alone came to what stands."""
        ways = self.ways[i]
        line = self.ground[0][self.first_line[i] : self.first_line[i + 1]].copy()
        text = self.ground[1][self.first_text[i] : self.first_text[i + 1]].copy()
        more = [self.planned] if self.planned else []
        for other in (*more, *(weight for _, weight in self.placed.values())):
            line += other[0][self.first_line[i] : self.first_line[i + 1]]
            text += other[1][self.first_text[i] : self.first_text[i + 1]]
        return ways.costs + line[ways.line_of].sum(1) + text[ways.text_of].sum(1)

    def _against(self, lines: Any, kinds: Any) -> tuple[Any, Any]:
        """Give what every line and every text costs with some lines of known kinds."""
        line, text = np.zeros(len(self.lines)), np.zeros(len(self.texts))
        near = self.lines.near(lines)
        i, j = crossings(self.lines.shapes[near], lines)
        np.add.at(line, near[i], _ON_CROSSING[self.thin[near[i]], kinds[j]])
        near = self.texts.near(lines)
        i, j = in_quads(self.texts.shapes[near], lines)
        np.add.at(text, near[i], _ON_TEXT[kinds[j]])
        return line, text

    def _along(self, lines: Any, beside: float) -> Any:
        """Give the dimension lines of lengths that run along one of some lines."""
        near = self.mains.near(lines, beside)
        i, _ = lies_on(self.mains.shapes[near], lines, beside)
        return self.main[near[np.unique(i)]]

    def _among(self, drawn: Exploded, is_length: bool) -> tuple[Any, Any]:
        """Give what every line and every text costs with a placed dimension."""
        firm, thin = segments(solid(drawn)), segments(drawn.extensions)
        kinds = np.repeat([_LINE, _EXTENSION], [len(firm), len(thin)])
        line, text = self._against(np.concatenate([firm, thin]), kinds)
        words = quads(text_quads(drawn))
        near = self.texts.near(words)
        i, _ = quads_meet(self.texts.shapes[near], words)
        np.add.at(text, near[i], HARD)
        near = self.lines.near(words)
        _, j = in_quads(words, self.lines.shapes[near])
        np.add.at(line, near[j], HARD)
        near = self.lines.near(firm, BESIDE)
        near = near[self.thin[near] == 0]
        i, _ = lies_on(self.lines.shapes[near], firm)
        np.add.at(line, near[i], HARD)
        if is_length:
            line[self._along(segments(drawn.lines), APART)] += _CLOSE
        return line, text


def solid(d: Exploded) -> tuple[Segment, ...]:
    """Give what nothing may cross: dimension lines, leaders, arrows, the frame of a flag."""
    arrows = tuple((a[0], b) for a in d.arrows for b in a[1:])
    return (*d.lines, *arrows, *d.flag)


def text_quads(d: Exploded) -> list[Quad]:
    """Give the rectangles of the texts, with air."""
    return [text_quad(t, AIR) for t in d.texts]
