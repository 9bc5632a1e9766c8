"""What already stands in a view, and what each way to show a wish would cost among it.

Paper millimetres from the view's origin. A cost of ``HARD`` or more means that something touches.
Costs add up: what a line or text costs with one thing does not depend on the rest. So each thing
that comes is weighed once against all ways of all wishes.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from drafting.arrays import Pairs
from drafting.drawing.dimension.ways import AIR, Ways
from drafting.drawing.sheet.clash import (
    APART,
    BESIDE,
    Quad,
    Segment,
    Things,
    crossings,
    gaps_along,
    in_quads,
    quads,
    quads_meet,
    segments,
    text_quad,
)
from drafting.drawing.sheet.explode import Exploded
from drafting.records import dataclass

HARD = 100.0
_STROKE, _CENTRE, _HIDDEN, _EXTENSION, _LINE = range(5)
_TENTHS = 10.0
"""What things cost is counted in whole tenths: so sums are exact, in whatever order they come."""

# What a crossing costs: a row for lines of the new dimension, a row for its extension lines.
_ON_CROSSING = _TENTHS * np.array([[3.0, 0.2, 0.0, 24.0, HARD], [0.8, 0.1, 0.0, 0.5, 24.0]])
# What a line through a text of the new dimension costs.
_ON_TEXT = _TENTHS * np.array([HARD, HARD, 0.0, HARD, HARD])
_ON_PLANNED = _TENTHS * 20.0
"""What an extension line that is still to come costs through a text."""
_TOUCHING = _TENTHS * HARD
_ALONG = _TENTHS * 30.0
"""What a dimension line costs beside a parallel stroke, nearer than 3 mm; on it, ``HARD`` more."""
_ON = 1.0
_CLOSE = _TENTHS * 60.0
"""What a dimension line costs beside a parallel one, nearer than they stand apart."""


class Scene:
    """All ways of the wishes of a view among its strokes, and the dimensions placed so far.

    Lines and texts of all ways stand in one row, the lines first, behind them one thing that costs
    nothing: column n of ``brought`` names what way n brings.
    """

    def __init__(self, ways: Sequence[Ways], strokes: Any, centres: Any, hidden: Any) -> None:
        """Weigh all ways against what is drawn; ``hidden`` strokes may be crossed freely."""
        self.first = np.cumsum([0, *(len(w.costs) for w in ways)]).tolist()
        self.own = np.concatenate([np.zeros(0), *(w.costs for w in ways)])
        self.lines = np.concatenate([segments([]), *(w.lines for w in ways)])
        self.texts = np.concatenate([quads([]), *(w.texts for w in ways)])
        self.thin = np.concatenate([np.zeros(0, bool), *(w.thin for w in ways)]).astype(int)
        self.main = np.concatenate([np.zeros(0, bool), *(w.main for w in ways)])
        self.of_length = [bool(w.main.any()) for w in ways]
        self.count = len(self.lines) + len(self.texts) + 1
        self.brought = _brought(ways)
        self.total = self._on_paper(strokes, centres, hidden)
        beside = np.where(self.main, APART, np.where(self.thin, 0.0, BESIDE))
        self.things = self._things(beside)
        self.planned = np.zeros(len(self.own))
        self.placed: dict[int, int] = {}
        self.weighed: dict[tuple[int, int], Any] = {}

    def plan(self, planned: Sequence[Segment]) -> None:
        """Keep texts off the extension lines that are still to come."""
        i, _ = in_quads(self.texts, segments(planned))
        sums = _Sums(1, self.count)
        sums.add(0, i + len(self.lines), _ON_PLANNED)
        self.total -= self.planned
        self.planned = sums.of_ways(self.brought)[0]
        self.total += self.planned

    def weigh(self, some: Sequence[tuple[int, int, Exploded]]) -> None:
        """Find what every way costs with some wishes by their ways: in one go it is cheaper."""
        new = [put for put in some if put[:2] not in self.weighed]
        if new:
            found = self._among([(drawn, self.of_length[i]) for i, _, drawn in new])
            self.weighed |= {put[:2]: row for put, row in zip(new, found, strict=True)}

    def put(self, i: int, way: int, drawn: Exploded) -> None:
        """Place wish i by one of its ways."""
        self.take(i)
        self.weigh([(i, way, drawn)])
        self.placed[i] = way
        self.total += self.weighed[i, way]

    def take(self, i: int) -> None:
        """Take the dimension of a wish away."""
        if i in self.placed:
            self.total -= self.weighed[i, self.placed.pop(i)]

    def costs(self, i: int) -> Any:
        """Give the costs of the ways of wish i, each as if it alone came to what stands."""
        rows = slice(self.first[i], self.first[i + 1])
        return self.own[rows] + self.total[rows] / _TENTHS

    def _things(self, slack: Any) -> Things:
        """Give the boxes of all lines and texts; ``slack`` is that of the lines."""
        return Things(self.lines, self.texts, slack=np.append(slack, np.zeros(len(self.texts))))

    def _on_paper(self, strokes: Any, centres: Any, hidden: Any) -> Any:
        """Give what every way costs with what is drawn."""
        drawn = np.concatenate([strokes, centres, hidden])
        kinds = np.repeat([_STROKE, _CENTRE, _HIDDEN], [len(strokes), len(centres), len(hidden)])
        there = _Lines(drawn, kinds, np.zeros(len(drawn), int))
        sums, (i, j) = self._crossed(there, self._things(BESIDE * self.main), 1)
        main = self.main[i]
        i, j = i[main], j[main]
        gaps = gaps_along(self.lines, drawn, (i, j))
        for beside, cost in ((BESIDE, _ALONG), (_ON, _TOUCHING)):
            sums.add_once(0, i[gaps < beside], cost)
        return sums.of_ways(self.brought)[0]

    def _among(self, some: Sequence[tuple[Exploded, bool]]) -> Any:
        """Give what every way costs with each of some dimensions (row by row), lengths or not."""
        rows = [
            (line, kind, n, kind == _LINE and is_length and k < len(d.lines))
            for n, (d, is_length) in enumerate(some)
            for kind, own in ((_LINE, solid(d)), (_EXTENSION, d.extensions))
            for k, line in enumerate(own)
        ]
        lines, kinds, of, main = zip(*rows, strict=True)
        there, mains = _Lines(segments(lines), np.array(kinds), np.array(of)), np.array(main)
        sums, (i, j) = self._crossed(there, self.things, len(some))
        both = (self.thin[i] == 0) & (there.kinds[j] == _LINE)
        i, j = i[both], j[both]
        gaps = gaps_along(self.lines, there.lines, (i, j))
        on = gaps < BESIDE
        sums.add(there.of[j[on]], i[on], _TOUCHING)
        close = (gaps < APART) & self.main[i] & mains[j]
        sums.add_once(there.of[j[close]], i[close], _CLOSE)
        words = quads([q for d, _ in some for q in text_quads(d)])
        of_word = np.repeat(np.arange(len(some)), [len(d.texts) for d, _ in some])
        i, j = self.things.pairs(Things(words))
        lines_too, texts_too = self._apart((i, j))
        j, i = in_quads(words, self.lines, lines_too[::-1])
        sums.add(of_word[j], i, _TOUCHING)
        i, j = quads_meet(self.texts, words, texts_too)
        sums.add(of_word[j], i + len(self.lines), _TOUCHING)
        return sums.of_ways(self.brought)

    def _crossed(self, there: _Lines, things: Things, rows: int) -> tuple[_Sums, Pairs]:
        """Give what every line and text costs with lines that cross it, and the lines near."""
        sums = _Sums(rows, self.count)
        on_lines, on_texts = self._apart(things.pairs(Things(there.lines)))
        i, j = crossings(self.lines, there.lines, on_lines)
        sums.add(there.of[j], i, _ON_CROSSING[self.thin[i], there.kinds[j]])
        i, j = in_quads(self.texts, there.lines, on_texts)
        sums.add(there.of[j], i + len(self.lines), _ON_TEXT[there.kinds[j]])
        return sums, on_lines

    def _apart(self, pairs: Pairs) -> tuple[Pairs, Pairs]:
        """Part pairs into those of lines and those of texts."""
        i, j = pairs
        line = i < len(self.lines)
        text = ~line
        return (i[line], j[line]), (i[text] - len(self.lines), j[text])


@dataclass(frozen=True, slots=True, eq=False)
class _Lines:
    """Lines that stand there (n, 2, 2), of which kind each is and of which row of an answer."""

    lines: Any
    kinds: Any
    of: Any


class _Sums:
    """What things cost, summed up in some rows."""

    def __init__(self, rows: int, count: int) -> None:
        self.shape = (rows, count)
        self.keys: list[Any] = []
        self.costs: list[Any] = []

    def add(self, rows: Any, things: Any, costs: Any) -> None:
        """Add what things cost in rows."""
        self.keys.append(rows * self.shape[1] + things)
        self.costs.append(np.broadcast_to(costs, things.shape))

    def add_once(self, rows: Any, things: Any, cost: float) -> None:
        """Add a cost once for each thing of a row, however often it stands there."""
        self.add(0, np.unique(rows * self.shape[1] + things), cost)

    def of_ways(self, brought: Any) -> Any:
        """Give what ways cost (rows, n) that bring some things each, a column of ``brought``."""
        keys, costs = np.concatenate(self.keys), np.concatenate(self.costs)
        found = np.bincount(keys, costs, self.shape[0] * self.shape[1]).astype(float)
        return np.stack([row[brought].sum(0) for row in found.reshape(self.shape)])


def _brought(ways: Sequence[Ways]) -> Any:
    """Give what each way brings (k, ways) of all lines, all texts behind them, and one more."""
    lines = np.cumsum([0, *(len(w.lines) for w in ways)]).tolist()
    texts = np.cumsum([lines[-1], *(len(w.texts) for w in ways)]).tolist()
    most = max((w.line_of.shape[1] + w.text_of.shape[1] for w in ways), default=0)
    found = np.full((sum(len(w.costs) for w in ways), most), texts[-1])
    row = 0
    for w, line, text in zip(ways, lines, texts, strict=False):
        n, k, more = len(w.costs), w.line_of.shape[1], w.text_of.shape[1]
        found[row : row + n, :k] = w.line_of + line
        found[row : row + n, k : k + more] = w.text_of + text
        row += n
    return np.ascontiguousarray(found.T)


def solid(d: Exploded) -> tuple[Segment, ...]:
    """Give what nothing may cross: dimension lines, leaders, arrows, the frame of a flag."""
    arrows = tuple((a[0], b) for a in d.arrows for b in a[1:])
    return (*d.lines, *arrows, *d.flag)


def text_quads(d: Exploded) -> list[Quad]:
    """Give the rectangles of the texts, with air."""
    return [text_quad(t, AIR) for t in d.texts]
