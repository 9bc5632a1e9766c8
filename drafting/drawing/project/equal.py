"""Coordinates of strokes that differ by rounding alone, made exactly equal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.drawing.sheet.strokes import Curve, EllipseArc, Line, Point2, Poly, Stroke


def snapped(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """Make coordinates that differ by rounding alone exactly equal."""
    values = sorted({v for s in strokes for p in _points(s.curve) for v in p})
    snap: dict[float, float] = {}
    first = last = float("-inf")
    for v in values:
        if v - last > 2e-9:
            first = round(v, 9) + 0.0
        snap[v], last = first, v
    return tuple(
        Stroke(_mapped(s.curve, snap), s.visible, s.part, s.piece, s.kind) for s in strokes
    )


def _points(curve: Curve) -> tuple[Point2, ...]:
    if isinstance(curve, Line):
        return (curve.a, curve.b)
    if isinstance(curve, Poly):
        return curve.points
    if isinstance(curve, EllipseArc):
        return (curve.centre,)
    return (curve.centre, (curve.radius, curve.radius))


def _mapped(curve: Curve, snap: dict[float, float]) -> Curve:
    def at(p: Point2) -> Point2:
        return (snap[p[0]], snap[p[1]])

    if isinstance(curve, Line):
        return Line(at(curve.a), at(curve.b))
    if isinstance(curve, Poly):
        return Poly(tuple(map(at, curve.points)))
    if isinstance(curve, EllipseArc):
        return replace(curve, centre=at(curve.centre))
    return replace(curve, centre=at(curve.centre), radius=snap[curve.radius])
