"""Which standard bore, rod and stroke would do the work, each with its own best base pin.

Heads and mounts are taken as long as those of the cylinder that is given: closed is the stroke and
what this one has beyond its own. The rod alone carries the push that is asked. What is said here is
a start for ``size`` and ``check``, not a judgement.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from drafting.calc.euler import bar_inertia, euler_load
from drafting.calc.force import annulus_area, cap_area, rod_area
from drafting.calc.types import STEEL_MODULUS
from drafting.checks.bands import ON_COLUMN, ON_FORCE
from drafting.checks.steels import steel
from drafting.fitting.forces import pressure
from drafting.fitting.lengths import LEAST_ANGLE
from drafting.fitting.machine import Hinge, Machine
from drafting.fitting.probe import ANGLE, LENGTH, Array, bounds, measured, probe
from drafting.fitting.subject import Subject
from drafting.fitting.suggestion import Stock
from drafting.sizing.candidates import pairs
from drafting.standards.table import table

GRID = 48
MOST = 4
"""So many strokes are told, the smallest bores first."""


@cache
def strokes(units: str) -> tuple[float, ...]:
    """Give usual strokes, mm: ISO 4393 and its continuation by others; whole inches, every second.

    The inch ones are common practice, from memory.
    """
    if units == "in":
        return tuple(25.4 * n for n in range(2, 73, 2))
    rows = (r for r in table("bore_rod").rows if r.word("table") == "stroke")
    return tuple(sorted(r.number("stroke_mm") or 0.0 for r in rows
                        if r.word("preference") == "first"))  # fmt: skip


def stock(s: Subject, m: Machine) -> tuple[Stock, ...]:
    """Give for each standard stroke the smallest standard bore that does it, where one does.

    Of the places for its base pin those near to the one that is there come first.
    """
    p = pressure(s, m)
    if p is None or not isinstance(m.way, Hinge):
        return ()
    dead = s.closed - (s.open - s.closed)
    found = []
    own = probe(s, m, "base")
    for stroke in strokes(m.units):
        trial = replace(own, closed=dead + stroke, open=dead + 2 * stroke, push=None, pull=None)
        low, high = bounds(trial)
        if (low >= high).any():
            continue
        x, y = (np.linspace(low[k], high[k], GRID) for k in (0, 1))
        points = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
        got = measured(trial, points)
        reach = np.minimum(got.near, got.far) / LENGTH
        off = np.hypot(*(points - np.array(m.way.base_pin)).T) / s.closed
        ok = (reach > 0.0) & (got.angle > LEAST_ANGLE)
        if not ok.any():
            continue
        for pair in pairs("inch" if m.units == "in" else "metric"):
            bore, rod = pair.bore, pair.rod
            push, pull = p * cap_area(bore), p * annulus_area(bore, rod)
            with np.errstate(divide="ignore"):
                spare = np.minimum(push / got.need_push, pull / got.need_pull)
            far = trial.open - got.far
            good = ok & (spare >= ON_FORCE.ample) & (bends_at(rod, far) >= got.need_push)
            if good.any():
                rank = np.minimum(np.minimum(reach, (got.angle - LEAST_ANGLE) / ANGLE), 1.0) - off
                rank = np.where(good, rank, -np.inf)
                k = int(np.argmax(rank))
                ratio = float(spare[k]) if np.isfinite(spare[k]) else None
                at = (float(round(points[k][0])), float(round(points[k][1])))
                margin = float(min(got.near[k], got.far[k]))
                found.append(
                    Stock(bore, rod, pair.series[0], stroke, at, margin, ratio, float(got.angle[k]))
                )
                break
    return tuple(sorted(found, key=lambda f: (f.bore, f.stroke))[:MOST])


def bends_at(rod: float, length: Array) -> Array:
    """Give the push (N) that a rod of so many mm carries over whole lengths, factor and all.

    The rod alone, pinned at both ends: the barrel is stiffer, so this is a lower bound.
    """
    elastic = euler_load(STEEL_MODULUS * bar_inertia(rod), 1.0) / length**2
    weakest = steel("cylinder.rod_material", "rod", None).strength[0] * rod_area(rod)
    # Johnson's line: at half the yield it takes over from Euler's.
    short = weakest * (1.0 - weakest / (4.0 * elastic))
    load = np.where(elastic > weakest / 2, short, elastic)
    return np.asarray(load / ON_COLUMN.asked(None))
