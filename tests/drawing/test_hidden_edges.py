"""Which hidden edges are drawn: those that something on the sheet is of. All sizes are made up."""

from pathlib import Path

import pytest

from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.model.load import checked, load

STOP = """
title = "Bale stop"
number = "BS-2"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 90
rod = 56
stroke = 250
retracted = 520
square = 130
tie_rod = "M12"
barrel_outside = 106
clock_seen_from = "base"
[body_mount]
mount = "flange"
position = "base"
plate = 230
thickness = 36
seat = "base side"
bolts = {{ count = 8, hole = 13, circle = 200, first_hole = "astride" }}
[rod_mount]
mount = "flange"
plate = {plate}
thickness = 25
bolts = {{ count = 4, hole = 11, circle = 84, first_hole = "on" }}
[base_port]
thread = "G 1/2"
clock = "3:00"
[rod_port]
thread = "G 1/2"
clock = "3:00"
"""


def _hidden(name, plate=106):
    """Give the hidden curves of a view with their names, the rod's plate so wide."""
    job = sheet_job(load(checked(STOP.format(plate=plate).encode())))
    picture = next(p for p in look_at(job).pictures if p.name == name)
    marks = marks_of(picture, job, 0.2, Style())
    return [(m.name, m.curve) for m in marks if m.role == "hidden"]


@pytest.mark.parametrize("plate", [106, 112])
def test_the_rim_of_a_plate_behind_is_dashed_where_its_diameter_stands(plate):
    """At 106 the barrel's rim lies on it, hidden too: that has its size elsewhere."""
    rims = [c.radius for _, c in _hidden("end", plate) if isinstance(c, Arc)]
    assert plate / 2 in rims


def test_of_the_cylinder_behind_nothing_else_is_dashed():
    """The gland's rim, 84 wide, lies on the circle of the rod plate's bolts."""
    kept = ("rod_mount.", "cylinder.nut_room", "cylinder.barrel_outside")
    assert [n for n, _ in _hidden("end") if not n.startswith(kept)] == []


def test_recesses_that_words_point_at_are_dashed_from_the_end():
    rooms = [c for n, c in _hidden("end") if n == "cylinder.nut_room"]
    assert len(rooms) == 4
    assert len({c.radius for c in rooms}) == 1


def test_and_in_the_plate_from_aside():
    """The plate is 36 thick, from its seat at 0 on."""
    lines = [c for n, c in _hidden("side") if n == "cylinder.nut_room"]
    along = [box(c) for c in lines if isinstance(c, Line) and c.a[1] == c.b[1]]
    assert len(along) == 4
    assert all(0.0 < x0 < x1 == pytest.approx(36.0) for x0, _, x1, _ in along)


def test_holes_of_mounts_are_dashed_from_above_as_from_aside():
    """They were bare centre lines there: both flanges' holes."""
    for name in ("side", "top"):
        holes = {n.partition(".bolts.")[0] for n, _ in _hidden(name) if ".bolts." in n}
        assert holes == {"body_mount", "rod_mount"}


def test_a_pin_hole_is_dashed_through_its_ears_from_above():
    text = (Path(__file__).parents[2] / "specs" / "log-grapple.toml").read_text(encoding="utf-8")
    job = sheet_job(load(checked(text.encode())))
    top = next(p for p in look_at(job).pictures if p.name == "top")
    own = [s.curve for s in top.strokes if not s.visible and s.piece.startswith("body_mount.")]
    across = [c for c in own if isinstance(c, Line) and c.a[0] == c.b[0]]
    assert {round(abs(c.a[0]), 2) for c in across} == {15.05}  # the hole is 30.1
    assert {round(abs(y)) for c in across for y in (c.a[1], c.b[1])} == {17, 35}
