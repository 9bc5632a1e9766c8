"""What touches what on paper: segments and text boxes, many at once. All in paper millimetres.

Segments are arrays (n, 2, 2), rectangles arrays (n, 4, 2). Every answer is a pair of index arrays:
row of the first, row of the second, for each pair that touches.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

import numpy as np

from drafting.arrays import Flags, Floats, Pairs
from drafting.drawing.sheet.letters import descent, width
from drafting.drawing.sheet.sheet import Text
from drafting.drawing.sheet.strokes import Point2

Segment = tuple[Point2, Point2]
Quad = tuple[Point2, Point2, Point2, Point2]
"""A turned rectangle, counterclockwise from the lower left corner as the text is read."""

TOUCH = 0.05
"""How near (mm) the end of a line may come to another line without crossing it."""
BESIDE = 3.0
"""Parallel dimension lines nearer than this (mm) lie on one another."""
APART = 6.0 - 0.01
"""Parallel dimension lines stand at least this far apart (mm): ASME Y14.5 6, less a hair."""


def text_quad(text: Text, slack: float = 0.0) -> Quad:
    """Give the rectangle of a line of lettering, larger by ``slack`` all round."""
    wide = width(text.text, text.height, text.bold)
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * wide
    x0, x1 = -back - slack, wide - back + slack
    y0, y1 = -descent(text.height) - slack, text.height + slack
    turn = radians(text.turn)
    c, s = cos(turn), sin(turn)
    a, b = text.at
    p, q, r, t = (
        (a + x * c - y * s, b + x * s + y * c) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    )
    return (p, q, r, t)


def segments(some: Sequence[Segment]) -> Floats:
    """Give segments as an array (n, 2, 2)."""
    return np.array(some, float).reshape(len(some), 2, 2)


def quads(some: Sequence[Quad]) -> Floats:
    """Give rectangles as an array (n, 4, 2)."""
    return np.array(some, float).reshape(len(some), 4, 2)


def in_quads(rectangles: Floats, lines: Floats) -> Pairs:
    """Give the pairs of a rectangle and a segment that runs through it."""
    i, j = _near(rectangles, lines, 0.0)
    if not len(i):
        return i, j
    quad, line = rectangles[i], lines[j]
    lo, hi = np.zeros(len(i)), np.ones(len(i))
    for corner in (1, 3):
        side = quad[:, corner] - quad[:, 0]
        side = side / _dot(side, side)[:, None]
        start, end = (_dot(line[:, k] - quad[:, 0], side) for k in (0, 1))
        step = end - start
        step[np.abs(step) < 1e-12] = 1e-12
        one, other = -start / step, (1.0 - start) / step
        lo = np.maximum(lo, np.minimum(one, other))
        hi = np.minimum(hi, np.maximum(one, other))
    hit = lo < hi - 1e-9
    return i[hit], j[hit]


def quads_meet(one: Floats, other: Floats) -> Pairs:
    """Give the pairs of rectangles that overlap (separating axes)."""
    i, j = _near(one, other, 0.0)
    if not len(i):
        return i, j
    a, b = one[i], other[j]
    hit = ~(_apart(a, b) | _apart(b, a))
    return i[hit], j[hit]


def _apart(one: Floats, other: Floats) -> Flags:
    """Tell for rows whether a side of one rectangle has all of the other beyond it."""
    out = np.zeros(len(one), bool)
    for corner in (1, 3):
        side = one[:, corner] - one[:, 0]
        reach = ((other - one[:, :1]) * side[:, None]).sum(2)
        out |= (reach.max(1) <= 1e-9) | (reach.min(1) >= _dot(side, side) - 1e-9)
    return out


def crossings(one: Floats, other: Floats) -> Pairs:
    """Give the pairs of segments that cross; touching ends do not."""
    i, j = _near(one, other, 0.0)
    if not len(i):
        return i, j
    p, d = one[i, 0], one[i, 1] - one[i, 0]
    q, e = other[j, 0], other[j, 1] - other[j, 0]
    long, lengths = np.hypot(*d.T), np.hypot(*e.T)
    turn = _turn(d, e)
    skew = np.abs(turn) > 1e-6 * long * lengths
    turn[~skew] = 1.0
    t, u = _turn(q - p, e) / turn, _turn(q - p, d) / turn
    a, b = TOUCH / np.maximum(long, 1e-9), TOUCH / np.maximum(lengths, 1e-9)
    hit = skew & (t > a) & (t < 1 - a) & (u > b) & (u < 1 - b)
    return i[hit], j[hit]


def lies_on(one: Floats, other: Floats, beside: float = BESIDE) -> Pairs:
    """Give the pairs of segments that run along one another, nearer than ``beside``."""
    i, j = _near(one, other, beside)
    if not len(i):
        return i, j
    p, d, q = one[i, 0], one[i, 1] - one[i, 0], other[j]
    long = np.maximum(np.hypot(*d.T), 1e-9)
    d = d / long[:, None]
    along = [_dot(d, q[:, k] - p) for k in (0, 1)]
    across = [_turn(d, q[:, k] - p) for k in (0, 1)]
    level = np.abs(across[0] - across[1]) < 0.02 * np.abs(along[0] - along[1])
    near = np.minimum(np.abs(across[0]), np.abs(across[1])) < beside
    overlap = np.minimum(np.maximum(*along), long) - np.maximum(np.minimum(*along), 0.0)
    hit = level & near & (overlap > TOUCH)
    return i[hit], j[hit]


def _near(one: Floats, other: Floats, slack: float) -> Pairs:
    """Give the pairs of things (n, k, 2) whose boxes touch."""
    if not len(one) or not len(other):
        return np.zeros(0, int), np.zeros(0, int)
    (a, b), (c, d) = boxes(one), boxes(other)
    hit = (a[0] - slack)[:, None] <= d[0]
    hit &= (b[0] + slack)[:, None] >= c[0]
    hit &= (a[1] - slack)[:, None] <= d[1]
    hit &= (b[1] + slack)[:, None] >= c[1]
    i, j = np.divmod(np.flatnonzero(hit), len(other))
    return i, j


def boxes(some: Floats) -> tuple[Floats, Floats]:
    """Give the least and the greatest x and y (2, n each) of things (n, k, 2)."""
    corners = np.ascontiguousarray(some.transpose(1, 2, 0))  # long rows: numpy is fast on those
    return corners.min(0), corners.max(0)


def _dot(a: Floats, b: Floats) -> Floats:
    return a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]


def _turn(a: Floats, b: Floats) -> Floats:
    """Cross products of rows (n, 2) and rows (n, 2)."""
    return a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
