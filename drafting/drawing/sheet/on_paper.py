"""What can be done with a plane curve: place it, measure it, cut it to a window, flatten it.

A circular arc is an ellipse with equal axes here, so that each question is answered once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import acos, atan2, ceil, cos, dist, hypot, pi, sin, sqrt, tan

from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Point2, Poly

Box = tuple[float, float, float, float]
"""x0, y0, x1, y1."""
Bezier = tuple[Point2, Point2, Point2, Point2]
_TURN = 2 * pi


def at_place(p: Point2, at: Point2, k: float) -> Point2:
    """Scale a point by k about the origin, then shift it by ``at``."""
    return (at[0] + k * p[0], at[1] + k * p[1])


def placed(curve: Curve, at: Point2, k: float) -> Curve:
    """Scale a curve by k > 0 about the origin, then shift it by ``at``."""
    match curve:
        case Line(a, b):
            return Line(at_place(a, at, k), at_place(b, at, k))
        case Arc(centre, radius, a0, a1):
            return Arc(at_place(centre, at, k), radius * k, a0, a1)
        case EllipseArc(centre, major, minor, t0, t1):
            axes = at_place(major, (0.0, 0.0), k), at_place(minor, (0.0, 0.0), k)
            return EllipseArc(at_place(centre, at, k), *axes, t0, t1)
        case Poly(points):
            return Poly(tuple(at_place(p, at, k) for p in points))


def as_ellipse(arc: Arc | EllipseArc) -> EllipseArc:
    """Write a circular arc as an elliptical one."""
    if isinstance(arc, EllipseArc):
        return arc
    return EllipseArc(arc.centre, (arc.radius, 0.0), (0.0, arc.radius), arc.a0, arc.a1)


def on_ellipse(e: EllipseArc, t: float) -> Point2:
    """Give the point at parameter t."""
    c, s = cos(t), sin(t)
    return (
        e.centre[0] + c * e.major[0] + s * e.minor[0],
        e.centre[1] + c * e.major[1] + s * e.minor[1],
    )


def is_whole(arc: Arc | EllipseArc) -> bool:
    """Say whether an arc is a whole circle or ellipse."""
    a0, a1 = (arc.a0, arc.a1) if isinstance(arc, Arc) else (arc.t0, arc.t1)
    return a1 - a0 > _TURN - 1e-9


def ends(curve: Curve) -> tuple[Point2, Point2]:
    """Give the first and the last point."""
    if isinstance(curve, Line):
        return curve.a, curve.b
    if isinstance(curve, Poly):
        return curve.points[0], curve.points[-1]
    e = as_ellipse(curve)
    return on_ellipse(e, e.t0), on_ellipse(e, e.t1)


def points(curve: Curve, error: float) -> list[Point2]:
    """Flatten a curve: points on it, chords at most ``error`` away from it."""
    if isinstance(curve, Line):
        return [curve.a, curve.b]
    if isinstance(curve, Poly):
        return list(curve.points)
    e = as_ellipse(curve)
    longest = hypot(*e.major) + hypot(*e.minor)
    step = 2 * acos(max(0.0, 1 - min(1.0, error / longest))) if longest > 0 else pi
    n = max(2, ceil((e.t1 - e.t0) / max(step, 1e-3)))
    return [on_ellipse(e, e.t0 + (e.t1 - e.t0) * i / n) for i in range(n + 1)]


def length(curve: Curve) -> float:
    """Measure along the curve (an ellipse to 0.01 % or so)."""
    if isinstance(curve, Arc):
        return curve.radius * (curve.a1 - curve.a0)
    if isinstance(curve, Line):
        return dist(curve.a, curve.b)
    if isinstance(curve, EllipseArc):
        return _run(points(curve, 1e-5 * (hypot(*curve.major) + hypot(*curve.minor))))
    return _run(curve.points)


def _run(track: Sequence[Point2]) -> float:
    return sum(dist(a, b) for a, b in pairwise(track))


def box(curve: Curve) -> Box:
    """Give the bounding box, exact for arcs and ellipses."""
    track = [*ends(curve)]
    if isinstance(curve, Poly):
        track = list(curve.points)
    elif not isinstance(curve, Line):
        e = as_ellipse(curve)
        track += [on_ellipse(e, t) for i in (0, 1) for t in _within(e, _stationary(e, i))]
    return hull(track)


def hull(track: Sequence[Point2]) -> Box:
    """Give the bounding box of points."""
    xs, ys = [p[0] for p in track], [p[1] for p in track]
    return (min(xs), min(ys), max(xs), max(ys))


def union(boxes: Sequence[Box]) -> Box:
    """Give the box round boxes."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return (min(x0), min(y0), max(x1), max(y1))


def _stationary(e: EllipseArc, axis: int) -> list[float]:
    t = atan2(e.minor[axis], e.major[axis])
    return [t, t + pi]


def _within(e: EllipseArc, angles: Sequence[float]) -> Iterator[float]:
    """Turn angles by whole turns into the open range of the arc."""
    for t in angles:
        t = e.t0 + (t - e.t0) % _TURN
        if e.t0 < t < e.t1:
            yield t


def beziers(arc: Arc | EllipseArc) -> list[Bezier]:
    """Give cubic Beziers, one per quarter turn or less; off by 0.03 % of the radius at most."""
    e = as_ellipse(arc)
    n = max(1, ceil((e.t1 - e.t0) / (pi / 2) - 1e-9))
    step = (e.t1 - e.t0) / n
    k = 4 / 3 * tan(step / 4)

    def handle(t: float, sign: float) -> Point2:
        p, c, s = on_ellipse(e, t), cos(t) * sign * k, sin(t) * sign * k
        return (
            p[0] - s * e.major[0] + c * e.minor[0],
            p[1] - s * e.major[1] + c * e.minor[1],
        )

    knots = [e.t0 + step * i for i in range(n + 1)]
    return [
        (on_ellipse(e, a), handle(a, 1), handle(b, -1), on_ellipse(e, b))
        for a, b in pairwise(knots)
    ]


def clip(curve: Curve, window: Box) -> list[Curve]:
    """Give the pieces of a curve that lie in a window, exact for lines, arcs and ellipses."""
    if _covers(window, box(curve)):
        return [curve]
    if isinstance(curve, Line):
        piece = clip_line(curve.a, curve.b, window)
        return [Line(*piece)] if piece else []
    if isinstance(curve, Poly):
        return _clip_poly(curve, window)
    e = as_ellipse(curve)
    cuts = sorted({e.t0, e.t1, *_within(e, _border_crossings(e, window))})
    spans: list[tuple[float, float]] = []
    for a, b in pairwise(cuts):
        if not contains(window, on_ellipse(e, (a + b) / 2)):
            continue
        if spans and spans[-1][1] == a:
            a = spans.pop()[0]
        spans.append((a, b))
    if isinstance(curve, Arc):
        return [Arc(curve.centre, curve.radius, a, b) for a, b in spans]
    return [EllipseArc(e.centre, e.major, e.minor, a, b) for a, b in spans]


def _border_crossings(e: EllipseArc, window: Box) -> list[float]:
    angles = []
    for axis, border in ((0, window[0]), (0, window[2]), (1, window[1]), (1, window[3])):
        reach = hypot(e.major[axis], e.minor[axis])
        offset = border - e.centre[axis]
        if abs(offset) < reach:
            middle, half = atan2(e.minor[axis], e.major[axis]), acos(offset / reach)
            angles += [middle - half, middle + half]
    return angles


def _covers(window: Box, inner: Box) -> bool:
    return (
        window[0] <= inner[0]
        and window[1] <= inner[1]
        and inner[2] <= window[2]
        and inner[3] <= window[3]
    )


def contains(window: Box, p: Point2, slack: float = 0.0) -> bool:
    """Say whether a point lies in a window."""
    return (
        window[0] - slack <= p[0] <= window[2] + slack
        and window[1] - slack <= p[1] <= window[3] + slack
    )


def clip_line(a: Point2, b: Point2, window: Box) -> tuple[Point2, Point2] | None:
    """Give the part of a segment in a window, None when less than a point's width remains."""
    lo, hi = 0.0, 1.0
    for axis in (0, 1):
        d, p = b[axis] - a[axis], a[axis]
        low, high = window[axis] - p, window[axis + 2] - p
        if d == 0.0:
            if low > 0.0 or high < 0.0:
                return None
            continue
        t0, t1 = sorted((low / d, high / d))
        lo, hi = max(lo, t0), min(hi, t1)
    if (hi - lo) * dist(a, b) <= 1e-9:
        return None

    def along(t: float) -> Point2:
        return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))

    return (a if lo == 0.0 else along(lo), b if hi == 1.0 else along(hi))


def _clip_poly(curve: Poly, window: Box) -> list[Curve]:
    tracks: list[list[Point2]] = []
    for a, b in pairwise(curve.points):
        piece = clip_line(a, b, window)
        if piece is None:
            continue
        if tracks and tracks[-1][-1] == piece[0]:
            tracks[-1].append(piece[1])
        else:
            tracks.append(list(piece))
    return [Poly(tuple(t)) for t in tracks]


def clip_area(track: Sequence[Point2], window: Box) -> list[Point2]:
    """Cut a closed area to a window (Sutherland and Hodgman, CACM 17, 1974)."""
    area = list(track)
    for axis, border, sign in ((0, 0, 1.0), (0, 2, -1.0), (1, 1, 1.0), (1, 3, -1.0)):
        limit, cut = window[border], []
        for a, b in zip(area, [*area[1:], *area[:1]], strict=True):
            da, db = sign * (a[axis] - limit), sign * (b[axis] - limit)
            if da >= 0:
                cut.append(a)
            if da * db < 0:
                t = da / (da - db)
                cut.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
        area = cut
    return area


def unit(a: Point2, b: Point2) -> Point2:
    """Give the direction from a to b, (1, 0) when they are one point."""
    d = sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)
    return ((b[0] - a[0]) / d, (b[1] - a[1]) / d) if d > 1e-12 else (1.0, 0.0)


def principal(arc: EllipseArc) -> EllipseArc:
    """Write an elliptical arc with its true axes: perpendicular, the major longer, turning left."""
    m, n = arc.major, arc.minor
    twist = (
        atan2(
            2 * (m[0] * n[0] + m[1] * n[1]),
            m[0] ** 2 + m[1] ** 2 - n[0] ** 2 - n[1] ** 2,
        )
        / 2
    )
    c, s = cos(twist), sin(twist)
    major = (c * m[0] + s * n[0], c * m[1] + s * n[1])
    minor = (c * n[0] - s * m[0], c * n[1] - s * m[1])
    t0, t1 = arc.t0 - twist, arc.t1 - twist
    if major[0] * minor[1] - major[1] * minor[0] < 0:
        minor, t0, t1 = (-minor[0], -minor[1]), -t1, -t0
    return EllipseArc(arc.centre, major, minor, t0, t1)
