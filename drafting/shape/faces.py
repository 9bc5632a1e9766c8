"""The faces of pieces: planes, cylinders, cones and spheres, each a quadric with its bounds.

A quadric is a symmetric 4 x 4 matrix M with f(p) = [p 1] M [p 1]; f is near the distance in mm
close to the face, and negative on the axis side (a plane: behind its normal).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise
from math import cos, pi, sin, sqrt
from typing import Literal

import numpy as np

from drafting.arrays import Floats, Pairs
from drafting.records import dataclass
from drafting.shape.frame import Frame, Vec, add, dot, scale
from drafting.shape.pieces import (
    Ball,
    Cone,
    Line2,
    Part,
    Piece,
    Prism,
    Turned,
    local_bounds,
    outline_bounds,
)
from drafting.shape.profile import as_turned, radius, union

Box = tuple[Vec, Vec]


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """A bounded face of the piece at index ``piece`` of its part.

    ``o`` is a point of the plane or of the axis, the apex, or the centre. ``n`` is the plane's
    normal or the axis (for a sphere: of its piece); ``u``, ``v`` complete it. ``size`` is the
    radius; for a cone the slope dr/ds with s from the apex. ``lo``, ``hi`` bound s along the axis
    from ``o``; ``a0``, ``a1`` the angle from u towards v.
    """

    piece: int
    kind: Literal["plane", "cylinder", "cone", "sphere"]
    o: Vec
    n: Vec
    u: Vec
    v: Vec
    size: float
    lo: float
    hi: float
    a0: float
    a1: float
    box: Box
    quadric: Floats

    def at(self, s: float, angle: float) -> Vec:
        """Give the point of a cylinder or cone at s along the axis and an angle."""
        r = self.size * s if self.kind == "cone" else self.size
        out = add(scale(self.u, r * cos(angle)), scale(self.v, r * sin(angle)))
        return add(add(self.o, scale(self.n, s)), out)


@lru_cache(maxsize=4096)
def faces_of(piece: Piece, index: int) -> tuple[Face, ...]:
    """Give all faces of a piece."""
    piece = as_turned(piece)
    if isinstance(piece.shape, Turned):
        return tuple(_turned_faces(piece.shape, piece.frame, index))
    return tuple(_prism_faces(piece.shape, piece.frame, index))


@lru_cache(maxsize=256)
def part_faces(part: Part) -> tuple[Face, ...]:
    """Give all faces of all pieces of a part."""
    return tuple(f for i, p in enumerate(part.pieces) for f in faces_of(p, i))


def touching(lo: Floats, hi: Floats, other_lo: Floats, other_hi: Floats, slack: float) -> Pairs:
    """Give the pairs of boxes (n, d) and (m, d) that come within ``slack`` of one another."""
    near = np.ones((len(lo), len(other_lo)), bool)
    for a, b, c, d in zip(lo.T, hi.T, other_lo.T, other_hi.T, strict=True):
        near &= a[:, None] <= d + slack
        near &= (b + slack)[:, None] >= c
    i, j = np.divmod(np.flatnonzero(near), max(len(other_lo), 1))
    return i, j


def stations(shape: Turned) -> list[tuple[float, float, float]]:
    """Give (x, radius before, radius after) at each end of a zone; outside the radius is 0."""
    zones = union(shape.zones)
    out = [(zones[0].x0, 0.0, radius(zones[0], zones[0].x0))]
    for a, b in pairwise(zones):
        out.append((a.x1, radius(a, a.x1), radius(b, b.x0)))
    out.append((zones[-1].x1, radius(zones[-1], zones[-1].x1), 0.0))
    return out


def _turned_faces(shape: Turned, f: Frame, index: int) -> Iterable[Face]:
    for x, before, after in stations(shape):
        if abs(before - after) > 1e-9:
            yield _disc(f, x, max(before, after), index)
    for zone in union(shape.zones):
        yield _zone_face(zone, f, index)


def _disc(f: Frame, x: float, r: float, index: int) -> Face:
    o = f.point((x, 0.0, 0.0))
    box = _swept_box(f, x, x, r)
    return _face("plane", index, o, f, box)


def _zone_face(zone: Cone | Ball, f: Frame, index: int) -> Face:
    box = _swept_box(f, zone.x0, zone.x1, _widest(zone))
    if isinstance(zone, Ball):
        o = f.point((zone.centre, 0.0, 0.0))
        lo, hi = zone.x0 - zone.centre, zone.x1 - zone.centre
        return _face("sphere", index, o, f, box, zone.radius, lo, hi)
    if zone.r0 == zone.r1:
        return _face("cylinder", index, f.origin, f, box, zone.r0, zone.x0, zone.x1)
    slope = (zone.r1 - zone.r0) / (zone.x1 - zone.x0)
    apex = zone.x0 - zone.r0 / slope
    o = f.point((apex, 0.0, 0.0))
    return _face("cone", index, o, f, box, slope, zone.x0 - apex, zone.x1 - apex)


def _widest(zone: Cone | Ball) -> float:
    if isinstance(zone, Cone):
        return max(zone.r0, zone.r1)
    nearest = min(max(zone.centre, zone.x0), zone.x1)
    return radius(zone, nearest)


def _swept_box(f: Frame, x0: float, x1: float, r: float) -> Box:
    a, b = f.point((x0, 0.0, 0.0)), f.point((x1, 0.0, 0.0))
    reach = [r * sqrt(max(1.0 - c * c, 0.0)) for c in f.x]
    lo = [min(p, q) - e for p, q, e in zip(a, b, reach, strict=True)]
    hi = [max(p, q) + e for p, q, e in zip(a, b, reach, strict=True)]
    return (lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])


def _prism_faces(shape: Prism, f: Frame, index: int) -> Iterable[Face]:
    axis = Frame(f.origin, f.z, f.x, f.y)
    flat = local_bounds(shape)
    for z in (shape.lo, shape.hi):
        corners = (flat[0][0], flat[0][1], z), (flat[1][0], flat[1][1], z)
        yield _face("plane", index, f.point((0.0, 0.0, z)), axis, _turned_box(f, *corners))
    for e in shape.outline:
        x0, x1, y0, y1 = outline_bounds((e,))
        box = _turned_box(f, (x0, y0, shape.lo), (x1, y1, shape.hi))
        if isinstance(e, Line2):
            dx, dy = e.b[0] - e.a[0], e.b[1] - e.a[1]
            size = sqrt(dx * dx + dy * dy)
            n = f.vector((dy / size, -dx / size, 0.0))
            along = f.vector((dx / size, dy / size, 0.0))
            o = f.point((e.a[0], e.a[1], 0.0))
            yield _face("plane", index, o, Frame(o, n, along, f.z), box)
        else:
            o = f.point((e.centre[0], e.centre[1], 0.0))
            span = (e.a0, e.a1)
            yield _face("cylinder", index, o, axis, box, e.radius, shape.lo, shape.hi, span)


def _turned_box(f: Frame, a: Vec, b: Vec) -> Box:
    corners = [f.point((x, y, z)) for x in (a[0], b[0]) for y in (a[1], b[1]) for z in (a[2], b[2])]
    lo = [min(c[i] for c in corners) for i in range(3)]
    hi = [max(c[i] for c in corners) for i in range(3)]
    return (lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])


def _face(
    kind: Literal["plane", "cylinder", "cone", "sphere"],
    piece: int,
    o: Vec,
    f: Frame,
    box: Box,
    size: float = 0.0,
    lo: float = 0.0,
    hi: float = 0.0,
    span: tuple[float, float] = (0.0, 2 * pi),
) -> Face:
    shape = _quadric(kind, o, f.x, size, max(abs(lo), abs(hi)))
    return Face(piece, kind, o, f.x, f.y, f.z, size, lo, hi, span[0], span[1], box, shape)


def _quadric(kind: str, o: Vec, n: Vec, size: float, reach: float) -> Floats:
    if kind == "plane":
        x, y, z = (c / 2 for c in n)
        level = -dot(n, o)
        return np.array(
            [[0.0, 0.0, 0.0, x], [0.0, 0.0, 0.0, y], [0.0, 0.0, 0.0, z], [x, y, z, level]]
        )
    if kind == "cylinder":
        bend, c, unit = 1.0, -size * size, 2 * size
    elif kind == "cone":
        bend, c, unit = 1 + size * size, 0.0, 2 * abs(size) * reach
    else:
        bend, c, unit = 0.0, -size * size, 2 * size
    # Square of the distance from the centre, less what of it lies along the axis.
    xx, yy, zz = (1.0 - bend * a * a for a in n)
    xy, yz, zx = -bend * n[0] * n[1], -bend * n[1] * n[2], -bend * n[2] * n[0]
    core = (xx, xy, zx), (xy, yy, yz), (zx, yz, zz)
    x, y, z = (-dot(row, o) for row in core)
    level = c - (x * o[0] + y * o[1] + z * o[2])
    return np.array([[xx, xy, zx, x], [xy, yy, yz, y], [zx, yz, zz, z], [x, y, z, level]]) / unit
