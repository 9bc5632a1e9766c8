"""The vocabulary of shape: two kinds of solid, placed, named, in parts.

A part is the union of its material pieces minus the union of its cuts. A cut never leaves
its part. Two readers know this list: ``drawing/visible.py`` (strokes of a view) and
``solids/build.py`` (kernel solids). Neither adds material. All sizes in millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise
from math import acos, atan2, cos, hypot, pi, sin, sqrt
from typing import Literal

from drafting.records import dataclass
from drafting.shape.frame import WORLD, Frame, Vec, X, Y, Z, add, dot, scale

Point2 = tuple[float, float]
Owner = Literal["body", "rod"]


@dataclass(frozen=True, slots=True)
class Cone:
    """A zone of a turned profile from (x0, r0) to (x1, r1), x1 > x0; a cylinder when r0 == r1."""

    x0: float
    r0: float
    x1: float
    r1: float


@dataclass(frozen=True, slots=True)
class Ball:
    """A zone of a sphere with its centre on the axis at ``centre``, from x0 to x1."""

    x0: float
    x1: float
    centre: float
    radius: float


@dataclass(frozen=True, slots=True)
class Turned:
    """A solid of revolution about the frame's x axis.

    ``zones`` follow each other in x without gaps; the solid reaches from the axis out to them.
    """

    zones: tuple[Cone | Ball, ...]


@dataclass(frozen=True, slots=True)
class Line2:
    """A straight edge of an outline from a to b."""

    a: Point2
    b: Point2


@dataclass(frozen=True, slots=True)
class Arc2:
    """A circular edge, counterclockwise from a0 to a1 (radians, a1 > a0, at most a full turn)."""

    centre: Point2
    radius: float
    a0: float
    a1: float

    def at(self, angle: float) -> Point2:
        """Give the point at an angle."""
        return (
            self.centre[0] + self.radius * cos(angle),
            self.centre[1] + self.radius * sin(angle),
        )


Outline = tuple[Line2 | Arc2, ...]
"""A closed convex or non-convex loop, counterclockwise, each edge starting where the last ended."""


@dataclass(frozen=True, slots=True)
class Prism:
    """An outline in the frame's x-y plane swept along the frame's z axis from ``lo`` to ``hi``."""

    outline: Outline
    lo: float
    hi: float


@dataclass(frozen=True, slots=True)
class Piece:
    """A solid in its place. ``name`` is dotted (``rod_mount.pin``) and unique within its part."""

    name: str
    shape: Turned | Prism
    frame: Frame = WORLD
    cut: bool = False

    def within(self, outer: Frame) -> Piece:
        """Give this piece as seen from outside ``outer``, in which it is stated."""
        return replace(self, frame=self.frame.within(outer))


class _Remembering:
    """Has a place for the hash of an object that is asked for it often."""

    __slots__ = ("_hash",)
    _hash: int


@dataclass(frozen=True, slots=True)
class Part(_Remembering):
    """One piece of metal. ``hatched`` is False for what a section leaves whole (rod, pin, ball)."""

    name: str
    owner: Owner
    pieces: tuple[Piece, ...]
    hatched: bool = True

    def __hash__(self) -> int:
        """Give the same for equal parts; it is found once, as much is kept by parts."""
        try:
            return self._hash
        except AttributeError:
            found = hash((self.name, self.pieces))
            object.__setattr__(self, "_hash", found)
            return found


# --- turned shapes -----------------------------------------------------------------------------


def cylinder(radius: float, x0: float, x1: float) -> Turned:
    """Give a plain cylinder along x from x0 to x1."""
    return Turned((Cone(x0, radius, x1, radius),))


def stepped(*stations: tuple[float, float]) -> Turned:
    """Give a turned body through (x, r) stations: equal x is a step, a slope is a cone."""
    zones = [Cone(xa, ra, xb, rb) for (xa, ra), (xb, rb) in pairwise(stations) if xb > xa]
    return Turned(tuple(zones))


# --- outlines ----------------------------------------------------------------------------------


def circle(radius: float, centre: Point2 = (0.0, 0.0)) -> Outline:
    """Give a full circle."""
    return (Arc2(centre, radius, 0.0, 2 * pi),)


def polygon(points: Iterable[Point2]) -> Outline:
    """Give straight edges through the points, given counterclockwise."""
    p = tuple(points)
    return tuple(Line2(a, b) for a, b in zip(p, p[1:] + p[:1], strict=True))


def box(x0: float, x1: float, y0: float, y1: float) -> Outline:
    """Give a rectangle."""
    return polygon(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def tongue(radius: float, reach: float, root: float | None = None) -> Outline:
    """Give an eye round the origin running out to x = ``reach``.

    A half circle of ``radius`` on the -x side, flanks to the root: ``root`` is the half height at
    ``reach`` (the radius when left out). Flanks leave the circle tangentially.
    """
    half = radius if root is None else root
    if half == radius:
        return (
            Arc2((0.0, 0.0), radius, pi / 2, 3 * pi / 2),
            Line2((0.0, -radius), (reach, -radius)),
            Line2((reach, -radius), (reach, radius)),
            Line2((reach, radius), (0.0, radius)),
        )
    corner = hypot(reach, half)
    if corner <= radius:
        raise ValueError(f"an eye of radius {radius} swallows its root at {reach} by {half}")
    a = atan2(half, reach) + acos(radius / corner)
    top = (radius * cos(a), radius * sin(a))
    return (
        Arc2((0.0, 0.0), radius, a, 2 * pi - a),
        Line2((top[0], -top[1]), (reach, -half)),
        Line2((reach, -half), (reach, half)),
        Line2((reach, half), top),
    )


def hexagon(across_flats: float) -> Outline:
    """Give a hexagon with two corners on the x axis."""
    r = across_flats / 3**0.5
    return polygon((r * cos(k * pi / 3), r * sin(k * pi / 3)) for k in range(6))


# --- bounds ------------------------------------------------------------------------------------


def outline_bounds(outline: Outline) -> tuple[float, float, float, float]:
    """Give (x0, x1, y0, y1) of an outline."""
    xs: list[float] = []
    ys: list[float] = []
    for e in outline:
        ends = (e.a, e.b) if isinstance(e, Line2) else _arc_extremes(e)
        xs += [p[0] for p in ends]
        ys += [p[1] for p in ends]
    return min(xs), max(xs), min(ys), max(ys)


def _arc_extremes(arc: Arc2) -> list[Point2]:
    first = int(-(-arc.a0 // (pi / 2)))
    quarters = [k * pi / 2 for k in range(first, first + 5)]
    return [arc.at(a) for a in (arc.a0, arc.a1, *(q for q in quarters if arc.a0 <= q <= arc.a1))]


def local_bounds(shape: Turned | Prism) -> tuple[Vec, Vec]:
    """Give the two extreme corners of a shape in its own frame."""
    if isinstance(shape, Prism):
        x0, x1, y0, y1 = outline_bounds(shape.outline)
        return (x0, y0, shape.lo), (x1, y1, shape.hi)
    r = max(z.radius if isinstance(z, Ball) else max(z.r0, z.r1) for z in shape.zones)
    return (shape.zones[0].x0, -r, -r), (shape.zones[-1].x1, r, r)


def extent(piece: Piece, direction: Vec) -> tuple[float, float]:
    """Give the (least, greatest) coordinate of a piece along a unit direction, exactly."""
    f = piece.frame
    d = (dot(f.x, direction), dot(f.y, direction), dot(f.z, direction))
    base = dot(f.origin, direction)
    if isinstance(piece.shape, Prism):
        flat = [_outline_reach(piece.shape.outline, (s * d[0], s * d[1])) for s in (-1.0, 1.0)]
        ends = (piece.shape.lo * d[2], piece.shape.hi * d[2])
        return base - flat[0] + min(ends), base + flat[1] + max(ends)
    across = hypot(d[1], d[2])
    reaches = [
        [_zone_reach(zone, s * d[0], across) for zone in piece.shape.zones] for s in (-1.0, 1.0)
    ]
    return base - max(reaches[0]), base + max(reaches[1])


def _outline_reach(outline: Outline, d: Point2) -> float:
    best = float("-inf")
    for e in outline:
        points = [e.a, e.b] if isinstance(e, Line2) else [e.at(e.a0), e.at(e.a1)]
        if isinstance(e, Arc2):
            a = atan2(d[1], d[0])
            while a < e.a0:
                a += 2 * pi
            if a <= e.a1:
                points.append(e.at(a))
        best = max([best, *(p[0] * d[0] + p[1] * d[1] for p in points)])
    return best


def _zone_reach(zone: Cone | Ball, axial: float, across: float) -> float:
    if isinstance(zone, Cone):
        return max(zone.x0 * axial + zone.r0 * across, zone.x1 * axial + zone.r1 * across)
    length = hypot(axial, across)
    xs = [zone.x0, zone.x1]
    if length > 0:
        xs.append(min(max(zone.centre + zone.radius * axial / length, zone.x0), zone.x1))
    rims = [max(zone.radius**2 - (x - zone.centre) ** 2, 0.0) for x in xs]
    return max(x * axial + sqrt(r2) * across for x, r2 in zip(xs, rims, strict=True))


def bounds(pieces: Iterable[Piece]) -> tuple[Vec, Vec]:
    """Give the box round all material pieces, world axes."""
    solid = [p for p in pieces if not p.cut]
    spans = [[extent(p, axis) for p in solid] for axis in (X, Y, Z)]
    lo, hi = (
        [min(a for a, _ in s) for s in spans],
        [max(b for _, b in s) for s in spans],
    )
    return (lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])


def moved(part: Part, x: float) -> Part:
    """Give the part shifted along the cylinder's axis."""
    shift = scale((1.0, 0.0, 0.0), x)
    return replace(
        part,
        pieces=tuple(
            replace(p, frame=replace(p.frame, origin=add(p.frame.origin, shift)))
            for p in part.pieces
        ),
    )


def crown(radius: float, beside: float) -> float:
    """Give the height of a round surface of ``radius`` at a distance ``beside`` its crown."""
    return sqrt(max(radius**2 - beside**2, 0.0))
