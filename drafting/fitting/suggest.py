"""Where to put the base pin: where this cylinder reaches, is strong enough, has no dead centre.

The arm, its rod pin, loads and swing stay as they are.

A grid over all places that the rod pin can be reached from; finer grids round the best. Each of the
best is judged again by the full rules, own weight and friction counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import hypot, radians, sin
from typing import Any

import numpy as np

from drafting.checks.bands import ON_FORCE
from drafting.fitting.asked import work
from drafting.fitting.column import with_columns
from drafting.fitting.forces import positions, there
from drafting.fitting.lengths import LEAST_ANGLE, lengths
from drafting.fitting.machine import Hinge, Machine, Point
from drafting.fitting.row import whole
from drafting.fitting.subject import Subject
from drafting.fitting.suggestion import Suggestion, Suggestions
from drafting.fitting.travel import carried
from drafting.told.short import quantity

GRID, FINER = 64, 3
"""Places along each side of the first grid; how often the best are looked at more closely."""
PARTS, MOST_CELLS = 6, 1500
"""Each cell of the first grid that may matter is parted so often along each side."""
PLACES = 19
BEST = 3
APART = 0.15
"""The best lie at least this part of the closed length apart: else they are one answer."""
LENGTH, FORCE, ANGLE = 10.0, 0.2, 10.0
"""What counts alike: so many mm, so much spare force, so many degrees from the dead centre (ours,
to rank by and for nothing else)."""
Array = np.ndarray[Any, np.dtype[np.float64]]


def suggest(s: Subject, m: Machine) -> Suggestions:
    """Look for base-pin places; of a hinge alone."""
    if not isinstance(m.way, Hinge):
        return Suggestions(
            "base", (), (), 0.0, "pins are looked for where an arm turns about a hinge"
        )
    way = m.way
    ats = np.linspace(way.start, way.end, PLACES)
    rods = np.array([carried(way, way.rod_pin, at) for at in ats])
    moment = np.array([sum(work(way, load, at) for load in way.loads) for at in ats])
    low, high = rods.max(0) - s.open, rods.min(0) + s.open
    if (low >= high).any():
        return Suggestions(
            "base", (), (), 0.0, "the rod pin moves farther than the cylinder is long"
        )
    x, y = (np.linspace(low[k], high[k], GRID) for k in (0, 1))
    step = float(max(x[1] - x[0], y[1] - y[0]))
    points = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    coarse = _score(s, m, way, points, rods, ats, moment)
    # A length changes by no more than the pin moves: farther off the rim lies in no cell.
    near = points[coarse > -2.0 * step / LENGTH][:MOST_CELLS]
    side = (np.arange(PARTS) - (PARTS - 1) / 2) * step / PARTS
    cell = np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
    points = (near[:, None] + cell[None]).reshape(-1, 2) if len(near) else points
    step /= PARTS
    score = _score(s, m, way, points, rods, ats, moment)
    inside = points[score > 0.0]
    region = tuple((float(a), float(b)) for a, b in inside)
    if not region:
        return Suggestions("base", (), (), step, _why_none(s, m, way, points, rods, ats, moment))
    found: list[Suggestion] = []
    for apart in (APART * s.closed, APART * s.closed / 3):
        for p in _peaks(inside, score[score > 0.0], apart):
            best = _refined(s, m, way, p, step, rods, ats, moment)
            far = all(hypot(best[0] - f.place[0], best[1] - f.place[1]) >= apart / 2
                      for f in found)  # fmt: skip
            judged = _judged(s, m, way, best) if far else None
            if judged is not None and len(found) < BEST:
                found.append(judged)
    return Suggestions(
        "base", tuple(found), region, step, "" if found else "none passes the full rules"
    )


def _measures(
    s: Subject, m: Machine, way: Hinge, points: Array, rods: Array, ats: Array, moment: Array
) -> tuple[Array, Array, Array, Array]:
    """Give, for each point, length left in and out (mm), least force ratio, least sine of angle.

    A lever that changes its sign on the way has passed a dead centre: its sine is below 0.
    """
    run = rods[None] - points[:, None]
    length = np.maximum(np.hypot(run[..., 0], run[..., 1]), 1e-9)
    u = run / length[..., None]
    crank = rods - np.array(way.at)
    arm = crank[None, :, 0] * u[..., 1] - crank[None, :, 1] * u[..., 0]
    r = hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])
    sine = np.maximum(arm.min(1), -arm.max(1)) / r
    push, pull = there(s, m)
    ratio = np.full(len(points), np.inf)
    if push is not None and pull is not None and way.loads:
        with np.errstate(divide="ignore", invalid="ignore"):
            asked = -moment[None] / arm / m.count * (1.0 + (m.friction or 0.0))
            has = np.where(asked >= 0.0, push, pull)
            ratio = np.nan_to_num(has / np.abs(asked), nan=np.inf, posinf=np.inf).min(1)
    # Between the places looked at the lengths hardly differ: no dead centre lies there.
    return length.min(1) - s.closed, s.open - length.max(1), ratio, sine


def _score(
    s: Subject, m: Machine, way: Hinge, points: Array, rods: Array, ats: Array, moment: Array
) -> Array:
    """Give how good each point is: above 0 where all is met, by what is met least."""
    near, far, ratio, sine = _measures(s, m, way, points, rods, ats, moment)
    angle = np.degrees(np.arcsin(np.clip(sine, -1.0, 1.0)))
    parts = (near / LENGTH, far / LENGTH, (ratio - ON_FORCE.ample) / FORCE,
             (angle - LEAST_ANGLE) / ANGLE)  # fmt: skip
    return np.asarray(np.minimum.reduce(parts))


def _peaks(points: Array, score: Array, apart: float) -> Iterator[Array]:
    """Give the best points, each at least so far from those before."""
    given: list[Array] = []
    for k in np.argsort(-score, kind="stable"):
        p = points[k]
        if all(np.hypot(*(p - q)) >= apart for q in given):
            given.append(p)
            yield p
        if len(given) >= 4 * BEST:
            return


def _refined(
    s: Subject, m: Machine, way: Hinge, p: Array, step: float, rods: Array, ats: Array,
    moment: Array,
) -> Point:  # fmt: skip
    """Look closer round a point, each time on a finer grid; whole millimetres are enough."""
    for _ in range(FINER):
        side = np.linspace(-step, step, 9)
        grid = p + np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
        p = grid[int(np.argmax(_score(s, m, way, grid, rods, ats, moment)))]
        step /= 4
    return float(round(p[0])), float(round(p[1]))


def _judged(s: Subject, m: Machine, way: Hinge, base: Point) -> Suggestion | None:
    """Judge a place by the full rules; None where something does not fit after all."""
    there_ = replace(m, way=replace(way, base_pin=base), model=None)
    rows = lengths(s, there_)
    ends = [r for r in rows if r.field in ("cylinder.retracted", "cylinder.extended")]
    if any(r.verdict == "does not fit" for r in rows if r.field.startswith(("cyl", "travel"))):
        return None
    ps = with_columns(s, positions(s, there_))
    spare = [
        has / need
        for q in ps
        for has, need in ((q.push, q.most_push), (q.pull, q.most_pull))
        if has is not None and need > 1.0
    ]
    least = min(spare, default=None)
    if least is not None and least < ON_FORCE.ample:
        return None
    angle = min(abs(q.place.arm) for q in ps) / hypot(
        way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1]
    )
    degrees_ = float(np.degrees(np.arcsin(min(1.0, angle))))
    margin = min(r.margin or 0.0 for r in ends)
    unsure = whole(ends) == "not known"
    say = f"{quantity(margin, 'mm', m.units)} of length left at the tighter end"
    if unsure:
        say += ", less than the tolerance of the lengths"
    if least is not None:
        say += f"; {least:.2f} times the force asked"
    say += f"; {degrees_:.0f} deg from the dead centre"
    return Suggestion(base, margin, least, degrees_, unsure, say)


def _why_none(
    s: Subject, m: Machine, way: Hinge, points: Array, rods: Array, ats: Array, moment: Array
) -> str:
    """Say which wish no place meets, else that they exclude each other."""
    near, far, ratio, sine = _measures(s, m, way, points, rods, ats, moment)
    if not ((near > 0) & (far > 0)).any():
        swing = float(np.max(np.hypot(*(rods[-1] - rods[0]))))
        return (
            "no place has the lengths: the rod pin moves "
            f"{quantity(swing, 'mm', m.units)} and the stroke is "
            f"{quantity(s.open - s.closed, 'mm', m.units)}; a shorter crank, or a longer stroke"
        )
    good = (near > 0) & (far > 0) & (sine > sin(radians(LEAST_ANGLE)))
    if not good.any():
        return "where the lengths would do, the travel passes or nears a dead centre"
    most = float(ratio[good].max())
    return (
        f"where the lengths would do there is at most {most:.2f} times the force asked, "
        f"{ON_FORCE.ample:g} is wanted: a larger bore, more pressure, a longer crank"
    )
