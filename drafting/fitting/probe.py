"""Many places for a pin at once: lengths, force and lever over the travel, as arrays.

Seen from the frame the rod's pin turns about the hinge; seen from the arm the base pin turns the
other way. So one pin is looked for and the other is a row of places.
"""

from __future__ import annotations

from math import asin, degrees, hypot
from typing import Any

import numpy as np

from drafting.checks.bands import ON_FORCE
from drafting.fitting.asked import work
from drafting.fitting.forces import there
from drafting.fitting.lengths import LEAST_ANGLE
from drafting.fitting.machine import Hinge, Machine, Point
from drafting.fitting.subject import Subject
from drafting.fitting.suggestion import Pin
from drafting.fitting.travel import carried, turned
from drafting.records import dataclass

Array = np.ndarray[Any, np.dtype[np.float64]]
PLACES = 19
LENGTH, FORCE, ANGLE = 10.0, 0.2, 10.0
"""What counts alike: so many mm, so much spare force, so many degrees from the dead centre (ours,
to rank by and for nothing else)."""


@dataclass(frozen=True, slots=True)
class Probe:
    """What a place for ``pin`` is held against.

    ``others`` are the places of the other pin over the travel (n x 2), ``moment`` what the loads
    do per radian at each (N mm), ``closed`` and ``open`` the cylinder's lengths in mm, ``push`` and
    ``pull`` the force that each of ``count`` has (N, None without a pressure). ``friction`` is the
    share of the force.
    """

    pin: Pin
    hinge: Point
    others: Array
    moment: Array
    closed: float
    open: float
    push: float | None
    pull: float | None
    count: int
    friction: float
    loaded: bool


def probe(s: Subject, m: Machine, pin: Pin) -> Probe:
    """Make ready to look for places of a pin, for the cylinder that is given."""
    way = m.way
    assert isinstance(way, Hinge)
    ats = np.linspace(way.start, way.end, PLACES)
    if pin == "base":
        others = [carried(way, way.rod_pin, at) for at in ats]
    else:
        others = [turned(way.base_pin, way.at, -at) for at in ats]
    moment = np.array([sum(work(way, load, at) for load in way.loads) for at in ats])
    push, pull = there(s, m)
    return Probe(pin, way.at, np.array(others), moment, s.closed, s.open, push, pull, m.count,
                 m.friction or 0.0, bool(way.loads))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Measured:
    """Of each place: length left in and out (mm), and the least force there is over force asked.

    ``angle`` is the least between cylinder and crank, degrees; below 0 the travel passes a dead
    centre. ``need_push`` and ``need_pull`` are the greatest forces asked, N.
    """

    near: Array
    far: Array
    ratio: Array
    angle: Array
    need_push: Array
    need_pull: Array


def measured(p: Probe, points: Array) -> Measured:
    """Measure places (k x 2)."""
    out = p.others[None] - points[:, None]
    run = out if p.pin == "base" else -out
    length = np.maximum(np.hypot(run[..., 0], run[..., 1]), 1e-9)
    u = run / length[..., None]
    crank = np.broadcast_to(
        (p.others[None] if p.pin == "base" else points[:, None]) - np.array(p.hinge), run.shape
    )
    arm = crank[..., 0] * u[..., 1] - crank[..., 1] * u[..., 0]
    r = np.maximum(np.hypot(crank[..., 0], crank[..., 1]), 1e-9)
    sine = np.maximum((arm / r).min(1), (-arm / r).min(1))
    angle = np.degrees(np.arcsin(np.clip(sine, -1.0, 1.0)))
    with np.errstate(divide="ignore", invalid="ignore"):
        asked = np.nan_to_num(-p.moment[None] / arm / p.count * (1.0 + p.friction), nan=0.0)
    push, pull = np.maximum(asked, 0.0).max(1), np.maximum(-asked, 0.0).max(1)
    ratio = np.full(len(points), np.inf)
    if p.push is not None and p.pull is not None and p.loaded:
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = np.minimum(np.nan_to_num(p.push / push, nan=np.inf, posinf=np.inf),
                               np.nan_to_num(p.pull / pull, nan=np.inf, posinf=np.inf))  # fmt: skip
    # Between the places looked at the lengths hardly differ: no dead centre lies there.
    return Measured(length.min(1) - p.closed, p.open - length.max(1), ratio, angle, push, pull)


def score(found: Measured) -> Array:
    """Give how good each place is: above 0 where all is met, by what is met least."""
    parts = (found.near / LENGTH, found.far / LENGTH, (found.ratio - ON_FORCE.ample) / FORCE,
             (found.angle - LEAST_ANGLE) / ANGLE)  # fmt: skip
    return np.asarray(np.minimum.reduce(parts))


def bounds(p: Probe) -> tuple[Array, Array]:
    """Give the corners of the box outside of which no place reaches all places of the other pin."""
    return p.others.max(0) - p.open, p.others.min(0) + p.open


def crank_angle(arm: float, way: Hinge) -> float:
    """Give the degrees between cylinder and crank at a lever arm."""
    r = hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])
    return degrees(asin(min(1.0, abs(arm) / r)))
