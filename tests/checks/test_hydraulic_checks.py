"""Hydraulic checks: forces by hand (areas times pressures) and a tutorial's 100/70 cylinder."""

from dataclasses import replace
from math import pi

import pytest

from drafting.checks.hydraulics import hydraulics
from drafting.checks.numbers import Duty
from tests.checks.sample_numbers import by_code, given, numbers


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
        duty=Duty(flow=given("q", 40 / 60)),
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


@pytest.mark.parametrize(("bore", "ok"), [(8.0, False), (16.0, True)])
def test_ports_by_common_practice(bore, ok):
    c = by_code(hydraulics(numbers(port_bores={"base": given("port", bore)})))
    assert c["port-speed-base"].ok is ok


def test_weight_of_a_vertical_mass():
    n = numbers()
    hung = replace(n.duty, mass=given("duty.mass", 1000.0), orientation="vertical")
    c = by_code(hydraulics(replace(n, duty=hung)))
    assert c["weight-along"].provided == pytest.approx(9806.65)
    assert c["holding-pressure-pull"].provided == pytest.approx(
        9806.65 / (pi * (80**2 - 45**2) / 4)
    )
