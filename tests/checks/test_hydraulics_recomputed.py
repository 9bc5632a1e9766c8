"""Every figure of the hydraulics for two cylinders, one metric and one in inches, by hand.

Areas are pi d2 / 4, forces areas times pressures, speeds flow over area, power pressure times flow;
a gallon (US) is 231 cubic inches, a psi 0.00689476 MPa (NIST SP 811).
"""

from math import pi

import pytest

from drafting.checks.hydraulics import hydraulics
from drafting.checks.numbers import Duty
from tests.checks.sample_numbers import by_code, duty, given, numbers

INCH, PSI = 25.4, 0.006894757
GPM = 231 * INCH**3 / 60 / 1e6  # l/s
G = 9.80665


def cylinder(bore, rod, stroke, pressure, **changes):
    sizes = {"bore": given("cylinder.bore", bore), "rod": given("cylinder.rod", rod),
             "stroke": given("cylinder.stroke", stroke)}  # fmt: skip
    return numbers(**sizes, working_pressure=given("cylinder.working_pressure", pressure),
                   **changes)  # fmt: skip


METRIC = (80.0, 45.0, 500.0, 16.0, 0.5, 0.9)
IN_INCHES = (3 * INCH, 1.5 * INCH, 24 * INCH, 3000 * PSI, 7 * GPM, 130 * PSI)


@pytest.mark.parametrize(("bore", "rod", "stroke", "p", "flow", "back"), [METRIC, IN_INCHES])
def test_every_figure(bore, rod, stroke, p, flow, back):
    ports = {"base": given("base_port drilling", 11.0), "rod": given("rod_port drilling", 9.0)}
    asked = Duty(flow=given("duty.flow", flow), return_pressure=given("duty.return_pressure", back),
                 rod_side="open")  # fmt: skip
    n = cylinder(bore, rod, stroke, p, port_bores=ports, duty=asked)
    cap, stem = pi * bore**2 / 4, pi * rod**2 / 4
    ring, q = cap - stem, flow * 1e6
    by_hand = {
        "push-area": cap,
        "pull-area": ring,
        "area-ratio": cap / ring,
        "blocked-rod-pressure": p * cap / ring,
        "push": p * cap - back * ring,
        "pull": p * ring - back * cap,
        "regenerative-push": p * stem,
        "speed-out": q / cap,
        "speed-in": q / ring,
        "time-out": stroke * cap / q,
        "time-in": stroke * ring / q,
        "speed-regenerative": q / stem,
        "return-flow": flow * cap / ring,
        "port-speed-base": q * cap / ring / (pi / 4 * 11**2),
        "port-speed-rod": q / (pi / 4 * 9**2),
        "power": p * q / 1e6,
        "oil-out": cap * stroke / 1e6,
        "oil-in": ring * stroke / 1e6,
        "oil-swing": stem * stroke / 1e6,
    }
    found = {c.code: c.provided for c in hydraulics(n)}
    assert found == pytest.approx(by_hand, rel=1e-6)
    notes = {c.code: c.note for c in hydraulics(n)}
    assert notes["speed-out"] == f"at {flow * 60:.3g} l/min"
    assert notes["push"] == f"{back:g} MPa on the return side counted"


@pytest.mark.parametrize(("bore", "rod", "stroke", "p", "flow", "back"), [METRIC, IN_INCHES])
def test_the_pressure_that_the_duty_needs(bore, rod, stroke, p, flow, back):
    n = duty(cylinder(bore, rod, stroke, p), return_pressure=given("duty.return_pressure", back),
             push=given("duty.push", 41_000.0), pull=given("duty.pull", 23_000.0))  # fmt: skip
    cap = pi * bore**2 / 4
    ring = cap - pi * rod**2 / 4
    c = by_code(hydraulics(n))
    assert c["push-needs"].provided == pytest.approx((41_000 + back * ring) / cap)
    assert c["pull-needs"].provided == pytest.approx((23_000 + back * cap) / ring)
    assert (c["push"].provided, c["push"].required) == pytest.approx(
        (p * cap - back * ring, 41_000.0)
    )
    assert (c["pull"].provided, c["pull"].required) == pytest.approx(
        (p * ring - back * cap, 23_000.0)
    )
    assert (c["push"].case, c["pull"].case) == ("push asked", "pull asked")


@pytest.mark.parametrize(("action", "piston", "ways"), [
    ("push", "sealed", {"push"}), ("pull", "sealed", {"pull"}), ("push", "displacement", {"push"}),
    ("double", "sealed", {"push", "pull"})])  # fmt: skip
def test_only_the_sides_with_oil_are_reckoned(action, piston, ways):
    n = numbers(action=action, piston=piston, port_bores={"base": given("p", 11.0)},
                duty=Duty(flow=given("duty.flow", 0.4),
                          return_pressure=given("duty.return_pressure", 0.7)))  # fmt: skip
    c = by_code(hydraulics(n))
    both = len(ways) == 2
    area = pi * 45**2 / 4 if piston == "displacement" else pi * 80**2 / 4
    ring = pi * (80**2 - 45**2) / 4
    for way, out, size in (("push", "out", area), ("pull", "in", ring)):
        assert (f"{way}-area" in c, f"oil-{out}" in c, f"speed-{out}" in c) == (way in ways,) * 3
        if way in ways:
            back = {"push": 0.7 * ring, "pull": 0.7 * area}[way] if both else 0.0
            assert c[way].provided == pytest.approx(16 * size - back)
            assert (c[way].note != "") is both
        else:
            assert way not in c
    for code in ("area-ratio", "blocked-rod-pressure", "regenerative-push", "speed-regenerative",
                 "return-flow"):  # fmt: skip
        assert (code in c) is both
    through = 0.4e6 * (area / ring if both else 1.0)
    assert c["port-speed-base"].provided == pytest.approx(through / (pi / 4 * 11**2))


def test_the_pressure_of_the_duty_comes_before_the_working_and_that_before_the_relief():
    relief = given("cylinder.relief_pressure", 19.0)
    n = numbers(relief_pressure=relief, duty=Duty(flow=given("duty.flow", 0.5)))
    cap = pi * 1600
    assert by_code(hydraulics(n))["push"].provided == pytest.approx(16 * cap)
    assert by_code(hydraulics(n))["blocked-rod-pressure"].provided == pytest.approx(
        19 * 80**2 / (80**2 - 45**2)
    )
    c = by_code(hydraulics(duty(n, pressure=given("duty.pressure", 13.0))))
    assert (c["push"].provided, c["power"].provided) == pytest.approx((13 * cap, 13 * 0.5))
    assert (c["duty-pressure"].provided, c["duty-pressure"].required) == (16.0, 13.0)
    bare = numbers(relief_pressure=relief, working_pressure=None, duty=Duty())
    assert by_code(hydraulics(bare))["push"].provided == pytest.approx(19 * cap)
    assert "power" not in by_code(hydraulics(numbers(duty=Duty())))


@pytest.mark.parametrize(("proof", "said"), [(23.9, "fails"), (24.0, "holds"), (30.0, "holds")])
def test_a_proof_pressure_is_held_against_the_highest_in_use(proof, said):
    n = numbers(proof_pressure=given("cylinder.proof_pressure", proof),
                relief_pressure=given("cylinder.relief_pressure", 24.0))  # fmt: skip
    c = by_code(hydraulics(n))["proof-pressure"]
    assert (c.verdict, c.provided, c.required, c.unit) == (said, proof, 24.0, "MPa")


def test_weight_along_an_incline_and_what_it_traps():
    """7 t at 35 degrees push back with m g sin 35; hanging at -35 they stand on the ring."""
    weight = 7000 * G * 0.573576436
    heavy = {"mass": given("duty.mass", 7000.0), "push": None, "pull": None}
    up = by_code(hydraulics(duty(numbers(), angle=given("duty.angle", 35.0), **heavy)))
    assert up["weight-along"].provided == pytest.approx(weight)
    assert up["holding-base"].asked == pytest.approx(weight / (pi * 1600))
    assert up["push-needs"].provided == pytest.approx(weight / (pi * 1600))
    down = by_code(hydraulics(duty(numbers(), angle=given("duty.angle", -35.0), **heavy)))
    assert down["holding-rod"].asked == pytest.approx(weight / (pi / 4 * (80**2 - 45**2)))
    bare = duty(numbers(working_pressure=None), angle=given("duty.angle", -35.0), **heavy)
    told = by_code(hydraulics(bare))["holding-rod"]
    assert (told.verdict, told.unit) == (None, "MPa")
    assert told.provided == pytest.approx(weight / (pi / 4 * (80**2 - 45**2)))
    either = by_code(hydraulics(duty(numbers(), orientation="", **heavy)))
    assert {"holding-base-either-way", "holding-rod-either-way"} <= set(either)
    assert "weight-along" not in either
    assert "push-needs" not in either  # nobody said that it must push at all
