"""What may be an edge or a contour of a part: rims of its pieces, meetings of its faces, turns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from drafting.shape.faces import Box, Face, stations, touching
from drafting.shape.frame import Vec, cross, dot, scale, sub
from drafting.shape.meetings import ZERO, crossing
from drafting.shape.pieces import Line2, Part, Turned
from drafting.shape.profile import as_turned
from drafting.shape.space_curves import ELLIPSE, LINE, TURN, Curve3, Kind

SECTION = "section"
"""The name of the cut piece that a section subtracts."""
ON = 1e-6
"""A face at less than this distance (mm) runs through the point."""
SHORT = 1e-6
"""Edges shorter than this (mm) are points."""


def rims(part: Part, faces: Sequence[Face]) -> Iterator[Curve3]:
    """Give the rims of every piece of a part."""
    count = 0
    for i, piece in enumerate(part.pieces):
        own = [k for k, f in enumerate(faces[count:], count) if f.piece == i]
        count += len(own)
        kind: Kind = "section" if piece.name == SECTION else "rim"
        shape, f = as_turned(piece).shape, as_turned(piece).frame
        if isinstance(shape, Turned):
            for x, before, after in stations(shape):
                o = f.point((x, 0.0, 0.0))
                for r in {before, after}:
                    if r > SHORT:
                        a, b = scale(f.y, r), scale(f.z, r)
                        yield Curve3(ELLIPSE, o, a, b, 0.0, TURN, (own[0], own[-1]), i, kind)
            continue
        for k, e in enumerate(shape.outline):
            side = own[2 + k]
            for cap, z in zip(own, (shape.lo, shape.hi), strict=False):
                if isinstance(e, Line2):
                    ends = f.point((*e.a, z)), f.point((*e.b, z))
                    yield _straight(*ends, (cap, side), i, kind)
                else:
                    o = f.point((*e.centre, z))
                    a, b = scale(f.x, e.radius), scale(f.y, e.radius)
                    yield Curve3(ELLIPSE, o, a, b, e.a0, e.a1, (cap, side), i, kind)
            if len(shape.outline) > 1:
                start = e.a if isinstance(e, Line2) else e.at(e.a0)
                ends = f.point((*start, shape.lo)), f.point((*start, shape.hi))
                before_side = own[2 + (k - 1) % len(shape.outline)]
                yield _straight(*ends, (before_side, side), i, kind)


def _straight(a: Vec, b: Vec, faces: tuple[int, int], piece: int, kind: Kind) -> Curve3:
    d = sub(b, a)
    size = dot(d, d) ** 0.5
    return Curve3(LINE, a, scale(d, 1 / size), ZERO, 0.0, size, faces, piece, kind)


def crossings(part: Part, faces: Sequence[Face]) -> Iterator[Curve3]:
    """Give where faces of different pieces meet."""
    lo = np.array([f.box[0] for f in faces])
    hi = np.array([f.box[1] for f in faces])
    of = np.array([f.piece for f in faces])
    first, second = touching(lo, hi, lo, hi, ON)
    apart = of[first] < of[second]
    for i, j in zip(first[apart].tolist(), second[apart].tolist(), strict=True):
        f, g = faces[i], faces[j]
        box = _common_box(f.box, g.box)
        one, other = part.pieces[f.piece], part.pieces[g.piece]
        named = f.piece if one.cut and not other.cut else g.piece
        section = SECTION in (one.name, other.name)
        if section:
            named = f.piece if other.name == SECTION else g.piece
        yield from crossing(f, g, i, j, box, named, "section" if section else "crossing")


def _common_box(a: Box, b: Box) -> Box:
    lo = [max(p, q) for p, q in zip(a[0], b[0], strict=True)]
    hi = [min(p, q) for p, q in zip(a[1], b[1], strict=True)]
    return (lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])


def contour(f: Face, index: int, eye: Vec) -> Iterator[Curve3]:
    """Give where a face turns away from an eye in that direction."""
    both = (index, index)
    if f.kind == "sphere":
        u = cross(eye, f.n)
        if dot(u, u) < 1e-18:
            u = cross(eye, f.u)
        u = scale(u, f.size * dot(u, u) ** -0.5)
        yield Curve3(ELLIPSE, f.o, u, cross(eye, u), 0.0, TURN, both, f.piece, "contour")
        return
    if f.kind == "plane":
        return
    # On the surface the normal is across(angle) - slope * axis; it is square to the eye twice.
    x, y = dot(f.u, eye), dot(f.v, eye)
    level = f.size * dot(f.n, eye) if f.kind == "cone" else 0.0
    reach = (x * x + y * y) ** 0.5
    if reach <= abs(level) + 1e-9:
        return
    middle, swing = np.arctan2(y, x), np.arccos(level / reach)
    for angle in (middle - swing, middle + swing):
        turn = (angle - f.a0 + 1e-9) % TURN
        if turn <= f.a1 - f.a0 + 2e-9:
            ends = f.at(f.lo, angle), f.at(f.hi, angle)
            yield _straight(*ends, both, f.piece, "contour")
