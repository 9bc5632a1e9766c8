"""Strength checks: stresses by hand or from data/strength_cases.csv, verdicts on given numbers."""

from dataclasses import replace
from math import pi

import pytest

from drafting.checks.all import all_checks
from drafting.checks.check import failed
from drafting.checks.materials import ASSUMED_ROD, assumed, material, ordinary_tube, stated
from drafting.checks.numbers import BaseWeld, EndMount, Gland, Number, TieRods
from drafting.checks.strength import strength
from tests.checks.sample_numbers import by_code, given, numbers

PUSH = 16.0 * pi * 1600


def test_the_wall_as_in_the_worked_case():
    """S18: 75/63 mm at 21 MPa stands at 123.55 MPa."""
    n = numbers(
        bore=given("b", 63.0), barrel_outside=given("o", 75.0), working_pressure=given("p", 21.0)
    )
    c = by_code(strength(n))
    assert c["barrel-yield-working"].provided == pytest.approx(450 / 123.55, rel=1e-4)
    assert c["barrel-yield-working"].ok is True
    assert c["barrel-burst"].provided == pytest.approx(2 * 580 * 6 / 75 / 21)


def test_relief_and_proof_have_their_own_lines():
    n = numbers(relief_pressure=given("r", 20.0), proof_pressure=given("q", 24.0))
    c = by_code(strength(n))
    assert c["barrel-yield-relief"].provided == pytest.approx(
        c["barrel-yield-working"].provided * 16 / 20
    )
    assert c["body-pin-shear"].provided == pytest.approx(
        by_code(strength(numbers()))["body-pin-shear"].provided * 16 / 20
    )
    assert c["barrel-yield-proof"].required == 1.25


def test_the_pin_by_hand():
    c = by_code(strength(numbers()))
    shear = PUSH / (2 * pi * 400)
    assert c["body-pin-shear"].provided == pytest.approx(834 / 3**0.5 / shear)
    moment = PUSH / 2 * (10 + 10)
    assert c["body-pin-bending"].provided == pytest.approx(834 / (32 * moment / (pi * 40**3)))
    assert c["body-pin-bearing"].provided == pytest.approx(355 / (PUSH / (40 * 40)))
    assert c["body-tear-out"].provided == pytest.approx(
        355 / 3**0.5 / (PUSH / (2 * 40 * (40 - 20.1)))
    )


def test_trunnion_welds_gland_and_tie_rods():
    trunnion = EndMount(
        "body",
        "trunnion",
        "y",
        pin=given("pin", 40.0),
        width=given("w", 190.0),
        shoulders=given("s", 120.0),
    )
    tube = EndMount(
        "rod",
        "cross tube",
        "y",
        pin=given("pin", 30.0),
        width=given("w", 80.0),
        weld_leg=given("leg", 8.0),
        weld_run=given("run", 150.0),
    )
    n = numbers(
        body=trunnion,
        rod_end=tube,
        base_thickness=given("cap", 30.0),
        base_weld=BaseWeld("groove", given("depth", 7.5)),
        gland=Gland("threaded", given("d", 85.0), given("p", 2.0), given("l", 30.0)),
    )
    c = by_code(strength(n))
    assert c["trunnion-bending"].provided == pytest.approx(
        355 / (32 * (PUSH / 2 * 35 / 2) / (pi * 40**3))
    )
    assert c["rod-cross-tube-weld"].provided == pytest.approx(145 / (PUSH / (2 * 8 / 2**0.5 * 150)))
    assert c["base-weld"].provided == pytest.approx(145 / (PUSH / (pi * 87.5 * 7.5)))
    assert c["gland-thread"].provided == pytest.approx(
        450 / 3**0.5 / (PUSH / (0.75 * pi * (85 - 1.0825 * 2) * 30))
    )
    rods = TieRods(given("n", 4.0), given("d", 16.0), given("p", 2.0), given("l", 600.0))
    loose = by_code(strength(replace(n, construction="tie rod", tie_rods=rods)))
    assert "base-weld" not in loose
    assert "preload adds" in loose["tie-rods"].note
    tight = replace(rods, preload=given("preload", 30_000.0))
    joint = by_code(strength(replace(n, construction="tie rod", tie_rods=tight)))
    assert joint["tie-rod-joint"].provided > 4 * 30_000 / PUSH


def test_an_assumed_metal_is_never_a_verdict():
    rod = assumed("cylinder.rod_material", ASSUMED_ROD)
    check = by_code(strength(numbers(rod_material=rod)))["rod"]
    assert check.ok is None
    assert check.verdict == "depends"
    assert rod.name in check.source


@pytest.mark.parametrize(
    ("words", "strength_mpa"),
    [
        ("E355+SR, honed", 450.0),
        ("E355, honed", 355.0),
        ("St52.3 honed", 355.0),
        ("C45E, hard chrome", 340.0),
        ("AISI 4140 annealed", 417.0),
        ("1026 DOM as drawn", 483.0),
        ("ASTM A513 1026", 448.0),
    ],
)
def test_metals_from_words(words, strength_mpa):
    """Yields from the table's rows (specification minima and handbook values, sources there)."""
    found = stated("cylinder.barrel_material", words)
    assert found is not None
    assert found.strength.value == strength_mpa
    assert found.strength.firm


def test_unknown_words_give_an_assumed_metal():
    assert stated("f", "good steel") is None
    found = material("f", "good steel", ordinary_tube("in"))
    assert found.strength.origin == "assumed"
    assert found.strength.value == 379.0


def test_no_pressure_no_strength():
    n = numbers(working_pressure=None)
    assert strength(n) == ()


def test_a_weak_cylinder_fails_by_name():
    n = numbers(barrel_outside=given("o", 82.0), working_pressure=given("p", 40.0))
    names = {c.code for c in failed(all_checks(n))}
    assert {"barrel-yield-working", "barrel-burst"} <= names


def test_people_get_no_good_verdict():
    n = numbers()
    assert any(c.ok for c in all_checks(n))
    lifts = replace(n, duty=replace(n.duty, lifts_people=True))
    checks = all_checks(lifts)
    assert not any(c.ok for c in checks)
    assert any("licensed engineer" in d.words for c in checks for d in c.depends_on)


def test_codes_are_unique_and_numbers_finite():
    checks = all_checks(numbers(relief_pressure=given("r", 18.0), base_thickness=given("c", 30.0)))
    assert len(by_code(checks)) > 30
    assert all(c.provided == c.provided and abs(c.provided) < 1e12 for c in checks)
    assert all(c.source for c in checks)


def test_number_is_firm_only_when_given_or_computed():
    assert [Number("x", 1.0, o).firm for o in ("given", "computed", "table", "derived", "assumed")
            ] == [True, True, False, False, False]  # fmt: skip
