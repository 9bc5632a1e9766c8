"""Ports and knobs in the half section: of what the edge of the cut halves, what is seen of it.

Sizes are those of the made-up ram in ``sample_job``; ISO 128-3 (memory) says what is cut.
"""

from dataclasses import replace
from math import pi
from pathlib import Path

import pytest

from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.strokes import Arc, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.drawing.views.mouths import clear_strokes
from drafting.model.load import checked, load
from drafting.shape.frame import Y, along
from drafting.shape.pieces import Piece, cylinder
from tests.drawing import sample_job


def _extended(job):
    return next(p for p in look_at(job).pictures if p.name == "extended")


def _drawn(text):
    return sheet_job(load(checked(text.encode())))


PORT = ("base_port.boss", "base_port.thread")


def _turned_to(clock):
    text = (Path(__file__).parents[2] / "specs" / "hay-loader.toml").read_text(encoding="utf-8")
    text = text.replace('clock    = "12:00"', f'clock    = "{clock}"')
    return sheet_job(load(checked(text.encode())))


def _seen(opened, piece):
    return [s.curve for s in opened.visible if s.piece == piece]


@pytest.mark.parametrize(
    ("clock", "down", "wide"),
    [("9:00", 15.08, 15.08), ("8:00", 36.08, 15.08), ("9:15", 10.39, 14.24)],
)
def test_of_a_port_in_front_what_lies_below_the_edge_of_the_cut_is_drawn(clock, down, wide):
    """Where the edge runs through it it was left out whole: the outline lacked its boss.

    The boss is 30.1625 wide and its face 46.04 from the axis: at 8:00 it reaches 46.04 sin 30 +
    15.08 cos 30 down. At 9:15, 7.5 degrees up, the middle of its face is 6.01 above the edge: so
    much less than all is left below, no wider than 14.24 where the edge cuts it.
    """
    rims = _seen(_extended(_turned_to(clock)), "base_port.boss")
    x0, z0, x1, z1 = union([box(c) for c in rims])
    assert (x0, z0, x1) == pytest.approx((63.5 - wide, -down, 63.5 + wide), abs=0.01)
    assert z1 < 1e-6


def test_of_one_behind_the_hole_is_seen_above_the_edge():
    """The drilling, 12.73 wide, ends in the far wall of the bore."""
    opened = _extended(_turned_to("3:00"))
    assert not _seen(opened, "base_port.boss")
    x0, z0, x1, z1 = union([box(c) for c in _seen(opened, "base_port.thread")])
    assert (x0, z0, x1, z1) == pytest.approx((57.13, 0.0, 69.87, 6.37), abs=0.01)


@pytest.mark.parametrize(
    ("scale", "radii"), [(1.0, [6.37, 9.13, 15.08]), (0.13, [5.85, 15.08]), (0.1, [15.08])]
)
def test_a_halved_port_keeps_the_rims_that_have_room_on_paper(scale, radii):
    """All run together at 0.13; there the hole is drawn narrower by 9.23, 1.2 on paper."""
    job = _turned_to("9:00")
    marks = marks_of(_extended(job), job, scale, Style())
    rims = [m.curve for m in marks if m.role == "outline" and m.name in PORT]
    assert sorted(c.radius for c in rims) == pytest.approx(radii, abs=0.01)


@pytest.mark.parametrize(("scale", "shown"), [(0.2, True), (0.09, False)])
def test_what_the_edge_leaves_of_a_boss_goes_where_two_lines_would_be_one(scale, shown):
    """At 9:15 10.39 of it are left: 1 mm, which is two wide lines, at 0.096."""
    job = _turned_to("9:15")
    marks = marks_of(_extended(job), job, scale, Style())
    assert any(m.name in PORT for m in marks) == shown


def test_nothing_is_seen_through_a_halved_mouth():
    """Of a line that runs down into it what is above the edge stays."""
    mouth = Stroke(Arc((70.0, 0.0), 9.0, pi, 2 * pi), True, "barrel", "base_port.thread", "rim")
    behind = replace(mouth, curve=Line((72.0, 30.0), (72.0, -30.0)), piece="cylinder.piston_length")
    far = replace(mouth, curve=Arc((70.0, 0.0), 4.0, 0.0, pi), piece="rod_port.drilling")
    left = clear_strokes((mouth, behind, far), 0.0)
    lines = [s.curve for s in left if isinstance(s.curve, Line)]
    low = -(77.0**0.5)
    assert [(c.a[1], c.b[1]) for c in lines] == [(30.0, 0.0), (pytest.approx(low), -30.0)]
    assert mouth in left
    assert far in left


@pytest.mark.parametrize(("height", "low"), [(0.0, -5.0), (-30.0, -35.0)])
def test_a_cushion_screw_is_drawn_as_far_as_it_is_below_the_edge(height, low):
    job = sample_job.job()
    screw = Piece(
        "cylinder.cushion_screw", cylinder(5.0, -60.0, 60.0), along(Y, (300.0, 0, height))
    )

    def fitted(part):
        return replace(part, pieces=(*part.pieces, screw)) if part.name == "barrel" else part

    opened = _extended(replace(job, extended=tuple(fitted(p) for p in job.extended)))
    seen = union([box(c) for c in _seen(opened, screw.name)])
    assert seen == pytest.approx((295.0, low, 305.0, min(0.0, height + 5.0)), abs=1e-6)


OVER_ANOTHER = """
title = "Ladle arm"
number = "LA-5"
units = "mm"
[cylinder]
bore = {bore}
rod = 35
stroke = 200
retracted = 450
base_thickness = {base}
clock_seen_from = "base"
[body_mount]
mount = "flange"
position = "base"
plate = 210
thickness = 18
[rod_mount]
mount = "plain"
[base_port]
thread = "flange 1/2 code 61"
clock = "{clock}"
position = {at}
[[extra_port]]
end = "base"
thread = "G 1/8"
clock = "1:30"
position = {at}
"""


@pytest.mark.parametrize(("bore", "at", "clock"), [(100, 60, "6:00"), (90, 55, "7:30")])
def test_a_port_below_the_end_of_a_size_within_is_drawn(bore, at, clock):
    """It was left out where another stood above, be that one cut away: the outline lacked it."""
    job = _drawn(OVER_ANOTHER.format(bore=bore, base=at - 18, at=at, clock=clock))
    side = next(p for p in look_at(job).pictures if p.name == "side")
    low, whole = (
        min(box(c)[1] for c in _seen(p, "base_port.boss")) for p in (_extended(job), side)
    )
    assert low == pytest.approx(whole)
