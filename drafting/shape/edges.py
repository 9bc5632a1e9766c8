"""The edges and contours of a part: candidates from its pieces, kept where the metal has an edge.

Candidates are the rims of every piece and the crossings of every two faces of different pieces.
Each is split where it meets a face of the part; between two splits nothing changes, and one look
round a point tells: the faces through the point divide its neighbourhood into sectors, each metal
or air. All, none or one half of metal is no edge; tangent and coplanar joints fall out by that.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import pi

import numpy as np

from drafting.arrays import Flags, Floats, Hits, Ints
from drafting.records import dataclass
from drafting.shape.body import Body, body
from drafting.shape.faces import Box, Face, part_faces, stations, touching
from drafting.shape.frame import Vec, cross, dot, scale, sub
from drafting.shape.meetings import ZERO, crossing
from drafting.shape.pieces import Line2, Part, Turned
from drafting.shape.profile import as_turned
from drafting.shape.space_curves import ELLIPSE, LINE, TURN, Curve3, Curves, Kind, meet

SECTION = "section"
"""The name of the cut piece that a section subtracts."""
RADIUS = 1e-3
"""How far from the point (mm) the sectors round it are probed."""
ON = 1e-6
"""A face at less than this distance (mm) runs through the point."""
SHORT = 1e-6
"""Edges shorter than this (mm) are points."""


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """What is drawn of a part: stretches from t0 to t1 of the curves with these indices."""

    curves: Curves
    index: Ints
    t0: Floats
    t1: Floats


@lru_cache(maxsize=256)
def part_edges(part: Part) -> Edges:
    """Give the sharp edges of a part, whatever the view."""
    faces = part_faces(part)
    curves = Curves([*_rims(part, faces), *_crossings(part, faces)])
    if not len(curves):
        return _none(curves)
    index, t0, t1 = _stretches(curves, faces)
    keep = _sharp(curves, index, t0, t1, faces, body(part))
    return _joined(curves, index[keep], t0[keep], t1[keep])


@lru_cache(maxsize=256)
def contours(part: Part, eye: Vec) -> Edges:
    """Give the lines where the surface of a part turns away from an eye in that direction."""
    faces = part_faces(part)
    curves = Curves([c for i, f in enumerate(faces) for c in _contour(f, i, eye)])
    if not len(curves):
        return _none(curves)
    index, t0, t1 = _stretches(curves, faces)
    p = curves.at(index, inner(t0, t1))
    h = np.column_stack([p, np.ones(len(p))])
    own = np.array([faces[k].quadric for k in curves.faces[index, 0]])
    n = np.einsum("nij,nj->ni", own, h)[:, :3]
    n *= RADIUS / np.linalg.norm(n, axis=1)[:, None]
    solid = body(part)
    keep = solid.inside(p + n) != solid.inside(p - n)
    return _joined(curves, index[keep], t0[keep], t1[keep])


# --- candidates --------------------------------------------------------------------------------


def _rims(part: Part, faces: Sequence[Face]) -> Iterator[Curve3]:
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


def _crossings(part: Part, faces: Sequence[Face]) -> Iterator[Curve3]:
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


def _contour(f: Face, index: int, eye: Vec) -> Iterator[Curve3]:
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


# --- what is an edge ---------------------------------------------------------------------------


def _stretches(curves: Curves, faces: Sequence[Face]) -> tuple[Ints, Floats, Floats]:
    """Split every curve where it meets a face; give curve indices and parameter ranges."""
    lo, hi = curves.boxes()
    flo = np.array([f.box[0] for f in faces])
    fhi = np.array([f.box[1] for f in faces])
    i, j = touching(lo, hi, flo, fhi, ON)
    quadrics = np.array([f.quadric for f in faces])
    row, t = meet(curves, i, quadrics[j])
    return split(curves, i[row], t)


def split(curves: Curves, index: Ints, t: Floats) -> tuple[Ints, Floats, Floats]:
    """Split whole curves at parameters t of curves ``index``; (curve, from, to) of each stretch."""
    every = np.arange(len(curves))
    return split_stretches(curves, every, curves.t0, curves.t1, index, t)


def split_stretches(
    curves: Curves, index: Ints, t0: Floats, t1: Floats, row: Ints, t: Floats
) -> tuple[Ints, Floats, Floats]:
    """Split stretches of curves ``index`` at parameters t of stretches ``row``; (row, from, to)."""
    turning = curves.turning[index[row]]
    t = np.where(turning, t0[row] + (t - t0[row]) % TURN, t)
    inside = (t > t0[row]) & (t < t1[row])
    every = np.arange(len(index))
    k = np.concatenate([every, every, row[inside]])
    at = np.concatenate([t0, t1, t[inside]])
    order = np.lexsort((at, k))
    k, at = k[order], at[order]
    size = _size(curves, index)
    same = (k[1:] == k[:-1]) & ((at[1:] - at[:-1]) * size[k[1:]] > SHORT)
    return k[:-1][same], at[:-1][same], at[1:][same]


def _size(curves: Curves, index: Ints) -> Floats:
    """Give about how many mm one unit of parameter is."""
    size = np.where(
        curves.form == LINE,
        1.0,
        np.sqrt((curves.a**2).sum(1) + (curves.b**2).sum(1)),
    )
    for k, (_, points) in curves.nodes.items():
        size[k] = np.ptp(points, axis=0).max()
    return size[index]


def inner(t0: Floats, t1: Floats) -> Floats:
    """Give a parameter near the middle that no round number falls on."""
    return t0 + 0.48713 * (t1 - t0)


def _sharp(
    curves: Curves, index: Ints, t0: Floats, t1: Floats, faces: Sequence[Face], solid: Body
) -> Flags:
    t = inner(t0, t1)
    p, d = curves.at(index, t), curves.tangent(index, t)
    d /= np.linalg.norm(d, axis=1)[:, None]
    u = np.cross(d, np.where(np.abs(d[:, :1]) < 0.6, [[1.0, 0.0, 0.0]], [[0.0, 1.0, 0.0]]))
    u /= np.linalg.norm(u, axis=1)[:, None]
    v = np.cross(d, u)
    row, angle = _through(p, u, v, faces)
    # Sectors: between each angle and the next, and the same half a turn on.
    last = np.append(row[1:] != row[:-1], True)
    first = np.flatnonzero(np.insert(row[1:] != row[:-1], 0, True))
    after = np.arange(1, len(row) + 1)
    after[last] = first
    middle = (angle + np.where(last, angle[after] + pi, angle[after])) / 2
    reach = np.cos(middle)[:, None] * u[row] + np.sin(middle)[:, None] * v[row]
    probe = np.concatenate([p[row] + RADIUS * reach, p[row] - RADIUS * reach])
    full = solid.inside(probe).reshape(2, -1)
    n = len(p)
    lines = np.bincount(row, minlength=n)
    metal = np.bincount(row, weights=full.sum(0), minlength=n)
    # Changes round the point: along one half turn, over to the other, and along that.
    nxt = np.where(last[None], full[::-1][:, after], full[:, after])
    changes = np.bincount(row, weights=(full != nxt).sum(0), minlength=n)
    half = (metal == lines) & (changes == 2)
    sharp: Flags = (metal > 0) & (metal < 2 * lines) & ~half
    return sharp


def _through(p: Floats, u: Floats, v: Floats, faces: Sequence[Face]) -> Hits:
    """Give (point, angle) of each different tangent line at each point, sorted."""
    quadrics = np.array([f.quadric for f in faces])
    h = np.column_stack([p, np.ones(len(p))])
    pairs = np.einsum("ni,nj->nij", h, h).reshape(len(p), 16)
    level = pairs @ quadrics.reshape(-1, 16).T
    lo = np.array([f.box[0] for f in faces]) - ON
    hi = np.array([f.box[1] for f in faces]) + ON
    i, j = np.nonzero(np.abs(level) < 1e-4)
    near = ((p[i] >= lo[j]) & (p[i] <= hi[j])).all(1)
    i, j = i[near], j[near]
    slope = np.einsum("nij,nj->ni", quadrics[j], h[i])[:, :3] * 2
    size = np.linalg.norm(slope, axis=1)
    x, y = (slope * u[i]).sum(1), (slope * v[i]).sum(1)
    on = (np.abs(level[i, j]) < ON * size) & (np.hypot(x, y) > 1e-7 * size)
    i, angle = i[on], (np.arctan2(y[on], x[on]) + pi / 2) % pi
    angle[angle > pi - 1e-6] -= pi
    order = np.lexsort((angle, i))
    i, angle = i[order], angle[order]
    new = np.insert((i[1:] != i[:-1]) | (angle[1:] - angle[:-1] > 2e-6), 0, True)[: len(i)]
    return i[new], angle[new]


def _none(curves: Curves) -> Edges:
    return Edges(curves, np.zeros(0, int), np.zeros(0), np.zeros(0))


def _joined(curves: Curves, index: Ints, t0: Floats, t1: Floats) -> Edges:
    """Join stretches that follow each other, round the start of closed curves too."""
    out: list[list[float]] = []
    for i, a, b in zip(index.tolist(), t0.tolist(), t1.tolist(), strict=True):
        if out and out[-1][0] == i and a - out[-1][2] < 1e-9:
            out[-1][2] = b
        else:
            out.append([i, a, b])
    kept: list[list[float]] = []
    start: dict[int, list[float]] = {}
    for run in out:
        i = int(run[0])
        if curves.full[i]:
            begin = start.setdefault(i, run)
            if begin is not run and run[2] > curves.t1[i] - 1e-9 and begin[1] < curves.t0[i] + 1e-9:
                begin[1], begin[2] = run[1], begin[2] + TURN
                continue
        kept.append(run)
    table = np.array(kept).reshape(-1, 3)
    return Edges(curves, table[:, 0].astype(int), table[:, 1], table[:, 2])
