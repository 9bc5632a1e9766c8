"""What the retracted length's tolerances add up to; the sums by hand, from arithmetic."""

import pytest

from drafting.checks.of_cylinder import judge
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.told.length_stack import ROD_LENGTH, length_stack

SPEC = """
title = "Chain"
units = "mm"
[cylinder]
bore = 80
rod = 45
stroke = 300
retracted = 700
base_thickness = 30
piston_length = 55
tolerance = {{retracted = "{asked}", stroke = "±2", base_thickness = "+0.4 -0", {more}}}
[body_mount]
mount = "{mount}"
{body}
[rod_mount]
mount = "clevis"
pin = 30
offset = 60
tolerance = {{offset = "±0.3"}}
[base_port]
thread = "G 1/2"
clock = "12:00"
[rod_port]
thread = "G 1/2"
clock = "12:00"
"""
CLEVIS = "pin = 30"


def cylinder(asked="±1", more='piston_length = "±0.2"', mount="clevis", body=CLEVIS):
    text = SPEC.format(asked=asked, more=more, mount=mount, body=body)
    return load(read_spec(text.encode(), mounts=mounts_by_end()))


def test_worst_case_and_root_sum_square():
    """Halves 0.2, 0.2, 0.3 about +0.2: worst 0.7, likely sqrt(0.17); the stroke adds nothing."""
    s = length_stack(cylinder())
    assert {k.name for k in s.counted} == {
        "cylinder.base_thickness",
        "cylinder.piston_length",
        "rod_mount.offset",
    }
    assert s.worst == pytest.approx((0.2 - 0.7, 0.2 + 0.7))
    assert s.likely == pytest.approx((0.2 - 0.17**0.5, 0.2 + 0.17**0.5))
    assert set(s.left_out) == {"body_mount.offset", ROD_LENGTH}
    assert s.asked == (-1.0, 1.0)


def test_a_chain_wider_than_asked_is_told():
    codes = [f.code for f in judge(cylinder(asked="±0.5")).findings]
    assert "stack-too-wide" in codes
    assert "stack-too-wide" not in [f.code for f in judge(cylinder()).findings]


def test_ahead_of_a_flange_at_the_rod_end_base_and_piston_do_not_count():
    flange = cylinder(mount="flange", body='position = "rod end"')
    s = length_stack(flange)
    assert {k.name for k in s.counted} == {"rod_mount.offset"}
    assert s.worst == pytest.approx((-0.3, 0.3))
