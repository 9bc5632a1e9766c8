"""Load cases by hand: weights, friction and inertia along the stroke, what a load traps.

Force balance of a piston: 98.07 kN on the rod side of an 80/45 are 285.4 bar; with 160 bar behind
the piston 519.5 bar.
"""

from math import pi

import pytest

from drafting.checks.check import LoadCase
from drafting.checks.loads import PROOF, in_use, load_cases
from tests.checks.sample_numbers import duty, given, numbers

CAP, RING = pi * 80**2 / 4, pi * (80**2 - 45**2) / 4
G = 9.80665


def cases(n):
    found = {c.code: c for c in load_cases(n)}
    assert len(found) == len(load_cases(n))
    return found


def mass(kg=10_000.0, **changes):
    plain = {"push": None, "pull": None, "mass": given("duty.mass", kg), "orientation": ""}
    return duty(numbers(), **{**plain, **changes})


def test_full_pressure_either_way():
    found = cases(numbers())
    assert found["full-push"].rod == pytest.approx(16 * CAP)
    assert (found["full-push"].base, found["full-push"].rod_side) == (16.0, 0.0)
    assert found["full-pull"].rod == pytest.approx(-16 * RING)
    assert (found["full-pull"].base, found["full-pull"].rod_side) == (0.0, 16.0)
    out = found["full-out"]
    assert (out.rod, out.base, out.gland) == (0.0, 16.0, pytest.approx(16 * CAP))
    both = found["regenerative"]
    assert both.rod == pytest.approx(16 * pi * 45**2 / 4)
    assert (both.base, both.rod_side) == (16.0, 16.0)
    assert "shut-off" not in found  # rod_side is typed open


@pytest.mark.parametrize(("word", "decided"), [("", "duty.rod_side"), ("metered", ""),
                                               ("blocked", "")])  # fmt: skip
def test_a_shut_rod_side(word, decided):
    shut = cases(duty(numbers(), rod_side=word))["shut-off"]
    assert shut.rod_side == pytest.approx(16 * CAP / RING)
    assert (shut.rod, shut.base, shut.decided_by) == (0.0, 16.0, decided)
    assert shut.avoided == ("open" if decided else "")


def test_what_was_asked_and_the_return_pressure():
    back = given("duty.return_pressure", 1.1)
    found = cases(duty(numbers(), return_pressure=back))
    assert found["duty-push"].rod == 60_000.0
    assert found["duty-push"].base == pytest.approx((60_000 + 1.1 * RING) / CAP)
    assert found["duty-pull"].rod == -30_000.0
    assert found["duty-pull"].rod_side == pytest.approx((30_000 + 1.1 * CAP) / RING)


def test_weight_straight_up():
    found = cases(mass(orientation="vertical"))
    assert found["mass-push"].rod == pytest.approx(10_000 * G)
    assert found["held"].rod == pytest.approx(10_000 * G)
    assert found["held"].base == pytest.approx(10_000 * G / CAP)
    assert "mass-pull" not in found
    assert "run-ahead" not in found
    assert all(not c.decided_by for c in found.values())


def test_a_load_that_runs_ahead():
    found = cases(mass(angle=given("duty.angle", -90.0), rod_side="metered"))
    assert found["held"].rod == pytest.approx(-10_000 * G)
    assert found["held"].rod_side * 10 == pytest.approx(285.4, abs=0.1)
    ahead = found["run-ahead"]
    assert ahead.rod_side * 10 == pytest.approx(519.5, abs=0.1)
    assert (ahead.rod, ahead.base) == (pytest.approx(-10_000 * G), 16.0)
    assert ahead.decided_by == ""
    untyped = cases(mass(angle=given("duty.angle", -90.0), rod_side=""))
    assert untyped["run-ahead"].decided_by == "duty.rod_side"
    assert untyped["held"].decided_by == ""
    assert "run-ahead" not in cases(mass(angle=given("duty.angle", -90.0)))


def test_a_mass_of_which_nobody_said_how_it_lies_is_both():
    found = cases(mass())
    up, down = found["held-up"], found["held-down"]
    assert (up.rod, down.rod) == (pytest.approx(10_000 * G), pytest.approx(-10_000 * G))
    assert (up.decided_by, up.avoided) == ("duty.orientation", "horizontal")
    inclined = cases(mass(orientation="inclined"))
    assert inclined["held-down"].decided_by == "duty.angle"


def test_the_angle_shares_the_weight():
    found = cases(mass(angle=given("duty.angle", 30.0)))
    assert found["mass-push"].rod == pytest.approx(10_000 * G / 2)


def test_friction_and_inertia_have_their_own_lines():
    """0.04 of the weight and 500 mm/s2 on 10 t: 3,922.66 N and 5,000 N."""
    found = cases(mass(orientation="vertical", friction=given("duty.friction", 0.04),
                       acceleration=given("duty.acceleration", 500.0)))  # fmt: skip
    case = found["mass-push"]
    assert case.rod == pytest.approx(10_000 * G + 3922.66 + 5000)
    assert {x.name: x.value for x in case.lines} == {
        "weight along the stroke": pytest.approx(10_000 * G),
        "friction": pytest.approx(3922.66),
        "inertia": pytest.approx(5000.0),
    }
    assert found["held"].rod == pytest.approx(10_000 * G)  # friction is never credited for holding
    flat = cases(mass(orientation="horizontal", friction=given("duty.friction", 0.04)))
    assert flat["mass-push"].rod == pytest.approx(3922.66)
    assert flat["mass-pull"].rod == pytest.approx(-3922.66)
    assert "held" not in flat


def test_a_stop_from_full_speed():
    """0.5 l/s on the smaller area: v = 145.5 mm/s; over 20 mm v2 / 2s = 529.3 mm/s2."""
    v = 0.5e6 / RING
    found = cases(mass(orientation="horizontal", stopping_distance=given("s", 20.0)))
    assert found["mass-push"].rod == pytest.approx(10_000 * v**2 / 40 / 1000)
    harder = cases(mass(orientation="horizontal", stopping_distance=given("s", 20.0),
                        acceleration=given("duty.acceleration", 900.0)))  # fmt: skip
    assert harder["mass-push"].rod == pytest.approx(9000.0)


def test_single_acting():
    ram = cases(numbers(action="push", piston="displacement"))
    assert ram["full-push"].rod == pytest.approx(16 * pi * 45**2 / 4)
    assert {"full-pull", "full-out", "shut-off", "regenerative"}.isdisjoint(ram)
    pull = cases(numbers(action="pull"))
    assert {"full-push", "full-out", "shut-off", "regenerative"}.isdisjoint(pull)
    hung = cases(mass(angle=given("duty.angle", -90.0)))
    assert "held" in hung
    pusher = numbers(action="push")
    pusher = duty(pusher, mass=given("duty.mass", 100.0), angle=given("duty.angle", -90.0))
    assert "held" not in cases(pusher)


def test_relief_is_the_highest_and_proof_is_apart():
    n = numbers(relief_pressure=given("cylinder.relief_pressure", 18.0),
                proof_pressure=given("cylinder.proof_pressure", 27.0))  # fmt: skip
    found = cases(n)
    assert found["full-push"].base == 18.0
    assert (found[PROOF].base, found[PROOF].rod_side) == (27.0, 27.0)
    assert PROOF not in {c.code for c in in_use(load_cases(n))}
    assert all(isinstance(c, LoadCase) and c.source for c in found.values())


def test_without_any_pressure_only_what_was_asked():
    found = cases(numbers(working_pressure=None))
    assert set(found) == {"duty-push", "duty-pull"}
    duty_alone = duty(numbers(working_pressure=None), pressure=given("duty.pressure", 9.0))
    assert cases(duty_alone)["full-push"].base == 9.0


def test_a_case_says_how_the_rod_stands():
    up = cases(mass(angle=given("duty.angle", 0.5)))["held"]
    down = cases(mass(angle=given("duty.angle", -0.5)))["held"]
    assert up.name.endswith("(rod up)")
    assert down.name.endswith("(rod down)")
