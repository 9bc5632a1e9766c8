"""Forces, speeds, volumes and power against worked examples of books, manuals and journals.

Source of each row: ``data/hydraulic_cases.csv``, columns title, section, source and confidence.
"""

from math import isclose

import pytest

from drafting.calc import flow, force
from tests.validation.printed import UNIT, rows, same

CASES = rows("hydraulic_cases")
LENGTH = {"mm": 1.0, "in": 25.4, "cm": 10.0}
PRESSURE = {"MPa": 1.0, "psi": UNIT["psi"], "bar": 0.1}
FLOW = {"mm3/s": 1.0, "L/min": 1e6 / 60, "US gal/min": 231 * 25.4**3 / 60, "ft3/min": 304.8**3 / 60}
FORCE = {"N": 1.0, "lbf": UNIT["lbf"]}
ANSWER = {
    "mm2": 1.0, "in2": 25.4**2, "mm/s": 1.0, "ft/s": 304.8, "N": 1.0, "kN": 1000.0,
    "lbf": UNIT["lbf"], "in3": 25.4**3, "psi": UNIT["psi"], "in": 25.4, "Pa": 1e-6,
    "L/min": 1e6 / 60, "kW": 1e6, "hp": 550 * 12 * 25.4 * UNIT["lbf"], "L": 1e6, "s": 1.0,
    "MPa": 1.0, "bar": 0.1, "m/s": 1000.0, "mm3/s": 1.0,
}  # fmt: skip
ROUNDED_ON_THE_WAY = {
    "H04": 0.00005,  # printed to four figures
    "H10": 0.0006,  # the page prints 9.43 once and 9.42 once
    "H13": 0.00005,  # reckoned there with a shorter pi
    "H21": 0.0015,  # 2.546e7 printed to three digits
    "H30": 0.004, "H31": 0.002, "H33": 0.0025, "H34": 0.002,  # the book rounds the flow
}  # fmt: skip


def given(case, name, units):
    """A size of the row in mm, MPa, N, mm3/s; None where the row has none."""
    text = case[name]
    unit = "length_unit" if name in ("bore", "rod") else f"{name}_unit"
    return float(text) * units[case[unit]] if text else None


def answer(case):
    """What our formulas say, in mm, N, MPa, s."""
    special = SPECIAL.get(case["case_id"])
    if special is not None:
        return special()
    bore, rod = given(case, "bore", LENGTH), given(case, "rod", LENGTH) or 0.0
    p, q = given(case, "pressure", PRESSURE), given(case, "flow", FLOW)
    f = given(case, "force", FORCE)
    by_quantity = {
        "cap area": lambda: force.cap_area(bore),
        "rod-side area": lambda: force.annulus_area(bore, rod),
        "extend speed": lambda: flow.extend_speed(bore, q),
        "retract speed": lambda: flow.retract_speed(bore, rod, q),
        "extend force": lambda: force.push_force(bore, rod, p),
        "retract force": lambda: force.pull_force(bore, rod, p),
        "return flow": lambda: flow.rod_side_return_flow(bore, rod, q),
        "hydraulic power": lambda: flow.hydraulic_power(p, q),
        "extend power": lambda: flow.mechanical_power(f, flow.extend_speed(bore, q)),
        "retract power": lambda: flow.mechanical_power(f, flow.retract_speed(bore, rod, q)),
    }
    return by_quantity[case["quantity"]]()


IN2, PSI, LBF = 25.4**2, UNIT["psi"], UNIT["lbf"]


def area_as_bore(area):
    """The bore whose area this is."""
    bore = (area * 4 / 3.141592653589793) ** 0.5
    assert isclose(force.cap_area(bore), area)
    return bore


SPECIAL = {
    "H15": lambda: flow.extend_volume(area_as_bore(8 * IN2), 10 * 25.4),
    "H16": lambda: force.pressure_on(20 * LBF, 2 * IN2),
    "H18": lambda: force.push_force(
        area_as_bore(6 * IN2), area_as_bore(2 * IN2), 20 * PSI, 20 * PSI
    ),
    "H19": lambda: flow.speed(flow.extend_volume(area_as_bore(2 * IN2), 254.0), 20 * IN2),
    "H21": lambda: force.pressure_on(500.0, force.cap_area(5.0)),
    "H22": lambda: force.push_force(25.0, 0.0, force.pressure_on(500.0, force.cap_area(5.0))),
    "H24": lambda: force.push_force(
        15.0, 0.0, force.pressure_on(force.weight_along(2400.0, 90.0, 9.8), force.cap_area(240.0))
    ),
}  # fmt: skip
"""Cases whose sizes stand in words; H18 is the net push with equal pressure on both sides."""


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c['case_id']} {c['quantity']}")
def test_case(case):
    ours = answer(case) / ANSWER[case["answer_unit"]]
    same(ours, case, ROUNDED_ON_THE_WAY.get(case["case_id"]))


def test_a_wrong_area_would_be_seen():
    case = next(c for c in CASES if c["case_id"] == "H06")
    with pytest.raises(AssertionError):
        same(force.push_force(75.0, 14.0, 5.0), case)
