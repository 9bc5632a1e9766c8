"""Whether two parts take the same space: metal in metal. That they touch is no overlap.

Most pairs are settled at once, by boxes, and by zones that lie wholly in a cut of the other part
(a piston in the bore, a pin in its hole). What is left in doubt is settled by rays, in closed form,
and only then numpy is loaded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import hypot, inf

from drafting.records import dataclass
from drafting.shape.boxes import Box, apart, around, box_of
from drafting.shape.frame import WORLD, Vec, X, Y, Z, dot, scale, sub
from drafting.shape.pieces import (
    Ball,
    Cone,
    Line2,
    Part,
    Piece,
    Prism,
    Turned,
    extent,
    local_bounds,
    moved,
)
from drafting.shape.profile import Zone, as_turned, radius, zones_on

LEAST = 0.05
"""Metal shared over less than this (mm) is a fit or a rounding, no overlap."""
SAME = 0.02
"""Sizes that differ by no more than this (mm) are the same."""
RAYS = 24
"""Rays along each axis, in each of the two directions across it."""
AXES = (X, Y, Z)


@dataclass(frozen=True, slots=True)
class Block:
    """A piece in its box. What is turned about the cylinder's axis has its zones in world places.

    Metal comes zone by zone then, a cut as a whole.
    """

    piece: Piece
    box: Box
    zones: tuple[Zone, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Filled:
    """A part made ready: its metal and its cuts in blocks, and the box round its metal."""

    part: Part
    box: Box
    metal: tuple[Block, ...]
    cuts: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Shared:
    """Where two pieces of two parts share metal, and over how much along the axis (mm)."""

    one: Piece
    other: Piece
    along: float


def filled(part: Part) -> Filled:
    """Make a part ready."""
    metal: list[Block] = []
    cuts: list[Block] = []
    for piece in part.pieces:
        zones = _on_axis(piece)
        if piece.cut:
            cuts.append(Block(piece, box_of(piece), zones))
        elif zones:
            metal += [Block(piece, _round(z), (z,)) for z in zones]
        else:
            metal.append(Block(piece, box_of(piece)))
    return Filled(part, around([b.box for b in metal]), tuple(metal), tuple(cuts))


def shifted(part: Filled, x: float) -> Filled:
    """Give the part moved along the axis."""
    return filled(moved(part.part, x))


def overlap(a: Filled, b: Filled) -> Shared | None:
    """Give the first metal that two parts share, None when they are apart or only touch."""
    if apart(a.box, b.box, least=LEAST):
        return None
    for one in a.metal:
        if apart(one.box, b.box, least=LEAST):
            continue
        for other in b.metal:
            if apart(one.box, other.box, least=LEAST):
                continue
            if _covered(one, other, b.cuts) or _covered(other, one, a.cuts):
                continue
            if not _separate(one.piece, other.piece):
                along = _by_rays(a.part, b.part, one.box, other.box)
                if along:
                    return Shared(one.piece, other.piece, along)
    return None


def _on_axis(piece: Piece) -> tuple[Zone, ...]:
    """Give the zones of what is turned about the cylinder's axis in world places, else none."""
    f = piece.frame
    if not isinstance(piece.shape, Turned) or f.origin[1] or f.origin[2] or abs(f.x[0]) != 1.0:
        return ()
    if f.x[0] == 1.0 and f.origin[0] == 0.0:
        return piece.shape.zones
    return zones_on(piece, WORLD) or ()


def _round(zone: Zone) -> Box:
    r = zone.radius if isinstance(zone, Ball) else max(zone.r0, zone.r1)
    return (zone.x0, zone.x1, -r, r, -r, r)


# --- what lies in the cuts of the other part ---------------------------------------------------


def _covered(block: Block, other: Block, cuts: Sequence[Block]) -> bool:
    """Tell whether a block, as far as it could meet the other one, lies in cuts of its part."""
    a, b = block.box, other.box
    shared = (
        max(a[0], b[0]),
        min(a[1], b[1]),
        max(a[2], b[2]),
        min(a[3], b[3]),
        max(a[4], b[4]),
        min(a[5], b[5]),
    )
    near = [c for c in cuts if not apart(c.box, shared)]
    if not near:
        return False
    if block.zones:
        rooms = [z for c in near for z in c.zones]
        return _runs_in(block.zones, rooms, shared[0], shared[1])
    piece = as_turned(block.piece)
    if isinstance(piece.shape, Turned):
        f = piece.frame
        rooms = [z for c in near for z in zones_on(as_turned(c.piece), f) or ()]
        at = dot(f.origin, f.x)
        lo, hi = extent(other.piece, f.x)
        if rooms and _runs_in(piece.shape.zones, rooms, lo - at, hi - at):
            return True
    return any(_in_cut(block.piece, other.piece, as_turned(c.piece)) for c in near)


def _runs_in(zones: Iterable[Zone], rooms: Iterable[Zone], lo: float, hi: float) -> bool:
    """Tell whether all zones between two places of their axis lie in rooms about the same one."""
    for zone in zones:
        x, end = max(zone.x0, lo), min(zone.x1, hi)
        while x < end - SAME:
            wide = (r for r in rooms if r.x0 <= x + SAME < r.x1 and _is_in(zone, r, x, end))
            x = max((r.x1 for r in wide), default=-inf)
            if x == -inf:
                return False
    return True


def _is_in(zone: Zone, room: Zone, x: float, end: float) -> bool:
    a, b = max(x, room.x0), min(end, room.x1)
    places = (a, b) if isinstance(zone, Cone) and isinstance(room, Cone) else (a, (a + b) / 2, b)
    return all(radius(zone, p) <= radius(room, p) + SAME for p in places)


def _in_cut(piece: Piece, other: Piece, cut: Piece) -> bool:
    """Tell whether a piece lies in one cut: in a block, or (a prism) in a drilling along it."""
    f, g = piece.frame, cut.frame
    bounds = local_bounds(cut.shape)
    axes: tuple[Vec, ...] = ()
    if isinstance(cut.shape, Turned):
        if not isinstance(piece.shape, Prism) or abs(abs(dot(f.z, g.x)) - 1.0) > 1e-12:
            return False
        off = sub(g.origin, f.origin)
        centre = (dot(off, f.x), dot(off, f.y))
        ends = [
            hypot(p[0] - centre[0], p[1] - centre[1]) + r
            for e in piece.shape.outline
            for p, r in (((e.a, 0.0),) if isinstance(e, Line2) else ((e.centre, e.radius),))
        ]
        least = min(radius(z, x) for z in cut.shape.zones for x in (z.x0, z.x1))
        axes = (g.x,) if max(ends) <= least + SAME else ()
    else:
        axes = (g.x, g.y, g.z) if _is_rectangle(cut.shape) else ()
    for axis, lo, hi in zip(axes, bounds[0], bounds[1], strict=False):
        at = dot(g.origin, axis)
        (a0, a1), (b0, b1) = extent(piece, axis), extent(other, axis)
        if max(a0, b0) - at < lo - SAME or min(a1, b1) - at > hi + SAME:
            return False
    return bool(axes)


def _is_rectangle(shape: Prism) -> bool:
    return len(shape.outline) == 4 and all(
        isinstance(e, Line2) and (e.a[0] == e.b[0] or e.a[1] == e.b[1]) for e in shape.outline
    )


def _separate(one: Piece, other: Piece) -> bool:
    """Tell whether a plane parts two pieces: across an axis of one, or across the way between."""
    axes = [axis for f in (one.frame, other.frame) for axis in (f.x, f.y, f.z)]
    gap = sub(other.frame.origin, one.frame.origin)
    for along in (one.frame.x, other.frame.x):
        across = sub(gap, scale(along, dot(gap, along)))
        size = dot(across, across)
        if size > SAME:
            axes.insert(0, scale(across, size**-0.5))
    for axis in axes:
        (a0, a1), (b0, b1) = extent(one, axis), extent(other, axis)
        if min(a1, b1) - max(a0, b0) <= LEAST:
            return True
    return False


# --- rays --------------------------------------------------------------------------------------


def _by_rays(a: Part, b: Part, one: Box, other: Box) -> float:
    """Give over how much two parts share metal along the axis in the box of two blocks (mm).

    Rays run along the three axes; the middle of a shared stretch counts when the metal goes on for
    half of ``LEAST`` to all sides. What fits between the rays is missed.
    """
    import numpy as np

    from drafting.shape.body import body

    lo = [max(one[2 * k], other[2 * k]) for k in range(3)]
    hi = [min(one[2 * k + 1], other[2 * k + 1]) for k in range(3)]
    first, second = body(a), body(b)
    found: list[Vec] = []
    for k, axis in enumerate(AXES):
        u, v = (k + 1) % 3, (k + 2) % 3
        steps = (np.arange(RAYS) + 0.5) / RAYS
        rays = np.zeros((RAYS * RAYS, 3))
        rays[:, u] = np.repeat(lo[u] + steps * (hi[u] - lo[u]), RAYS)
        rays[:, v] = np.tile(lo[v] + steps * (hi[v] - lo[v]), RAYS)
        pairs = zip(first.runs(rays, axis), second.runs(rays, axis), strict=True)
        for ray, (own, theirs) in zip(rays.tolist(), pairs, strict=True):
            for start, end in _common(own, theirs, lo[k], hi[k]):
                ray[k] = (start + end) / 2
                found.append((ray[0], ray[1], ray[2]))
    if not found:
        return 0.0
    spots = np.array(found)
    solid = np.ones(len(spots), bool)
    for axis in AXES:
        for side in (-LEAST / 2, LEAST / 2):
            beside = spots + side * np.array(axis)
            solid &= first.inside(beside) & second.inside(beside)
    if not solid.any():
        return 0.0
    runs = zip(first.runs(spots[solid], X), second.runs(spots[solid], X), strict=True)
    return max(
        (e - s for own, theirs in runs for s, e in _common(own, theirs, -1e9, 1e9)), default=LEAST
    )


def _common(
    a: Sequence[tuple[float, float]], b: Sequence[tuple[float, float]], lo: float, hi: float
) -> Iterator[tuple[float, float]]:
    """Give the stretches longer than ``LEAST`` that two lists share between lo and hi."""
    for a0, a1 in a:
        for b0, b1 in b:
            start, end = max(a0, b0, lo), min(a1, b1, hi)
            if end - start > LEAST:
                yield start, end
