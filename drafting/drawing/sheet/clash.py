"""What touches what on paper: segments and text boxes, many at once. All in paper millimetres.

Segments are arrays (n, 2, 2), rectangles arrays (n, 4, 2). Every answer is a pair of index arrays:
row of the first, row of the second, for each pair that touches.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from functools import reduce
from math import cos, radians, sin
from typing import Any

import numpy as np

from drafting.arrays import Flags, Floats, Ints, Pairs
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
_BLOCK = 48


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


class Things:
    """The boxes round shapes (n, k, 2), so that the few near others are found fast.

    ``slack`` is by how much each is larger all round: a number, or one for each.
    """

    def __init__(self, *some: Floats, slack: Floats | float = 0.0) -> None:
        # numpy is fast on long rows
        corners = [np.ascontiguousarray(shapes.transpose(1, 2, 0)) for shapes in some]
        self.lo = np.concatenate([c.min(0) for c in corners], 1) - slack
        self.hi = np.concatenate([c.max(0) for c in corners], 1) + slack

    def __len__(self) -> int:
        return len(self.lo[0])

    def grown(self, slack: Floats) -> Things:
        """Give the same boxes, each larger all round."""
        found = copy(self)
        found.lo, found.hi = self.lo - slack, self.hi + slack
        return found

    def pairs(self, others: Things) -> Pairs:
        """Give the pairs of one of these and one of the others whose boxes touch, in no order.

        Others are taken from left to right: a block of them lies together and is near to few. Long
        rows are these.
        """
        if len(others) <= _BLOCK:
            return self._near(others, np.arange(len(others)))
        order = np.argsort(others.lo[0] + others.hi[0])
        blocks = (order[k : k + _BLOCK] for k in range(0, len(order), _BLOCK))
        found = [self._near(others, block) for block in blocks]
        i, j = (np.concatenate(rows) for rows in zip(*found, strict=True))
        return i, j

    def _near(self, others: Things, block: Ints) -> Pairs:
        if not len(self) or not len(block):
            return np.zeros(0, int), np.zeros(0, int)
        lo, hi = others.lo.take(block, 1), others.hi.take(block, 1)
        near = _touch(self.lo, self.hi, lo.min(1), hi.max(1)).nonzero()[0]
        own_lo, own_hi = self.lo.take(near, 1)[:, None], self.hi.take(near, 1)[:, None]
        touch = _touch(own_lo, own_hi, lo[:, :, None], hi[:, :, None])
        j, i = np.divmod(touch.ravel().nonzero()[0], max(len(near), 1))
        return near.take(i), block.take(j)


def _touch(lo: Any, hi: Any, other_lo: Any, other_hi: Any) -> Flags:
    found: Flags = lo[0] <= other_hi[0]
    found &= hi[0] >= other_lo[0]
    found &= lo[1] <= other_hi[1]
    found &= hi[1] >= other_lo[1]
    return found


def in_quads(rectangles: Floats, lines: Floats, near: Pairs | None = None) -> Pairs:
    """Give the pairs of a rectangle and a segment that runs through it.

    Here and below ``near`` are the pairs to look at, where those with boxes that touch are known.
    """
    i, j = near or _near(rectangles, lines, 0.0)
    if not len(i):
        return i, j
    hit = run_through(sides(rectangles).take(i, 1), directed(lines).take(j, 1))
    return i[hit], j[hit]


def sides(rectangles: Floats) -> Floats:
    """Give the first corner and both sides, by the squares of their lengths (x, y each; n each)."""
    corner = rectangles[:, 0]
    found = [corner.T]
    for other in (1, 3):
        side = rectangles[:, other] - corner
        found.append((side / _dot(side, side)[:, None]).T)
    return np.concatenate(found)


def run_through(rectangles: Floats, lines: Floats) -> Flags:
    """Tell for rows of rectangles (``sides``) and ``directed`` segments which run through."""
    x, y, *both = rectangles
    ax, ay, bx, by = lines[0] - x, lines[1] - y, lines[6] - x, lines[7] - y
    lo, hi = np.zeros(len(x)), np.ones(len(x))
    for u, v in (both[:2], both[2:]):
        start, end = ax * u + ay * v, bx * u + by * v
        step = end - start
        step[np.abs(step) < 1e-12] = 1e-12
        one, other = -start / step, (1.0 - start) / step
        lo = np.maximum(lo, np.minimum(one, other))
        hi = np.minimum(hi, np.maximum(one, other))
    hit: Flags = lo < hi - 1e-9
    return hit


def quads_meet(one: Floats, other: Floats, near: Pairs | None = None) -> Pairs:
    """Give the pairs of rectangles that overlap (separating axes)."""
    i, j = near or _near(one, other, 0.0)
    if not len(i):
        return i, j
    a, b = one.take(i, 0), other.take(j, 0)
    upright = _upright(a) and _upright(b)
    hit = _overlap(a, b) if upright else ~(_apart(a, b) | _apart(b, a))
    return i[hit], j[hit]


def _upright(some: Floats) -> bool:
    """Tell whether all rectangles are upright, or lie."""
    side = np.abs(some[:, 1] - some[:, 0])
    return bool((np.minimum(side[:, 0], side[:, 1]) < 1e-9).all())


def _overlap(one: Floats, other: Floats) -> Flags:
    """Tell for rows whether upright rectangles overlap: opposite corners tell all."""
    ends = (one[:, 0], one[:, 2], other[:, 0], other[:, 2])
    a, b, c, d = (np.ascontiguousarray(e.T) for e in ends)
    inner = np.minimum(np.maximum(a, b), np.maximum(c, d))
    inner -= np.maximum(np.minimum(a, b), np.minimum(c, d))
    found: Flags = (inner[0] > 1e-9) & (inner[1] > 1e-9)
    return found


def _apart(one: Floats, other: Floats) -> Flags:
    """Tell for rows whether a side of one rectangle has all of the other beyond it."""
    out = np.zeros(len(one), bool)
    for corner in (1, 3):
        side = one[:, corner] - one[:, 0]
        reach = [_dot(other[:, k] - one[:, 0], side) for k in range(4)]
        high, low = reduce(np.maximum, reach), reduce(np.minimum, reach)
        out |= (high <= 1e-9) | (low >= _dot(side, side) - 1e-9)
    return out


def crossings(one: Floats, other: Floats, near: Pairs | None = None) -> Pairs:
    """Give the pairs of segments that cross; touching ends do not."""
    i, j = near or _near(one, other, 0.0)
    if not len(i):
        return i, j
    hit = cross(directed(one).take(i, 1), directed(other).take(j, 1))
    return i[hit], j[hit]


def cross(one: Floats, other: Floats) -> Flags:
    """Tell for rows of directed segments whether they cross; touching ends do not."""
    (px, py, dx, dy, long, a), (qx, qy, ex, ey, lengths, b) = one[:6], other[:6]
    gx, gy = qx - px, qy - py
    turn = dx * ey - dy * ex
    skew = np.abs(turn) > 1e-6 * long * lengths
    turn[~skew] = 1.0
    t, u = (gx * ey - gy * ex) / turn, (gx * dy - gy * dx) / turn
    hit: Flags = skew & (t > a) & (t < 1 - a) & (u > b) & (u < 1 - b)
    return hit


def directed(lines: Floats) -> Floats:
    """Give all that is asked of segments, in long rows (n each), on which numpy is fast.

    Start, way, length, how much of it ``TOUCH`` is, and end: x, y, dx, dy, length, share, x, y.
    """
    start, end = lines[:, 0].T, lines[:, 1].T
    dx, dy = end - start
    long = np.hypot(dx, dy)
    return np.array([*start, dx, dy, long, TOUCH / np.maximum(long, 1e-9), *end])


def lies_on(one: Floats, other: Floats, beside: float = BESIDE) -> Pairs:
    """Give the pairs of segments that run along one another, nearer than ``beside``."""
    i, j = _near(one, other, beside)
    hit = gaps_along(directed(one).take(i, 1), directed(other).take(j, 1)) < beside
    return i[hit], j[hit]


def gaps_along(one: Floats, other: Floats, least: float = TOUCH) -> Floats:
    """Give for rows of directed segments how far apart they run along; else infinity.

    They run along each other where they do so for more than ``least``.
    """
    (px, py, dx, dy, long), (qx, qy, ex, ey) = one[:5], other[:4]
    long = np.maximum(long, 1e-9)
    dx, dy = dx / long, dy / long
    gx, gy = qx - px, qy - py
    along, across = [dx * gx + dy * gy], [dx * gy - dy * gx]
    along.append(dx * (gx + ex) + dy * (gy + ey))
    across.append(dx * (gy + ey) - dy * (gx + ex))
    level = np.abs(across[0] - across[1]) < 0.02 * np.abs(along[0] - along[1])
    overlap = np.minimum(np.maximum(*along), long) - np.maximum(np.minimum(*along), 0.0)
    apart = np.minimum(np.abs(across[0]), np.abs(across[1]))
    found: Floats = np.where(level & (overlap > least), apart, np.inf)
    return found


def _near(one: Floats, other: Floats, slack: float) -> Pairs:
    """Give the pairs of things (n, k, 2) whose boxes touch, in order."""
    i, j = Things(one).pairs(Things(other, slack=slack))
    keys = i * len(other) + j
    keys.sort()
    rows, columns = np.divmod(keys, max(len(other), 1))
    return rows, columns


def _dot(a: Floats, b: Floats) -> Floats:
    return a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]
