"""Curves as DXF entities, the simplest that is exact."""

from __future__ import annotations

from math import ceil, cos, degrees, dist, floor, hypot, pi, tan
from typing import Any

from drafting.drawing.sheet.on_paper import at_place, ends, is_whole, on_ellipse, points, principal
from drafting.drawing.sheet.paper import in_order
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Point2, Poly

_SAME = 1e-9
_CHORDS = 16
"""Chords for a quarter of an ellipse that is not whole, which FreeCAD 0.20 would draw whole.

They lose (pi / 32)^2 / 24 of its length: 0.02 mm of 50.
"""
_FLAT = 1e-5
"""Ratio of the axes below which an ellipse is drawn as a line: it is seen from its edge."""


def add_curve(space: Any, curve: Curve, attributes: dict[str, Any]) -> None:
    """Draw a curve as LINE, CIRCLE, ARC, ELLIPSE or LWPOLYLINE; nothing for one without length."""
    match curve:
        case Line(a, b):
            _line(space, a, b, attributes)
        case Poly(track):
            _polyline(space, track, attributes)
        case Arc(centre, radius, a0, a1):
            if radius <= _SAME or a1 - a0 <= _SAME:
                return
            if is_whole(curve):
                space.add_circle(centre, radius, dxfattribs=attributes)
            else:
                start, end = degrees(a0) % 360, degrees(a1) % 360
                space.add_arc(centre, radius, start, end, dxfattribs=attributes)
        case EllipseArc():
            _ellipse(space, principal(curve), attributes)


def _line(space: Any, a: Point2, b: Point2, attributes: dict[str, Any]) -> None:
    if dist(a, b) > _SAME:
        space.add_line(a, b, dxfattribs=attributes)


def _polyline(space: Any, track: tuple[Point2, ...], attributes: dict[str, Any]) -> None:
    run = [p for i, p in enumerate(track) if i == 0 or dist(p, track[i - 1]) > _SAME]
    closed = len(run) > 3 and dist(run[0], run[-1]) <= _SAME
    if len(run) == 2:
        _line(space, run[0], run[1], attributes)
    elif len(run) > 2:
        space.add_lwpolyline(run[:-1] if closed else run, close=closed, dxfattribs=attributes)


def _ellipse(space: Any, e: EllipseArc, attributes: dict[str, Any]) -> None:
    long, short = hypot(*e.major), hypot(*e.minor)
    if long <= _SAME or e.t1 - e.t0 <= _SAME:
        return
    if short / long < _FLAT:
        turns = [k * pi for k in range(ceil(e.t0 / pi), floor(e.t1 / pi) + 1)]
        reach = [cos(t) for t in (e.t0, e.t1, *turns)]
        a, b = (at_place(e.major, e.centre, k) for k in (min(reach), max(reach)))
        _line(space, a, b, attributes)
        return
    if is_whole(e):
        ratio = min(1.0, short / long)
        space.add_ellipse(e.centre, major_axis=e.major, ratio=ratio, dxfattribs=attributes)
    else:
        _polyline(space, _fine(e), attributes)


def _fine(e: EllipseArc) -> tuple[Point2, ...]:
    """Give points on an arc, evenly in its parameter."""
    parts = max(_CHORDS, ceil(_CHORDS * (e.t1 - e.t0) / (pi / 2)))
    step = (e.t1 - e.t0) / parts
    return tuple(on_ellipse(e, e.t0 + k * step) for k in range(parts + 1))


def loop_vertices(loop: tuple[Curve, ...], error: float) -> list[tuple[float, float, float]]:
    """Give a closed loop as x, y, bulge: exact for lines and circular arcs."""
    if len(loop) == 1 and isinstance(loop[0], Arc):  # a whole circle: two half turns
        (x, y), r = loop[0].centre, loop[0].radius
        return [(x - r, y, 1.0), (x + r, y, 1.0)]
    vertices: list[tuple[float, float, float]] = []
    for curve, backwards in in_order(loop):
        if isinstance(curve, Arc):
            start = ends(curve)[1 if backwards else 0]
            bulge = tan((curve.a1 - curve.a0) / 4)
            vertices.append((*start, -bulge if backwards else bulge))
            continue
        track = points(curve, error)
        if backwards:
            track.reverse()
        vertices += [(*p, 0.0) for p in track[:-1]]
    return vertices
