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

from drafting.arrays import Flags, Floats, Hits, Ints, folded
from drafting.shape.body import body
from drafting.shape.candidates import ON, SHORT, contour, crossings, rims
from drafting.shape.faces import part_faces, touching
from drafting.shape.frame import Vec
from drafting.shape.kept import each_kept
from drafting.shape.pieces import Part
from drafting.shape.space_curves import LINE, TURN, Curve3, Curves, meet

RADIUS = 1e-3
"""How far from the point (mm) the sectors round it are probed."""


class _Table:
    """The faces of several parts as arrays; a part only ever meets its own."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self.faces = [part_faces(p) for p in parts]
        self.bodies = [body(p) for p in parts]
        counts = [len(f) for f in self.faces]
        every = [f for own in self.faces for f in own]
        self.part = np.repeat(np.arange(len(parts)), counts)
        self.first = np.cumsum([0, *counts[:-1]])
        self.quadrics = np.array([f.quadric for f in every]).reshape(-1, 4, 4)
        self.lo = np.array([f.box[0] for f in every]).reshape(-1, 3)
        self.hi = np.array([f.box[1] for f in every]).reshape(-1, 3)

    def inside(self, points: Floats, part: Ints) -> Flags:
        """Tell for each point whether it lies in the metal of its part."""
        found = np.zeros(len(points), bool)
        for k, solid in enumerate(self.bodies):
            (rows,) = (part == k).nonzero()
            if len(rows):
                found[rows] = solid.inside(points.take(rows, 0))
        return found


@lru_cache(maxsize=16)
def _table(parts: tuple[Part, ...]) -> _Table:
    """Give the faces of parts; the looks at one position ask for the same."""
    return _Table(parts)


class _Candidates:
    """Curves of several parts, and the part of each."""

    def __init__(self, some: Sequence[Sequence[Curve3]]) -> None:
        self.parts = len(some)
        self.curves = Curves([c for own in some for c in own])
        self.part = np.repeat(np.arange(len(some)), [len(own) for own in some])

    def by_part(self, index: Ints, t0: Floats, t1: Floats) -> list[tuple[Curve3, ...]]:
        """Give the stretches of each part, joined where they follow each other."""
        out: list[list[Curve3]] = [[] for _ in range(self.parts)]
        part = self.part.tolist()
        for i, a, b in _joined(self.curves, index, t0, t1):
            c = self.curves.all[i]
            out[part[i]].append(
                Curve3(c.form, c.c, c.a, c.b, a, b, c.faces, c.piece, c.kind, c.ruled)
            )
        return [tuple(own) for own in out]


@each_kept(256)
def part_edges(parts: Sequence[Part]) -> list[tuple[Curve3, ...]]:
    """Give the sharp edges of each part, whatever the view."""
    table = _table(tuple(parts))
    found = _Candidates(
        [
            [*rims(p, faces), *crossings(p, faces)]
            for p, faces in zip(parts, table.faces, strict=True)
        ]
    )
    if not len(found.curves):
        return [()] * len(parts)
    index, t0, t1 = _stretches(found, table)
    keep = _sharp(found, index, t0, t1, table)
    return found.by_part(index[keep], t0[keep], t1[keep])


@each_kept(256)
def contours(some: Sequence[tuple[Part, Vec]]) -> list[tuple[Curve3, ...]]:
    """Give for each part and eye the lines where its surface turns away from the eye."""
    table = _table(tuple(part for part, _ in some))
    found = _Candidates(
        [
            [c for i, f in enumerate(faces) for c in contour(f, i, eye)]
            for (_, eye), faces in zip(some, table.faces, strict=True)
        ]
    )
    if not len(found.curves):
        return [()] * len(some)
    index, t0, t1 = _stretches(found, table)
    part = found.part[index]
    p = found.curves.at(index, inner(t0, t1))
    h = np.column_stack([p, np.ones(len(p))])
    own = table.quadrics.take(table.first[part] + found.curves.faces[index, 0], 0)
    n = np.einsum("nij,nj->ni", own, h)[:, :3]
    n *= RADIUS / _long(n)[:, None]
    before, behind = table.inside(np.concatenate([p + n, p - n]), np.tile(part, 2)).reshape(2, -1)
    keep = before != behind
    return found.by_part(index[keep], t0[keep], t1[keep])


def _stretches(found: _Candidates, table: _Table) -> tuple[Ints, Floats, Floats]:
    """Split every curve where it meets a face; give curve indices and parameter ranges."""
    curves = found.curves
    i, j = touching(*curves.boxes(), table.lo, table.hi, ON)
    own = found.part[i] == table.part[j]
    i, j = i[own], j[own]
    row, t = meet(curves, i, table.quadrics.take(j, 0))
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
        np.sqrt(folded(np.add, curves.a**2) + folded(np.add, curves.b**2)),
    )
    for k, (_, points) in curves.nodes.items():
        size[k] = np.ptp(points, axis=0).max()
    return size[index]


def inner(t0: Floats, t1: Floats) -> Floats:
    """Give a parameter near the middle that no round number falls on."""
    return t0 + 0.48713 * (t1 - t0)


def _sharp(found: _Candidates, index: Ints, t0: Floats, t1: Floats, table: _Table) -> Flags:
    curves, part = found.curves, found.part[index]
    t = inner(t0, t1)
    p, d = curves.at(index, t), curves.tangent(index, t)
    d /= _long(d)[:, None]
    u = np.cross(d, np.where(np.abs(d[:, :1]) < 0.6, [[1.0, 0.0, 0.0]], [[0.0, 1.0, 0.0]]))
    u /= _long(u)[:, None]
    v = np.cross(d, u)
    row, angle = _through(p, u, v, part, table)
    # Sectors: between each angle and the next, and the same half a turn on.
    last = np.append(row[1:] != row[:-1], True)
    first = np.flatnonzero(np.insert(row[1:] != row[:-1], 0, True))
    after = np.arange(1, len(row) + 1)
    after[last] = first
    middle = (angle + np.where(last, angle[after] + pi, angle[after])) / 2
    reach = np.cos(middle)[:, None] * u.take(row, 0) + np.sin(middle)[:, None] * v.take(row, 0)
    at = p.take(row, 0)
    probe = np.concatenate([at + RADIUS * reach, at - RADIUS * reach])
    full = table.inside(probe, np.tile(part[row], 2)).reshape(2, -1)
    n = len(p)
    lines = np.bincount(row, minlength=n)
    metal = np.bincount(row, weights=full.sum(0), minlength=n)
    # Changes round the point: along one half turn, over to the other, and along that.
    nxt = np.where(last[None], full[::-1][:, after], full[:, after])
    changes = np.bincount(row, weights=(full != nxt).sum(0), minlength=n)
    half = (metal == lines) & (changes == 2)
    sharp: Flags = (metal > 0) & (metal < 2 * lines) & ~half
    return sharp


def _through(p: Floats, u: Floats, v: Floats, part: Ints, table: _Table) -> Hits:
    """Give (point, angle) of each different tangent line at each point, sorted."""
    h = np.column_stack([p, np.ones(len(p))])
    i, j = touching(p, p, table.lo, table.hi, ON)
    own = part[i] == table.part[j]
    i, j = i[own], j[own]
    here = h.take(i, 0)
    slope = np.einsum("nij,nj->ni", table.quadrics.take(j, 0), here)
    level = folded(np.add, slope * here)
    slope = slope[:, :3] * 2
    size = _long(slope)
    x, y = (folded(np.add, slope * w.take(i, 0)) for w in (u, v))
    on = (np.abs(level) < np.minimum(ON * size, 1e-4)) & (np.hypot(x, y) > 1e-7 * size)
    i, angle = i[on], (np.arctan2(y[on], x[on]) + pi / 2) % pi
    angle[angle > pi - 1e-6] -= pi
    order = np.lexsort((angle, i))
    i, angle = i[order], angle[order]
    new = np.insert((i[1:] != i[:-1]) | (angle[1:] - angle[:-1] > 2e-6), 0, True)[: len(i)]
    return i[new], angle[new]


def _long(some: Floats) -> Floats:
    """Give the lengths of vectors (n, 3)."""
    found: Floats = np.sqrt(folded(np.add, some * some))
    return found


def _joined(
    curves: Curves, index: Ints, t0: Floats, t1: Floats
) -> Iterator[tuple[int, float, float]]:
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
    return ((int(i), a, b) for i, a, b in kept)
