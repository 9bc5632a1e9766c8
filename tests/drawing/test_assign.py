"""Every size goes to a view where it is true and seen: common practice of drawing offices."""

from dataclasses import replace

import pytest

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.dimension.assign import assign
from drafting.drawing.views.looks import look_at
from drafting.settle.wishes import Callout, Diameter, Length
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, about_x, dot, sub
from drafting.shape.pieces import Part, Piece, Prism, box
from tests.drawing.sample_job import job
from tests.drawing.test_calm import job_of


@pytest.fixture(scope="module")
def seen():
    return look_at(job())


def view_of(seen, wish):
    found = assign([wish], seen.pictures)
    return found[0].picture.name if found else None


def test_the_sample_goes_where_a_draughtsman_would_put_it(seen):
    places = {c.wish.name: c.picture.name for c in seen.choices}
    assert places == {
        "cylinder.retracted": "side",
        "cylinder.extended": "extended",
        "cylinder.stroke": "extended",
        "cylinder.bore": "extended",
        "cylinder.barrel_outside": "side",
        "cylinder.rod": "side",
        "body_mount.hole": "side",
        "rod_mount.hole": "side",
        "body_mount.width": "top",
        "base_port.position": "side",
        "base_port.thread": "top",
    }


def test_a_turned_size_is_shown_in_the_end_view_alone(seen):
    turn = about_x(35.0)
    wish = Length("w", ORIGIN, turn.point((0.0, 40.0, 0.0)), turn.y)
    assert view_of(seen, wish) == "end"


def test_a_callout_goes_where_its_face_is_seen(seen):
    assert view_of(seen, Callout("p", (70.0, 0.0, 62.0), Z, ("G",))) == "top"
    assert view_of(seen, Callout("p", (460.0, -35.0, 0.0), (0.0, -1.0, 0.0), ("G",))) == "side"


def test_a_hole_across_no_view_becomes_a_distance_along_the_axis(seen):
    turn = about_x(35.0)
    found = assign([Diameter("h", (460.0, 0, 0), turn.y, 30.0)], seen.pictures)
    wish = found[0].wish
    assert isinstance(wish, Length)
    assert wish.form == "round"
    assert dot(sub(wish.b, wish.a), X) == pytest.approx(30.0)


def test_true_size_always(seen):
    for choice in seen.choices:
        if isinstance(choice.wish, Length):
            look = choice.picture.look
            a, b = look.flat(choice.wish.a), look.flat(choice.wish.b)
            u = look.flat(choice.wish.direction)
            shown = abs((b[0] - a[0]) * u[0] + (b[1] - a[1]) * u[1])
            assert shown == pytest.approx(
                abs(dot(sub(choice.wish.b, choice.wish.a), choice.wish.direction))
            )


def test_poses_do_not_mix(seen):
    wish = Length("w", ORIGIN, (660.0, 0, 0), X, pose="extended")
    assert view_of(seen, wish) == "extended"
    assert view_of(seen, replace(wish, direction=Y, b=(0.0, 35.0, 0.0))) is None


def test_a_slot_is_not_measured_to_an_edge_that_the_view_leaves_out():
    """The bottom of a clevis slot is hidden behind the ear in the side view, seen from above."""
    flat = Frame(ORIGIN, X, Z, Y)
    pieces = [
        Piece("body_mount.ear", Prism(box(-30.0, 25.0, -20.0, 20.0), lo, hi), flat)
        for lo, hi in ((12.0, 35.0), (-35.0, -12.0))
    ]
    pieces.append(Piece("body_mount.web", Prism(box(18.0, 25.0, -20.0, 20.0), -35.0, 35.0), flat))
    clevis = Part("barrel", "body", tuple(pieces))
    wish = Length("body_mount.throat", ORIGIN, (18.0, 12.0, 0.0), X)
    seen = look_at(job(retracted=(clevis,), wishes=(wish,)))
    assert [c.picture.name for c in seen.choices] == ["top"]


@pytest.mark.parametrize(("high", "where"), [(80.0, "top"), (40.0, "end")])
def test_a_plate_that_is_less_than_its_way_out_is_measured_in_the_end_view(high, where):
    """Extension lines twice as long as the size led past the eye, whose size it seemed to be."""
    solid = Prism(box(15.0, 25.0, -high / 2, high / 2), -30.0, 30.0)
    plate = Part("plate", "body", (Piece("body_mount.plate", solid, Frame(ORIGIN)),))
    one = job(retracted=(*job().retracted, plate), extended=(*job().extended, plate))
    wish = Length("body_mount.plate.y", (20.0, -high / 2, 30.0), (20.0, high / 2, 30.0), Y)
    assert view_of(look_at(one), wish) == where


def _screws(spec):
    seen = look_at(job_of(spec))
    return next(c for c in seen.choices if c.wish.name == "cylinder.cushion_screw")


LATCH_ARM = """
title = "Latch arm"
units = "in"
[cylinder]
bore = 3
rod = "1 3/4"
stroke = 15
retracted = "14 5/8"
gland = "bolted"
cushions = "both"
clock_seen_from = "rod"
[body_mount]
mount = "trunnion"
position = "middle"
pin = "1 1/2"
shoulders = "4 3/4"
width = "8 1/4"
[rod_mount]
mount = "ball swivel"
pin = "1 1/4"
width = 1
ball_width = "1.1"
outside = "2 3/4"
[base_port]
thread = "SAE-10"
clock = "12:00"
[rod_port]
thread = "SAE-10"
clock = "2:00"
"""
COIL_STOP = """
title = "Coil stop"
units = "in"
[cylinder]
construction = "tie rod"
bore = 6
rod = "2 1/2"
stroke = 19
retracted = 35
square = "7 1/2"
tie_rod = "1-14 UNS"
cushions = "base"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "base"
plate = [2, "10 1/4"]
thickness = "1 1/4"
seat_height = "3 3/4"
bolts = {count = 4, hole = "13/16", pitch = ["20 1/4", "ACROSS"]}
[rod_mount]
mount = "male thread"
thread = "1 7/8-12 UN"
thread_length = 3
[base_port]
thread = "3/4 NPTF"
clock = "12:00"
[rod_port]
thread = "3/4 NPTF"
clock = "12:00"
"""


def test_words_of_two_cushion_screws_go_to_the_one_that_is_seen():
    """They pointed at the other one, behind the barrel, where nothing is drawn."""
    choice = _screws(LATCH_ARM)
    assert choice.wish.lines[-1] == "BASE 3:00, ROD 5:00"
    assert choice.picture.name == "top"
    assert choice.wish.tip[0] < 0.0
    assert choice.picture.on_stroke(choice.picture.look.flat(choice.wish.tip))


def test_where_words_are_fewer_those_of_a_screw_stay_at_the_one_that_is_seen():
    """Fewer words are no other place: they went back to the one behind the barrel."""
    text = LATCH_ARM + '[drawing]\ndimensions = "in [mm]"\n'
    whole, *leaner = Dresser(job_of(text)).leaner(small=True)
    tips = [
        c.wish.tip
        for one in (whole, *leaner)
        for c in one.seen.choices
        if c.wish.name == "cylinder.cushion_screw"
    ]
    assert len(tips) > 1
    assert len(set(tips)) == 1


@pytest.mark.parametrize(("across", "view"), [("8", "end"), ("8 3/4", "top")])
def test_words_of_a_cushion_screw_do_not_point_into_a_bolt_hole(across, view):
    """From above its tip lay amid a foot's hole, which seemed to be the screw."""
    assert _screws(COIL_STOP.replace("ACROSS", across)).picture.name == view
