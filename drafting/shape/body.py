"""Where rays run through metal: closed-form spans of every piece, cuts subtracted, many at once.

Arrays hold points as rows (n, 3) in world millimetres. All rays of one call share a direction.
Loaded only by what needs it: this module imports numpy.
"""

from __future__ import annotations

from collections.abc import Sequence
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

Span = tuple[Floats, Floats]
"""From and to of each ray (n)."""
Spans = tuple[Floats, Floats]
"""The same of several zones or cells (k, n)."""


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
        (rows,) = found.nonzero()
        for piece in self.cuts:
            found[rows[piece.inside(points.take(rows, 0))]] = False
        return found

    def length(self, points: Floats, d: Vec, start: float = -FAR) -> Floats:
        """Give how much metal (mm) each ray meets from the parameter ``start`` on."""
        lo, hi = _spans(self.materials, points, d)
        total: Floats = np.maximum(hi - np.maximum(lo, start), 0.0).max(axis=0)
        rows = np.flatnonzero(total > 0.0)
        if len(rows) and (self.cuts or len(lo) > 1):
            cuts = _spans(self.cuts, points.take(rows, 0), d)
            metal = lo.take(rows, 1), hi.take(rows, 1)
            total[rows] = _ahead(*_sweep(metal, cuts), start)
        return total

    def hides(self, points: Floats, d: Vec, start: float, least: float) -> Flags:
        """Tell for each ray whether it meets ``least`` mm of metal from ``start`` on, or more.

        As ``length`` tells, which is asked only where a cut or several pieces decide.
        """
        lo, hi = _spans(self.materials, points, d)
        most = (hi - np.maximum(lo, start)).max(axis=0)
        found: Flags = most >= least
        unsure = (most > 0.0) & ~found & (len(lo) > 1)
        (rows,) = (most > 0.0 if self.cuts else unsure).nonzero()
        cut_lo, cut_hi = _spans(self.cuts, points.take(rows, 0), d)
        here = (cut_hi > np.maximum(cut_lo, start)).any(axis=0) | unsure[rows]
        rows, cuts = rows[here], (cut_lo.compress(here, 1), cut_hi.compress(here, 1))
        if len(rows):
            metal = lo.take(rows, 1), hi.take(rows, 1)
            found[rows] = _ahead(*_sweep(metal, cuts), start) >= least
        return found

    def runs(self, points: Floats, d: Vec) -> list[list[tuple[float, float]]]:
        """Give for each ray its stretches of metal as parameters (mm along the unit vector d)."""
        at, metal = _sweep(*(_spans(some, points, d) for some in (self.materials, self.cuts)))
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


@lru_cache(maxsize=512)
def body(part: Part) -> Body:
    """Give a part made ready; the same part is made ready once."""
    return Body(part)


def _spans(pieces: Sequence[_Placed], points: Floats, d: Vec) -> Spans:
    """Give (from, to) of each ray (n) through each zone or cell of pieces (k, n)."""
    some = [span for piece in pieces for span in piece.spans(points, d)]
    lo, hi = ([span[k] for span in some] for k in (0, 1))
    shape = (len(some), len(points))
    return np.array(lo).reshape(shape), np.array(hi).reshape(shape)


def _sweep(metal: Spans, cuts: Spans) -> tuple[Floats, Flags]:
    """Give sorted parameters (n, k) and whether metal lies between each and the next."""
    step = np.repeat([1, 1000, -1, -1000], [len(some) for some in (metal[0], cuts[0])] * 2)
    at = np.concatenate([metal[0], cuts[0], metal[1], cuts[1]]).T
    order = np.argsort(at, axis=1)
    depth = np.cumsum(step[order], axis=1)[:, :-1]
    return np.take_along_axis(at, order, 1), (depth > 0) & (depth < 1000)


def _ahead(at: Floats, metal: Flags, start: float) -> Floats:
    """Give how much metal (mm) each ray meets from ``start`` on."""
    run = np.maximum(at[:, 1:], start) - np.maximum(at[:, :-1], start)
    found: Floats = (run * metal).sum(axis=1)
    return found


class _Placed:
    """A piece with its frame as a matrix, and convex cells or zones."""

    def __init__(self, piece: Piece) -> None:
        piece = as_turned(piece)
        self.shape = piece.shape
        f = piece.frame
        self.origin = np.array(f.origin)[:, None]
        self.axes = (f.x, f.y, f.z)
        self.turn = np.array(self.axes)
        self.turned: dict[Vec, Vec] = {}
        if not isinstance(self.shape, Turned):
            self.cells = [_Cell(c) for c in convex_cells(self.shape.outline)]

    def inside(self, points: Floats) -> Flags:
        """Tell for each point whether it lies in the piece (n,)."""
        x, y, z = self._own(points)
        found = np.zeros(len(points), bool)
        if isinstance(self.shape, Turned):
            r2 = y**2 + z**2
            for zone in self.shape.zones:
                found |= _in_zone(zone, x, r2)
            return found
        for cell in self.cells:
            found |= cell.inside(x, y)
        level: Flags = (z >= self.shape.lo) & (z <= self.shape.hi)
        return found & level

    def spans(self, points: Floats, d: Vec) -> list[Span]:
        """Give (from, to) arrays, one pair for each zone or cell; empty ones lie at FAR."""
        x, y, z = self._own(points)
        e = self._turned(d)
        if isinstance(self.shape, Turned):
            r2, cross = y * y + z * z, e[1] * y + e[2] * z
            return [_through_zone(zone, x, r2, cross, e) for zone in self.shape.zones]
        slab = _slab(z, e[2], self.shape.lo, self.shape.hi)
        return [_both(cell.through(x, y, e[0], e[1]), slab) for cell in self.cells]

    def _turned(self, d: Vec) -> Vec:
        """Give a direction in the frame of the piece."""
        if d not in self.turned:
            a, b, c = (0.0 if abs(c) < 1e-14 else c for c in (dot(d, axis) for axis in self.axes))
            self.turned[d] = (a, b, c)
        return self.turned[d]

    def _own(self, points: Floats) -> Floats:
        """Give points in the frame of the piece: a long row for each coordinate."""
        own: Floats = self.turn @ (points.T - self.origin)
        return own


def _in_zone(zone: Cone | Ball, x: Floats, r2: Floats) -> Flags:
    within = (x >= zone.x0) & (x <= zone.x1)
    if isinstance(zone, Ball):
        return within & (r2 + (x - zone.centre) ** 2 <= zone.radius**2)
    slope = (zone.r1 - zone.r0) / (zone.x1 - zone.x0)
    return within & (r2 <= (zone.r0 + slope * (x - zone.x0)) ** 2)


def _slab(x: Floats, dx: float, lo: float, hi: float) -> Span:
    if dx == 0.0:
        hit = (x >= lo) & (x <= hi)
        return np.where(hit, -FAR, FAR), np.where(hit, FAR, FAR)
    a, b = (lo - x) / dx, (hi - x) / dx
    return (a, b) if dx > 0 else (b, a)


def _both(a: Span, b: Span) -> Span:
    lo, hi = np.maximum(a[0], b[0]), np.minimum(a[1], b[1])
    empty = hi <= lo
    return np.where(empty, FAR, lo), np.where(empty, FAR, hi)


def _through_zone(
    zone: Cone | Ball, x: Floats, r2: Floats, cross: Floats, e: Sequence[float]
) -> Span:
    """Give the span through a zone.

    ``r2`` are the squared distances from its axis, ``cross`` what of the way is along the ray.
    """
    across = e[1] ** 2 + e[2] ** 2
    if isinstance(zone, Ball):
        s = x - zone.centre
        sphere = _below(1.0, cross + e[0] * s, r2 + s * s - zone.radius**2)
        return _both(sphere, _slab(x, e[0], zone.x0, zone.x1))
    if zone.r0 == zone.r1:
        b, c = cross, r2 - zone.r0 * zone.r0
        if e[0] == 0.0 and across > 1e-12:
            return _roots(across, b, c, (x >= zone.x0) & (x <= zone.x1))
        return _both(_below(across, b, c), _slab(x, e[0], zone.x0, zone.x1))
    slab = _slab(x, e[0], zone.x0, zone.x1)
    k = (zone.r1 - zone.r0) / (zone.x1 - zone.x0)
    rho = zone.r0 + k * (x - zone.x0)
    a, b = across - (k * e[0]) ** 2, cross - k * e[0] * rho
    c = r2 - rho * rho
    if a > -1e-12:
        return _both(_below(a, b, c), slab)
    # A ray steeper than the cone: inside outside the roots, on one nappe each; the slab has one.
    root = np.sqrt(np.maximum(b * b - a * c, 0.0))
    t0, t1 = (-b + root) / a, (-b - root) / a
    first = _both((np.full_like(t0, -FAR), t0), slab)
    second = _both((t1, np.full_like(t1, FAR)), slab)
    use = first[1] - first[0] >= second[1] - second[0]
    return np.where(use, first[0], second[0]), np.where(use, first[1], second[1])


def _roots(a: float, b: Floats, c: Floats, where: Flags | bool = True) -> Span:
    """Give where a t^2 + 2 b t + c <= 0, for a > 0."""
    disc = b * b - a * c
    root = np.sqrt(np.maximum(disc, 0.0))
    hit = (disc > 0.0) & where
    return np.where(hit, (-b - root) / a, FAR), np.where(hit, (-b + root) / a, FAR)


def _below(a: float, b: Floats, c: Floats) -> Span:
    """Give where a t^2 + 2 b t + c <= 0, for a >= 0."""
    if a > 1e-12:
        return _roots(a, b, c)
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

    def through(self, x: Floats, y: Floats, dx: float, dy: float) -> Span:
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
