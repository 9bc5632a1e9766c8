"""Circles round one centre that would run together on paper are not all drawn.

Lines stand at least 0.7 mm apart on paper (ISO 128-2, from memory), measured between their edges;
a small port or ball drawn with all its rims is a black spot. The outermost rim stays, and the hole
where there is room between them. The same holds where they are seen askew, as ovals.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import cos, dist, hypot, pi, sin

from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Point2, Stroke

APART = 1.2
"""Between the middles of two wide lines (paper mm)."""
ROOM = 0.6
"""Between those of two ovals, which are that near on their flat sides alone (paper mm)."""
_SAMPLES = 24
_ONE = 0.05
"""Centres nearer than this (view mm) are one."""


def crowded(strokes: Iterable[Stroke], scale: float, measured: Sequence[float]) -> frozenset[Curve]:
    """Give the visible full circles that have no room of their own at a scale.

    Those of ``measured`` diameters (mm) stay.
    """
    strokes = [s for s in strokes if s.visible]
    curves = [s.curve for s in strokes]
    full = [c for c in curves if isinstance(c, Arc) and c.a1 - c.a0 > 2 * pi - 1e-6]
    round_ones = frozenset(
        c
        for rims in _round_one_centre(full)
        for c in _too_near(rims, scale)
        if all(abs(2 * c.radius - d) > _ONE for d in measured)
    )
    parts = {s.part: [t.curve for t in strokes if t.part == s.part] for s in strokes}
    return round_ones.union(*(_crowded_ovals(own, scale) for own in parts.values()))


def _crowded_ovals(curves: Sequence[Curve], scale: float) -> Iterator[Curve]:
    """Give the ovals of one part that run together with a larger one which they lie within."""
    ovals = sorted((c for c in curves if isinstance(c, EllipseArc)), key=lambda c: -_flat(c))
    while ovals:
        outer, *ovals = ovals
        if outer.t1 - outer.t0 < 2 * pi - 1e-6:
            continue
        within = [(c, room) for c in ovals if (room := _room(outer, c) * scale) > 0.0]
        gone = [c for c, room in within if room < ROOM or 2 * _flat(c) * scale < APART]
        yield from gone
        ovals = [c for c in ovals if c not in gone]


def _flat(c: EllipseArc) -> float:
    """Give the smaller half of an oval (view mm)."""
    return min(hypot(*c.major), hypot(*c.minor))


def _room(outer: EllipseArc, c: EllipseArc) -> float:
    """Give the least room (view mm) between an oval and one within it; else nothing, or less."""
    (ax, ay), (bx, by) = outer.major, outer.minor
    least = 1.0
    for k in range(_SAMPLES + 1):
        t = c.t0 + (c.t1 - c.t0) * k / _SAMPLES
        x = c.centre[0] + cos(t) * c.major[0] + sin(t) * c.minor[0] - outer.centre[0]
        y = c.centre[1] + cos(t) * c.major[1] + sin(t) * c.minor[1] - outer.centre[1]
        along, across = (x * ax + y * ay) / hypot(ax, ay), (x * bx + y * by) / hypot(bx, by)
        least = min(least, 1.0 - hypot(along / hypot(ax, ay), across / hypot(bx, by)))
    return least * _flat(outer)


def _round_one_centre(circles: Sequence[Arc]) -> Iterator[list[Arc]]:
    """Give circles by their centre, the largest first."""
    groups: list[tuple[Point2, list[Arc]]] = []
    for c in sorted(circles, key=lambda c: -c.radius):
        mine = next((g for at, g in groups if dist(at, c.centre) < _ONE), None)
        if mine is None:
            groups.append((c.centre, [c]))
        else:
            mine.append(c)
    return (g for _, g in groups)


def _too_near(rims: Sequence[Arc], scale: float) -> Iterator[Arc]:
    """Give the rims between the first and the last that stand too near to what stays."""
    if len(rims) < 2:
        return
    first, *between, last = rims
    if (first.radius - last.radius) * scale < APART:
        yield last
    kept = first
    for rim in between:
        if min(kept.radius - rim.radius, rim.radius - last.radius) * scale < APART:
            yield rim
        else:
            kept = rim
