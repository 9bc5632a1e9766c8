"""The whole report of a cylinder is in the units of its spec.

The cylinders are the samples; 2500 psi are 17.24 MPa, 160 bar are 16 MPa.
"""

import re
from pathlib import Path

from drafting.checks.of_cylinder import judge
from drafting.model.load import load, read
from drafting.reports.text import whole

SPECS = Path(__file__).parents[2] / "specs"


def report(name):
    c = load(read(str(SPECS / f"{name}.toml")))
    return whole(c, judge(c))


def test_reasons_of_an_inch_cylinder_have_no_number_in_metric_units_alone():
    """The tube carried 17.24 MPa, and nothing was less than 20 mm."""
    said = report("weir-gate")
    assert "carries 2,500 psi (17.24 MPa)" in said
    metric = re.findall(r"(?<![\w./(])[\d.]+ (?:mm|MPa)\b", said)
    assert metric == []
    assert "(4.25 in (" not in said


def test_a_pressure_beside_a_pressure_is_in_bar():
    """Of a port that is blocked: 233.1 bar, at 16 MPa on the other side."""
    assert "at 160 bar on the base side" in report("pomace-ram")


def test_weight_and_oil_are_first_in_the_cylinders_own_unit():
    """pi/4 3.5^2 16 in^3 of 231 to the gallon are 0.67, less the rod's pi/4 1.75^2 16 0.50."""
    said = report("weir-gate")
    assert re.search(r"Weight, dry +69 lb \(31.1 kg\)", said)
    assert re.search(r"Oil, out and back +0.67, 0.50 US gal \(2.52 L, 1.89 L\)", said)
    assert re.search(r"Weight, dry +44.3 kg \(98 lb\)", report("pomace-ram"))
