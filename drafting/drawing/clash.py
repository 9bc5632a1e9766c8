"""What touches what on paper: segments and text boxes, many at once. All in paper millimetres.

Segments are arrays (n, 2, 2), rectangles arrays (n, 4, 2); every answer is a table (rows of the
first, rows of the second).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin
from typing import Any

import numpy as np

from drafting.drawing.letters import descent, width
from drafting.drawing.sheet import Text
from drafting.drawing.strokes import Point2

Segment = tuple[Point2, Point2]
Quad = tuple[Point2, Point2, Point2, Point2]
"""A turned rectangle, counterclockwise from the lower left corner as the text is read."""

TOUCH = 0.05
"""How near (mm) the end of a line may come to another line without crossing it."""
BESIDE = 3.0
"""Parallel dimension lines nearer than this (mm) lie on one another."""


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


def segments(some: Sequence[Segment]) -> Any:
    """Give segments as an array (n, 2, 2)."""
    return np.array(some, float).reshape(len(some), 2, 2)


def quads(some: Sequence[Quad]) -> Any:
    """Give rectangles as an array (n, 4, 2)."""
    return np.array(some, float).reshape(len(some), 4, 2)


def in_quads(boxes: Any, lines: Any) -> Any:
    """Tell for rectangles (n) and segments (m) whether the segment runs through: (n, m)."""
    n, m = len(boxes), len(lines)
    if not n or not m:
        return np.zeros((n, m), bool)
    lo, hi = np.zeros((n, m)), np.ones((n, m))
    for corner in (1, 3):
        side = boxes[:, corner] - boxes[:, 0]
        side = side / _dots(side, side)[:, None]
        start, end = (side @ lines[:, k].T - _dots(side, boxes[:, 0])[:, None] for k in (0, 1))
        step = end - start
        step[np.abs(step) < 1e-12] = 1e-12
        one, other = -start / step, (1.0 - start) / step
        np.maximum(lo, np.minimum(one, other), out=lo)
        np.minimum(hi, np.maximum(one, other), out=hi)
    return lo < hi - 1e-9


def quads_meet(one: Any, other: Any) -> Any:
    """Tell for rectangles (n) and rectangles (m) whether they overlap: (n, m), separating axes."""
    n, m = len(one), len(other)
    if not n or not m:
        return np.zeros((n, m), bool)
    return ~(_apart(one, other) | _apart(other, one).T)


def _apart(one: Any, other: Any) -> Any:
    """Tell whether a side of a rectangle (n) has all of another (m) beyond it: (n, m)."""
    out = np.zeros((len(one), len(other)), bool)
    for corner in (1, 3):
        side = one[:, corner] - one[:, 0]
        near = _dots(side, one[:, 0])[:, None]
        reach = [side @ other[:, k].T - near for k in range(4)]
        least = np.minimum(np.minimum(reach[0], reach[1]), np.minimum(reach[2], reach[3]))
        most = np.maximum(np.maximum(reach[0], reach[1]), np.maximum(reach[2], reach[3]))
        out |= (most <= 1e-9) | (least >= _dots(side, side)[:, None] - 1e-9)
    return out


def crossings(one: Any, other: Any) -> Any:
    """Tell for segments (n) and segments (m) whether they cross; touching ends do not: (n, m)."""
    n, m = len(one), len(other)
    if not n or not m:
        return np.zeros((n, m), bool)
    p, d = one[:, 0], one[:, 1] - one[:, 0]
    q, e = other[:, 0], other[:, 1] - other[:, 0]
    long, lengths = np.hypot(*d.T)[:, None], np.hypot(*e.T)[None]
    turn = _turns(d, e)
    skew = np.abs(turn) > 1e-6 * long * lengths
    turn[~skew] = 1.0
    t = (_turn(q, e)[None] - _turns(p, e)) / turn
    u = -(_turns(d, q) - _turn(d, p)[:, None]) / turn
    a, b = TOUCH / np.maximum(long, 1e-9), TOUCH / np.maximum(lengths, 1e-9)
    return skew & (t > a) & (t < 1 - a) & (u > b) & (u < 1 - b)


def lies_on(one: Any, other: Any, beside: float = BESIDE) -> Any:
    """Tell for segments (n) and (m) whether they run along one another, nearer than ``beside``."""
    n, m = len(one), len(other)
    if not n or not m:
        return np.zeros((n, m), bool)
    p, d = one[:, 0], one[:, 1] - one[:, 0]
    long = np.maximum(np.hypot(*d.T), 1e-9)
    d = d / long[:, None]
    along = [d @ other[:, k].T - _dots(d, p)[:, None] for k in (0, 1)]
    across = [_turns(d, other[:, k]) - _turn(d, p)[:, None] for k in (0, 1)]
    level = np.abs(across[0] - across[1]) < 0.02 * np.abs(along[0] - along[1])
    near = np.minimum(np.abs(across[0]), np.abs(across[1])) < beside
    overlap = np.minimum(np.maximum(*along), long[:, None]) - np.maximum(np.minimum(*along), 0.0)
    return level & near & (overlap > TOUCH)


def _dots(a: Any, b: Any) -> Any:
    return (a * b).sum(1)


def _turn(a: Any, b: Any) -> Any:
    """Cross products of rows (n, 2) and rows (n, 2)."""
    return a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]


def _turns(a: Any, b: Any) -> Any:
    """Cross products of every row (n, 2) with every row (m, 2): (n, m)."""
    return a @ np.stack([b[:, 1], -b[:, 0]])
