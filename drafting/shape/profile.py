"""Turned pieces on one axis as plane profiles: the union of materials, less the union of cuts.

Everything lies in the half plane (x along the axis, r >= 0), in millimetres. Because a turned
piece reaches from the axis out to its zones, a union is the greater radius and a difference is
the space between two radii. Volumes come out in closed form.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import pi, sqrt

from drafting.records import dataclass
from drafting.shape.frame import Frame, dot, scale, sub
from drafting.shape.pieces import Arc2, Ball, Cone, Piece, Prism, Turned

Zone = Cone | Ball
SAME = 1e-9
"""Lengths (mm) that differ by less are the same length."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A connected stretch of a difference profile: outer zones and, where hollow, inner ones.

    Both run in x from the same start to the same end without gaps; an inner cone of radius 0
    means that the metal reaches the axis.
    """

    outer: tuple[Zone, ...]
    inner: tuple[Zone, ...]


def as_turned(piece: Piece) -> Piece:
    """Give a prism over a full circle as the turned cylinder that it is; others unchanged."""
    shape = piece.shape
    if not isinstance(shape, Prism) or len(shape.outline) != 1:
        return piece
    edge = shape.outline[0]
    if not isinstance(edge, Arc2) or abs(edge.a1 - edge.a0 - 2 * pi) > SAME:
        return piece
    f = piece.frame
    frame = Frame(f.point((edge.centre[0], edge.centre[1], 0.0)), f.z, f.x, f.y)
    zone = Cone(shape.lo, edge.radius, shape.hi, edge.radius)
    return replace(piece, shape=Turned((zone,)), frame=frame)


def zones_on(piece: Piece, axis: Frame) -> tuple[Zone, ...] | None:
    """Give a turned piece's zones along the x axis of another frame; None when not coaxial."""
    if not isinstance(piece.shape, Turned):
        return None
    gap = sub(piece.frame.origin, axis.origin)
    shift = dot(gap, axis.x)
    off = sub(gap, scale(axis.x, shift))
    sense = dot(piece.frame.x, axis.x)
    if abs(abs(sense) - 1.0) > 1e-12 or dot(off, off) > SAME**2:
        return None
    if sense > 0:
        return tuple(_mapped(z, 1.0, shift) for z in piece.shape.zones)
    return tuple(_mapped(z, -1.0, shift) for z in reversed(piece.shape.zones))


def _mapped(zone: Zone, sense: float, shift: float) -> Zone:
    a, b = sense * zone.x0 + shift, sense * zone.x1 + shift
    if isinstance(zone, Ball):
        return Ball(min(a, b), max(a, b), sense * zone.centre + shift, zone.radius)
    if sense > 0:
        return Cone(a, zone.r0, b, zone.r1)
    return Cone(b, zone.r1, a, zone.r0)


def radius(zone: Zone, x: float) -> float:
    """Give the radius of a zone at x (mm)."""
    if isinstance(zone, Ball):
        return sqrt(max(zone.radius**2 - (x - zone.centre) ** 2, 0.0))
    if zone.r0 == zone.r1:
        return zone.r0
    return zone.r0 + (zone.r1 - zone.r0) * (x - zone.x0) / (zone.x1 - zone.x0)


def clipped(zone: Zone, x0: float, x1: float) -> Zone:
    """Give the same surface between two other x."""
    if isinstance(zone, Ball):
        return Ball(x0, x1, zone.centre, zone.radius)
    return Cone(x0, radius(zone, x0), x1, radius(zone, x1))


def union(zones: Iterable[Zone]) -> tuple[Zone, ...]:
    """Give the outermost zones of overlapping ones, in order of x; gaps stay gaps."""
    every = [z for z in zones if z.x1 - z.x0 > SAME]
    xs = _stations(every)
    chosen: list[Zone] = []
    for a, b in pairwise(xs):
        mid = (a + b) / 2
        over = [z for z in every if z.x0 < mid < z.x1]
        if over:
            _append(chosen, clipped(max(over, key=lambda z: radius(z, mid)), a, b))
    return tuple(chosen)


def rings(materials: Iterable[Zone], cuts: Iterable[Zone]) -> tuple[Ring, ...]:
    """Give the connected stretches of metal between the cuts' radius and the materials' one."""
    solid, hollow = union(materials), union(cuts)
    found: list[tuple[list[Zone], list[Zone]]] = []
    end = None
    for a, b in pairwise(_stations([*solid, *hollow])):
        mid = (a + b) / 2
        outer = next((z for z in solid if z.x0 < mid < z.x1), None)
        inner = next((z for z in hollow if z.x0 < mid < z.x1), Cone(a, 0.0, b, 0.0))
        if outer is None or radius(outer, mid) <= radius(inner, mid) + SAME:
            continue
        if end is None or end < a or not _joined(found[-1], outer, inner, a):
            found.append(([], []))
        _append(found[-1][0], clipped(outer, a, b))
        _append(found[-1][1], clipped(inner, a, b))
        end = b
    return tuple(Ring(tuple(o), tuple(i)) for o, i in found)


def zone_volume(zone: Zone) -> float:
    """Give the volume from the axis out to a zone (mm3)."""
    if isinstance(zone, Cone):
        return pi * (zone.x1 - zone.x0) * (zone.r0**2 + zone.r0 * zone.r1 + zone.r1**2) / 3
    a, b = zone.x0 - zone.centre, zone.x1 - zone.centre
    return pi * (zone.radius**2 * (b - a) - (b**3 - a**3) / 3)


def ring_volume(ring: Ring) -> float:
    """Give the volume of a stretch of metal (mm3)."""
    return sum(map(zone_volume, ring.outer)) - sum(map(zone_volume, ring.inner))


def _joined(last: tuple[list[Zone], list[Zone]], outer: Zone, inner: Zone, x: float) -> bool:
    """Tell whether the metal left of x and right of x share a ring of face."""
    top = min(radius(last[0][-1], x), radius(outer, x))
    return top > max(radius(last[1][-1], x), radius(inner, x)) + SAME


def _append(zones: list[Zone], zone: Zone) -> None:
    """Add a zone, joining it with the last one when both are the same surface."""
    if zones and abs(zones[-1].x1 - zone.x0) < SAME:
        last = zones[-1]
        if isinstance(last, Ball) and isinstance(zone, Ball):
            if (last.centre, last.radius) == (zone.centre, zone.radius):
                zones[-1] = Ball(last.x0, zone.x1, zone.centre, zone.radius)
                return
        elif isinstance(last, Cone) and isinstance(zone, Cone):
            whole = Cone(last.x0, last.r0, zone.x1, zone.r1)
            if max(abs(radius(whole, zone.x0) - r) for r in (last.r1, zone.r0)) < SAME:
                zones[-1] = whole
                return
    zones.append(zone)


def _stations(zones: Sequence[Zone]) -> list[float]:
    """Give every x where the order of the zones' radii may change, each once."""
    xs = [x for z in zones for x in (z.x0, z.x1)]
    for i, a in enumerate(zones):
        for b in zones[i + 1 :]:
            lo, hi = max(a.x0, b.x0), min(a.x1, b.x1)
            if hi > lo:
                xs += [x for x in _crossings(a, b) if lo < x < hi]
    out: list[float] = []
    for x in sorted(xs):
        if not out or x - out[-1] > SAME:
            out.append(x)
    return out


def _crossings(a: Zone, b: Zone) -> list[float]:
    if isinstance(a, Ball) and isinstance(b, Ball):
        if a.centre == b.centre:
            return []
        gap = b.centre - a.centre
        return [(a.radius**2 - b.radius**2 + b.centre**2 - a.centre**2) / (2 * gap)]
    if isinstance(a, Ball):
        return _crossings(b, a)
    slope = (a.r1 - a.r0) / (a.x1 - a.x0)
    base = a.r0 - slope * a.x0
    if isinstance(b, Cone):
        other = (b.r1 - b.r0) / (b.x1 - b.x0)
        if slope == other:
            return []
        return [(b.r0 - other * b.x0 - base) / (slope - other)]
    p, q = 1 + slope**2, base * slope - b.centre
    root = q * q - p * (base**2 + b.centre**2 - b.radius**2)
    return [] if root < 0 else [(-q + s * sqrt(root)) / p for s in (-1, 1)]
