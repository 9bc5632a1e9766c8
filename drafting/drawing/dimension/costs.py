"""What already stands in a view, and what each way to show a wish would cost among it.

Paper millimetres from the view's origin. A cost of ``HARD`` or more means that something touches.
Costs add up: what a line or text costs with one thing does not depend on the rest. So each thing
that comes is weighed once against all ways of the other wishes.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np

from drafting.arrays import Pairs, folded
from drafting.drawing.dimension.ways import AIR, Ways
from drafting.drawing.sheet.clash import (
    APART,
    BESIDE,
    Quad,
    Segment,
    Things,
    cross,
    directed,
    gaps_along,
    in_quads,
    quads,
    quads_meet,
    run_through,
    segments,
    sides,
    text_quad,
)
from drafting.drawing.sheet.explode import Exploded

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
_UPON = 1.5
"""Nearer (mm) a dimension line and an extension line of another size seem to be one."""
_BY, _BY_LONG, _SAME = 0.7, 4.0, 0.05
"""An extension line that runs so near (mm) to an edge or a centre line, for longer than so, seems
to be of that; nearer than ``_SAME`` it lies on it, as one lies on what it begins at."""
_AT_TIPS, _TIPS_APART = _TENTHS * 30.0, 1.2
"""What it costs that a leader runs by the arrow of another one, nearer than so (mm)."""
_LEVEL = 1e-6
_CLOSE = _TENTHS * HARD
"""What a dimension line costs beside a parallel one, nearer than they stand apart."""


class Row:
    """All ways of some wishes in a row.

    Lines and texts of all ways stand in one row, the lines first, behind them one thing that costs
    nothing: column n of ``brought`` names what way n brings.
    """

    def __init__(self, ways: Sequence[Ways]) -> None:
        self.first = np.cumsum([0, *(len(w.costs) for w in ways)]).tolist()
        self.lines = np.concatenate([segments([]), *(w.lines for w in ways)])
        self.texts = np.concatenate([quads([]), *(w.texts for w in ways)])
        self.thin = np.concatenate([np.zeros(0, bool), *(w.thin for w in ways)]).astype(int)
        self.main = np.concatenate([np.zeros(0, bool), *(w.main for w in ways)])
        self.count = len(self.lines) + len(self.texts) + 1
        self.brought = _brought(ways)
        self.directed, self.sides = directed(self.lines), sides(self.texts)
        self.boxes = Things(self.lines, self.texts)

    def things(self, slack: Any) -> Things:
        """Give the boxes of all lines and texts; ``slack`` is that of the lines."""
        return self.boxes.grown(np.append(slack, np.zeros(len(self.texts))))

    def parted(self, pairs: Pairs, count: int) -> tuple[Pairs, Pairs, Pairs, Pairs]:
        """Part pairs of a thing with one of ``count`` lines, or with words behind these.

        Lines with lines come first, then texts with lines, lines with words, texts with words.
        """
        i, j = pairs
        line, with_line = i < len(self.lines), j < count
        i, j = i - len(self.lines) * ~line, j - count * ~with_line
        kinds = (line & with_line, ~line & with_line, line & ~with_line, ~(line | with_line))
        a, b, c, d = ((i.compress(some), j.compress(some)) for some in kinds)
        return a, b, c, d


@lru_cache(maxsize=2)
def _row(ways: tuple[Ways, ...]) -> Row:
    """Give ways in a row; those that are new among strokes are mostly those of a whole view."""
    return Row(ways)


def on_paper(ways: Sequence[Ways], strokes: Any, centres: Any, hidden: Any) -> list[Any]:
    """Give what the ways of each wish (n) cost with what is drawn, in tenths.

    ``hidden`` strokes may be crossed freely. It does not depend on what other wishes there are.
    """
    row = _row(tuple(ways))
    drawn = np.concatenate([strokes, centres, hidden])
    kinds = np.repeat([_STROKE, _CENTRE, _HIDDEN], [len(strokes), len(centres), len(hidden)])
    near = row.things(BESIDE * row.main + _BY * row.thin).pairs(Things(drawn))
    (lines, there), (texts, through), _, _ = row.parted(near, len(drawn))
    strokes = directed(drawn)
    one, other = row.directed.take(lines, 1), strokes.take(there, 1)
    sums = _Sums(row.count)
    hit = cross(one, other)
    sums.add(lines[hit], _ON_CROSSING[row.thin[lines[hit]], kinds[there[hit]]])
    hit = run_through(row.sides.take(texts, 1), strokes.take(through, 1))
    sums.add(texts[hit] + len(row.lines), _ON_TEXT[kinds[through[hit]]])
    main = row.main[lines]
    gaps = gaps_along(one.compress(main, 1), other.compress(main, 1))
    for beside, cost in ((BESIDE, _ALONG), (_ON, _TOUCHING)):
        sums.add_once(lines[main][gaps < beside], cost)
    thin = row.thin[lines] == 1
    gaps = gaps_along(one.compress(thin, 1), other.compress(thin, 1), _BY_LONG)
    sums.add_once(lines[thin][(gaps > _SAME) & (gaps < _BY)], _ALONG)
    costs = sums.of_ways(row.brought)
    return [costs[a:b] for a, b in pairwise(row.first)]


class Scene:
    """All ways of the wishes of a view, and the dimensions placed so far.

    ``own`` is what each way costs where nothing stands; whoever owns the scene may change it.
    """

    def __init__(
        self, ways: Sequence[Ways], among_strokes: Sequence[Any], at_tips: bool = False
    ) -> None:
        """Take all ways, and what those of each wish cost with what is drawn (``on_paper``).

        Leaders keep off the arrows of others ``at_tips``: where they point at many things at once.
        """
        self.at_tips = at_tips
        self.row = _row(tuple(ways))
        self.own = np.concatenate([np.zeros(0), *(w.costs for w in ways)])
        self.of = np.repeat(
            [*range(len(ways))] * 2, [*(len(w.lines) for w in ways), *(len(w.texts) for w in ways)]
        )
        self.of_length = [bool(w.main.any()) for w in ways]
        self.bare = np.concatenate([np.zeros(0), *among_strokes])
        self.total = self.bare.copy()
        row = self.row
        self.things = row.things(np.where(row.main, APART, np.where(row.thin, 0.0, BESIDE)))
        self.planned = np.zeros(len(self.own))
        self.placed: dict[int, int] = {}
        self.weighed: dict[tuple[int, int], Any] = {}
        self.unweighed: dict[int, Exploded] = {}

    def rows(self, i: int) -> slice:
        """Tell which of all ways are those of wish i."""
        return slice(self.row.first[i], self.row.first[i + 1])

    def plan(self, planned: Sequence[Segment]) -> None:
        """Keep texts off the extension lines that are still to come."""
        self.total -= self.planned
        self.planned = self._in_texts(segments(planned)) if planned else np.zeros_like(self.own)
        self.total += self.planned

    def put(self, i: int, way: int, drawn: Exploded) -> None:
        """Place wish i by one of its ways; it is weighed when another asks for its costs."""
        self.take(i)
        self.placed[i] = way
        self.unweighed[i] = drawn

    def take(self, i: int) -> None:
        """Take the dimension of a wish away."""
        if i in self.placed:
            way = self.placed.pop(i)
            if self.unweighed.pop(i, None) is None:
                self.total -= self.weighed[i, way]

    def costs(self, i: int) -> Any:
        """Give the costs of the ways of wish i, each as if it alone came to what stands."""
        self._weigh()
        rows = self.rows(i)
        return self.own[rows] + self.total[rows] / _TENTHS

    def cost(self, i: int, way: int) -> float:
        """Give the cost of one way of wish i."""
        self._weigh()
        row = self.row.first[i] + way
        return float(self.own[row] + self.total[row] / _TENTHS)

    def least_without(self, i: int, j: int) -> float:
        """Give what the cheapest way of wish i would cost if the placed wish j did not stand."""
        self._weigh()
        rows = self.rows(i)
        left = self.total[rows] - self.weighed[j, self.placed[j]][rows]
        return float((self.own[rows] + left / _TENTHS).min())

    def with_each(self, i: int, some: Sequence[int]) -> Any:
        """Give what the ways of wish i cost with each of some that are placed (some, ways)."""
        self._weigh()
        rows = self.rows(i)
        return np.stack([self.weighed[j, self.placed[j]][rows] for j in some]) / _TENTHS

    def each(self) -> tuple[Any, Any]:
        """Give what each that is placed costs by itself and with all others (n each)."""
        self._weigh()
        rows = np.array([self.row.first[i] + way for i, way in self.placed.items()], int)
        alone = self.own[rows] + (self.bare[rows] + self.planned[rows]) / _TENTHS
        return alone, self.own[rows] + self.total[rows] / _TENTHS

    def _weigh(self) -> None:
        """Add what each thing costs the others that was placed since costs were asked for."""
        for j, drawn in self.unweighed.items():
            put = (j, self.placed[j])
            if put not in self.weighed:
                self.weighed[put] = self._among(j, drawn)
            self.total += self.weighed[put]
        self.unweighed.clear()

    def _in_texts(self, lines: Any) -> Any:
        """Give what every way costs with lines that are planned."""
        row = self.row
        sums = _Sums(row.count)
        sums.add(in_quads(row.texts, lines)[0] + len(row.lines), _ON_PLANNED)
        return sums.of_ways(row.brought)

    def _among(self, wish: int, drawn: Exploded) -> Any:
        """Give what the ways of all other wishes cost with a placed dimension."""
        row, firm, thin = self.row, solid(drawn), drawn.extensions
        kinds = np.repeat([_LINE, _EXTENSION], [len(firm), len(thin)])
        there, words = segments((*firm, *thin)), quads(text_quads(drawn))
        i, j = self.things.pairs(Things(there, words))
        other = self.of[i] != wish
        near = row.parted((i[other], j[other]), len(there))
        sums = _Sums(row.count)
        i, j = near[0]
        placed = directed(there)
        one, two = row.directed.take(i, 1), placed.take(j, 1)
        hit = cross(one, two)
        sums.add(i[hit], _ON_CROSSING[row.thin[i[hit]], kinds[j[hit]]])
        main = self.row.main[i]
        upon = (main & (j >= len(firm))) | (
            (row.thin[i] == 1) & (j < len(drawn.lines)) & self.of_length[wish]
        )
        beside = gaps_along(one.compress(upon, 1), two.compress(upon, 1)) < _UPON
        sums.add(i[upon][beside], _ALONG)
        if self.at_tips and not self.of_length[wish]:
            leads = (row.thin[i] == 0) & ~main & (j < len(drawn.lines))
            sums.add_once(i[leads][_meet(row.lines[i[leads]], there[j[leads]])], _AT_TIPS)
        both = (row.thin[i] == 0) & (j < len(firm))
        i, j = i[both], j[both]
        gaps = gaps_along(one.compress(both, 1), two.compress(both, 1))
        sums.add(i[gaps < BESIDE], _TOUCHING)
        if not self.of_length[wish]:
            run_on = _run_on(one.compress(both, 1), two.compress(both, 1)) & ~row.main[i]
            sums.add_once(i[run_on], _TOUCHING)
        if self.of_length[wish]:
            sums.add_once(i[(gaps < APART) & row.main[i] & (j < len(drawn.lines))], _CLOSE)
        (texts, through), (lines, over), (i, j) = near[1:]
        hit = run_through(
            np.concatenate([row.sides.take(texts, 1), sides(words).take(over, 1)], 1),
            np.concatenate([placed.take(through, 1), row.directed.take(lines, 1)], 1),
        )
        on_text, on_line = hit[: len(texts)], hit[len(texts) :]
        sums.add(texts[on_text] + len(row.lines), _ON_TEXT[kinds[through[on_text]]])
        sums.add(lines[on_line], _TOUCHING)
        sums.add(quads_meet(row.texts, words, (i, j))[0] + len(row.lines), _TOUCHING)
        return sums.of_ways(row.brought)


class _Sums:
    """What lines and texts cost, summed up."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.things: list[Any] = []
        self.costs: list[Any] = []

    def add(self, things: Any, costs: Any) -> None:
        """Add what things cost, all alike or each."""
        self.things.append(things)
        self.costs.append(np.broadcast_to(costs, things.shape))

    def add_once(self, things: Any, cost: float) -> None:
        """Add a cost to each thing once, however often it stands there."""
        found = np.zeros(self.count, bool)
        found[things] = True
        self.add(found.nonzero()[0], cost)

    def of_ways(self, brought: Any) -> Any:
        """Give what ways cost (n) that bring some things each, a column of ``brought``."""
        things, costs = np.concatenate(self.things), np.concatenate(self.costs)
        return np.bincount(things, costs, self.count).astype(float).take(brought).sum(0)


def _run_on(one: Any, other: Any) -> Any:
    """Tell of directed lines (rows) whether one goes on where another ends: they would read as one.

    Level ones alone, which words stand on.
    """
    (px, py, dx, dy), (qx, qy, ex, ey) = one[:4], other[:4]
    level = (np.abs(dy) < _LEVEL) & (np.abs(ey) < _LEVEL) & (np.abs(py - qy) < _ON)
    between = np.maximum(np.minimum(qx, qx + ex), np.minimum(px, px + dx))
    between -= np.minimum(np.maximum(qx, qx + ex), np.maximum(px, px + dx))
    return level & (between < BESIDE)


def _meet(one: Any, other: Any) -> Any:
    """Tell of pairs of lines (n, 2, 2) whether one of them begins beside the other."""
    return (_off(one[:, 0], other) < _TIPS_APART) | (_off(other[:, 0], one) < _TIPS_APART)


def _off(points: Any, lines: Any) -> Any:
    """Give how far (mm) points (n, 2) lie off lines (n, 2, 2), each off its own."""
    way, at = lines[:, 1] - lines[:, 0], points - lines[:, 0]
    along = folded(np.add, at * way) / np.maximum(folded(np.add, way * way), 1e-9)
    return np.hypot(*(at - np.clip(along, 0.0, 1.0)[:, None] * way).T)


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
