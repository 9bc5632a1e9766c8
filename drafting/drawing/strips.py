"""Where a linear dimension may stand: strips along the four sides of a view, or right across it.

Paper millimetres from the view's origin. Each way comes with what it costs before anything else
stands there; the placer adds what it would touch.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import atan2, cos, degrees, radians, sin
from typing import Any

import numpy as np

from drafting.drawing.explode import label_depth, label_width
from drafting.drawing.picture import Picture, flat
from drafting.drawing.plane import at_place
from drafting.drawing.sheet import Dimension, Linear
from drafting.drawing.strokes import Point2
from drafting.drawing.style import Style
from drafting.model.wishes import Length

Way = tuple[float, Dimension]

_LEVELS = 14
_PER_LEVEL = 0.6
_PER_REACH = 0.03
_PER_SHIFT = 0.02
_BESIDE = 1.0
_AIR = 1.5
"""Between a text and the extension lines on both sides (paper mm)."""
_FARTHER = (0.0, 4.0, 8.0, 13.0, 19.0, 26.0)
_CLEAR = 3.5
"""Between stacked texts of neighbouring dimension lines (paper mm)."""
_FAVOURED = {"side": -1.0, "top": 1.0, "end": -1.0, "extended": -1.0, "pin": 1.0}
_UNFAVOURED = {"side": 1.0, "top": 1.0, "end": 1.0, "extended": 4.0, "pin": 1.0}
_ACROSS_CLEAR = 3.5
_ACROSS_STEPS = 12


@dataclass(frozen=True)
class Ground:
    """What the ways of one view stand on: the picture at its scale, its centre lines, the style.

    ``edge`` holds the points (n, 2) that strips keep clear of.
    """

    picture: Picture
    scale: float
    style: Style
    centres: Any
    edge: Any

    @cached_property
    def strokes(self) -> Any:
        """Give the visible strokes on paper (n, 2, 2)."""
        return self.picture.segments * self.scale

    @cached_property
    def guides(self) -> Any:
        """Give what an extension line may follow before it begins: strokes and centre lines."""
        return np.concatenate([self.strokes, self.centres])

    def support(self, normal: Point2) -> float:
        """Give how far the view reaches in a direction."""
        return float((self.edge @ np.array(normal)).max())

    def paper(self, p: Point2) -> Point2:
        """Give a point of the view on paper."""
        return at_place(p, (0.0, 0.0), self.scale)

    def model(self, p: Point2) -> Point2:
        """Give a point on paper in view millimetres."""
        return (p[0] / self.scale, p[1] / self.scale)


@dataclass(frozen=True, slots=True)
class Label:
    """The printed lines of a size."""

    texts: tuple[str, ...]
    derived: bool
    size: float
    reference: bool = False


def ways(wish: Length, label: Label, ground: Ground) -> Iterator[Way]:
    """Give the ways to show a length, in no order."""
    look = ground.picture.look
    a, b = (ground.paper(flat(look, p)) for p in (wish.a, wish.b))
    u = look.flat(wish.direction)
    angle = degrees(atan2(u[1], u[0])) % 180.0
    angle = 0.0 if abs(angle - 180.0) < 1e-9 else round(angle, 9)
    for side in (1.0, -1.0):
        yield from _strip(wish, label, ground, (a, b), angle, side)
    if angle == 90.0 and wish.form != "plain":
        yield from _across(wish, label, ground, (a, b))


def _strip(
    wish: Length,
    label: Label,
    ground: Ground,
    ends: tuple[Point2, Point2],
    angle: float,
    side: float,
) -> Iterator[Way]:
    style = ground.style
    turn = radians(angle)
    u = (1.0, 0.0) if angle == 0.0 else (0.0, 1.0) if angle == 90.0 else (cos(turn), sin(turn))
    v = (-u[1] * side, u[0] * side)
    starts = [_start(p, v, ground) for p in ends]
    sa, sb = (p[0] * u[0] + p[1] * u[1] for p in starts)
    from_, to = (ground.model(p) for p in starts)
    outward = [p[0] * v[0] + p[1] * v[1] for p in starts]
    edge = ground.support(v)
    above, below = label_depth(label.texts, style)
    step = max(style.next, above + below + _CLEAR)
    favoured = angle != 0.0 or side == _FAVOURED[ground.picture.name]
    base = 0.0 if favoured else _UNFAVOURED[ground.picture.name]
    for level in range(_LEVELS):
        at = edge + max(style.first, below + 3.0) + level * step
        cost = base + level * _PER_LEVEL + _PER_REACH * sum(at - o for o in outward)
        for middle, outside, more in _text_places(sa, sb, label, style):
            line = (u[0] * sa + v[0] * at, u[1] * sa + v[1] * at)
            reading = -1.0 if _reads_backwards(angle) else 1.0
            lift = at * side * reading + style.text_gap
            text = _point(u, middle, (-u[1] * reading, u[0] * reading), lift)
            yield (
                cost + more,
                Linear(
                    wish.name,
                    from_,
                    to,
                    angle,
                    ground.model(line),
                    ground.model(text),
                    label.texts,
                    label.size,
                    outside,
                    label.reference,
                    label.derived,
                ),
            )


def _reads_backwards(angle: float) -> bool:
    """Tell whether the text of this angle is read along the opposite direction."""
    return angle > 90.0


def _point(u: Point2, along: float, v: Point2, across: float) -> Point2:
    return (u[0] * along + v[0] * across, u[1] * along + v[1] * across)


def _start(p: Point2, v: Point2, ground: Ground) -> Point2:
    """Follow what runs on towards the strip (stroke, centre line); the line begins behind it."""
    guides, out = ground.guides, np.array(v)
    side = np.array((-v[1], v[0]))
    across = np.abs(guides @ side - np.array(p) @ side).max(1)
    spans = guides[across < 0.05] @ out
    at = float(np.array(p) @ out)
    for lo, hi in sorted((float(min(s)), float(max(s))) for s in spans):
        if lo <= at + 0.05:
            at = max(at, hi)
    shift = at - float(np.array(p) @ out)
    return (p[0] + v[0] * shift, p[1] + v[1] * shift)


def _text_places(
    sa: float, sb: float, label: Label, style: Style
) -> Iterator[tuple[float, bool, float]]:
    """Give (middle of the text along the line, arrows outside, cost)."""
    lo, hi = min(sa, sb), max(sa, sb)
    span, room = hi - lo, label_width(label.texts, label.derived, style)
    inside = room + 2 * _AIR <= span
    outside = span < 2 * style.arrow + (room + 1.0 if inside else 1.5)
    if inside:
        middle, free = (lo + hi) / 2, (span - room) / 2 - _AIR
        yield middle, outside, 0.0
        shift = 3.0
        while shift <= free and shift < 90.0:
            yield middle + shift, outside, _PER_SHIFT * shift
            yield middle - shift, outside, _PER_SHIFT * shift
            shift *= 1.5
    else:
        away = (style.arrow + 1.0 if outside else 1.5) + room / 2
        for more in _FARTHER:
            yield hi + away + more, outside, _BESIDE + _PER_SHIFT * more
            yield lo - away - more, outside, _BESIDE + _PER_SHIFT * more


def _across(
    wish: Length, label: Label, ground: Ground, ends: tuple[Point2, Point2]
) -> Iterator[Way]:
    """Put the line right across the view, arrows on the two lines, the text beyond the outline."""
    picture, style, k = ground.picture, ground.style, ground.scale
    runs = [picture.run_through(ground.model(p)) for p in ends]
    if not runs[0] or not runs[1]:
        return
    lo, hi = (k * max(r[0] for r in runs if r), k * min(r[1] for r in runs if r))
    if hi - lo < 2.0:
        return
    a, b = sorted(ends, key=lambda p: p[1])
    room = label_width(label.texts, label.derived, style)
    above, below = label_depth(label.texts, style)
    depth = max(above, below) + _ACROSS_CLEAR
    outside = b[1] - a[1] < 2 * style.arrow + 1.5
    for n in range(_ACROSS_STEPS + 1):
        x = lo + (hi - lo) * (0.04 + 0.92 * n / _ACROSS_STEPS)
        top, bottom = _reach(ground, x - depth, x + depth)
        more = _PER_SHIFT * abs(x - (lo + hi) / 2)
        away = style.arrow + 1.0 if outside else 0.0
        for middle in (
            max(top + 3.0, b[1] + away + 1.0) + room / 2,
            min(bottom - 3.0, a[1] - away - 1.0) - room / 2,
        ):
            yield (
                _BESIDE + more,
                Linear(
                    wish.name,
                    ground.model((x, a[1])),
                    ground.model((x, b[1])),
                    90.0,
                    ground.model((x, a[1])),
                    ground.model((x - style.text_gap, middle)),
                    label.texts,
                    label.size,
                    outside,
                    label.reference,
                    label.derived,
                ),
            )


def _reach(ground: Ground, x0: float, x1: float) -> tuple[float, float]:
    """Give the top and the bottom of the outline between two stations."""
    s = ground.strokes
    near = (s[:, :, 0].max(1) >= x0) & (s[:, :, 0].min(1) <= x1)
    ys = s[near][:, :, 1]
    return (float(ys.max()), float(ys.min())) if ys.size else (0.0, 0.0)
