"""A size is read on what it is of: no line of it runs along something else. All is made up."""

from itertools import permutations, product
from math import dist
from pathlib import Path

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.sheet import Linear, Note, Round
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.sheet.style import Style
from tests.drawing.test_calm import job_of, view

ONCE_WRONG = Path(__file__).parent / "once_wrong"
ARM = """
title = "Bark arm"
units = "in"
[cylinder]
construction = "tie rod"
bore = 5
rod = 2.5
stroke = 14
retracted = "19 1/2"
working_pressure = "1900 psi"
clock_seen_from = "base"
[body_mount]
mount = "trunnion"
position = "middle"
pin = 2
shoulders = "7 1/2"
width = 12.5
[rod_mount]
mount = "clevis"
pin = "1 3/4"
gap = 2.5
width = 5
[base_port]
thread = "SAE-12"
clock = "12:00"
[rod_port]
thread = "SAE-12"
clock = "12:00"
"""
STACKER = """
title = "Plank stacker"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 63
rod = 36
stroke = 400
retracted = 640
working_pressure = "140 bar"
clock_seen_from = "rod"
[body_mount]
mount = "clevis"
pin = 32
gap = 40
[rod_mount]
mount = "pin eye"
pin = 32
width = 40
thread = "M27x2"
[base_port]
thread = "G 1/2"
clock = "12:00"
[rod_port]
thread = "G 1/2"
clock = "12:00"
"""


def test_a_tube_behind_its_tie_rods_is_measured_where_it_is_seen():
    """The arrows stood on the tie rods, in the middle of the trunnion's block."""
    job = job_of(ARM)
    sheet = compose(job)
    where = [
        v.name for v in sheet.views for d in v.dimensions if d.name == "cylinder.barrel_outside"
    ]
    assert where == ["extended"]
    assert not inspect(sheet, job)


def test_no_line_of_a_size_stands_on_one_of_another():
    """A size across the head stood on the line of the port's place: one line with two meanings."""
    side = view(compose(job_of(STACKER)), "side")
    drawn = [
        explode(d, (0.0, 0.0), side.scale, Style())
        for d in side.dimensions
        if isinstance(d, Linear)
    ]
    for one, other in permutations(drawn, 2):
        for (a, b), (c, d) in product(one.lines, other.extensions):
            if a[0] == b[0] and c[0] == d[0] and abs(a[0] - c[0]) < 1.0:
                assert max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1])


@pytest.mark.parametrize(
    "name", ["radius_off_its_arc", "port_in_a_trunnions_boss", "stub_of_a_rod"]
)
def test_words_stand_near_what_they_are_of(name):
    """Leaders of 29 to 41 mm joined them, where others were as free and shorter."""
    sheet = compose(job_of((ONCE_WRONG / f"{name}.toml").read_text()))
    for v in sheet.views:
        for d in v.dimensions:
            if isinstance(d, Note | Round):
                assert dist(d.tip, d.knee) * v.scale <= 28.0


LONG_GATE = """
title = "Gate of the upper feeder"
units = "mm"
[cylinder]
bore = 63
rod = 40
stroke = 1580
retracted = 1925
[body_mount]
mount = "cross tube"
pin = 30
width = 82
outside = 55
[rod_mount]
mount = "male thread"
thread = "M36x2"
thread_length = 58
flats = 36
[base_port]
thread = "G 1/2"
clock = "7:00"
[rod_port]
thread = "G 3/8"
clock = "10:30"
"""


def test_flats_are_measured_on_themselves_where_the_thread_is_as_wide():
    """36 across flats behind M36: measured off the rod's end it was the size of the thread."""
    side = view(compose(job_of(LONG_GATE)), "side")
    at = {d.name: d for d in side.dimensions}
    end = max(at["cylinder.retracted"].a[0], at["cylinder.retracted"].b[0])
    flats = at["rod_mount.flats"]
    assert (flats.tip if isinstance(flats, Note) else flats.line_at)[0] < end - 58.0


GATE = """
title = "Gate lift"
number = "GL-9"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 100
rod = 56
stroke = 400
retracted = 700
square = 130
barrel_outside = {outside}
[body_mount]
mount = "pin eye"
pin = 40
[rod_mount]
mount = "pin eye"
pin = 40
[base_port]
thread = "G 3/4"
clock = 12
[rod_port]
thread = "G 3/4"
clock = 12
"""


@pytest.mark.parametrize(
    ("outside", "where"), [(115, "extended"), (124, "side"), (130, "extended")]
)
def test_a_tube_along_whose_edge_a_tie_rod_runs_is_measured_in_the_section(outside, where):
    """The tie rods' edge is at 57.1 or 58.3: arrows at 57.5 were read on it, at 62 they are not.

    At 65 the tube's edge is one line with those of the caps: its size stood at a cap's corner.
    """
    job = job_of(GATE.format(outside=outside))
    sheet = compose(job)
    ((place, size),) = (
        (v, d) for v in sheet.views for d in v.dimensions if d.name == "cylinder.barrel_outside"
    )
    tube = [
        m.curve
        for m in place.marks
        if m.name == "cylinder.barrel_outside" and isinstance(m.curve, Line)
    ]
    ends = [x for c in tube for x in (c.a[0], c.b[0])]
    assert place.name == where
    assert min(ends) < size.line_at[0] < max(ends)
    assert not inspect(sheet, job)
