"""Turned pieces as plane profiles: radii and volumes against numerical sums over the axis.

A body's volume is the integral of pi (R^2 - r^2) along its axis (method of discs); here as a sum
over 200,001 places, from the definition of a union and of a cut alone.
"""

from __future__ import annotations

import itertools
from math import pi
from random import Random

import numpy as np
import pytest

from drafting.shape.frame import Frame
from drafting.shape.pieces import Ball, Cone, Piece, Prism, Turned, circle
from drafting.shape.profile import (
    as_turned,
    clipped,
    radius,
    ring_volume,
    rings,
    union,
    zone_volume,
    zones_on,
)

PLACES = np.linspace(-41.0, 41.0, 200_001)


def zone(rng: Random) -> Cone | Ball:
    a, b = sorted(rng.sample(range(-30, 31), 2))
    if rng.random() < 0.4:
        centre = rng.uniform(a, b)
        size = max(abs(a - centre), abs(b - centre)) + rng.uniform(0.0, 9.0)
        return Ball(a, b, centre, size)
    return Cone(a, rng.uniform(1.0, 25.0), b, rng.choice((rng.uniform(1.0, 25.0), 13.0)))


def outline(some: list[Cone | Ball]) -> np.ndarray:
    """Give the greatest radius at each place, 0 where nothing stands."""
    out = np.zeros(len(PLACES))
    for z in some:
        if isinstance(z, Ball):
            r = np.sqrt(np.clip(z.radius**2 - (PLACES - z.centre) ** 2, 0.0, None))
        else:
            r = z.r0 + (z.r1 - z.r0) * (PLACES - z.x0) / (z.x1 - z.x0)
        out = np.maximum(out, np.where((z.x0 < PLACES) & (z.x1 > PLACES), r, 0.0))
    return out


def discs(squares: np.ndarray) -> float:
    return float(pi * np.trapezoid(squares, PLACES))


@pytest.mark.parametrize("seed", range(40))
def test_a_union_is_the_greatest_radius(seed):
    some = [zone(Random(f"{seed} {k}")) for k in range(2 + seed % 4)]
    found = union(some)
    assert np.abs(outline(list(found)) - outline(some)).max() < 1e-9
    assert [z.x0 for z in found] == sorted(z.x0 for z in found)
    assert all(a.x1 <= b.x0 for a, b in itertools.pairwise(found))
    assert sum(map(zone_volume, found)) == pytest.approx(discs(outline(some) ** 2), rel=1e-3)


@pytest.mark.parametrize("seed", range(40))
def test_what_is_left_between_materials_and_cuts(seed):
    solid = [zone(Random(f"{seed} {k} solid")) for k in range(1 + seed % 3)]
    cuts = [zone(Random(f"{seed} {k} cut")) for k in range(1 + seed % 2)]
    left = np.clip(outline(solid) ** 2 - outline(cuts) ** 2, 0.0, None)
    found = rings(solid, cuts)
    assert sum(map(ring_volume, found)) == pytest.approx(discs(left), rel=1e-3, abs=0.5)
    for ring in found:
        for zones in (ring.outer, ring.inner):
            assert all(a.x1 == pytest.approx(b.x0) for a, b in itertools.pairwise(zones))
        assert ring.outer[0].x0 == pytest.approx(ring.inner[0].x0)
        assert ring.outer[-1].x1 == pytest.approx(ring.inner[-1].x1)


def test_a_row_of_steps_of_one_size_is_one_zone_and_a_gap_stays():
    assert union([Cone(0, 5, 4, 5), Cone(4, 5, 9, 5), Cone(11, 5, 12, 5)]) == (
        Cone(0, 5, 9, 5), Cone(11, 5, 12, 5),
    )  # fmt: skip
    assert union([Ball(-3, 1, 0, 4), Ball(1, 3, 0, 4)]) == (Ball(-3, 3, 0, 4),)
    assert len(union([Ball(-3, 1, 0, 4), Ball(1, 3, 0.5, 4)])) > 1
    assert union([Cone(0, 2, 4, 6), Cone(4, 6, 8, 10)]) == (Cone(0, 2, 8, 10),)
    assert len(union([Cone(0, 2, 4, 6), Cone(4, 6, 8, 9)])) == 2


def test_two_balls_change_over_where_their_radii_are_equal():
    """Radius 5 at 0 and radius 4 at 6: x^2 less (x - 6)^2 is 25 less 16, so x = 45 / 12."""
    left, right = union([Ball(-5, 5, 0, 5), Ball(2, 10, 6, 4)])
    assert left.x1 == right.x0 == pytest.approx(3.75)
    assert radius(left, 3.75) == pytest.approx((25 - 3.75**2) ** 0.5)
    assert radius(Ball(-5, 5, 0, 5), 5.0) == 0.0
    assert radius(Ball(-5, 5, 0, 5), 5.5) == 0.0


def test_metal_parts_where_only_an_edge_would_hold_it():
    """A cone out to 8 and one from 8 on with a bore of 8 share no ring of face."""
    solid, cuts = [Cone(0, 8, 5, 8), Cone(5, 12, 9, 12)], [Cone(5, 8, 9, 8)]
    assert len(rings(solid, cuts)) == 2
    assert len(rings(solid, [Cone(5, 7.9, 9, 7.9)])) == 1


@pytest.mark.parametrize(("frame", "zones"), [
    (Frame((5.0, 0.0, 0.0)), (Cone(7.0, 1.0, 9.0, 3.0), Ball(9.0, 12.0, 8.0, 6.0))),
    (Frame((5.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
     (Ball(-2.0, 1.0, 2.0, 6.0), Cone(1.0, 3.0, 3.0, 1.0))),
    (Frame((5.0, 0.001, 0.0)), None),
    (Frame((5.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), None),
])  # fmt: skip
def test_zones_along_another_axis(frame, zones):
    piece = Piece("p", Turned((Cone(2.0, 1.0, 4.0, 3.0), Ball(4.0, 7.0, 3.0, 6.0))), frame)
    assert zones_on(piece, Frame((0.0, 0.0, 0.0))) == zones


def test_a_prism_over_a_circle_is_a_cylinder_about_its_own_middle():
    some = Piece("p", Prism(circle(6.0, (3.0, -2.0)), 1.0, 9.0), Frame((10.0, 20.0, 30.0)))
    found = as_turned(some)
    assert found.shape == Turned((Cone(1.0, 6.0, 9.0, 6.0),))
    assert found.frame.origin == (13.0, 18.0, 30.0)
    assert found.frame.x == (0.0, 0.0, 1.0)


def test_a_zone_between_two_other_places():
    assert clipped(Cone(0.0, 2.0, 8.0, 10.0), 2.0, 5.0) == Cone(2.0, 4.0, 5.0, 7.0)
    assert clipped(Ball(-3.0, 3.0, 0.5, 6.0), 1.0, 2.0) == Ball(1.0, 2.0, 0.5, 6.0)
