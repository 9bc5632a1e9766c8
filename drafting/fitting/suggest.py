"""Where to put a pin: where the cylinder reaches, is strong enough, has no dead centre.

The other pin, loads and swing stay as they are. A grid over all places that can be reached at all;
finer grids round its rim and round the best. Each of the best is judged again by the full rules,
own weight and friction counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import hypot

import numpy as np

from drafting.checks.bands import ON_FORCE
from drafting.fitting.column import with_columns
from drafting.fitting.forces import positions
from drafting.fitting.lengths import LEAST_ANGLE, lengths
from drafting.fitting.machine import Hinge, Machine, Point
from drafting.fitting.probe import (
    LENGTH,
    Array,
    Probe,
    bounds,
    crank_angle,
    measured,
    probe,
    score,
)
from drafting.fitting.row import whole
from drafting.fitting.stock import stock
from drafting.fitting.subject import Subject
from drafting.fitting.suggestion import Pin, Suggestion, Suggestions
from drafting.told.short import quantity

GRID, FINER = 64, 3
"""Places along each side of the first grid; how often the best are looked at more closely."""
PARTS, MOST_CELLS = 6, 1500
"""Each cell of the first grid that may matter is parted so often along each side."""
BEST = 3
APART = 0.15
"""The best lie at least this part of the closed length apart: else they are one answer."""


def suggest(s: Subject, m: Machine, pin: Pin = "base") -> Suggestions:
    """Look for places of a pin; of a hinge alone. With the base pin goes a list of stock sizes."""
    if not isinstance(m.way, Hinge):
        return Suggestions(pin, (), (), 0.0, "pins are looked for where an arm turns about a hinge")
    p = probe(s, m, pin)
    low, high = bounds(p)
    if (low >= high).any():
        why = (
            f"the {'rod' if pin == 'base' else 'base'} pin moves farther than the cylinder is long"
        )
        return Suggestions(pin, (), (), 0.0, why)
    points, step = _cells(p, low, high)
    found = score(measured(p, points))
    inside, good = points[found > 0.0], found[found > 0.0]
    sizes = stock(s, m) if pin == "base" else ()
    if not len(inside):
        return Suggestions(pin, (), (), step, _why_none(s, m, p, points), sizes)
    best = tuple(_best(s, m, m.way, p, inside, good, step))
    region = tuple((float(a), float(b)) for a, b in inside)
    return Suggestions(pin, best, region, step, "" if best else "none passes the full rules", sizes)


def _cells(p: Probe, low: Array, high: Array) -> tuple[Array, float]:
    """Give a fine grid where something may be met, and its step."""
    x, y = (np.linspace(low[k], high[k], GRID) for k in (0, 1))
    step = float(max(x[1] - x[0], y[1] - y[0]))
    points = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    coarse = score(measured(p, points))
    # A length changes by no more than the pin moves: farther off the rim lies in no cell.
    near = points[coarse > -2.0 * step / LENGTH][:MOST_CELLS]
    if not len(near):
        return points, step
    side = (np.arange(PARTS) - (PARTS - 1) / 2) * step / PARTS
    cell = np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
    return (near[:, None] + cell[None]).reshape(-1, 2), step / PARTS


def _best(
    s: Subject, m: Machine, way: Hinge, p: Probe, inside: Array, good: Array, step: float
) -> Iterator[Suggestion]:
    """Give the best places that the full rules let pass, each apart from the others."""
    given: list[Point] = []
    for apart in (APART * s.closed, APART * s.closed / 3):
        for peak in _peaks(inside, good, apart):
            at = _refined(p, peak, step)
            if any(hypot(at[0] - q[0], at[1] - q[1]) < apart / 2 for q in given):
                continue
            judged = _judged(s, m, moved(way, p.pin, at), at)
            if judged is not None:
                given.append(at)
                yield judged
            if len(given) == BEST:
                return


def moved(way: Hinge, pin: Pin, to: Point) -> Hinge:
    """Give the hinge with one pin elsewhere."""
    return replace(way, base_pin=to) if pin == "base" else replace(way, rod_pin=to)


def _peaks(points: Array, found: Array, apart: float) -> Iterator[Array]:
    """Give the best points, each at least so far from those before."""
    given: list[Array] = []
    for k in np.argsort(-found, kind="stable"):
        p = points[k]
        if all(np.hypot(*(p - q)) >= apart for q in given):
            given.append(p)
            yield p
        if len(given) >= 4 * BEST:
            return


def _refined(p: Probe, at: Array, step: float) -> Point:
    """Look closer round a point, each time on a finer grid; whole millimetres are enough."""
    for _ in range(FINER):
        side = np.linspace(-step, step, 9)
        grid = at + np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
        at = grid[int(np.argmax(score(measured(p, grid))))]
        step /= 4
    return float(round(at[0])), float(round(at[1]))


def _judged(s: Subject, m: Machine, way: Hinge, at: Point) -> Suggestion | None:
    """Judge a place by the full rules; None where something does not fit after all."""
    there = replace(m, way=way, model=None)
    rows = lengths(s, there)
    ends = [r for r in rows if r.field in ("cylinder.retracted", "cylinder.extended")]
    if any(r.verdict == "does not fit" for r in rows if r.field.startswith(("cyl", "travel"))):
        return None
    ps = with_columns(s, positions(s, there))
    spare = [
        has / need
        for q in ps
        for has, need in ((q.push, q.most_push), (q.pull, q.most_pull))
        if has is not None and need > 1.0
    ]
    least = min(spare, default=None)
    if least is not None and least < ON_FORCE.ample:
        return None
    angle = crank_angle(min(abs(q.place.arm) for q in ps), way)
    margin = min(r.margin or 0.0 for r in ends)
    unsure = whole(ends) == "not known"
    say = f"{quantity(margin, 'mm', m.units)} of length left at the tighter end"
    if unsure:
        say += ", less than the tolerance of the lengths: not sure to fit"
    if least is not None:
        say += f"; {least:.2f} times the force asked"
    say += f"; {angle:.0f} deg from the dead centre"
    return Suggestion(at, margin, least, angle, unsure, say)


def _why_none(s: Subject, m: Machine, p: Probe, points: Array) -> str:
    """Say which wish no place meets, else that they exclude each other."""
    found = measured(p, points)
    reached = (found.near > 0) & (found.far > 0)
    if not reached.any():
        ends = np.hypot(*(p.others[-1] - p.others[0]))
        return (
            f"no place has the lengths: the {'rod' if p.pin == 'base' else 'base'} pin moves "
            f"{quantity(float(ends), 'mm', m.units)} against the other and the stroke is "
            f"{quantity(s.open - s.closed, 'mm', m.units)}; a shorter crank, or a longer stroke"
        )
    good = reached & (found.angle > LEAST_ANGLE)
    if not good.any():
        return "where the lengths would do, the travel passes or nears a dead centre"
    most = float(found.ratio[good].max())
    return (
        f"where the lengths would do there is at most {most:.2f} times the force asked, "
        f"{ON_FORCE.ample:g} is wanted: a larger bore, more pressure, a longer crank"
    )
