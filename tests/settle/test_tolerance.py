"""Tolerances on a settled cylinder and as they are printed.

Printed forms: ISO 129-1 (equal decimals, zero as 0) and ASME Y14.5 (decimals of size and deviation
equal, no leading zero, zero with its sign), both recalled. H8 on 50 mm is +0.039 by ISO 286-2.
"""

import pytest

from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.settle.tolerance import Tolerance, tolerance_of, toleranced
from drafting.spec.check import read_spec

SPEC = """
title = "Hurdle lift"
units = "mm"
[cylinder]
bore = 50
rod = 28
stroke = 200
retracted = 420
tolerance = {{retracted = "+1 -0", bore = "H8", rod = "{rod}"}}
[body_mount]
mount = "clevis"
pin = 20
hole = 20.1
gap = 25
width = 50
tolerance = {{hole = "H9", gap = "25 to 25.4", pin = "{pin}"}}
[rod_mount]
mount = "flange"
plate = [90, 90]
bolts = {{count = 4, hole = 11, pitch = [60, 60], tolerance = {{hole = "H13", pitch = "±0.2"}}}}
tolerance = {{plate = "±1"}}
[base_port]
thread = "G 1/4"
clock = "12:00"
[rod_port]
thread = "G 1/4"
clock = "12:00"
"""


def cylinder(rod="f7", pin="h9"):
    text = SPEC.format(rod=rod, pin=pin)
    return load(read_spec(text.encode(), mounts=mounts_by_end()))


def test_what_was_typed_is_settled_and_nothing_else():
    found = cylinder().tolerances
    assert {n: (t.lower, t.upper) for n, t in found.items()} == {
        "cylinder.retracted": (0.0, 1.0),
        "cylinder.bore": (0.0, 0.039),
        "cylinder.rod": (-0.041, -0.02),
        "body_mount.hole": (0.0, 0.052),
        "body_mount.gap": pytest.approx((0.0, 0.4)),
        "body_mount.pin": (-0.052, 0.0),
        "rod_mount.bolts.hole": (0.0, 0.27),
        "rod_mount.bolts.pitch": (-0.2, 0.2),
        "rod_mount.plate": (-1.0, 1.0),
    }
    assert tolerance_of(found, "rod_mount.bolts.pitch.y") is found["rod_mount.bolts.pitch"]
    assert tolerance_of(found, "body_mount.width") is None
    assert "iso286.csv" in found["cylinder.bore"].why


@pytest.mark.parametrize(
    ("rod", "pin", "code"),
    [("f7", "c11", "fit-open"), ("H8", "h9", "fit-side"), ("f7", "+0.2 -0", "pin-may-not-enter")],
)
def test_what_a_person_must_look_at(rod, pin, code):
    codes = [f.code for f in cylinder(rod, pin).findings]
    assert code in codes
    assert code not in [f.code for f in cylinder().findings]


def test_an_untabled_class_is_printed_as_typed():
    open_class = cylinder(pin="c11").tolerances["body_mount.pin"]
    assert (open_class.lower, open_class.upper) == (None, None)
    assert "".join(toleranced(20.0, open_class, "mm", 0)) == "20 c11"


@pytest.mark.parametrize(
    ("size", "lower", "upper", "fit", "unit", "fractions", "said"),
    [
        (25.0, -0.1, 0.1, "", "mm", 0, "25 ±0.1"),
        (25.0, 0.0, 0.5, "", "mm", 0, "25 +0.5/0"),
        (25.0, -0.1, 0.25, "", "mm", 0, "25 +0.25/-0.10"),
        (50.0, 0.0, 0.039, "H8", "mm", 0, "50 H8 (+0.039/0)"),
        (50.0, -0.05, -0.025, "f7", "mm", 0, "50 f7 (-0.025/-0.050)"),
        (88.9, -0.127, 0.127, "", "in", 16, "3.500 ±.005"),
        (31.75, 0.0, 0.0508, "", "in", 16, "1.250 +.002/-.000"),
        (19.05, -0.254, 0.254, "", "in", 16, ".75 ±.01"),
    ],
)
def test_printed_forms(size, lower, upper, fit, unit, fractions, said):
    held = Tolerance("x", "", lower, upper, fit)
    assert "".join(toleranced(size, held, unit, fractions)) == said


@pytest.mark.parametrize(
    ("units", "size", "typed", "said"),
    [
        ("in", 11.75, "±0.010", "11.750 ±.010"),
        ("in", 11.75, "11.740 to 11.760", "11.750 ±.010"),
        ("in", 11.75, "±0.0100 in", "11.7500 ±.0100"),
        ("in", 11.75, "±0.254 mm", "11.75 ±.01"),
        ("mm", 298, "±0.50", "298 ±0.50"),
        ("mm", 298, "+0.5 -0.10", "298 +0.50/-0.10"),
        ("mm", 298, "±0.5", "298 ±0.5"),
    ],
)
def test_typed_decimals_stay(units, size, typed, said):
    """±0.010 was ±.01."""
    text = f"""
    title = "Trial"
    units = "{units}"
    [cylinder]
    bore = {size / 4}
    rod = {size / 8}
    stroke = {size / 2}
    retracted = {size}
    tolerance = {{retracted = '{typed}'}}
    [body_mount]
    mount = "none"
    [rod_mount]
    mount = "plain"
    """
    (held,) = load(read_spec(text.encode(), mounts=mounts_by_end())).tolerances.values()
    assert "".join(toleranced(size * (25.4 if units == "in" else 1.0), held, units, 0)) == said


def test_fractions_stay_fractions_where_both_are():
    held = Tolerance("x", "", 0.0, 25.4 / 16, fractions=True)
    assert "".join(toleranced(27.25 * 25.4, held, "in", 16)) == "27 1/4 +1/16 -0"
    assert "".join(toleranced(32.16, held, "in", 16)) == "1.2661 +.0625/-.0000"
    assert "".join(toleranced(27.25 * 25.4, held, "in", 0)) == "27.2500 +.0625/-.0000"


@pytest.mark.parametrize(
    ("hole", "pin", "told"),
    [("0 -0.1", "+0 -0.1", False), ("+0.2 -0.11", "+0 -0.1", True), ("+0.2 -0.1", "+0 -0.1", False),
     ("+0.2 -0", "+0.1 -0.1", False), ("+0.2 -0", "+0.11 -0.1", True), ("H9", "+0.1 -0", False)],
)  # fmt: skip
def test_a_pin_enters_until_the_largest_is_larger_than_the_smallest_hole(hole, pin, told):
    """Pin 20, hole 20.1: just 0.1 between them."""
    text = SPEC.format(rod="f7", pin=pin).replace('hole = "H9"', f'hole = "{hole}"')
    found = load(read_spec(text.encode(), mounts=mounts_by_end())).findings
    assert any(f.code == "pin-may-not-enter" for f in found) is told


@pytest.mark.parametrize(("pin", "told"), [("+0.1 -0", False), ("+0.11 -0", True)])
def test_a_hole_without_a_tolerance_is_as_large_as_typed(pin, told):
    text = SPEC.format(rod="f7", pin=pin).replace('hole = "H9", ', "")
    found = load(read_spec(text.encode(), mounts=mounts_by_end())).findings
    assert any(f.code == "pin-may-not-enter" for f in found) is told
