"""The branches of a ruled meeting: over which stretches the rulings of one face meet another.

Two cylinders tell in closed form whether and where they may meet; others are looked at in steps.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import acos, pi, sqrt

import numpy as np

from drafting.arrays import Flags, Floats
from drafting.shape.faces import Face
from drafting.shape.frame import cross, dot, scale, sub, unit
from drafting.shape.ruled import Ruled
from drafting.shape.space_curves import TURN

SPARE = 0.5
"""How far ruled curves run past the faces (mm), so that their ends show as crossings."""


def branches(on: Face, other: Face) -> Iterator[Ruled]:
    """Give both branches, each for every stretch that runs over the face ``on``."""
    on = _aimed(on, other)
    round_ = on.kind == other.kind == "cylinder"
    signs = _met(on, other) if round_ else (-1.0, 1.0)
    if not signs:
        return
    for mid, half in [_domain(on, other)] if round_ else _domains(Ruled(on, other, 1.0)):
        for sign in signs:
            whole = Ruled(on, other, sign)
            whole.mid, whole.half, whole.closed = mid, half, half == 0.0
            t = np.linspace(0.0, TURN if whole.closed else pi, 361)
            good = _over(whole, on, t)
            if whole.closed and good.all():
                whole.t1 = TURN
                yield whole
                continue
            if whole.closed and good.any():
                start = int(np.argmin(good))
                good = np.roll(good[:-1], -start)
                t = t[1] * (start + np.arange(len(good)))
            for first, last in _runs(good):
                part = Ruled(on, other, sign)
                part.mid, part.half, part.closed = mid, half, whole.closed
                part.t0 = _limit(part, on, t[first - 1], t[first]) if first else t[0]
                at_end = last == len(t) - 1
                part.t1 = t[last] if at_end else _limit(part, on, t[last + 1], t[last])
                yield part


def _met(on: Face, other: Face) -> list[float]:
    """Give which branches of two cylinders run over both faces, as far as bounds can tell.

    ``on`` is aimed: its u is the common normal. A ruling at ``e`` from the other axis along u is
    half a chord before and behind that axis.
    """
    gap, r, big = sub(other.o, on.o), on.size, other.size
    side = cross(on.u, other.n)
    fast, lean = dot(on.n, side), abs(dot(on.v, side))
    near = dot(gap, on.u)
    least, most = max(-big, -r - near), min(big, r - near)
    if least > most:
        return []
    inner = 0.0 if least < 0.0 < most else min(abs(least), abs(most))
    outer = max(abs(least), abs(most))
    short, long = (sqrt(max(big**2 - e**2, 0.0)) for e in (outer, inner))
    middle, spread = dot(gap, side) / fast, r * lean / abs(fast)
    out = []
    for sign in (-1.0, 1.0):
        ends = sorted(middle + sign * half / abs(fast) for half in (short, long))
        lo = max(ends[0] - spread, on.lo - SPARE)
        hi = min(ends[1] + spread, on.hi + SPARE)
        if lo > hi:
            continue
        tilt = dot(on.n, other.n)
        along = sorted(tilt * s - dot(gap, other.n) for s in (lo, hi))
        swing = r * abs(dot(on.v, other.n))
        if along[0] - swing <= other.hi + SPARE and along[1] + swing >= other.lo - SPARE:
            out.append(sign)
    return out


def _domain(on: Face, other: Face) -> tuple[float, float]:
    """Give (middle, half) of the angles of an aimed cylinder whose rulings meet a wider one.

    Half 0 stands for the whole turn.
    """
    away = dot(sub(other.o, on.o), on.u)
    level = (abs(away) - other.size) / on.size
    if level <= -1.0 + 1e-12:
        return 0.0, 0.0
    return (0.0 if away >= 0.0 else pi), acos(min(level, 1.0))


def _domains(ruled: Ruled) -> list[tuple[float, float]]:
    """Give (middle, half) of each range of angle in which rulings meet the other face.

    Half 0 stands for the whole turn.
    """
    grid = np.linspace(0.0, TURN, 361)
    disc = ruled.solve(grid)[0]
    if (disc >= 0.0).all():
        return [(0.0, 0.0)]
    # A narrow range may lie between two angles of the grid: look at the tops between them.
    a, b, c = np.roll(disc[:-1], 1), disc[:-1], np.roll(disc[:-1], -1)
    bend = np.where(a - 2 * b + c < 0.0, a - 2 * b + c, -1.0)
    top = (b < 0.0) & (b >= a) & (b >= c)
    tips = (grid[:-1] + grid[1] * 0.5 * (a - c) / bend)[top]
    grid = np.sort(np.concatenate([grid[:-1], tips % TURN]))
    good = ruled.solve(grid)[0] >= 0.0
    start = int(np.argmin(good))
    good = np.roll(good, -start)
    grid = np.concatenate([grid[start:], grid[:start] + TURN, grid[start : start + 1] + TURN])
    out = []
    for first, last in _runs(good):
        lo = _bisected(ruled, grid[first - 1], grid[first])
        hi = _bisected(ruled, grid[last + 1], grid[last])
        if hi - lo > 1e-9:
            out.append(((lo + hi) / 2, (hi - lo) / 2))
    return out


def _runs(good: Flags) -> list[tuple[int, int]]:
    """Give (first, last) index of every run of good ones."""
    edge = np.flatnonzero(np.diff(np.concatenate([[0], good.astype(int), [0]])))
    return [(int(a), int(b) - 1) for a, b in edge.reshape(-1, 2)]


def _over(ruled: Ruled, on: Face, t: Floats) -> Flags:
    s = ruled.solve(ruled.angle(t))[1]
    return (s >= on.lo - SPARE) & (s <= on.hi + SPARE)


def _limit(ruled: Ruled, on: Face, bad: float, good: float) -> float:
    """Narrow the last parameter at which the branch still runs over the face."""
    for _ in range(20):
        mid = (bad + good) / 2
        if on.lo - SPARE <= ruled.run(mid) <= on.hi + SPARE:
            good = mid
        else:
            bad = mid
    return good


def _bisected(ruled: Ruled, bad: float, good: float) -> float:
    """Narrow the last angle at which rulings meet the other face."""
    for _ in range(50):
        mid = (bad + good) / 2
        if ruled.solve(np.array([mid]))[0][0] >= 0.0:
            good = mid
        else:
            bad = mid
    return good


def _aimed(on: Face, other: Face) -> Face:
    """Give the face with u across the other's axis, so that even angles hit extreme points."""
    side = cross(on.n, other.n)
    if other.kind == "sphere" or dot(side, side) < 1e-12:
        side = sub(other.o, on.o)
        side = sub(side, scale(on.n, dot(side, on.n)))
    if dot(side, side) < 1e-12:
        return on
    u = unit(side)
    return replace(on, u=u, v=cross(on.n, u))
