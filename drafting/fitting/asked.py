"""What the loads ask of the cylinder at each place: virtual work, at rest, no friction credited.

At a place the cylinder's force F along its axis and the loads balance: F d(length) + work of the
loads = 0 for a small step of the travel. Of a hinge that is the sum of moments about it. A push is
above zero, a pull below.
"""

from __future__ import annotations

from bisect import bisect_right
from math import hypot, radians, sin

from drafting.calc.types import STANDARD_GRAVITY
from drafting.fitting.machine import Distance, Hinge, Load
from drafting.fitting.travel import Place, Way, carried, turned
from drafting.records import dataclass

DEAD = 1e-6
"""A lever arm below this part of the crank is none: no number stands there, none is endless."""
NEAR_DEAD = sin(radians(15.0))
"""Below this part of the crank the lever is called near its dead centre; common practice, from
memory (15 to 30 degrees between cylinder and crank are asked of linkages)."""


@dataclass(frozen=True, slots=True)
class Weights:
    """The cylinder's own weight: kg, and mm from the pins to the middle of each part's weight."""

    body: float
    body_from_base: float
    rod: float
    rod_from_rod_pin: float


def share_at(load: Load, at: float) -> float:
    """Give how much of a load there is at a place; straight between steps, level beyond them."""
    if not load.steps:
        return 1.0
    ats = [s[0] for s in load.steps]
    k = bisect_right(ats, at)
    if k == 0:
        return load.steps[0][1]
    if k == len(ats):
        return load.steps[-1][1]
    (a, fa), (b, fb) = load.steps[k - 1], load.steps[k]
    return fa + (fb - fa) * (at - a) / (b - a)


def work(way: Way, load: Load, at: float) -> float:
    """Give a load's work per step of the travel: N mm per radian of a hinge, N of a slide."""
    if isinstance(way, Distance):
        return 0.0
    p = carried(way, load.at, at)
    if load.mass:
        fx, fy = 0.0, -load.mass * STANDARD_GRAVITY
    elif isinstance(way, Hinge) and load.turns:
        fx, fy = turned(load.force, (0.0, 0.0), at)
    else:
        fx, fy = load.force
    moves = (-(p[1] - way.at[1]), p[0] - way.at[0]) if isinstance(way, Hinge) else way.along
    return share_at(load, at) * (fx * moves[0] + fy * moves[1])


def crank(way: Way) -> float:
    """Give the length that a lever arm is held against: of a hinge to the rod pin, else 1."""
    if not isinstance(way, Hinge):
        return 1.0
    return hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])


def has_lever(way: Way, p: Place) -> bool:
    """Tell whether the cylinder moves anything at all there."""
    return abs(p.arm) > DEAD * crank(way)


def asked(way: Way, p: Place, count: int = 1) -> float | None:
    """Give the force that the loads ask of each of ``count`` cylinders, N; None without a lever."""
    if isinstance(way, Distance) or not has_lever(way, p):
        return None
    return -sum(work(way, load, p.at) for load in way.loads) / p.arm / count


def own_weight(way: Way, p: Place, w: Weights) -> float | None:
    """Give what the cylinder's own weight asks of it, N; None without a lever.

    Body and rod hang on the line between the pins, each with its weight in its middle.
    """
    if isinstance(way, Distance) or not has_lever(way, p):
        return None
    across, up = p.unit
    rises = w.body * w.body_from_base * across * p.turn
    rises += w.rod * (p.arm * up + (p.length - w.rod_from_rod_pin) * across * p.turn)
    return STANDARD_GRAVITY * rises / p.arm


def with_friction(force: float, share: float, out: bool) -> float:
    """Give the force with the pins' friction against the motion: more push out, more pull in."""
    return force + (1.0 if out else -1.0) * share * abs(force)
