"""Where the pins are over the travel: lengths, lever arm, dead centre. Closed forms, no kernel.

A place on the travel is called ``at``: degrees of a hinge, millimetres of a slide or, where only
distances are known, of the way from the closest.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from math import acos, atan2, ceil, cos, degrees, floor, hypot, pi, radians, sin
from typing import Literal

from drafting.fitting.machine import Distance, Hinge, Point, Slide
from drafting.records import dataclass

Way = Distance | Hinge | Slide
STEPS = 24
"""The travel is looked at in so many steps, and where something turns."""


@dataclass(frozen=True, slots=True)
class Place:
    """The pins at one place of the travel: mm; ``unit`` points from base pin to rod pin.

    ``arm`` is d(length)/d(at): mm per radian (the lever arm) of a hinge, a plain number of a
    slide; above zero where the cylinder gets longer as ``at`` grows. ``turn`` is d(axis)/d(at) in
    radians per radian, or per mm of a slide.
    """

    at: float
    base: Point
    rod: Point
    length: float
    unit: Point
    arm: float
    turn: float


def kind(way: Way) -> Literal["deg", "mm"]:
    """Give what the travel is counted in."""
    return "deg" if isinstance(way, Hinge) else "mm"


def span(way: Way) -> tuple[float, float]:
    """Give the first and last place of the wanted travel."""
    if isinstance(way, Distance):
        return 0.0, way.farthest - way.closest
    return way.start, way.end


def hard_span(way: Way) -> tuple[float, float]:
    """Give the travel up to its stops; the wanted end where there is no stop."""
    a, b = span(way)
    if isinstance(way, Distance):
        low = way.closest if way.hard_closest is None else way.hard_closest
        high = way.farthest if way.hard_farthest is None else way.hard_farthest
        return low - way.closest, high - way.closest
    low = a if way.hard_start is None else way.hard_start
    return low, b if way.hard_end is None else way.hard_end


def turned(p: Point, about: Point, angle: float) -> Point:
    """Turn a point counter-clockwise by degrees."""
    c, s = cos(radians(angle)), sin(radians(angle))
    x, y = p[0] - about[0], p[1] - about[1]
    return about[0] + c * x - s * y, about[1] + s * x + c * y


def carried(way: Way, p: Point, at: float) -> Point:
    """Give where a point of the arm or carriage is, from where it is at 0."""
    if isinstance(way, Hinge):
        return turned(p, way.at, at)
    if isinstance(way, Slide):
        return p[0] + at * way.along[0], p[1] + at * way.along[1]
    return p[0] + at, p[1]


def place(way: Way, at: float) -> Place:
    """Give the pins at one place; the pins must not meet."""
    if isinstance(way, Distance):
        length = way.closest + at
        return Place(at, (0.0, 0.0), (length, 0.0), length, (1.0, 0.0), 1.0, 0.0)
    base, rod = way.base_pin, carried(way, way.rod_pin, at)
    x, y = rod[0] - base[0], rod[1] - base[1]
    length = hypot(x, y)
    u = (x / length, y / length) if length else (1.0, 0.0)
    moves = (-(rod[1] - way.at[1]), rod[0] - way.at[0]) if isinstance(way, Hinge) else way.along
    arm = moves[0] * u[0] + moves[1] * u[1]
    turn = (u[0] * moves[1] - u[1] * moves[0]) / length if length else 0.0
    return Place(at, base, rod, length, u, arm, turn)


def dead_centres(way: Way, low: float, high: float) -> tuple[float, ...]:
    """Give the places from ``low`` to ``high`` where the length turns round: no lever there."""
    if isinstance(way, Distance):
        return ()
    if isinstance(way, Slide):
        x, y = (way.base_pin[k] - way.rod_pin[k] for k in (0, 1))
        foot = x * way.along[0] + y * way.along[1]
        return (foot,) if low <= foot <= high else ()
    straight = degrees(_direction(way.base_pin, way.at) - _direction(way.rod_pin, way.at))
    first = straight - 180.0 * floor((straight - low) / 180.0)
    count = max(0, ceil((high - first + 1e-12) / 180.0))
    return tuple(first + 180.0 * k for k in range(count) if low <= first + 180.0 * k <= high)


def _direction(p: Point, origin: Point) -> float:
    return atan2(p[1] - origin[1], p[0] - origin[0])


def stations(way: Way, steps: int = STEPS) -> tuple[Place, ...]:
    """Give the places of the wanted travel, with the dead centres among them."""
    a, b = span(way)
    ats = {a + (b - a) * k / steps for k in range(steps + 1)} | set(dead_centres(way, a, b))
    return tuple(place(way, at) for at in sorted(ats))


def extremes(way: Way, low: float, high: float) -> tuple[Place, Place]:
    """Give the closest and the farthest that the pins come to each other between two places."""
    found = [place(way, at) for at in (low, high, *dead_centres(way, low, high))]
    return min(found, key=lambda p: p.length), max(found, key=lambda p: p.length)


def reaches(way: Way, length: float, start: float, forward: bool, most: float) -> float | None:
    """Give how far from ``start`` the travel may go until the pins are ``length`` apart.

    ``forward`` is towards larger places. None where that is never reached within ``most``.
    """
    sign = 1.0 if forward else -1.0
    found = [sign * (at - start) for at in _at_length(way, length, start)]
    ahead = [d for d in found if 1e-9 < d <= most]
    return min(ahead, default=None)


def _at_length(way: Way, length: float, near: float) -> tuple[float, ...]:
    """Give every place (of a hinge within a turn either side of ``near``) with such a length."""
    if isinstance(way, Distance):
        return (length - way.closest,)
    if isinstance(way, Slide):
        x, y = (way.rod_pin[k] - way.base_pin[k] for k in (0, 1))
        along = x * way.along[0] + y * way.along[1]
        off = length**2 - (x**2 + y**2 - along**2)
        return () if off < 0 else (-along - off**0.5, -along + off**0.5)
    r, d = (hypot(p[0] - way.at[0], p[1] - way.at[1]) for p in (way.rod_pin, way.base_pin))
    c = (r**2 + d**2 - length**2) / (2 * r * d)
    if abs(c) > 1.0:
        return ()
    straight = _direction(way.base_pin, way.at) - _direction(way.rod_pin, way.at)
    ats = []
    for one in (degrees(straight + acos(c)), degrees(straight - acos(c))):
        turns = floor((near - one) / 360.0)
        ats += [one + 360.0 * (turns + k) for k in (-1, 0, 1, 2)]
    return tuple(ats)


def swing(way: Way) -> tuple[float, float]:
    """Give how far the cylinder turns over the travel, degrees: about the base, the rod pin."""
    if isinstance(way, Distance):
        return 0.0, 0.0
    ps = stations(way)
    axis = [_direction(p.unit, (0.0, 0.0)) for p in ps]
    turned_ = [degrees(a - axis[0] + pi) % 360.0 - 180.0 for a in axis]
    base = max(turned_) - min(turned_)
    if isinstance(way, Slide):
        return base, base
    rod = [a - p.at for a, p in zip(turned_, ps, strict=True)]
    return base, max(rod) - min(rod)


def crossings(f: Callable[[float], float | None], ats: tuple[float, ...]) -> tuple[float, ...]:
    """Give where a function changes its sign between neighbouring places, by halving."""
    found = []
    for a, b in itertools.pairwise(ats):
        fa, fb = f(a), f(b)
        if fa is None or fb is None or fa * fb >= 0.0:
            continue
        for _ in range(50):
            m = (a + b) / 2
            fm = f(m)
            if fm is None:
                break
            a, b = (m, b) if fm * fa > 0 else (a, m)
        found.append((a + b) / 2)
    return tuple(found)


def pressure_angle(p: Place, way: Way) -> float | None:
    """Give the degrees between the cylinder and the line on which it has no lever; of a hinge."""
    if not isinstance(way, Hinge):
        return None
    r = hypot(p.rod[0] - way.at[0], p.rod[1] - way.at[1])
    return degrees(pi / 2 - acos(min(1.0, abs(p.arm) / r)))
