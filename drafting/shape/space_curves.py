"""Curves in space, many at once: lines, ellipses and curves ruled on a cylinder or cone.

A line is c + t a (a of length 1, t in mm), an ellipse c + cos(t) a + sin(t) b. A ruled curve lies
on the rulings of one quadric where they meet another; its t follows the angle.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

import numpy as np

from drafting.arrays import Floats, Hits, Ints, folded
from drafting.shape.frame import Vec
from drafting.shape.ruled import Ruled, Rulings

LINE, ELLIPSE, RULED = 0, 1, 2
Kind = Literal["rim", "contour", "crossing", "section"]
TURN = 2 * pi
NODES = 97
"""How many points along a ruled curve tell where it changes sides."""
TWIN = 3e-5
"""Two roots nearer to their middle than this (mm) are one touch, which the middle gives exactly."""
TWIN_TURN = 1e-6
"""The same as an angle (radians)."""


@dataclass(slots=True)
class Curve3:
    """One curve between two parameters, on two faces of its part (indices), for one piece."""

    form: int
    c: Vec
    a: Vec
    b: Vec
    t0: float
    t1: float
    faces: tuple[int, int]
    piece: int
    kind: Kind
    ruled: Ruled | None = None


class Curves:
    """A sequence of curves as arrays."""

    def __init__(self, curves: Sequence[Curve3]) -> None:
        self.all = curves
        n = len(curves)
        self.form = np.array([c.form for c in curves], int)
        self.c = np.array([c.c for c in curves], float).reshape(n, 3)
        self.a = np.array([c.a for c in curves], float).reshape(n, 3)
        self.b = np.array([c.b for c in curves], float).reshape(n, 3)
        self.t0 = np.array([c.t0 for c in curves], float)
        self.t1 = np.array([c.t1 for c in curves], float)
        self.faces = np.array([c.faces for c in curves], int).reshape(n, 2)
        round_ = self.form == ELLIPSE
        closed = [c.ruled is not None and c.ruled.closed for c in curves]
        self.turning = round_ | np.array(closed, bool)
        self.full = self.turning & (self.t1 - self.t0 > TURN - 1e-9)
        self.nodes: dict[int, tuple[Floats, Floats]] = {}
        rows = np.flatnonzero(self.form == RULED)
        if len(rows):
            self.rulings = Rulings([c.ruled for c in curves if c.ruled is not None])
            self.ruled = np.zeros(n, int)
            self.ruled[rows] = np.arange(len(rows))
            t = np.linspace(self.t0[rows], self.t1[rows], NODES, axis=1)
            points = self.rulings.at(np.repeat(np.arange(len(rows)), NODES), t.ravel())
            for k, row in enumerate(rows.tolist()):
                self.nodes[row] = t[k], points[NODES * k : NODES * (k + 1)]

    def __len__(self) -> int:
        return len(self.all)

    def at(self, i: Ints, t: Floats) -> Floats:
        """Give points (n, 3) of curves i at parameters t."""
        straight = self.form[i] == LINE
        p = np.where(straight, t, np.cos(t))
        q = np.where(straight, 0.0, np.sin(t))
        a, b = self.a.take(i, 0), self.b.take(i, 0)
        out: Floats = self.c.take(i, 0) + p[:, None] * a + q[:, None] * b
        (rows,) = (self.form[i] == RULED).nonzero()
        if len(rows):
            out[rows] = self.rulings.at(self.ruled[i[rows]], t[rows])
        return out

    def tangent(self, i: Ints, t: Floats) -> Floats:
        """Give directions (n, 3), not of length 1."""
        straight = self.form[i] == LINE
        p = np.where(straight, 1.0, -np.sin(t))
        q = np.where(straight, 0.0, np.cos(t))
        out: Floats = p[:, None] * self.a.take(i, 0) + q[:, None] * self.b.take(i, 0)
        (rows,) = (self.form[i] == RULED).nonzero()
        if len(rows):
            k, step = self.ruled[i[rows]], 1e-5
            ahead, back = (self.rulings.at(k, t[rows] + d) for d in (step, -step))
            out[rows] = (ahead - back) / (2 * step)
        return out

    def boxes(self) -> tuple[Floats, Floats]:
        """Give corners (n, 3) of boxes that hold the curves."""
        ends = self.c + self.t0[:, None] * self.a, self.c + self.t1[:, None] * self.a
        straight = (self.form == LINE)[:, None]
        reach = np.sqrt(self.a**2 + self.b**2)
        lo = np.where(straight, np.minimum(*ends), self.c - reach)
        hi = np.where(straight, np.maximum(*ends), self.c + reach)
        for k, (_, points) in self.nodes.items():
            margin = np.abs(np.diff(points, axis=0)).max()
            lo[k], hi[k] = points.min(0) - margin, points.max(0) + margin
        return lo, hi


def meet(curves: Curves, i: Ints, quadrics: Floats) -> Hits:
    """Give (row, t) of every point where curve i[row] meets quadrics[row] (n, 4, 4).

    A curve that lies on its quadric gives nothing. Touching gives a parameter within about 1e-6 mm.
    Parameters are not yet brought into the curve's range.
    """
    rows: list[Ints] = [np.zeros(0, int)]
    ts: list[Floats] = [np.zeros(0)]
    form = curves.form[i]
    (one,) = (form != RULED).nonzero()
    if len(one):
        k, m = i[one], quadrics.take(one, 0)
        c = np.column_stack([curves.c.take(k, 0), np.ones(len(k))])
        a = curves.a.take(k, 0)
        ma = np.einsum("nij,nj->ni", m[:, :, :3], a)
        mc = np.einsum("nij,nj->ni", m, c)
        aa = folded(np.add, ma[:, :3] * a)
        ca, cc = folded(np.add, mc[:, :3] * a), folded(np.add, mc * c)
        straight = form[one] == LINE
        at, t = _quadratic(aa[straight], ca[straight], cc[straight])
        rows.append(one[straight][at])
        ts.append(t)
        bent = ~straight
        if bent.any():
            b = curves.b.take(k[bent], 0)
            mb = np.einsum("nij,nj->ni", m.compress(bent, 0)[:, :, :3], b)
            bb, ab, cb = (
                folded(np.add, w[:, :3] * b)
                for w in (mb, ma.compress(bent, 0), mc.compress(bent, 0))
            )
            at, t = trig_roots(
                cc[bent] + (aa[bent] + bb) / 2, 2 * ca[bent], 2 * cb, (aa[bent] - bb) / 2, ab
            )
            rows.append(one[bent][at])
            ts.append(t)
    (here,) = (form == RULED).nonzero()
    if len(here):
        at, t = _along_nodes(curves, i[here], quadrics.take(here, 0))
        rows.append(here[at])
        ts.append(t)
    return np.concatenate(rows), np.concatenate(ts)


def _quadratic(a: Floats, b: Floats, c: Floats) -> Hits:
    """Give (row, t) with a t^2 + 2 b t + c = 0."""
    bent = np.abs(a) > 1e-12
    disc = b * b - a * c
    hit = bent & (disc > -1e-9 * np.abs(a))
    safe = np.where(bent, a, 1.0)
    root = np.where(disc > (TWIN * a) ** 2, np.sqrt(np.maximum(disc, 0.0)), 0.0)
    flat = ~bent & (np.abs(b) > 1e-12)
    line = -c / np.where(flat, 2 * b, 1.0)
    near = np.abs(line) < 1e7
    (h,), (f,) = hit.nonzero(), (flat & near).nonzero()
    t = np.concatenate([((-b - root) / safe)[h], ((-b + root) / safe)[h], line[f]])
    return np.concatenate([h, h, f]), t


def trig_roots(c0: Floats, c1: Floats, s1: Floats, c2: Floats, s2: Floats) -> Hits:
    """Give (row, t) with c0 + c1 cos t + s1 sin t + c2 cos 2t + s2 sin 2t = 0, or touching 0."""
    first, second = np.hypot(c1, s1), np.hypot(c2, s2)
    plain = second < 1e-11
    hit = np.flatnonzero(plain & (first > 1e-10) & (np.abs(c0) <= first * (1 + 1e-9) + 1e-10))
    swing = np.arccos(np.clip(-c0[hit] / first[hit], -1.0, 1.0))
    swing[swing < TWIN_TURN] = 0.0
    swing[swing > pi - TWIN_TURN] = pi
    middle = np.arctan2(s1[hit], c1[hit])
    rows, ts = [hit, hit], [middle - swing, middle + swing]
    rest = np.flatnonzero(~plain & (np.abs(c0) <= first + second + 1e-9))
    if len(rest):
        at, t = _two_waves(*(c[rest] for c in (c0, c1, s1, c2, s2)))
        rows.append(rest[at])
        ts.append(t)
    return np.concatenate(rows), np.concatenate(ts)


def _two_waves(c0: Floats, c1: Floats, s1: Floats, c2: Floats, s2: Floats) -> Hits:
    """Find roots between the turning points, which are found between 48 even stations."""

    def value(r: Ints, t: Floats) -> Floats:
        return (
            c0[r] + c1[r] * np.cos(t) + s1[r] * np.sin(t)
            + c2[r] * np.cos(2 * t) + s2[r] * np.sin(2 * t)
        )  # fmt: skip

    def slope(r: Ints, t: Floats) -> Floats:
        return (
            s1[r] * np.cos(t) - c1[r] * np.sin(t)
            + 2 * (s2[r] * np.cos(2 * t) - c2[r] * np.sin(2 * t))
        )  # fmt: skip

    n = 48
    every = np.repeat(np.arange(len(c0)), n + 1)
    grid = np.tile(np.linspace(0.0, TURN, n + 1), len(c0)) + 0.0123
    d = slope(every, grid).reshape(-1, n + 1)
    r, k = np.nonzero(d[:, :-1] * d[:, 1:] <= 0.0)
    step = TURN / n
    station = 0.0123 + np.arange(n + 1, dtype=float) * step
    turn = bisect(lambda t: slope(r, t), station[k], station[k + 1])
    order = np.lexsort((turn, r))
    r, turn = r[order], turn[order]
    f = value(r, turn)
    touch = np.abs(f) < 1e-9
    last = np.append(r[1:] != r[:-1], True)
    first = np.flatnonzero(np.insert(r[1:] != r[:-1], 0, True))
    after = np.arange(1, len(r) + 1)
    after[last] = first
    b = np.where(last, turn[after] + TURN, turn[after])
    cross = np.flatnonzero((f * f[after] < 0.0) & ~touch & ~touch[after])
    rc = r[cross]
    root = bisect(lambda t: value(rc, t), turn[cross], b[cross])
    return np.concatenate([r[touch], rc]), np.concatenate([turn[touch], root])


def bisect(f: Callable[[Floats], Floats], a: Floats, b: Floats) -> Floats:
    """Give roots of f between a and b (arrays), where f changes sign; false position, halved."""
    fa, fb = f(a), f(b)
    for k in range(60):
        with np.errstate(divide="ignore", invalid="ignore"):
            m = a - fa * (b - a) / (fb - fa)
        m = np.where(np.isfinite(m) & (k % 3 != 2), m, (a + b) / 2)
        fm = f(m)
        left = fa * fm <= 0.0
        a, fa = np.where(left, a, m), np.where(left, fa, fm)
        b, fb = np.where(left, m, b), np.where(left, fm, fb)
        if not len(m) or ((b - a < 1e-13) | (np.abs(fm) < 1e-12)).all():
            break
    return np.where(np.abs(fa) < np.abs(fb), a, b)


def _along_nodes(curves: Curves, i: Ints, quadrics: Floats) -> Hits:
    """Give (row, t) where ruled curves i[row] meet quadrics[row]: between nodes, or touching."""

    def value(rows: Ints, at: Floats) -> Floats:
        p = curves.rulings.at(curves.ruled[i[rows]], at)
        p = np.column_stack([p, np.ones(len(at))])
        level: Floats = np.einsum("ni,nij,nj->n", p, quadrics.take(rows, 0), p)
        return level

    t = np.array([curves.nodes[k][0] for k in i.tolist()])
    p = np.array([curves.nodes[k][1] for k in i.tolist()])
    p = np.concatenate([p, np.ones((*t.shape, 1))], axis=2)
    f = folded(np.add, ((p @ quadrics) * p).swapaxes(1, 2))
    f[np.abs(f).max(axis=1) < 1e-7] = 1.0
    rows, k = np.nonzero(f[:, :-1] * f[:, 1:] <= 0.0)
    root = bisect(lambda at: value(rows, at), t[rows, k], t[rows, k + 1])
    least = np.abs(f[:, 1:-1])
    dip = (least < np.abs(f[:, :-2])) & (least <= np.abs(f[:, 2:])) & (least < 0.05)
    touch, j = np.nonzero(dip)
    return np.concatenate([rows, touch]), np.concatenate([root, t[touch, j + 1]])
