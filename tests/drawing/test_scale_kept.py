"""A scale is not given up for a few millimetres that are there; all sizes are made up."""

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from tests.drawing.test_calm import job_of

TROUGH = """
title = "Trough filler"
units = "in"
[cylinder]
construction = "tie rod"
bore = "3 1/4"
rod = "1 3/8"
stroke = "11 1/2"
retracted = "19 3/8"
square = "4 1/4"
tie_rod = "1/2-20 UNF"
cushions = "both"
working_pressure = "1500 psi"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "base"
plate = ["1 1/4", "6 3/4"]
thickness = "3/4"
seat_height = "2 1/4"
bolts = {count = 4, hole = "9/16", pitch = ["14 7/8", "5 1/2"]}
[rod_mount]
mount = "clevis"
pin = "1"
hole = 1.005
gap = "1 1/32"
width = "2 1/16"
throat = "1 1/4"
thread = "1-14 UNS"
thread_length = "1 5/8"
jam_nut = true
[base_port]
thread = "1/2 NPTF"
clock = "12:00"
[rod_port]
thread = "1/2 NPTF"
clock = "3:00"
"""
WHEEL = """
title = "Wheel seat press"
units = "in"
[cylinder]
construction = "tie rod"
bore = 4
rod = 2
stroke = 6
retracted = "17 3/8"
square = 5
tie_rod = "5/8-18 UNF"
cushions = "both"
working_pressure = "2500 psi"
clock_seen_from = "rod"
[body_mount]
mount = "trunnion"
position = "base"
pin = "1 3/4"
shoulders = "5 1/4"
width = "8 3/4"
tolerance = {pin = "+0 -0.001 in", shoulders = "±1/64 in"}
[rod_mount]
mount = "pin eye"
pin = "1 1/4"
hole = 1.265
width = "2"
outside = "2 1/4"
thread = "1 1/2-12 UNF"
thread_length = "2"
turned = 0
[base_port]
thread = "SAE-12"
clock = "12:00"
[rod_port]
thread = "SAE-12"
clock = "6:00"
"""


@pytest.mark.parametrize(
    ("text", "least"), [(TROUGH, {"side": 1 / 4, "extended": 1 / 4}), (WHEEL, {"side": 1 / 4})]
)
def test_a_title_and_a_centring_mark_halve_no_scale(text, least):
    """The room below an end view was for its words alone, and its title came lower still. Beside
    the middle of the sheet a view may reach up to the frame."""
    job = job_of(text)
    sheet = compose(job)
    scales = {v.name: v.scale for v in sheet.views}
    assert sheet.size_name == "B"
    assert {name: scales[name] for name in least} == pytest.approx(least)
    assert not inspect(sheet, job)
