"""The column's limits and advice: each limit named, put in as a size, gives the load asked again.

Loads: the computed cases of ``test_buckling_checks`` (finite elements); the rest is arithmetic.
"""

from dataclasses import replace
from math import pi

import pytest

from drafting.checks.buckling import buckling, column, loads
from drafting.checks.numbers import EndMount
from tests.checks.sample_numbers import by_code, duty, given, numbers
from tests.checks.test_buckling_checks import LONG, TUBE_AND_ROD, flanged

PUSH = 16 * pi * 1600


def named(n, code="column-duty"):
    """What a check of the column names, as values by field."""
    return {d.field: d for d in by_code(buckling(n))[code].depends_on}


def load(n):
    return min(column(n, plane).load for plane in "yz")


def test_a_stroke_that_nobody_typed_moves_the_rods_end_and_nothing_else():
    """Closed at 1050 and 60 kN: 3.5 times that are held up to some stroke beyond the 700."""
    n = numbers(**LONG)
    loose = replace(n, stroke=given("cylinder.stroke", 700.0, "derived"))
    most = named(loose)["cylinder.stroke"]
    assert most.sense == "at most"
    assert 700 < most.would_do < 800
    at_most = replace(n, stroke=given("cylinder.stroke", most.would_do))
    assert load(at_most) == pytest.approx(3.5 * 60_000, rel=1e-5)


def test_a_closed_length_that_nobody_typed():
    n = numbers(**LONG)
    loose = replace(n, rod_pivot=given("cylinder.retracted", 1050.0, "derived"))
    most = named(loose)["cylinder.retracted"].would_do
    assert most > 1050
    at_most = replace(n, rod_pivot=given("cylinder.retracted", most))
    assert load(at_most) == pytest.approx(3.5 * 60_000, rel=1e-5)


def test_a_stick_out_that_nobody_typed_moves_the_gland():
    sizes = {"cylinder.rod_stick_out": given("cylinder.rod_stick_out", 33.0, "derived")}
    most = named(numbers(**LONG, sizes=sizes))["cylinder.rod_stick_out"].would_do
    gland = given("gland face", 900.0 - (most - 33.0))
    n = numbers(**{**LONG, "gland_face": gland})
    assert 33 < most < 99
    assert load(n) == pytest.approx(3.5 * 60_000, rel=1e-5)


def test_what_may_be_guided_or_held_is_no_or_yes():
    found = named(flanged(body_held=True))
    assert found["duty.load_guided"].taken == (0.0, 1.0)
    light = duty(flanged(guided=False), push=given("duty.push", 20_000.0))
    assert named(light)["body_mount.held"].taken == (0.0, 1.0)


def test_the_planes_are_told_by_their_names():
    n = numbers(**LONG, body=EndMount("body", "y", True), rod_end=EndMount("rod", "y", True))
    told = by_code(buckling(n))
    turning, of_the_pin = told["column-load-turning"], told["column-load-pin"]
    assert turning.name.endswith("plane of turning")
    assert of_the_pin.name.endswith("plane of the pin")
    assert turning.factor_from == pytest.approx(TUBE_AND_ROD, rel=1e-6)
    assert of_the_pin.factor_from > turning.factor_from
    assert "tube 900 mm, rod 850 mm" in turning.note


def test_the_pushes_that_the_column_is_held_against():
    found = loads(numbers(**LONG))
    assert {k: v.value for k, v in found.items()} == pytest.approx({"duty": 60_000.0, "full": PUSH})
    assert {v.origin for v in found.values()} == {"computed"}
    heavy = duty(numbers(**LONG), mass=given("duty.mass", 9000.0), orientation="vertical")
    assert loads(heavy)["duty"].value == pytest.approx(9000 * 9.80665)
    small = duty(numbers(**LONG), push=given("duty.push", 0.05))
    assert loads(small)["duty"].value == 0.05
    assert set(loads(duty(numbers(**LONG), push=None))) == {"full"}
    assert set(loads(numbers(**LONG, working_pressure=None))) == {"duty"}
    assert loads(duty(numbers(action="pull"), push=None)) == {}


def test_the_full_push_and_the_regenerative_are_one_check():
    c = by_code(buckling(duty(numbers(**LONG), push=None)))
    assert "column-duty" not in c
    assert c["column-full"].case == "full push"
    assert c["column-full"].factor_from == pytest.approx(TUBE_AND_ROD / PUSH, rel=1e-6)


@pytest.mark.parametrize("share", [1.0, 0.5, 0.0])
def test_the_longest_stroke_holds_just_what_is_asked(share):
    """A mount in the middle: half of what the stroke grows lies behind it."""
    n = numbers(**LONG, tube_share=share, rod=given("cylinder.rod", 40.0))
    stroke = by_code(buckling(n))["longest-stroke"].factor_from
    less = 700.0 - stroke
    shorter = replace(
        n,
        stroke=given("cylinder.stroke", stroke),
        gland_face=given("gland face", 900.0 - share * less),
        rod_pivot=given("cylinder.retracted", 1050.0 - share * less),
    )
    assert load(shorter) == pytest.approx(3.5 * PUSH, rel=1e-4)


def test_the_thinnest_rod_holds_just_what_is_asked():
    n = numbers(**LONG)
    advice = by_code(buckling(n))["thinnest-rod"]
    thinnest = replace(n, rod=given("cylinder.rod", advice.factor_from))
    assert load(thinnest) == pytest.approx(3.5 * PUSH, rel=1e-4)
    assert advice.name == "Thinnest rod that holds"
    assert "factor 3.5" in advice.note
    assert f"{PUSH:.0f} N" in advice.note
    unsaid = by_code(buckling(duty(n, safety_factor=None)))["thinnest-rod"]
    four = replace(n, rod=given("cylinder.rod", unsaid.factor_from))
    assert load(four) == pytest.approx(4.0 * PUSH, rel=1e-4)


def test_advice_goes_by_what_is_sure():
    """A weight whose way nobody said may push with 20 t: the advice goes by the full push."""
    n = duty(numbers(**LONG), mass=given("duty.mass", 20_000.0), orientation="")
    assert f"{PUSH:.0f} N" in by_code(buckling(n))["thinnest-rod"].note
    alone = duty(n, push=None)
    alone = replace(alone, working_pressure=None)
    assert f"{20_000 * 9.80665:.0f} N" in by_code(buckling(alone))["thinnest-rod"].note


def test_where_no_rod_holds_it_says_so():
    n = duty(numbers(**LONG), push=given("duty.push", 3e6))
    advice = by_code(buckling(n))["thinnest-rod"]
    assert advice.name == "No rod holds in the bore of"
    assert advice.factor_from == 80.0
    assert "not even" in advice.note


def test_a_wall_thinner_than_none_is_no_wall():
    n = numbers(**LONG, barrel_outside=given("cylinder.barrel_outside", 70.0))
    assert 0 < column(n, "y").load < TUBE_AND_ROD / 10


def test_a_gland_beyond_the_rods_pin_leaves_a_rod_of_no_length():
    n = numbers(**{**LONG, "gland_face": given("gland face", 1800.0)})
    c = column(n, "y")
    assert c.tube + c.rod == pytest.approx(1750.0)
    assert 0 < c.rod < 1e-5


@pytest.mark.parametrize(("rod", "said"), [(63.0, "holds"), (74.0, "depends")])
def test_the_rod_alone_counts_only_where_it_is_the_softer(rod, said):
    """95/80 tube: I = pi/64 (95^4 - 80^4), that of a bar of 79.97; 85/80 that of 57.8."""
    outside = 95.0 if said == "holds" else 85.0
    n = duty(
        numbers(
            **LONG,
            rod=given("cylinder.rod", rod),
            barrel_outside=given("cylinder.barrel_outside", outside, "derived"),
        ),
        push=given("duty.push", 30_000.0),
    )
    check = by_code(buckling(n))["column-duty"]
    assert check.verdict == said
    assert ("rod alone" in check.note) is (said == "holds")


def test_the_load_is_named():
    c = by_code(buckling(numbers(**LONG)))["column-duty"]
    assert "load 60000 N" in c.note
    assert "tube 900 mm, rod 850 mm" in c.note
