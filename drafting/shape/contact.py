"""Whether two pieces share space: boxes first, then points inside of both."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import product

from drafting.shape.convex import convex_cells, halved
from drafting.shape.frame import Vec, add, dot, scale, sub
from drafting.shape.pieces import Arc2, Ball, Cone, Line2, Outline, Piece, Point2, Turned, extent

STEPS = 12
"""Points in each direction of the box that two pieces share."""


def meet(
    a: Piece, b: Piece, axes: Sequence[Vec], least: float, hollows: Sequence[Piece] = ()
) -> bool:
    """Tell whether two pieces share more than ``least`` mm along each of three square axes.

    Cuts are taken as solids; ``hollows`` are taken out. What is shared is looked for at a
    grid of points, so that a wedge thinner than a twelfth of the shared box may be missed.
    """
    spans: list[list[float]] = []
    for axis in axes:
        (a0, a1), (b0, b1) = extent(a, axis), extent(b, axis)
        lo, hi = max(a0, b0), min(a1, b1)
        if hi - lo <= least:
            return False
        step = (hi - lo) / STEPS
        spans.append([lo + step * (k + 0.5) for k in range(STEPS)])
    for u, v, w in product(*spans):
        point = add(add(scale(axes[0], u), scale(axes[1], v)), scale(axes[2], w))
        if holds(a, point) and holds(b, point) and not any(holds(h, point) for h in hollows):
            return True
    return False


def holds(piece: Piece, point: Vec) -> bool:
    """Tell whether a point lies in a piece."""
    f = piece.frame
    d = sub(point, f.origin)
    x, y, z = dot(d, f.x), dot(d, f.y), dot(d, f.z)
    if isinstance(piece.shape, Turned):
        return any(
            zone.x0 <= x <= zone.x1 and y * y + z * z <= _square(zone, x)
            for zone in piece.shape.zones
        )
    if not piece.shape.lo <= z <= piece.shape.hi:
        return False
    return any(all(_inward(e, (x, y)) for e in cell) for cell in _cells(piece.shape.outline))


def _square(zone: Cone | Ball, x: float) -> float:
    """Give the square of a zone's radius at x."""
    if isinstance(zone, Ball):
        return zone.radius**2 - (x - zone.centre) ** 2
    r = zone.r0 + (zone.r1 - zone.r0) / (zone.x1 - zone.x0) * (x - zone.x0)
    return r * r


@lru_cache(maxsize=256)
def _cells(outline: Outline) -> tuple[tuple[Line2 | Arc2, ...], ...]:
    return tuple(tuple(halved(cell)) for cell in convex_cells(outline))


def _inward(edge: Line2 | Arc2, p: Point2) -> bool:
    """Tell whether a point lies on the inner side of an edge of a convex cell."""
    if isinstance(edge, Line2):
        return _left(edge.a, edge.b, p)
    near = (p[0] - edge.centre[0]) ** 2 + (p[1] - edge.centre[1]) ** 2 <= edge.radius**2
    return near or _left(edge.at(edge.a0), edge.at(edge.a1), p)


def _left(a: Point2, b: Point2, p: Point2) -> bool:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) >= 0.0
