"""Ports are measured where they are seen, from their own side; all sizes are made up."""

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

SLED = """
title = "Sled tilt"
units = "in"
[cylinder]
bore = "3 1/4"
rod = "1 3/8"
stroke = 22
retracted = "34 1/4"
working_pressure = "2000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "cross tube"
pin = 1
hole = 1.016
width = "2 1/4"
[rod_mount]
mount = "cross tube"
pin = 1
hole = 1.016
width = "2 1/4"
[base_port]
thread = "1/2 NPT"
clock = "{clock}"
position = "4 1/2"
[rod_port]
thread = "1/2 NPT"
clock = "{clock}"
position = "28"
"""


def _sizes(clock):
    job = sheet_job(
        load(read_spec(SLED.format(clock=clock).encode(), mounts=mounts_by_end(), file="t"))
    )
    sheet = compose(job)
    assert inspect(sheet, job) == ()
    return {
        d.name: (view.name, d)
        for view in sheet.views
        for d in view.dimensions
        if d.name.endswith("_port.position")
    }


@pytest.mark.parametrize(
    ("clock", "view", "side"),
    [
        ("9:00", "side", 0.0),
        ("1:30", "top", 1.0),
        ("3:00", "top", 1.0),
        ("12:00", "side", 1.0),
        ("6:00", "side", -1.0),
        ("7:30", "side", 0.0),
        ("10:30", "side", 1.0),
    ],
)
def test_a_port_is_measured_where_it_is_seen_and_on_its_own_side(clock, view, side):
    """The side view looks from 9 o'clock, the top view from 12.

    0 stands where either side may do: what is seen from the front, and one of two in the crowd.
    """
    sizes = _sizes(clock)
    assert sizes.keys() == {"base_port.position", "rod_port.position"}
    for shown, dimension in sizes.values():
        assert shown == view
        assert side == 0.0 or dimension.line_at[1] * side > 0.0


PROP = """
title = "Gate prop"
units = "mm"
[cylinder]
bore = 70
rod = 40
stroke = 420
retracted = 690
barrel_outside = 85
working_pressure = "160 bar"
clock_seen_from = "rod"
[body_mount]
mount = "clevis"
pin = 30
hole = 30.2
gap = 36
width = 76
throat = 36
[body_pin]
supplied = true
retention = "cotter"
[rod_mount]
mount = "clevis"
pin = 30
hole = 30.2
gap = 36
width = 76
throat = 36
[rod_pin]
supplied = true
retention = "cotter"
[base_port]
thread = "M18x1.5 ISO 6149"
clock = "9:00"
[rod_port]
thread = "M18x1.5 ISO 6149"
clock = "9:00"
"""


def test_a_boss_is_not_measured_over_a_pin_in_the_end_view():
    job = sheet_job(load(read_spec(PROP.encode(), mounts=mounts_by_end(), file="t")))
    sheet = compose(job)
    assert inspect(sheet, job) == ()
    (end,) = (v for v in sheet.views if v.name == "end")
    assert not [d.name for d in end.dimensions if "port" in d.name]
