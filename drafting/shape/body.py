"""Where rays run through metal: closed-form spans of every piece, cuts subtracted, many at once.

Arrays hold points as rows (n, 3) in world millimetres. All rays of one call share a direction.
Loaded only by what needs it: this module imports numpy.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from drafting.arrays import Flags, Floats
from drafting.shape.convex import convex_cells, halved
from drafting.shape.frame import Vec, dot
from drafting.shape.pieces import (
    Arc2,
    Ball,
    Cone,
    Line2,
    Outline,
    Part,
    Piece,
    Point2,
    Turned,
    bounds,
)
from drafting.shape.profile import as_turned

FAR = 1e9
"""Where an empty span lies (mm): beyond everything, with no length."""
GRAIN = 1e-9
"""Edges of outlines reach this much farther (relative), so that a ray through a corner hits."""


class Body:
    """A part made ready for points and rays."""

    def __init__(self, part: Part) -> None:
        self.part = part
        self.materials = [_Placed(p) for p in part.pieces if not p.cut]
        self.cuts = [_Placed(p) for p in part.pieces if p.cut]
        lo, hi = bounds(part.pieces)
        self.lo, self.hi = np.array(lo), np.array(hi)

    def inside(self, points: Floats) -> Flags:
        """Tell for each point whether it lies in metal (n,)."""
        found = np.zeros(len(points), bool)
        for piece in self.materials:
            found |= piece.inside(points)
        rows = np.flatnonzero(found)
        for piece in self.cuts:
            found[rows[piece.inside(points[rows])]] = False
        return found

    def length(self, points: Floats, d: Vec, start: float = -FAR) -> Floats:
        """Give how much metal (mm) each ray meets from the parameter ``start`` on."""
        lo, hi = _columns(self.materials, points, d)
        total: Floats = np.maximum(hi - np.maximum(lo, start), 0.0).max(axis=1)
        rows = np.flatnonzero(total > 0.0)
        if len(rows) and (self.cuts or lo.shape[1] > 1):
            at, metal = self._sweep(points[rows], d, lo[rows], hi[rows])
            run = np.maximum(at[:, 1:], start) - np.maximum(at[:, :-1], start)
            total[rows] = (run * metal).sum(axis=1)
        return total

    def runs(self, points: Floats, d: Vec) -> list[list[tuple[float, float]]]:
        """Give for each ray its stretches of metal as parameters (mm along the unit vector d)."""
        at, metal = self._sweep(points, d, *_columns(self.materials, points, d))
        out = []
        for stops, full in zip(at.tolist(), metal.tolist(), strict=True):
            runs: list[tuple[float, float]] = []
            for a, b, metal_here in zip(stops, stops[1:], full, strict=False):
                if metal_here and b - a > GRAIN:
                    joins = bool(runs) and a - runs[-1][1] < GRAIN
                    start = runs.pop()[0] if joins else a
                    runs.append((start, b))
            out.append(runs)
        return out

    def _sweep(self, points: Floats, d: Vec, lo: Floats, hi: Floats) -> tuple[Floats, Flags]:
        """Give sorted parameters (n, k) and whether metal lies between each and the next."""
        step = np.ones(lo.shape, int)
        if self.cuts:
            cut_lo, cut_hi = _columns(self.cuts, points, d)
            step = np.hstack([step, np.full(cut_lo.shape, 1000)])
            lo, hi = np.hstack([lo, cut_lo]), np.hstack([hi, cut_hi])
        at = np.hstack([lo, hi])
        order = np.argsort(at, axis=1)
        depth = np.cumsum(np.take_along_axis(np.hstack([step, -step]), order, 1), axis=1)[:, :-1]
        return np.take_along_axis(at, order, 1), (depth > 0) & (depth < 1000)


@lru_cache(maxsize=512)
def body(part: Part) -> Body:
    """Give a part made ready; the same part is made ready once."""
    return Body(part)


def _columns(pieces: list[_Placed], points: Floats, d: Vec) -> tuple[Floats, Floats]:
    spans = [s for piece in pieces for s in piece.spans(points, d)]
    return np.column_stack([s[0] for s in spans]), np.column_stack([s[1] for s in spans])


class _Placed:
    """A piece with its frame as a matrix, and convex cells or zones."""

    def __init__(self, piece: Piece) -> None:
        piece = as_turned(piece)
        self.shape = piece.shape
        f = piece.frame
        self.origin = np.array(f.origin)
        self.axes = (f.x, f.y, f.z)
        self.turn = np.array(self.axes).T
        if not isinstance(self.shape, Turned):
            self.cells = [_Cell(c) for c in convex_cells(self.shape.outline)]

    def inside(self, points: Floats) -> Flags:
        q = (points - self.origin) @ self.turn
        if isinstance(self.shape, Turned):
            r2 = q[:, 1] ** 2 + q[:, 2] ** 2
            found = np.zeros(len(q), bool)
            for zone in self.shape.zones:
                found |= _in_zone(zone, q[:, 0], r2)
            return found
        found = np.zeros(len(q), bool)
        for cell in self.cells:
            found |= cell.inside(q[:, 0], q[:, 1])
        level: Flags = (q[:, 2] >= self.shape.lo) & (q[:, 2] <= self.shape.hi)
        return found & level

    def spans(self, points: Floats, d: Vec) -> list[tuple[Floats, Floats]]:
        """Give (from, to) arrays, one pair for each zone or cell; empty ones lie at FAR."""
        q = (points - self.origin) @ self.turn
        e = [0.0 if abs(c) < 1e-14 else c for c in (dot(d, axis) for axis in self.axes)]
        if isinstance(self.shape, Turned):
            return [_through_zone(zone, q, e) for zone in self.shape.zones]
        slab = _slab(q[:, 2], e[2], self.shape.lo, self.shape.hi)
        return [_both(cell.through(q[:, 0], q[:, 1], e[0], e[1]), slab) for cell in self.cells]


def _in_zone(zone: Cone | Ball, x: Floats, r2: Floats) -> Flags:
    within = (x >= zone.x0) & (x <= zone.x1)
    if isinstance(zone, Ball):
        return within & (r2 + (x - zone.centre) ** 2 <= zone.radius**2)
    slope = (zone.r1 - zone.r0) / (zone.x1 - zone.x0)
    return within & (r2 <= (zone.r0 + slope * (x - zone.x0)) ** 2)


def _slab(x: Floats, dx: float, lo: float, hi: float) -> tuple[Floats, Floats]:
    if dx == 0.0:
        hit = (x >= lo) & (x <= hi)
        return np.where(hit, -FAR, FAR), np.where(hit, FAR, FAR)
    a, b = (lo - x) / dx, (hi - x) / dx
    return (a, b) if dx > 0 else (b, a)


def _both(a: tuple[Floats, Floats], b: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    lo, hi = np.maximum(a[0], b[0]), np.minimum(a[1], b[1])
    empty = hi <= lo
    return np.where(empty, FAR, lo), np.where(empty, FAR, hi)


def _through_zone(zone: Cone | Ball, q: Floats, e: list[float]) -> tuple[Floats, Floats]:
    x, y, z = q[:, 0], q[:, 1], q[:, 2]
    slab = _slab(x, e[0], zone.x0, zone.x1)
    cross, across = e[1] * y + e[2] * z, e[1] ** 2 + e[2] ** 2
    if isinstance(zone, Ball):
        s = x - zone.centre
        return _both(_below(1.0, cross + e[0] * s, y * y + z * z + s * s - zone.radius**2), slab)
    k = (zone.r1 - zone.r0) / (zone.x1 - zone.x0)
    rho = zone.r0 + k * (x - zone.x0)
    a, b = across - (k * e[0]) ** 2, cross - k * e[0] * rho
    c = y * y + z * z - rho * rho
    if a > -1e-12:
        return _both(_below(a, b, c), slab)
    # A ray steeper than the cone: inside outside the roots, on one nappe each; the slab has one.
    root = np.sqrt(np.maximum(b * b - a * c, 0.0))
    t0, t1 = (-b + root) / a, (-b - root) / a
    first = _both((np.full_like(t0, -FAR), t0), slab)
    second = _both((t1, np.full_like(t1, FAR)), slab)
    use = first[1] - first[0] >= second[1] - second[0]
    return np.where(use, first[0], second[0]), np.where(use, first[1], second[1])


def _below(a: float, b: Floats, c: Floats) -> tuple[Floats, Floats]:
    """Give where a t^2 + 2 b t + c <= 0, for a >= 0."""
    if a > 1e-12:
        disc = b * b - a * c
        root = np.sqrt(np.maximum(disc, 0.0))
        hit = disc > 0.0
        return np.where(hit, (-b - root) / a, FAR), np.where(hit, (-b + root) / a, FAR)
    flat = np.abs(b) < 1e-12
    t = -c / np.where(flat, 1.0, 2.0 * b)
    lo = np.where(flat, np.where(c <= 0.0, -FAR, FAR), np.where(b > 0.0, -FAR, t))
    hi = np.where(flat, FAR, np.where(b > 0.0, t, FAR))
    return lo, hi


class _Cell:
    """A convex outline for points and rays of its plane: lines, and arcs of at most a half turn.

    The points of such an arc are the points of its circle right of its chord.
    """

    def __init__(self, outline: Outline) -> None:
        edges = halved(outline)
        self.lines = [e for e in edges if isinstance(e, Line2)]
        self.arcs = [(e, e.at(e.a0), e.at(e.a1)) for e in edges if isinstance(e, Arc2)]

    def inside(self, x: Floats, y: Floats) -> Flags:
        """Tell for each point whether it lies in the cell."""
        found = np.ones(len(x), bool)
        for e in self.lines:
            found &= _left(e.a, e.b, x, y) >= 0.0
        for arc, a, b in self.arcs:
            near = (x - arc.centre[0]) ** 2 + (y - arc.centre[1]) ** 2 <= arc.radius**2
            found &= near | (_left(a, b, x, y) >= 0.0)
        return found

    def through(self, x: Floats, y: Floats, dx: float, dy: float) -> tuple[Floats, Floats]:
        """Give the (from, to) parameters of rays in the direction (dx, dy)."""
        if dx == 0.0 and dy == 0.0:
            hit = self.inside(x, y)
            return np.where(hit, -FAR, FAR), np.full(len(x), FAR)
        lo, hi = np.full(len(x), FAR), np.full(len(x), -FAR)
        for e in self.lines:
            ex, ey = e.b[0] - e.a[0], e.b[1] - e.a[1]
            det = ex * dy - ey * dx
            if abs(det) < 1e-12 * (abs(ex) + abs(ey)):
                continue
            gx, gy = e.a[0] - x, e.a[1] - y
            t = (ex * gy - ey * gx) / det
            u = (dx * gy - dy * gx) / det
            hit = (u >= -GRAIN) & (u <= 1.0 + GRAIN)
            lo, hi = np.where(hit & (t < lo), t, lo), np.where(hit & (t > hi), t, hi)
        size = dx * dx + dy * dy
        for arc, a, b in self.arcs:
            gx, gy = x - arc.centre[0], y - arc.centre[1]
            half, c = gx * dx + gy * dy, gx * gx + gy * gy - arc.radius**2
            disc = half * half - size * c
            root = np.sqrt(np.maximum(disc, 0.0))
            grain = GRAIN * arc.radius**2
            for t in ((-half - root) / size, (-half + root) / size):
                hit = (disc >= 0.0) & (_left(a, b, x + t * dx, y + t * dy) <= grain)
                lo, hi = np.where(hit & (t < lo), t, lo), np.where(hit & (t > hi), t, hi)
        empty = hi <= lo
        return np.where(empty, FAR, lo), np.where(empty, FAR, hi)


def _left(a: Point2, b: Point2, x: Floats, y: Floats) -> Floats:
    return (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
