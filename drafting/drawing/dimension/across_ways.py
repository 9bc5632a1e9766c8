"""Right across a view: where an upright dimension line may stand on the edges that it measures.

Paper millimetres from the view's origin.
"""

from __future__ import annotations

from itertools import product
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.linears import BESIDE, PER_SHIFT, linears, upright_cost
from drafting.drawing.dimension.shelved import shelved
from drafting.drawing.dimension.ways import Label, Ways
from drafting.drawing.sheet.explode import label_depth, label_width
from drafting.drawing.sheet.strokes import Point2
from drafting.settle.wishes import Length

_CLEAR = 3.5
_STEPS, _HALF_STEPS = 12, 36
"""Places to try along a run; more of them among the edges that a section lays open."""
_CALM = 2
"""So many places more are the middles between what stands upright there."""
_INNER = 0.46
"""So much of a run on both sides of its middle is tried."""
_LEAST = 2.0
"""A shorter run (paper mm) is none, but for half dimensions."""
_UNDER, _EDGE = 15.0, 0.5
"""How far (paper mm) a line stands beside points, or along one that lies under another, and what
goes across that."""

_SAME = 0.05
"""So little (paper mm) an upright line leans."""
_SHUT, _AMPLE = 25.0, 3.0
"""What it costs to measure a half diameter where parts lie before its axis, as the piston does, or
so near (paper mm)."""

_AT_SPRING, _OFF_SPRING = 10.0, 4.0
"""What it costs to measure a half diameter nearer (paper mm) to where the words of a spring point:
the heads of both would be one."""
_PER_NEAR = 1.0
"""What each mm costs that a plain size, on a narrow boss, stands nearer to a parallel stroke or
centre line than 3 mm: of places that are all too near, the middle between two is read best."""


def across_ways(
    wish: Length, label: Label, ground: Ground, ends: tuple[Point2, Point2], half: bool = False
) -> list[Ways]:
    """Put the line right across the view, arrows on the two lines, the text beyond the outline.

    A ``half`` one has its arrow on the upper line and its text above. Between points on no line,
    as the middles of holes, the line stands near them, with extension lines.
    """
    style, k = ground.style, ground.scale
    a, b = sorted(ends, key=lambda p: p[1])
    points = [ground.model(p) for p in ((b,) if half else (a, b))]
    runs = ground.picture.level_runs(points)
    if not all(runs):  # its own edges may be seen elsewhere: a tube's beside a foot
        runs = [ground.picture.seen_level(wish.name, p[1]) for p in points]
    beside = not all(runs) and wish.form == "plain"
    if not all(runs):
        if half or a[0] != b[0]:
            return []
        runs = [[_near(p, ground) if beside else _beneath(p, ground)] for p in (a, b)]
    both = [(k * max(r[0] for r in some), k * min(r[1] for r in some)) for some in product(*runs)]
    least = 0.0 if half else _LEAST
    long = sorted((r for r in both if r[1] - r[0] >= least), key=lambda r: r[0] - r[1])
    if not long:
        return []
    room = label_width(label.texts, label.flag, style)
    above, below = label_depth(label.texts, style)
    depth = max(above, below) + _CLEAR
    outside = not half and b[1] - a[1] < 2 * style.arrow + 1.5
    away = style.arrow + 1.0 if outside else 0.0
    # What a break parts in two may stand on either side of it.
    tried = np.array(long[: 2 if ground.gaps else 1])
    share = np.linspace(-_INNER, _INNER, (_HALF_STEPS if half else _STEPS) + 1)
    off = ((tried[:, 1:] - tried[:, :1]) * share).ravel()
    x = np.repeat(tried.mean(1), len(share)) + off
    if not half:
        calm = _calm(long[0], (a[1], b[1]), ground)
        x, off = np.append(x, calm), np.append(off, calm - tried[0].mean())
    top, bottom = ground.reach(x - depth, x + depth)
    middles = [np.maximum(top + 3.0, b[1] + away + 1.0) + room / 2]
    if not half:
        middles.append(np.minimum(bottom - 3.0, a[1] - away - 1.0) - room / 2)
    on = np.repeat(np.arange(len(x)), len(middles))
    starts = [np.full(len(x), p[0]) if beside else x for p in (a, b)]
    from_, to = (
        np.stack([s, np.full(len(x), p[1])], 1) for s, p in zip(starts, (a, b), strict=True)
    )
    lines = np.stack([x, from_[:, 1]], 1)
    texts = np.stack([x[on] - style.text_gap, np.stack(middles, 1).ravel()], 1)
    cost = BESIDE + PER_SHIFT * np.abs(off)
    if wish.form == "plain":
        cost += _PER_NEAR * _too_near(x, (a[1], b[1]), ground)
    if half:
        cost += _SHUT * _is_shut(x, b[1], ground)
        for spring in ground.springs:
            cost += _AT_SPRING * (np.abs(x - spring) < _OFF_SPRING)
    costs = cost[on] + upright_cost(label, style)
    ways = linears(wish, label, ground, (from_, to), 90.0, lines, on, texts, outside, costs, half)
    turns = (b[1] + away, a[1] - away)
    return [ways, *shelved(wish, label, ground, (from_, to, x), turns, outside, cost, half)]


def _is_shut(x: Any, high: float, ground: Ground) -> Any:
    """Tell at which places (n) strokes lie between the axis and a height; at none if all are so."""
    (x0, y0), (x1, y1) = ground.strokes.transpose(1, 2, 0)
    inside = (np.minimum(y0, y1) < high - _EDGE) & (np.maximum(y0, y1) > _EDGE)
    left, right = (f(x0, x1)[inside] for f in (np.minimum, np.maximum))
    shut = ((left < x[:, None] + _AMPLE) & (right > x[:, None] - _AMPLE)).any(1)
    return shut & ~shut.all()


def _calm(run: tuple[float, float], heights: tuple[float, float], ground: Ground) -> Any:
    """Give the middles (n) between upright lines in a run: with the room they need, or the widest.

    A pin's edge and its centre line leave a place that even steps along the run miss.
    """
    lines = np.unique(_uprights(heights, ground))
    lines = lines[(lines > run[0]) & (lines < run[1])]
    middles = (lines[1:] + lines[:-1]) / 2
    short = -np.minimum(lines[1:] - lines[:-1], 2 * _AMPLE + _EDGE)
    order = np.lexsort((np.abs(middles - (run[0] + run[1]) / 2), short))
    return middles[order[:_CALM]]


def _too_near(x: Any, heights: tuple[float, float], ground: Ground) -> Any:
    """Give by how much (mm) a line at each place (n) is too near to upright ones beside it."""
    lines = _uprights(heights, ground)
    return _AMPLE - np.abs(x[:, None] - lines).min(1, initial=_AMPLE)


def _uprights(heights: tuple[float, float], ground: Ground) -> Any:
    """Give where (x) upright strokes and centre lines stand beside a line between two heights."""
    (x0, y0), (x1, y1) = ground.guides.transpose(1, 2, 0)
    low, high = heights[0] - _UNDER, heights[1] + _UNDER  # it runs on to its text
    beside = (np.minimum(y0, y1) < high) & (np.maximum(y0, y1) > low)
    beside &= (np.abs(x1 - x0) < _SAME) & (np.abs(y1 - y0) > _EDGE)
    return (x0[beside] + x1[beside]) / 2


def _near(p: Point2, ground: Ground) -> tuple[float, float]:
    """Give what lies beside a point (model x)."""
    return ((p[0] - _UNDER) / ground.scale, (p[0] + _UNDER) / ground.scale)


def _beneath(p: Point2, ground: Ground) -> tuple[float, float]:
    """Give where a line runs (model x) that lies under another edge, as a tube under tie rods.

    It is measured where it lies, as far as no edge goes across it.
    """
    x, y = ground.strokes[:, :, 0], ground.strokes[:, :, 1]
    across = (folded(np.minimum, y) < p[1] - _EDGE) & (folded(np.maximum, y) > p[1] + _EDGE)
    at = x[across].mean(1) / ground.scale
    left, right = _near(p, ground)
    middle = p[0] / ground.scale
    return float(at[at < middle].max(initial=left)), float(at[at > middle].min(initial=right))
