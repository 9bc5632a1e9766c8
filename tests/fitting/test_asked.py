"""What the loads ask, against the slope of their energy and against statics worked by hand."""

from math import radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.calc.types import STANDARD_GRAVITY
from drafting.fitting.asked import (
    Weights,
    asked,
    own_weight,
    share_at,
    with_friction,
)
from drafting.fitting.machine import Hinge, Load, Slide
from drafting.fitting.travel import carried, place, turned
from tests.fitting.test_travel import POINT, hinges, slides

LOADS = st.lists(
    st.one_of(
        st.builds(Load, at=POINT, mass=st.floats(1, 5000)),
        st.builds(Load, at=POINT, force=POINT, turns=st.just(False)),
    ),
    max_size=3,
)


def energy(way, at):
    """Potential energy of weights and of forces that keep their direction, N mm."""
    total = 0.0
    for load in way.loads:
        x, y = carried(way, load.at, at)
        total += load.mass * STANDARD_GRAVITY * y - load.force[0] * x - load.force[1] * y
    return total


@given(st.one_of(hinges(), slides()), LOADS, st.floats(0, 1))
@settings(max_examples=150, deadline=None)
def test_the_force_is_the_slope_of_the_energy_over_the_length(way, loads, share):
    """An independent way: force = d(potential energy) / d(length), by differences."""
    parts = {f: getattr(way, f) for f in way.__slots__}
    way = type(way)(**{**parts, "loads": tuple(loads)})
    at = way.start + share * (way.end - way.start)
    p = place(way, at)
    if abs(p.arm) < (20 if isinstance(way, Hinge) else 0.05):
        return  # near a dead centre differences say nothing
    step = 1e-3
    rise = energy(way, at + step) - energy(way, at - step)
    run = place(way, at + step).length - place(way, at - step).length
    most = max((abs(v) for load in loads for v in (*load.force, load.mass * 10)), default=1.0)
    assert asked(way, p) == pytest.approx(rise / run, rel=1e-3, abs=0.01 * most)
    assert asked(way, p, 2) == pytest.approx(asked(way, p) / 2)


@given(hinges(), st.floats(0, 1))
@settings(max_examples=60, deadline=None)
def test_own_weight_is_the_slope_of_its_energy(way, share):
    w = Weights(40.0, 300.0, 15.0, 200.0)
    at = way.start + share * (way.end - way.start)
    p = place(way, at)
    if abs(p.arm) < 20 or p.length < 50:
        return

    def high(where):
        q = place(way, where)
        y = q.base[1]
        body = y + w.body_from_base * q.unit[1]
        rod = y + (q.length - w.rod_from_rod_pin) * q.unit[1]
        return STANDARD_GRAVITY * (w.body * body + w.rod * rod)

    step = 1e-3
    run = place(way, at + step).length - place(way, at - step).length
    slope = (high(at + step) - high(at - step)) / run
    assert own_weight(way, p, w) == pytest.approx(slope, rel=1e-3, abs=1.0)


def test_a_lever_by_hand():
    """Moments about the hinge, by hand: 100 kg at 600 mm, crank 300 up, base 400 to the right.

    The weight turns the arm clockwise with 980.665 N x 600 mm; the cylinder's line passes the hinge
    at 240 mm and, pulling the crank's end towards the base, turns it clockwise too: it must push.
    980.665 x 600 / 240 = 2451.66 N.
    """
    way = Hinge((0, 0), (400, 0), (0, 300), 0, 60, loads=(Load((600, 0), 100.0),))
    assert asked(way, place(way, 0)) == pytest.approx(2451.6625)
    # The same weight on the other side pulls.
    other = Hinge((0, 0), (400, 0), (0, 300), 0, 60, loads=(Load((-600, 0), 100.0),))
    assert asked(other, place(other, 0)) == pytest.approx(-2451.6625)


def test_a_force_of_the_arm_turns_with_it_and_one_of_the_ground_does_not():
    arm = Load((500, 0), force=(0.0, -1000.0))
    way = Hinge((0, 0), (400, 0), (0, 300), 0, 60, loads=(arm,))
    for at in (0.0, 30.0, 55.0):
        p = place(way, at)
        assert asked(way, p) * p.arm == pytest.approx(1000.0 * 500.0)
    ground = Load((500, 0), force=(0.0, -1000.0), turns=False)
    still = Hinge((0, 0), (400, 0), (0, 300), 0, 60, loads=(ground,))
    p = place(still, 55.0)
    x, _ = turned((500, 0), (0, 0), 55.0)
    assert asked(still, p) * p.arm == pytest.approx(1000.0 * x)


def test_a_slide_on_a_slope():
    """A weight up a plane of 30 degrees, the cylinder along it: half of the weight (textbook)."""
    c, s = 0.75**0.5, 0.5
    way = Slide((0, 0), (500 * c, 500 * s), (c, s), 300, loads=(Load((0, 0), 100.0),))
    assert asked(way, place(way, 100.0)) == pytest.approx(100 * STANDARD_GRAVITY / 2)


def test_no_number_at_a_dead_centre():
    way = Hinge((0, 0), (400, 0), (0, 300), 0, 120, loads=(Load((600, 0), 100.0),))
    assert asked(way, place(way, 90.0)) is None
    assert own_weight(way, place(way, 90.0), Weights(1, 1, 1, 1)) is None


def test_friction_is_against_the_motion_on_both_sides_of_the_top():
    assert with_friction(1000.0, 0.1, True) == pytest.approx(1100.0)
    assert with_friction(1000.0, 0.1, False) == pytest.approx(900.0)
    assert with_friction(-1000.0, 0.1, True) == pytest.approx(-900.0)
    assert with_friction(-1000.0, 0.1, False) == pytest.approx(-1100.0)


def test_a_table_of_steps_is_straight_between_and_level_beyond():
    load = Load((0, 0), 1.0, steps=((10.0, 1.0), (30.0, 3.0)))
    assert [share_at(load, at) for at in (0, 10, 20, 30, 99)] == [1.0, 1.0, 2.0, 3.0, 3.0]


def test_speed_of_arm_and_oil_agree():
    """The arm's speed times the lever is the rod's speed: dL = arm x d(angle)."""
    way = Hinge((0, 0), (400, 0), (0, 300), 0, 60)
    a, b = place(way, 30.0), place(way, 30.001)
    assert (b.length - a.length) / radians(0.001) == pytest.approx(a.arm, rel=1e-4)
