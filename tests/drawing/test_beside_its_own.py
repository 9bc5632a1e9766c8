"""Sizes, hours and leaders stand beside what they are of; all sizes are made up."""

from math import dist

import numpy as np
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.dial import clear_of, dial_of
from drafting.drawing.sheet.clash import text_quad
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.on_paper import box, hull, points, union
from drafting.drawing.sheet.sheet import Note
from drafting.drawing.sheet.style import Style
from tests.drawing.test_calm import job_of, view

SQUEEZE = """
title = "Bale squeeze"
units = "in"
[cylinder]
bore = 3
rod = "1 1/2"
retracted = 22
extended = 34
working_pressure = "2500 psi"
clock_seen_from = "rod"
[body_mount]
mount = "cross tube"
pin = "1 1/4"
width = "3 1/2"
[rod_mount]
mount = "tang"
pin = "1 1/4"
width = "1 1/2"
[base_port]
thread = "SAE-8"
clock = "9:00"
[rod_port]
thread = "SAE-8"
clock = "9:00"
"""


def test_a_boss_is_measured_beside_itself():
    """Its lines ran along the barrel and on past the cross tube, 45 mm, as if they were of that."""
    top = view(compose(job_of(SQUEEZE)), "top")
    (height,) = (d for d in top.dimensions if d.name == "base_port.height")
    assert abs(height.line_at[0] - height.b[0]) * top.scale < 20.0


TILT = """
title = "Post tilt"
units = "in"
[cylinder]
bore = 2.5
rod = 1.25
stroke = 10
retracted = 20
working_pressure = "2500 psi"
clock_seen_from = "rod"
[body_mount]
mount = "tang"
pin = 1
width = 1.25
left = 0.75
right = 0.5
[rod_mount]
mount = "ball swivel"
pin = 1
hole = 1
width = 1
ball_width = 1.2
outside = 2.5
thread = "1 1/4-12 UNF"
[base_port]
thread = "SAE-6"
clock = "10:00"
position = 2
[rod_port]
thread = "SAE-6"
clock = "2:00"
position = 14.5
"""


def test_an_hour_stands_beside_its_line_rather_than_beyond_a_ports_words():
    """The 3 stood at the far end of the rod port's words, 100 mm from the view."""
    end = view(compose(job_of(TILT)), "end")
    (three,) = (t.at for t in end.texts if t.name == "clock" and t.text == "3")
    own = [p[0] for m in end.marks if m.role == "outline" for p in points(m.curve, 0.05)]
    assert 0.0 < (three[0] - max(own)) * end.scale < 12.0
    assert 0.5 < abs(three[1]) * end.scale < 8.0


LEG_PLATE = """
title = "Crane leg"
units = "in"
[cylinder]
bore = "3 1/4"
rod = "2 1/2"
stroke = 22
retracted = 7.5
barrel_outside = 4
working_pressure = "3000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "rod end"
plate = [6.5, 6.5]
thickness = 1
seat = "rod side"
bolts = {count = 4, hole = 0.656, circle = 7}
[rod_mount]
mount = "tang"
pin = 1.5
width = 1.75
outside = 3
[base_port]
thread = "SAE-8"
clock = "12:00"
[rod_port]
thread = "SAE-8"
clock = "3:00"
"""


def test_hours_stand_clear_of_a_bolt_circle_that_is_wider_than_its_plate():
    """The 12 stood on the circle, or far beyond the words of the holes above it."""
    end = view(compose(job_of(LEG_PLATE)), "end")
    (twelve,) = (t.at for t in end.texts if t.name == "clock" and t.text == "12")
    assert 0.5 < (twelve[1] - 3.5 * 25.4) * end.scale < 9.0


def test_a_face_is_pointed_at_from_its_front():
    """The leader came from behind, through the plate to the face that bears on the machine."""
    views = compose(job_of(LEG_PLATE)).views
    (seat,) = (d for v in views for d in v.dimensions if d.name == "body_mount.seat")
    assert seat.knee[0] > seat.tip[0] - 1e-6


def test_a_face_is_pointed_at_at_its_edge():
    """The leader went to the axis, through a port's mouth and over the barrel."""
    for sheet in (compose(job_of(LEG_PLATE)), compose(job_of(LEG_PLATE.replace("12:00", "11:00")))):
        (seat,) = (d for v in sheet.views for d in v.dimensions if d.name == "body_mount.seat")
        assert abs(seat.tip[1]) > 25.0


def test_words_that_stand_badly_go_to_a_view_that_has_room():
    """The side view's sizes left its face no place but across the plate; the top view has few."""
    top = view(compose(job_of(LEG_PLATE)), "top")
    assert "body_mount.seat" in {d.name for d in top.dimensions}


HITCH = """
title = "Hitch lock"
units = "in"
[cylinder]
bore = 2.5
rod = 1.375
stroke = 5
retracted = 5
working_pressure = "3000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "rod end"
plate = [2, 5.75]
thickness = 0.75
seat_height = 2.25
bolts = {count = 2, hole = 0.531, pitch = [0, 4.25]}
[rod_mount]
mount = "male thread"
thread = "1-14 UNS"
thread_length = 1.5
[base_port]
thread = "SAE-6"
clock = "12:00"
[rod_port]
thread = "SAE-6"
clock = "12:00"
"""


def test_a_seat_is_pointed_at_where_its_words_stand():
    """The leader ran along under the whole foot to its far edge, over three other lines."""
    end = view(compose(job_of(HITCH)), "end")
    (seat,) = (d for d in end.dimensions if d.name == "body_mount.clock")
    assert dist(seat.tip, seat.knee) * end.scale < 20.0


def test_a_flange_is_measured_where_its_face_is_seen():
    """Its sides stood in the side and the top view, their lines over the rod and the rod's eye."""
    end = view(compose(job_of(LEG_PLATE)), "end")
    assert {"body_mount.plate.y", "body_mount.plate.z"} <= {d.name for d in end.dimensions}


SWING = """
title = "Sluice swing"
units = "in"
[cylinder]
bore = "2 1/2"
rod = "1 1/4"
stroke = 12
retracted = 25
working_pressure = "2000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "pin eye"
pin = 1
width = "1 1/2"
[rod_mount]
mount = "pin eye"
pin = 1
width = "1 1/2"
thread = "1-14 UNS"
thread_length = 2
flats = "1 1/16"
[base_port]
thread = "SAE-6"
clock = "3:00"
position = 2.25
[rod_port]
thread = "SAE-6"
clock = "3:00"
position = 15.75
"""


def test_flats_are_measured_on_the_flats():
    """Their lines ran on over the whole eye, 60 mm, where they were read as a size of that."""
    side = view(compose(job_of(SWING)), "side")
    (flats,) = (d for d in side.dimensions if d.name == "rod_mount.flats")
    assert on_flats(flats, side) < 10.0


def on_flats(flats, side):
    """How far (paper mm) along the axis a size across flats is read from them."""
    left, _, right, _ = union(
        [box(m.curve) for m in side.marks if m.name.startswith("rod_mount.flats")]
    )
    at = (flats.tip if isinstance(flats, Note) else flats.line_at)[0]
    return max(left - at, at - right, 0.0) * side.scale


BENDER = """
title = "Tube bender"
units = "mm"
[cylinder]
bore = 50
rod = 30
stroke = 170
retracted = 365
clock_seen_from = "rod"
[body_mount]
mount = "spade eye"
pin = 20
width = 18
bushing = 26
[rod_mount]
mount = "male thread"
thread = "M24x2"
thread_length = 34
shoulder = {shoulder}
flats = {flats}
[base_port]
thread = "G 1/4"
clock = "5:00"
[rod_port]
thread = "G 1/4"
clock = "11:30"
"""


@pytest.mark.parametrize(("shoulder", "flats"), [(38, 25), (36, 26)])
def test_flats_as_wide_as_the_thread_are_said_on_themselves(shoulder, flats):
    """Their extension lines ran beside the thread's outline, half a millimetre apart."""
    side = view(compose(job_of(BENDER.format(shoulder=shoulder, flats=flats))), "side")
    (said,) = (d for d in side.dimensions if d.name == "rod_mount.flats")
    assert on_flats(said, side) == 0.0
    thin = explode(said, (0.0, 0.0), side.scale, Style()).extensions
    assert all(abs(a[0] - b[0]) < 10.0 for a, b in thin)


@pytest.mark.parametrize(("off", "moves"), [(1.5, True), (3.5, False)])
def test_an_hour_is_not_read_with_the_words_beside_it(off, moves):
    """``8 HOLES`` ended just before the hour of the dial on one line: 8 HOLES 12."""
    (hour, *_) = dial = dial_of(np.array([(-20.0, -18.0), (21.0, 19.0)]), Style())
    edge = hull(text_quad(hour))[0] - off - Style().text_gap
    words = Note("body_mount.bolts.hole", (-12.0, 12.0), (edge, 21.0), "left", ("8 HOLES",))
    assert (clear_of([words], dial, 1.0, Style())[0] != hour) is moves
