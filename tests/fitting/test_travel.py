"""Lengths, levers and dead centres against closed forms and against plain differences."""

from math import acos, cos, degrees, hypot, radians, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.fitting.machine import Hinge, Slide, read_machine
from drafting.fitting.subject import known
from drafting.fitting.travel import (
    dead_centres,
    extremes,
    place,
    pressure_angle,
    reaches,
    stations,
)

COORDINATE = st.floats(-2000, 2000)
POINT = st.tuples(COORDINATE, COORDINATE)


@st.composite
def hinges(draw):
    at, base, rod = draw(POINT), draw(POINT), draw(POINT)
    r, d = (hypot(p[0] - at[0], p[1] - at[1]) for p in (rod, base))
    assume(min(r, d, abs(r - d)) > 20)
    low = draw(st.floats(-180, 180))
    return Hinge(at, base, rod, low, low + draw(st.floats(1, 350)))


@st.composite
def slides(draw):
    a = draw(st.floats(0, 360))
    base, rod = draw(POINT), draw(POINT)
    along = (cos(radians(a)), sin(radians(a)))
    off = abs((rod[0] - base[0]) * along[1] - (rod[1] - base[1]) * along[0])
    assume(off > 20)
    return Slide(base, rod, along, draw(st.floats(1, 2000)))


@given(hinges())
@settings(max_examples=100, deadline=None)
def test_a_hinge_keeps_the_law_of_cosines(way):
    """L2 = r2 + d2 - 2 r d cos(angle between them): a triangle of two fixed sides (geometry)."""
    r, d = (hypot(p[0] - way.at[0], p[1] - way.at[1]) for p in (way.rod_pin, way.base_pin))
    for p in stations(way, 6):
        u = ((p.rod[0] - way.at[0]) / r, (p.rod[1] - way.at[1]) / r)
        v = ((p.base[0] - way.at[0]) / d, (p.base[1] - way.at[1]) / d)
        dot = u[0] * v[0] + u[1] * v[1]
        assert p.length == pytest.approx(sqrt(r * r + d * d - 2 * r * d * dot), rel=1e-9)
        # The lever arm is the distance from the hinge to the cylinder's line: twice the area of
        # the triangle over that side.
        area = abs(u[0] * v[1] - u[1] * v[0]) * r * d / 2
        assert abs(p.arm) == pytest.approx(2 * area / p.length, rel=1e-6, abs=1e-6)


@given(st.one_of(hinges(), slides()), st.floats(0, 1))
@settings(max_examples=100, deadline=None)
def test_levers_and_turns_are_differences(way, share):
    step = 1e-4 if isinstance(way, Hinge) else 1e-3
    at = way.start + share * (way.end - way.start)
    a, b, p = place(way, at - step), place(way, at + step), place(way, at)
    run = 2 * (radians(step) if isinstance(way, Hinge) else step)
    assert (b.length - a.length) / run == pytest.approx(p.arm, rel=1e-3, abs=2e-2)
    turn = (a.unit[0] * b.unit[1] - a.unit[1] * b.unit[0]) / run
    assert turn == pytest.approx(p.turn, rel=1e-3, abs=1e-4)


@given(st.one_of(hinges(), slides()))
@settings(max_examples=100, deadline=None)
def test_no_place_is_nearer_or_farther_than_the_extremes(way):
    near, far = extremes(way, way.start, way.end)
    for k in range(200):
        p = place(way, way.start + (way.end - way.start) * k / 199)
        assert near.length - 1e-9 <= p.length <= far.length + 1e-9
    for at in dead_centres(way, way.start, way.end):
        assert place(way, at).arm == pytest.approx(0.0, abs=1e-6)


def test_three_four_five():
    """A right triangle: crank 300, base 400 from the hinge, square to each other: 500 between."""
    way = Hinge((0, 0), (400, 0), (0, 300), 0, 60)
    p = place(way, 0)
    assert p.length == pytest.approx(500)
    assert p.arm == pytest.approx(300 * 400 / 500)  # 240, the height on the long side
    assert pressure_angle(p, way) == pytest.approx(degrees(acos(0.6)))
    # Straight past the base line after 90 degrees, folded 90 degrees before.
    assert dead_centres(way, -180, 180) == pytest.approx((-90, 90))
    assert place(way, 90).length == pytest.approx(700)
    assert place(way, -90).length == pytest.approx(100)


@given(hinges(), st.floats(0.01, 0.99))
@settings(max_examples=100, deadline=None)
def test_where_a_length_is_reached(way, share):
    near, far = extremes(way, way.start - 180, way.start + 180)
    length = near.length + share * (far.length - near.length)
    for forward in (True, False):
        more = reaches(way, length, way.start, forward, 360.0)
        assert more is not None
        end = place(way, way.start + (more if forward else -more))
        assert end.length == pytest.approx(length, rel=1e-6)
    assert reaches(way, far.length + 1.0, way.start, True, 360.0) is None


def test_the_stop_of_a_hinge_is_a_distance_that_replacement_asks_for():
    """The tail platform's stop at 68 deg, its pins turned there by hand; it has none below."""
    m = read_machine("specs/machines/wagon-tailboard.toml")
    c, s = cos(radians(68)), sin(radians(68))
    x, y = 420 * c - 40 * s, 420 * s + 40 * c
    found = known(m)
    assert found["distance.hard_farthest"] == pytest.approx(hypot(x - 100, y + 500))
    assert found["distance.hard_farthest"] > found["distance.farthest"]
    assert "distance.hard_closest" not in found
