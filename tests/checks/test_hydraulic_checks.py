"""Hydraulic checks: forces by hand (areas times pressures) and a tutorial's 100/70 cylinder."""

from dataclasses import replace
from math import pi

import pytest

from drafting.checks.hydraulics import hydraulics
from drafting.checks.numbers import Duty
from tests.checks.sample_numbers import by_code, duty, given, numbers


def test_push_and_pull_by_hand():
    c = by_code(hydraulics(numbers()))
    assert c["push"].provided == pytest.approx(16.0 * pi * 80**2 / 4)
    assert c["pull"].provided == pytest.approx(16.0 * pi * (80**2 - 45**2) / 4)
    assert c["push"].ok is True
    assert c["push-needs"].provided == pytest.approx(60_000 / (pi * 1600))


def test_return_pressure_takes_from_both():
    n = numbers()
    n = replace(n, duty=replace(n.duty, return_pressure=given("duty.return_pressure", 1.0)))
    c = by_code(hydraulics(n))
    assert c["push"].provided == pytest.approx(16 * pi * 1600 - pi * (80**2 - 45**2) / 4)
    assert c["pull"].provided == pytest.approx(16 * pi * (80**2 - 45**2) / 4 - pi * 1600)
    assert c["pull-needs"].provided > by_code(hydraulics(numbers()))["pull-needs"].provided


def test_the_tutorial_cylinder():
    """100/70 mm, 200 bar, 40 L/min: 157.08 kN, 13.3 kW (data/hydraulic_cases.csv, H25 and H28)."""
    n = numbers(
        bore=given("b", 100.0),
        rod=given("r", 70.0),
        working_pressure=given("p", 20.0),
        duty=Duty(flow=given("q", 40 / 60), rod_side="open"),
    )
    c = by_code(hydraulics(n))
    assert c["push"].provided == pytest.approx(157_080, rel=1e-5)
    assert c["push"].required is None
    assert c["power"].provided == pytest.approx(13.333, rel=1e-4)
    assert c["area-ratio"].provided == pytest.approx(1 / 0.51)


def test_single_acting_and_ram():
    push = by_code(hydraulics(numbers(action="push")))
    assert push["pull"].ok is False
    assert push["pull"].provided == 0.0
    assert "pull-area" not in push
    assert "blocked-rod-pressure" not in push
    ram = by_code(hydraulics(numbers(action="push", piston="displacement")))
    assert ram["push"].provided == pytest.approx(16.0 * pi * 45**2 / 4)
    assert ram["push"].ok is False


def test_too_weak_is_named():
    n = numbers(working_pressure=given("p", 8.0))
    assert by_code(hydraulics(n))["push"].ok is False


def test_duty_above_working_pressure_fails():
    n = numbers()
    n = replace(n, duty=replace(n.duty, pressure=given("duty.pressure", 18.0)))
    assert by_code(hydraulics(n))["duty-pressure"].ok is False


def test_speed_in_a_port_by_hand():
    """Retracting, the base gives up 0.5 l/s times the ratio of areas, through 11 mm."""
    n = numbers(port_bores={"base": given("p", 11.0), "rod": given("q", 9.0)})
    c = by_code(hydraulics(n))
    ratio = 80**2 / (80**2 - 45**2)
    assert c["port-speed-base"].provided == pytest.approx(0.5e6 * ratio / (pi / 4 * 11**2))
    assert c["port-speed-rod"].provided == pytest.approx(0.5e6 / (pi / 4 * 9**2))


def hung(kg, **changes):
    plain = {"push": None, "pull": None, "mass": given("duty.mass", kg)}
    return by_code(hydraulics(duty(numbers(), **{**plain, **changes})))


@pytest.mark.parametrize(
    ("kg", "said"), [(7400.0, "holds"), (7500.0, "depends"), (8190.0, "depends"), (8250.0, "fails")]
)
def test_what_it_lifts(kg, said):
    """16 MPa push 80,425 N: 8,201 kg at rest, 7,455 kg with a tenth to spare for the seals."""
    push = hung(kg, orientation="vertical")["push"]
    assert push.verdict == said
    assert (push.unit, push.factor_from) == ("N", pytest.approx(80_424.8, rel=1e-5))
    assert push.asked == pytest.approx(kg * 9.80665)


def test_typed_friction_stands_in_the_force_asked():
    c = hung(8000.0, orientation="vertical", friction=given("duty.friction", 0.02))
    assert c["push"].asked == pytest.approx(8000 * 9.80665 * 1.02)
    assert c["push"].verdict == "holds"


def test_what_a_load_traps_is_held_against_the_pressure_in_use():
    """80/45: 98.07 kN hanging traps 285.4 bar on the rod side, 519.5 with 160 bar behind it."""
    down = {"angle": given("duty.angle", -90.0)}
    c = hung(10_000.0, rod_side="metered", **down)
    assert c["weight-along"].provided == pytest.approx(-98_066.5)
    still, pumped = c["holding-rod"], c["holding-rod-pump"]
    assert (still.asked, pumped.asked) == (pytest.approx(28.54, abs=0.01),
                                           pytest.approx(51.95, abs=0.01))  # fmt: skip
    assert (still.verdict, pumped.verdict) == ("fails", "fails")
    assert (still.provided, still.unit) == (16.0, "MPa")
    assert c["pull"].verdict == "fails"
    untyped = hung(4000.0, rod_side="", **down)
    assert untyped["holding-rod"].verdict == "holds"
    assert untyped["holding-rod-pump"].verdict == "depends"
    assert untyped["holding-rod-pump"].depends_on[0].field == "duty.rod_side"
    light = hung(8000.0, orientation="vertical")["holding-base"]
    assert (light.verdict, light.asked) == ("holds", pytest.approx(8000 * 9.80665 / (pi * 1600)))


def test_a_push_without_any_pressure_says_which_would_do():
    n = duty(numbers(working_pressure=None), pull=None)
    c = by_code(hydraulics(n))["push"]
    assert (c.verdict, c.factor_from) == ("not known", None)
    (d,) = c.depends_on
    assert d.field == "cylinder.working_pressure"
    assert d.would_do == pytest.approx(1.1 * 60_000 / (pi * 1600), rel=1e-5)


def test_what_cannot_push_or_pull_at_all():
    pull = by_code(hydraulics(numbers(action="push")))["pull"]
    assert (pull.verdict, pull.factor_from) == ("fails", 0.0)


@pytest.mark.parametrize(("litres", "ok"), [(0.3, False), (0.4, True)])
def test_the_flow_is_held_against_the_times_asked(litres, ok):
    """By hand: 80 bore, 500 stroke, 2.513 l in 8 s is 0.314 l/s."""
    n = numbers(
        bore=given("b", 80.0),
        stroke=given("s", 500.0),
        duty=Duty(flow=given("duty.flow", litres), seconds_out=given("duty.seconds_out", 8.0)),
    )
    c = by_code(hydraulics(n))
    assert c["flow-out"].required == pytest.approx(0.31416, rel=1e-4)
    assert c["flow-out"].ok is ok
    assert "flow-in" not in c
