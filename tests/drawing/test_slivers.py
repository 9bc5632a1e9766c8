"""Ports behind the barrel that would be blots of ink. The cylinder is made up.

A barrel of 100 carries a boss 25 wide and 5 high. At 33 degrees its far rim reaches
55 cos 33 + 12.5 sin 33 = 52.93 up, so that 2.93 stand out of the outline: 1 mm on paper, two wide
lines, at 0.341.
"""

from __future__ import annotations

from math import asin, pi

import pytest

from drafting.drawing.dimension.picture import Picture
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.strokes import FROM_ROD, Arc, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.drawing.views.slivers import without_slivers
from drafting.model.load import checked, load

TEXT = """
title = "Lift gate"
number = "LG-1"
units = "mm"
[cylinder]
bore = 80
rod = 45
stroke = 300
retracted = 560
barrel_outside = 100
clock_seen_from = "rod"
[body_mount]
mount = "none"
[rod_mount]
mount = "plain"
[base_port]
thread = "G 3/8"
height = 5
clock = "{clock} deg"
position = 60
"""


def drawn(clock, scale, name="side", text=TEXT):
    """Roles of what a view shows of the port at a scale."""
    job = sheet_job(load(checked(text.format(clock=clock).encode())))
    picture = next(p for p in look_at(job).pictures if p.name == name)
    marks = marks_of(picture, job, scale, Style())
    own = [m for m in marks if m.name.startswith("base_port.")]
    outline = [m for m in own if m.role == "outline"]
    high = max((box(m.curve)[3] for m in outline), default=0.0)
    return {m.role for m in own}, high


SHOWN = {"outline", "centre"}


@pytest.mark.parametrize(("scale", "shown"), [(1.0, True), (0.36, True), (0.33, False)])
def test_a_boss_behind_goes_with_its_tick_where_two_lines_would_be_one(scale, shown):
    roles, high = drawn(33, scale)
    assert roles == (SHOWN if shown else set())
    assert high == pytest.approx(52.93 if shown else 0.0, abs=0.01)


@pytest.mark.parametrize("clock", [327, 147])
def test_a_boss_in_front_stays_and_one_that_no_long_view_shows_otherwise(clock):
    """At 147 degrees it stands behind and below: hidden from above too."""
    assert drawn(clock, 0.1)[0] == SHOWN


def test_the_top_view_shows_what_the_side_view_leaves_out():
    assert drawn(33, 0.1)[0] == set()
    assert drawn(33, 0.1, "top")[0] == SHOWN


@pytest.mark.parametrize(("scale", "shown"), [(0.3, True), (0.05, False)])
def test_the_mouth_in_the_bore_goes_where_it_is_no_hole_to_the_eye(scale, shown):
    assert drawn(45, scale, "extended")[0] == (SHOWN if shown else set())


@pytest.mark.parametrize(("scale", "ticks"), [(1.0, 2), (0.5, 1)])
def test_an_outlet_s_axis_goes_with_its_tube(scale, ticks):
    """Its tube, 25 wide, reaches 66 cos 54 + 12.5 = 51.3 up; its drilling is seen in the bore."""
    tube = TEXT.replace("height = 5", 'height = 16\nfacing = "rod"')
    job = sheet_job(load(checked(tube.format(clock=54).encode())))
    picture = next(p for p in look_at(job).pictures if p.name == "extended")
    marks = marks_of(picture, job, scale, Style())
    own = [m for m in marks if m.name.startswith("base_port.")]
    assert {m.name for m in own if m.role == "outline"} >= {"base_port.drilling"}
    assert len({m.name for m in own if m.role == "centre"}) == ticks


def _end(width, *, scale, measured=()):
    """Radii of the arcs that an end view shows of a rod of 60 behind a bar so high and wide.

    A bar of 54 leaves 3 of the rod above it: 1 mm on paper, two wide lines, at 1/3.
    """
    strokes = [
        Stroke(Arc((0.0, 0.0), 42.5, 0.0, 2 * pi), True, "barrel", "cylinder.barrel_outside", "rim")
    ]
    a = asin(27.0 / 30.0)
    for start in (a, a + pi):
        arc = Arc((0.0, 0.0), 30.0, start, start + pi - 2 * a)
        strokes.append(Stroke(arc, True, "rod", "cylinder.rod", "rim"))
    for y in (27.0, -27.0):
        edge = Line((-width / 2, y), (width / 2, y))
        strokes.append(Stroke(edge, True, "rod", "rod_mount.tube", "rim"))
    picture = Picture("end", "", FROM_ROD, "retracted", tuple(strokes))
    left = without_slivers(picture, (), scale, 0.5, measured).strokes
    return sorted(s.curve.radius for s in left if isinstance(s.curve, Arc))


@pytest.mark.parametrize(("scale", "rod"), [(0.35, [30.0, 30.0]), (0.32, [])])
def test_a_rod_behind_a_bar_goes_where_its_edge_runs_together_with_the_bar_s(scale, rod):
    assert _end(80.0, scale=scale) == [*rod, 42.5]


def test_it_stays_where_it_has_a_size_or_no_edge_runs_along_it():
    assert _end(80.0, scale=0.2, measured=[60.0]) == [30.0, 30.0, 42.5]
    assert _end(10.0, scale=0.2) == [30.0, 30.0, 42.5]
