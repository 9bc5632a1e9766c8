"""Every load case whole, for two cylinders: forces, both pressures, the gland, what decides.

A mass that friction holds and a stop slows: m g (sin a +/- mu) +/- m v2 / 2s, all along the stroke.
"""

from math import cos, pi, radians

import pytest

from drafting.checks.check import LoadCase
from drafting.checks.loads import angles, driven_areas, load_cases, pull_at, push_at
from drafting.checks.numbers import Duty
from tests.checks.sample_numbers import duty, given, numbers

G = 9.80665
METRIC, IN_INCHES = (80.0, 45.0), (76.2, 38.1)
SIDES = pytest.mark.parametrize(("bore", "rod"), [METRIC, IN_INCHES])


def cylinder(bore, rod, **changes):
    return numbers(bore=given("cylinder.bore", bore), rod=given("cylinder.rod", rod), **changes)


def areas(bore, rod):
    return pi * bore**2 / 4, pi * (bore**2 - rod**2) / 4


def plain(case):
    return case.rod, case.base, case.rod_side, case.gland


def whole(n):
    found = {c.code: plain(c) for c in load_cases(n)}
    assert len(found) == len(load_cases(n))
    return found


def near(**cases):
    return {k.replace("_", "-"): pytest.approx(v, rel=1e-9) for k, v in cases.items()}


@SIDES
def test_every_case_of_pressures_and_forces(bore, rod):
    n = duty(
        cylinder(bore, rod, proof_pressure=given("cylinder.proof_pressure", 24.0)),
        rod_side="blocked",
        return_pressure=given("duty.return_pressure", 0.9),
    )
    cap, ring = areas(bore, rod)
    p, push, pull = 16.0, 60_000.0, 30_000.0
    assert whole(n) == near(
        full_push=(p * cap, p, 0.0, 0.0),
        full_out=(0.0, p, 0.0, p * cap),
        full_pull=(-p * ring, 0.0, p, 0.0),
        regenerative=(p * (cap - ring), p, p, 0.0),
        shut_off=(0.0, p, p * cap / ring, 0.0),
        duty_push=(push, (push + 0.9 * ring) / cap, 0.0, 0.0),
        duty_pull=(-pull, 0.0, (pull + 0.9 * cap) / ring, 0.0),
        proof=(0.0, 24.0, 24.0, 0.0),
    )
    lines = {c.code: [(x.name, x.value, x.unit) for x in c.lines] for c in load_cases(n)}
    at = [("cylinder.working_pressure", 16.0, "MPa")]
    assert all(
        lines[k] == at for k in ("full-push", "full-out", "full-pull", "regenerative", "shut-off")
    )
    assert lines["duty-push"] == [("duty.push", push, "N"), ("duty.return_pressure", 0.9, "MPa")]
    assert lines["proof"] == [("cylinder.proof_pressure", 24.0, "MPa")]


@SIDES
def test_every_case_of_a_mass_hanging_on_an_incline(bore, rod):
    """3 t at -20 degrees, friction 0.05, 4 l/s stopped within 30 mm from the speed on the ring."""
    n = cylinder(
        bore,
        rod,
        working_pressure=None,
        duty=Duty(
            mass=given("duty.mass", 3000.0),
            angle=given("duty.angle", -20.0),
            friction=given("duty.friction", 0.05),
            flow=given("duty.flow", 4.0),
            stopping_distance=given("duty.stopping_distance", 30.0),
            acceleration=given("duty.acceleration", 700.0),
            rod_side="blocked",
        ),
    )
    cap, ring = areas(bore, rod)
    weight, drag = -3000 * G * cos(radians(70)), 0.05 * 3000 * G
    slowed = 3.0 * (4e6 / ring) ** 2 / 60
    assert slowed > 2100.0 + abs(weight)
    push, pull = weight + drag + slowed, weight - drag - slowed
    assert whole(n) == near(
        mass_push=(push, push / cap, 0.0, 0.0),
        mass_pull=(pull, 0.0, -pull / ring, 0.0),
        held=(weight, 0.0, -weight / ring, 0.0),
    )
    lines = {c.code: [(x.name, round(x.value, 3)) for x in c.lines] for c in load_cases(n)}
    named = [("weight along the stroke", weight), ("friction", drag), ("inertia", slowed)]
    assert lines["mass-pull"] == [(name, round(value, 3)) for name, value in named]
    assert lines["held"] == [("weight along the stroke", round(weight, 3))]
    assert all(c.name.endswith("(rod down)") and not c.decided_by for c in load_cases(n))
    slow = duty(n, stopping_distance=None)
    pull = weight - drag - 2100.0
    assert whole(slow)["mass-pull"] == pytest.approx((pull, 0.0, -pull / ring, 0.0))
    assert "mass-push" not in {c.code for c in load_cases(duty(slow, acceleration=None))}
    behind = duty(n, pressure=given("duty.pressure", 11.0))
    shut = (11 * cap - weight) / ring
    assert whole(behind)["run-ahead"] == pytest.approx((weight, 11.0, shut, 0.0))
    ahead = next(c for c in load_cases(behind) if c.code == "run-ahead")
    assert [x.name for x in ahead.lines] == ["weight along the stroke", "duty.pressure"]


@pytest.mark.parametrize(("kg", "where"), [(500.0, 90.0), (800.0, -90.0)])
def test_a_mass_without_friction_is_moved_only_against_its_weight(kg, where):
    n = numbers(
        working_pressure=None,
        duty=Duty(mass=given("duty.mass", kg), angle=given("duty.angle", where)),
    )
    cap, ring = areas(*METRIC)
    weight = kg * G * where / 90
    if weight > 0:
        assert whole(n) == near(
            mass_push=(weight, weight / cap, 0, 0), held=(weight, weight / cap, 0, 0)
        )
    else:
        assert whole(n) == near(
            mass_pull=(weight, 0, -weight / ring, 0), held=(weight, 0, -weight / ring, 0)
        )


def test_a_mass_lying_flat_without_friction_loads_nothing():
    n = numbers(
        working_pressure=None, duty=Duty(mass=given("duty.mass", 700.0), orientation="horizontal")
    )
    assert whole(n) == {}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"angle": given("duty.angle", 12.5), "orientation": "vertical"}, ((12.5,), "", "")),
        ({"orientation": "horizontal"}, ((0.0,), "", "")),
        ({"orientation": "vertical"}, ((90.0,), "", "")),
        ({"orientation": "inclined"}, ((90.0, -90.0), "duty.angle", "")),
        ({}, ((90.0, -90.0), "duty.orientation", "horizontal")),
    ],
)
def test_the_angles_that_are_possible(changes, expected):
    assert angles(numbers(duty=Duty(**changes))) == expected


def test_either_way_is_tagged_and_says_what_decides():
    n = numbers(working_pressure=None, duty=Duty(mass=given("duty.mass", 900.0)))
    weight = 900 * G
    found = {c.code: (c.rod, c.decided_by, c.avoided) for c in load_cases(n)}
    said = ("duty.orientation", "horizontal")
    assert found == {
        "mass-push-up": (pytest.approx(weight), *said),
        "held-up": (pytest.approx(weight), *said),
        "mass-pull-down": (pytest.approx(-weight), *said),
        "held-down": (pytest.approx(-weight), *said),
    }
    # Running ahead can happen only if it hangs: that, not the rod side, decides first.
    pumped = duty(n, pressure=given("duty.pressure", 7.0))
    ahead = next(c for c in load_cases(pumped) if c.code == "run-ahead-down")
    assert (ahead.decided_by, ahead.avoided) == said


@pytest.mark.parametrize(
    ("action", "piston", "codes"),
    [
        ("push", "sealed", {"full-push", "full-out"}),
        ("push", "displacement", {"full-push"}),
        ("pull", "sealed", {"full-pull"}),
        ("double", "sealed", {"full-push", "full-out", "full-pull", "regenerative", "shut-off"}),
    ],
)
def test_what_each_kind_can_do(action, piston, codes):
    n = numbers(action=action, piston=piston, duty=Duty())
    assert {c.code for c in load_cases(n)} == codes
    cap, ring = areas(*METRIC)
    out = pi * 45**2 / 4 if piston == "displacement" else cap
    assert push_at(n, 7.0) == pytest.approx(0.0 if action == "pull" else 7 * out)
    pulls = action != "push" and piston != "displacement"
    assert pull_at(n, 7.0) == pytest.approx(7 * ring if pulls else 0.0)
    sides = {"push": out, "pull": ring}
    assert driven_areas(n) == pytest.approx(
        {
            w: a
            for w, a in sides.items()
            if (w == "push" and action != "pull") or (w == "pull" and pulls)
        }
    )


def test_a_force_that_the_cylinder_cannot_make_has_no_pressure():
    n = numbers(
        action="push",
        working_pressure=None,
        duty=Duty(
            push=given("duty.push", 20_000.0),
            pull=given("duty.pull", 5000.0),
            return_pressure=given("duty.return_pressure", 3.0),
        ),
    )
    cap, _ = areas(*METRIC)
    assert whole(n) == near(
        duty_push=(20_000.0, 20_000 / cap, 0.0, 0.0), duty_pull=(-5000.0, 0.0, 0.0, 0.0)
    )


def test_a_case_begins_unloaded():
    empty = LoadCase("code", "name")
    assert (empty.rod, empty.base, empty.rod_side, empty.gland) == (0.0, 0.0, 0.0, 0.0)
