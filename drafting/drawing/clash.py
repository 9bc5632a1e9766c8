"""What touches what on paper: segments and text boxes, many at once. All in paper millimetres."""

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


def as_array(segments: Sequence[Segment]) -> Any:
    """Give segments as an array (n, 2, 2)."""
    return np.array(segments, float).reshape(len(segments), 2, 2)


def in_quad(quad: Quad, segments: Any) -> Any:
    """Tell for segments (n, 2, 2) whether they run through a rectangle."""
    if not len(segments):
        return np.zeros(0, bool)
    o, p, _, q = (np.array(c) for c in quad)
    u, v = p - o, q - o
    axes = np.stack([u / (u @ u), v / (v @ v)], axis=1)
    flat = (segments - o) @ axes
    start, step = flat[:, 0], flat[:, 1] - flat[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        t0, t1 = -start / step, (1.0 - start) / step
    still = np.abs(step) < 1e-12
    inside = (start > 0.0) & (start < 1.0)
    lo = np.where(still, np.where(inside, -np.inf, np.inf), np.minimum(t0, t1)).max(1)
    hi = np.where(still, np.where(inside, np.inf, -np.inf), np.maximum(t0, t1)).min(1)
    return np.maximum(lo, 0.0) < np.minimum(hi, 1.0) - 1e-9


def quads_meet(a: Quad, b: Quad) -> bool:
    """Tell whether two rectangles overlap (separating axes)."""
    for quad in (a, b):
        o, p, _, q = quad
        for end in (p, q):
            d = (end[0] - o[0], end[1] - o[1])
            mine = [c[0] * d[0] + c[1] * d[1] for c in a]
            other = [c[0] * d[0] + c[1] * d[1] for c in b]
            if max(mine) <= min(other) + 1e-9 or max(other) <= min(mine) + 1e-9:
                return False
    return True


def crossings(segment: Segment, others: Any) -> Any:
    """Tell for other segments (n, 2, 2) whether one crosses them; touching ends do not count."""
    if not len(others):
        return np.zeros(0, bool)
    p, d = np.array(segment[0]), np.subtract(segment[1], segment[0])
    q, e = others[:, 0], others[:, 1] - others[:, 0]
    long, lengths = float(np.hypot(*d)), np.hypot(e[:, 0], e[:, 1])
    turn = d[0] * e[:, 1] - d[1] * e[:, 0]
    w = q - p
    with np.errstate(divide="ignore", invalid="ignore"):
        t = (w[:, 0] * e[:, 1] - w[:, 1] * e[:, 0]) / turn
        u = (w[:, 0] * d[1] - w[:, 1] * d[0]) / turn
        a, b = TOUCH / max(long, 1e-9), TOUCH / np.maximum(lengths, 1e-9)
        skew = np.abs(turn) > 1e-6 * long * lengths
        return skew & (t > a) & (t < 1 - a) & (u > b) & (u < 1 - b)


def lies_on(segment: Segment, others: Any, beside: float = BESIDE) -> Any:
    """Tell for other segments (n, 2, 2) whether they run along one, less than ``beside`` away."""
    if not len(others):
        return np.zeros(0, bool)
    p, d = np.array(segment[0]), np.subtract(segment[1], segment[0])
    long = float(np.hypot(*d))
    if long < 1e-9:
        return np.zeros(len(others), bool)
    d = d / long
    along = (others - p) @ d
    across = (others - p) @ np.array((-d[1], d[0]))
    level = np.abs(across[:, 0] - across[:, 1]) < 0.02 * np.abs(along[:, 0] - along[:, 1])
    near = np.abs(across).min(1) < beside
    overlap = np.minimum(along.max(1), long) - np.maximum(along.min(1), 0.0)
    return level & near & (overlap > TOUCH)
