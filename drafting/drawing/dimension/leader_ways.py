"""Where a diameter, a radius or a callout may stand: words on a leader, clear of the outline."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import atan2, ceil, copysign, cos, degrees, dist, hypot, radians, sin
from typing import Any, Literal

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.owners import group_of, is_port
from drafting.drawing.dimension.picture import flat
from drafting.drawing.dimension.ways import Label, Ways, leader_ways
from drafting.drawing.sheet.explode import label_depth, label_width
from drafting.drawing.sheet.sheet import Dimension, Note, Round
from drafting.drawing.sheet.strokes import Point2
from drafting.settle.wishes import Callout, Diameter, Radius
from drafting.shape.frame import Vec, dot, sub

WayRow = tuple[float, float, float, float, float, float]
"""Tip, knee, side of the shelf (1 right, -1 left), cost; paper mm."""
Shelf = Literal["left", "right"]
_CLEAR = 5.0
"""Between the outline and the words (paper mm)."""
_RISE = 8.0
_RISES = 4
_GRID, _NEARS = 4.0, 8
_NEAR_TIP = 7.0
"""A shelf stands at least so far above or below its tip (paper mm)."""
_BEST_SLOPE = 60.0
_SLOPES = (60.0, 50.0, 70.0, 40.0, 75.0, 30.0)
_ASIDE = (3.0, 5.0, 8.0, 12.0, 17.0, 24.0, 32.0, 42.0, 55.0)
_PER_MM = 0.04
_PER_DEGREE = 0.02
_PER_MM_OVER, _STEPS = 0.25, 8
"""What each mm costs that a leader runs over the metal, and at how many places that is asked."""
_ACROSS, _PER_MM_ACROSS = 14.0, 1.0
"""Beyond so many mm it runs across the view rather than into it, and each mm costs more."""
_LONG, _PER_MM_LONG = 28.0, 0.7
"""A leader that is longer no longer joins its words to what they are of; each mm costs more."""
_INWARD = 0.8
_FROM_BEHIND, _STEEPLY, _IN_PROFILE = 20.0, 0.7, 0.95
"""What it costs to point at a face straight from behind it, where it is seen from aside; steeply
from there it costs at least this share."""
_AWAY = -0.35
"""Of a port that faces farther away than this (sine) its outer edge alone may be seen."""
_OTHER_FACE = 0.01
"""So far (mm) behind its tip a point that would do as well lies on the face that looks away."""
_SHORTEST = 6.0
"""A leader is at least so long (paper mm): an arrow and a stretch of line."""
_OFF_ARC, _OFF_ALL = 6.0, 130.0
"""What it costs to point where the arc is not seen: nowhere, or elsewhere alone."""
_PER_MM_PAST = 1.0
"""What each mm costs that the hole which words go to is farther from them than a like one."""
_ON_AXIS = 1e-6
_ON_METAL = 100.0
"""What it costs to write on the metal of a view, where words are looked for last."""


def round_ways(wish: Diameter | Radius, label: Label, ground: Ground) -> Ways:
    """Give the ways to show a circle or arc: the leader points at its centre.

    Of like circles (``others``) it is the nearest to the words that they go to.
    """
    picture, k = ground.picture, ground.scale
    centre = ground.paper(flat(picture.look, wish.centre))
    radius = k * (wish.radius if isinstance(wish, Radius) else wish.diameter / 2)
    rows: list[WayRow] = []
    levels = {up: _levels(label.texts, ground, up, centre[1]) for up in (True, False)}
    angles = list(_angles(wish, ground))
    ways = [(cos(radians(angle)), sin(radians(angle))) for angle, _ in angles]
    tips = [(centre[0] + radius * c, centre[1] + radius * s) for c, s in ways]
    seen = picture.on_circle(ground.model(centre), radius / k, [ground.model(tip) for tip in tips])
    for (_, cost), (c, s), tip, on in zip(angles, ways, tips, seen, strict=True):
        if not on:
            cost += _OFF_ALL if any(seen) else _OFF_ARC
        if picture.name == "end" and centre[0] * c < 0.0:
            cost += _INWARD
        for level, more in levels[s > 0]:
            out = (level - centre[1]) / s
            if out <= radius + _SHORTEST:
                continue
            rows.append((*tip, centre[0] + out * c, level, 1.0 if c > 0 else -1.0,
                         cost + more + _PER_MM * (out - radius)))  # fmt: skip

    def make(tip: Point2, knee: Point2, shelf: Shelf) -> Dimension:
        return Round(
            wish.name,
            "radius" if isinstance(wish, Radius) else "diameter",
            ground.model(centre),
            radius / k,
            tip,
            knee,
            shelf,
            label.texts,
            label.size,
            label.reference,
            label.flag,
        )

    found = _leaders(rows, label, ground, make)
    others = wish.others if isinstance(wish, Diameter) else ()
    if not others:
        return found
    like = np.array([ground.paper(flat(picture.look, p)) for p in others])
    knees = found.lines[found.line_of[:, 0], 1]
    nearest = np.hypot(*(knees[:, None] - like).transpose(2, 0, 1)).min(1)
    past = np.maximum(np.hypot(*(knees - centre).T) - nearest, 0.0)
    return replace(found, costs=found.costs + _PER_MM_PAST * past)


def _angles(wish: Diameter | Radius, ground: Ground) -> Iterator[tuple[float, float]]:
    """Give directions in degrees with their costs; a radius first where its arc is known to be."""
    for slope in _SLOPES:
        for angle in (slope, 180.0 - slope, -slope, slope - 180.0):
            cost = _PER_DEGREE * abs(slope - _BEST_SLOPE)
            if isinstance(wish, Radius):
                look = ground.picture.look
                c, p = look.flat(wish.centre), look.flat(wish.through)
                known = degrees(atan2(p[1] - c[1], p[0] - c[0]))
                cost += _PER_DEGREE * abs((angle - known + 180.0) % 360.0 - 180.0)
            yield angle, cost


def note_ways(wish: Callout, label: Label, ground: Ground) -> Ways:
    """Give the ways to write words beside a point; at a circle's centre the arrow takes its rim."""
    rows = [row for tip in _tips(wish, ground) for row in _to_point(wish, tip, label, ground)]

    def make(tip: Point2, knee: Point2, shelf: Shelf) -> Dimension:
        return Note(wish.name, tip, knee, shelf, label.texts, label.flag, wish.also)

    return _leaders(rows, label, ground, make)


def _tips(wish: Callout, ground: Ground) -> Sequence[Vec]:
    """Give the points that words may be led to: a circle round the first, else what is seen.

    What is seen of nothing is told at its dashes, and a face at its edges, not amid the metal.
    """
    picture, own = ground.picture, group_of(wish.name)
    look = picture.look
    if ground.rim(own, flat(look, wish.tip)):
        return (wish.tip,)
    points = (wish.tip, *wish.others)
    seen = [p for p in points if picture.on_own(own, flat(look, p))]
    dashed = [p for p in points if picture.on_hidden(flat(look, p))] if not seen else []
    outer = [p for p in seen if abs(flat(look, p)[1]) > _ON_AXIS]
    return outer or seen or dashed or wish.others or points


def _to_point(wish: Callout, point: Vec, label: Label, ground: Ground) -> Iterator[WayRow]:
    """Give the leaders to one point."""
    picture, k = ground.picture, ground.scale
    at, own = flat(picture.look, point), group_of(wish.name)
    out = picture.look.flat(wish.normal)
    if dot(sub(point, wish.tip), wish.normal) < -_OTHER_FACE:
        out = (-out[0], -out[1])
    behind = _FROM_BEHIND * (hypot(*out) > _IN_PROFILE)
    radius = k * ground.rim(own, at)
    away = dot(wish.normal, picture.look.toward_eye) < _AWAY
    edge = picture.outmost_of(own, out) if is_port(own) and away else None
    if edge:
        at, behind = edge, _FROM_BEHIND
    elif not radius and (is_port(own) or not picture.on_hidden(at)):
        at = picture.nearest_of(own, at) or at
    tip = ground.paper(at)
    up_first = tip[1] >= 0.0
    middle = k * (picture.box[0] + picture.box[2]) / 2
    for up in (True, False):
        base = 0.0 if up is up_first else 2.0
        for level, more in _levels(label.texts, ground, up, tip[1]):
            for aside in _ASIDE:
                for side in (1.0, -1.0):
                    knee = (tip[0] + copysign(aside + radius / 2, side), level)
                    d = dist(tip, knee)
                    if d <= radius + _SHORTEST:
                        continue
                    rim = (
                        tip[0] + (knee[0] - tip[0]) * radius / d,
                        tip[1] + (knee[1] - tip[1]) * radius / d,
                    )
                    slope = degrees(atan2(abs(knee[1] - tip[1]), abs(knee[0] - tip[0])))
                    cost = base + more + _PER_MM * (d - radius)
                    cost += _PER_DEGREE * abs(slope - _BEST_SLOPE)
                    cost += _INWARD if side * (middle - tip[0]) > 0 else 0.0
                    ahead = (knee[0] - tip[0]) * out[0] + (knee[1] - tip[1]) * out[1]
                    cost += behind * max(_STEEPLY, -ahead / d) * (ahead < 0.0)
                    yield (*rim, *knee, side, cost)


def _leaders(
    rows: Sequence[WayRow],
    label: Label,
    ground: Ground,
    build: Callable[[Point2, Point2, Shelf], Dimension],
) -> Ways:
    def make(i: int) -> Dimension:
        x, y, u, v, side, _ = rows[i]
        return build(ground.model((x, y)), ground.model((u, v)), "right" if side > 0 else "left")

    table = np.array(rows, float).reshape(-1, 6)
    tips, knees, sides = table[:, :2], table[:, 2:4], table[:, 4]
    found = leader_ways(label, ground.style, tips, knees, sides, table[:, 5], make)
    costs = found.costs + _ON_METAL * _on_metal(label, ground, knees, sides)
    over = _over_metal(ground, tips, knees)
    across = np.maximum(over - _ACROSS, 0.0)
    far = np.maximum(np.hypot(*(knees - tips).T) - _LONG, 0.0)
    more = _PER_MM_OVER * over + _PER_MM_ACROSS * across + _PER_MM_LONG * far
    return replace(found, costs=costs + more)


def _over_metal(ground: Ground, tips: Any, knees: Any) -> Any:
    """Give how far (mm) leaders run over what the view covers."""
    at = (np.arange(_STEPS) + 0.5) / _STEPS
    points = tips[:, None] + (knees - tips)[:, None] * at[:, None]
    x, y = points[:, :, 0].ravel(), points[:, :, 1].ravel()
    covered = ground.silhouette.covers(x, x, y, y).reshape(-1, _STEPS)
    return folded(np.add, covered.astype(float)) / _STEPS * np.hypot(*(knees - tips).T)


def _on_metal(label: Label, ground: Ground, knees: Any, sides: Any) -> Any:
    """Tell which words would stand on what the view covers."""
    style = ground.style
    room = label_width(label.texts, label.flag, style) + 2 * style.text_gap
    x0, y0 = knees[:, 0] + np.minimum(sides * room, 0.0), knees[:, 1]
    high = label_depth(label.texts, style, stacked=True)[0]
    return ground.silhouette.covers(x0, x0 + room, y0, y0 + high)


def _levels(
    texts: tuple[str, ...], ground: Ground, up: bool, tip: float
) -> list[tuple[float, float]]:
    """Give the heights of the shelf, with their costs: beside the tip, then clear of the outline.

    Heights beside it are of one series in all the view, so that shelves stand level.
    """
    above, below = label_depth(texts, ground.style, stacked=True)
    side = 1.0 if up else -1.0
    edge = ground.support((0.0, side)) + _CLEAR + (below if up else above)
    start = side * tip + _NEAR_TIP
    count = max(0, min(_NEARS, int((edge - start) // _GRID)))
    first = _GRID * ceil(start / _GRID)
    near = [(side * (first + n * _GRID), 0.1 * n) for n in range(count)]
    return [*near, *((side * (edge + n * _RISE), 0.3 * n) for n in range(_RISES))]
