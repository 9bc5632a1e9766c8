"""How far a piece may move between two places, as what it passes sees it: a bound, no sample.

With z(t) = c + r e^(it) from base pin to rod pin (hinge: r to the rod pin, d from hinge to base
pin), length L = |z| and direction a = arg z:

    |a''| <= r d / L^2      |L''| <= r + r^2 / L      (slide: 1 / L^2 and 1 / L)

so that between two places neither rate leaves the mean of its ends by more than that times half
the way. A point's speed is at most its turning rate times its distance from what it turns about,
and the rate at which the rod slides.
"""

from __future__ import annotations

from math import dist, hypot, radians

import numpy as np

from drafting.fitting.exact import corner_points
from drafting.fitting.machine import Distance, Hinge, Machine
from drafting.fitting.meshes import Array
from drafting.fitting.poses import Seat, cylinder_poses
from drafting.fitting.subject import Subject
from drafting.fitting.travel import Way, extremes, place
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Rates:
    """The greatest rates between two places: the axis over the ground, over the arm, the length.

    By radian of a hinge, by millimetre of a slide.
    """

    turn: float
    against: float
    slide: float


def rates(way: Way, a: float, b: float) -> Rates:
    """Bound the rates between two places of a travel."""
    if isinstance(way, Distance):
        return Rates(0.0, 0.0, 1.0)
    ends, least = [place(way, at) for at in (a, b)], extremes(way, a, b)[0].length
    if isinstance(way, Hinge):
        r, d, arm = dist(way.rod_pin, way.at), dist(way.base_pin, way.at), 1.0
        bend, change = r * d / least**2, r + r * r / least
        half = radians(b - a) / 2
    else:
        arm, bend, change, half = 0.0, 1 / least**2, 1 / least, (b - a) / 2

    def most(values: list[float], slope: float) -> float:
        return sum(map(abs, values)) / 2 + slope * half

    return Rates(
        most([p.turn for p in ends], bend),
        most([p.turn - arm for p in ends], bend),
        most([p.arm for p in ends], change),
    )


class Stray:
    """Bounds for one cylinder in one machine; boxes are those of parts at the closed position."""

    def __init__(self, way: Way, closed: float, across: Array, lever: float) -> None:
        self.way, self.closed, self.across, self.lever = way, closed, across, lever
        self._rates: dict[tuple[float, float], tuple[Rates, float, float]] = {}
        self._far: dict[tuple[tuple[float, ...], float], float] = {}

    def between(self, rod: bool, moves: bool, box: tuple[float, ...], a: float, b: float) -> float:
        """Give how far (mm) a point of a box may go on the way from ``a`` to ``b``.

        ``rod`` tells that it moves with the rod, ``moves`` that it is seen by what moves with the
        arm or carriage.
        """
        if (a, b) not in self._rates:
            near, far = extremes(self.way, a, b)
            self._rates[a, b] = rates(self.way, a, b), near.length, far.length
        rate, shortest, longest = self._rates[a, b]
        unit = radians(b - a) if isinstance(self.way, Hinge) else b - a
        if isinstance(self.way, Distance):
            return unit if rod != moves else 0.0
        # Where both pins are on a part's own axis; the rod's base pin slides away from it.
        slid = (self.closed - shortest, self.closed - longest) if rod else (0.0,)
        base = max(self._from(box, x) for x in slid)
        ground = rate.turn * base + (rate.slide if rod else 0.0)
        if rod:
            pin = self._from(box, self.closed)
            ground = min(ground, hypot(rate.slide, rate.turn * longest) + rate.turn * pin)
            arm = rate.against * pin
        else:
            # The rod pin is the arm's; the body turns about it and slides away from it.
            pin = max(self._from(box, shortest), self._from(box, longest))
            arm = rate.against * pin + rate.slide
        if not moves:
            return ground * unit
        return min(arm, ground + self._swing(base)) * unit

    def _swing(self, base: float) -> float:
        """Give how fast the arm moves where a point is so far from the base pin."""
        return self.lever + base if isinstance(self.way, Hinge) else 1.0

    def _from(self, box: tuple[float, ...], x: float) -> float:
        """Give how far a box's farthest corner is from a pin that crosses the axis at ``x``."""
        key = (box, x)
        if key not in self._far:
            off = corner_points(box) - np.array([x, 0.0, 0.0])
            flat = off - np.outer(off @ self.across, self.across)
            self._far[key] = float(np.linalg.norm(flat, axis=1).max())
        return self._far[key]


def strays(s: Subject, m: Machine, seat: Seat) -> Stray:
    """Make ready the bounds of a cylinder in a machine."""
    body, _ = cylinder_poses(s, seat, place(m.way, seat.start))
    across = body[:3, :3].T @ seat.axis
    lever = dist(m.way.at, m.way.base_pin) if isinstance(m.way, Hinge) else 0.0
    return Stray(m.way, s.closed, across, lever)
