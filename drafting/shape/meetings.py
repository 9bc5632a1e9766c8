"""Where two faces meet, in closed form: lines and ellipses where they are, else ruled curves.

Faces are taken as unbounded; what of a curve is an edge is found afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import sqrt

from drafting.shape.branches import branches
from drafting.shape.faces import Box, Face
from drafting.shape.frame import Vec, add, cross, dot, scale, sub, unit
from drafting.shape.ruled import Ruled
from drafting.shape.space_curves import ELLIPSE, LINE, RULED, TURN, Curve3, Kind

TOUCH = 1e-7
"""Faces that only touch within this distance (mm) do not cross."""


@lru_cache(maxsize=4096)
def crossing(
    f: Face, g: Face, i: int, j: int, box: Box, piece: int, kind: Kind
) -> tuple[Curve3, ...]:
    """Give the curves common to faces f and g (indices i, j); lines are clipped to the box.

    A part that is cut for a section keeps its faces, and so the curves where they meet.
    """
    return tuple(_crossing(f, g, i, j, box, piece, kind))


def _crossing(
    f: Face, g: Face, i: int, j: int, box: Box, piece: int, kind: Kind
) -> Iterator[Curve3]:
    order = {"plane": 0, "cylinder": 1, "cone": 2, "sphere": 3}
    if order[f.kind] > order[g.kind]:
        f, g = g, f
    for form, c, a, b, ruled in _common(f, g):
        if form == LINE:
            span = _clip(c, a, box)
            if span is not None:
                yield Curve3(LINE, c, a, b, *span, (i, j), piece, kind)
        elif ruled is None:
            yield Curve3(ELLIPSE, c, a, b, 0.0, TURN, (i, j), piece, kind)
        else:
            yield Curve3(RULED, c, a, b, ruled.t0, ruled.t1, (i, j), piece, kind, ruled)


_Found = tuple[int, Vec, Vec, Vec, Ruled | None]
ZERO: Vec = (0.0, 0.0, 0.0)


def _common(f: Face, g: Face) -> Iterator[_Found]:
    pair = (f.kind, g.kind)
    if pair == ("plane", "plane"):
        yield from _planes(f, g)
    elif pair == ("plane", "cylinder"):
        yield from _plane_cylinder(f.n, f.o, g)
    elif pair == ("plane", "cone"):
        yield from _plane_cone(f, g)
    elif pair == ("plane", "sphere"):
        d = dot(f.n, sub(f.o, g.o))
        yield from _circle(add(g.o, scale(f.n, d)), f.n, g.size**2 - d * d)
    elif pair == ("sphere", "sphere"):
        yield from _spheres(f, g)
    elif _coaxial(f, g):
        yield from _coaxial_circles(f, g)
    elif pair == ("cylinder", "cylinder"):
        yield from _cylinders(f, g)
    else:
        yield from _ruled(*_by_width(f, g))


def _planes(f: Face, g: Face) -> Iterator[_Found]:
    d = cross(f.n, g.n)
    size = dot(d, d)
    if size > 1e-16:
        p, q = dot(f.n, f.o), dot(g.n, g.o)
        foot = add(scale(cross(g.n, d), p / size), scale(cross(d, f.n), q / size))
        yield LINE, foot, scale(d, size**-0.5), ZERO, None


def _plane_cylinder(n: Vec, o: Vec, g: Face) -> Iterator[_Found]:
    lean = dot(n, g.n)
    gap = dot(n, sub(o, g.o))
    if abs(lean) < 1e-9:
        if abs(gap) < g.size - TOUCH:
            foot, side = add(g.o, scale(n, gap)), cross(n, g.n)
            half = sqrt(g.size**2 - gap**2)
            for s in (-half, half):
                yield LINE, add(foot, scale(side, s)), g.n, ZERO, None
        return
    centre = add(g.o, scale(g.n, gap / lean))
    if abs(lean) > 1 - 1e-12:
        yield ELLIPSE, centre, scale(g.u, g.size), scale(g.v, g.size), None
        return
    minor = unit(cross(g.n, n))
    yield ELLIPSE, centre, scale(cross(minor, n), g.size / abs(lean)), scale(minor, g.size), None


def _plane_cone(f: Face, g: Face) -> Iterator[_Found]:
    lean = dot(f.n, g.n)
    gap = dot(f.n, sub(f.o, g.o))
    if abs(lean) > 1 - 1e-12:
        s = gap / lean
        yield from _circle(add(g.o, scale(g.n, s)), g.n, (g.size * s) ** 2)
        return
    e1 = unit(sub(g.n, scale(f.n, lean)))
    e2 = cross(f.n, e1)
    k = 1 + g.size**2
    along, off = dot(e1, g.n), gap * lean
    # On the plane foot + x e1 + y e2: alpha x^2 + 2 beta x + gamma + y^2 = 0.
    alpha, beta, gamma = 1 - k * along**2, -k * along * off, gap**2 - k * off**2
    foot = add(g.o, scale(f.n, gap))
    if abs(gap) < TOUCH:
        if alpha < -1e-12:
            for s in (-1.0, 1.0):
                yield LINE, g.o, unit(add(e1, scale(e2, s * sqrt(-alpha)))), ZERO, None
    elif alpha > 1e-9:
        level = gamma - beta**2 / alpha
        if level < 0:
            centre = add(foot, scale(e1, -beta / alpha))
            yield ELLIPSE, centre, scale(e1, sqrt(-level / alpha)), scale(e2, sqrt(-level)), None
    else:
        yield from _ruled(g, f)


def _circle(centre: Vec, n: Vec, r2: float) -> Iterator[_Found]:
    if r2 > TOUCH**2:
        u = unit(cross(n, (0.0, 0.0, 1.0) if abs(n[2]) < 0.9 else (1.0, 0.0, 0.0)))
        yield ELLIPSE, centre, scale(u, sqrt(r2)), scale(cross(n, u), sqrt(r2)), None


def _spheres(f: Face, g: Face) -> Iterator[_Found]:
    gap = sub(g.o, f.o)
    d2 = dot(gap, gap)
    if d2 > TOUCH**2:
        s = (d2 + f.size**2 - g.size**2) / (2 * d2)
        yield from _circle(add(f.o, scale(gap, s)), scale(gap, d2**-0.5), f.size**2 - s * s * d2)


def _coaxial(f: Face, g: Face) -> bool:
    gap = sub(g.o, f.o)
    axis = g.n if f.kind == "sphere" else f.n
    off = sub(gap, scale(axis, dot(gap, axis)))
    apart = dot(off, off) > TOUCH**2
    return not apart and ("sphere" in (f.kind, g.kind) or abs(dot(f.n, g.n)) > 1 - 1e-12)


def _coaxial_circles(f: Face, g: Face) -> Iterator[_Found]:
    """Circles about the axis of f (cylinder or cone), at the s where both radii are equal."""
    if f.kind == g.kind == "cylinder":
        return
    at = dot(sub(g.o, f.o), f.n)
    # Squared radii over s: p2 s^2 + p1 s + p0 for either face.
    one = (0.0, 0.0, f.size**2) if f.kind == "cylinder" else (f.size**2, 0.0, 0.0)
    if g.kind == "sphere":
        two = (-1.0, 2 * at, g.size**2 - at * at)
    else:
        two = (g.size**2, -2 * at * g.size**2, (at * g.size) ** 2)
    a, b, c = (p - q for p, q in zip(one, two, strict=True))
    if abs(a) < 1e-12:
        roots = [-c / b] if abs(b) > 1e-12 else []
    else:
        disc = b * b - 4 * a * c
        roots = [(-b + s * sqrt(disc)) / (2 * a) for s in (-1, 1)] if disc > 1e-12 else []
    for s in roots:
        r2 = one[0] * s * s + one[2]
        yield from _circle(add(f.o, scale(f.n, s)), f.n, r2)


def _cylinders(f: Face, g: Face) -> Iterator[_Found]:
    gap = sub(g.o, f.o)
    if abs(dot(f.n, g.n)) > 1 - 1e-12:
        off = sub(gap, scale(f.n, dot(gap, f.n)))
        d = sqrt(dot(off, off))
        if abs(f.size - g.size) + TOUCH < d < f.size + g.size - TOUCH:
            x = (d * d + f.size**2 - g.size**2) / (2 * d)
            e = scale(off, 1 / d)
            side = scale(cross(f.n, e), sqrt(f.size**2 - x * x))
            for s in (-1.0, 1.0):
                yield LINE, add(add(f.o, scale(e, x)), scale(side, s)), f.n, ZERO, None
        return
    normal = cross(f.n, g.n)
    if abs(f.size - g.size) < 1e-9 and abs(dot(gap, unit(normal))) < TOUCH:
        size = dot(normal, normal)
        centre = add(f.o, scale(f.n, dot(cross(gap, g.n), normal) / size))
        for s in (-1.0, 1.0):
            yield from _plane_cylinder(unit(add(f.n, scale(g.n, s))), centre, f)
        return
    yield from _ruled(*_by_width(f, g))


def _by_width(f: Face, g: Face) -> tuple[Face, Face]:
    """Put the narrower ruled face first: its rulings are likelier to meet the other all round."""

    def width(x: Face) -> float:
        if x.kind == "sphere":
            return float("inf")
        return x.size if x.kind == "cylinder" else abs(x.size) * max(abs(x.lo), abs(x.hi))

    return (f, g) if width(f) <= width(g) else (g, f)


def _ruled(on: Face, other: Face) -> Iterator[_Found]:
    return ((RULED, ZERO, ZERO, ZERO, branch) for branch in branches(on, other))


def _clip(c: Vec, d: Vec, box: Box) -> tuple[float, float] | None:
    lo, hi = -1e9, 1e9
    for p, e, a, b in zip(c, d, *box, strict=True):
        if abs(e) < 1e-12:
            if p < a - 1e-6 or p > b + 1e-6:
                return None
            continue
        s, t = sorted(((a - p) / e, (b - p) / e))
        lo, hi = max(lo, s), min(hi, t)
    return (lo, hi) if hi - lo > 1e-5 else None
