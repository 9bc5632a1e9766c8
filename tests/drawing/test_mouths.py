"""Nothing is seen through the mouth of a port. The block and its sizes are made up."""

from math import pi
from pathlib import Path

import pytest

from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.project.project import project
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import SIDE, TOP, Arc, EllipseArc, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.crowded import crowded
from drafting.drawing.views.looks import look_at, marks_of
from drafting.drawing.views.mouths import Mouth, clear_marks, clear_strokes, mouths_of, narrowed
from drafting.model.load import checked, load
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, along
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder, stepped

SPECS = Path(__file__).parents[2] / "specs"
MOUTH = stepped((0.0, 6.0), (30.0, 6.0), (30.0, 10.0), (51.0, 10.0))
"""A thread of 20 in the top of a block of 100, and a drilling of 12 down to its bore."""
BLOCK = Part(
    "head",
    "body",
    (
        Piece(
            "cylinder.head",
            Prism(box(-50.0, 50.0, -50.0, 50.0), -40.0, 40.0),
            Frame(ORIGIN, Y, Z, X),
        ),
        Piece("cylinder.bore", cylinder(15.0, -41.0, 2.0), along(X), cut=True),
        Piece("rod_port.thread", MOUTH, along(Z), cut=True),
    ),
)


def test_the_edge_of_the_bore_is_not_seen_through_the_port():
    seen = project((BLOCK,), TOP, hidden=False)
    bars = {s.curve for s in seen if s.piece == "cylinder.bore"}
    assert bars  # the bore's end stands behind the drilling
    left = clear_strokes(seen)
    assert {s.curve for s in seen} - {s.curve for s in left} == bars
    radii = {s.curve.radius for s in left if isinstance(s.curve, Arc)}
    assert {6.0, 10.0} <= radii


def test_nothing_is_seen_through_a_breather_either():
    vent = (
        Piece("cylinder.breather", cylinder(8.0, 48.0, 60.0), along(Z)),
        Piece("cylinder.breather", cylinder(3.0, 2.0, 61.0), along(Z), cut=True),
    )
    block = Part("head", "body", (*BLOCK.pieces[:2], *vent))
    seen = project((block,), TOP, hidden=False)
    bars = {s.curve for s in seen if s.piece == "cylinder.bore"}
    assert bars
    left = clear_strokes(seen)
    assert {s.curve for s in seen} - {s.curve for s in left} == bars
    assert {8.0, 3.0} <= {s.curve.radius for s in left if isinstance(s.curve, Arc)}


def test_from_aside_there_is_no_mouth_and_nothing_goes():
    seen = project((BLOCK,), SIDE)
    assert mouths_of(seen) == ()
    assert clear_strokes(seen) == seen


@pytest.mark.parametrize(
    ("line", "left"),
    [
        (Line((-30.0, 6.0), (30.0, 6.0)), {((-30.0, 6.0), (-8.0, 6.0)), ((8.0, 6.0), (30.0, 6.0))}),
        (Line((0.0, 0.0), (0.0, 30.0)), {((0.0, 10.0), (0.0, 30.0))}),
        (Line((0.0, -5.0), (0.0, 5.0)), set()),
        (Line((-30.0, 11.0), (30.0, 11.0)), {((-30.0, 11.0), (30.0, 11.0))}),
        (Line((12.0, 0.0), (30.0, 0.0)), {((12.0, 0.0), (30.0, 0.0))}),
    ],
)
def test_a_hidden_thread_ends_at_the_mouth(line, left):
    mouth = Mouth("rod_port", (0.0, 0.0), 10.0)
    marks = clear_marks([Mark(line, "hidden", "rod_mount.thread")], [mouth])
    assert {(m.curve.a, m.curve.b) for m in marks} == left


def test_the_ports_own_marks_and_what_is_no_hidden_edge_stay():
    mouth = Mouth("rod_port", (0.0, 0.0), 10.0)
    marks = (
        Mark(Arc((0.0, 0.0), 8.0, 0.0, 2 * pi), "hidden", "rod_port.thread"),
        Mark(Line((-13.0, 0.0), (13.0, 0.0)), "centre", "rod_port.thread"),
    )
    assert clear_marks(marks, [mouth]) == marks


def _oval(half, piece):
    """Give a rim twice as wide as it is high."""
    return Stroke(
        EllipseArc((3.0, 4.0), (2 * half, 0.0), (0.0, half), 0.0, 2 * pi), True, "b", piece, "rim"
    )


BOSS, MOUTH_ASKEW = _oval(7.5, "rod_port.boss"), _oval(5.2, "rod_port.thread")


@pytest.mark.parametrize(("scale", "half"), [(0.2, 4.5), (0.18, 7.5 - 0.6 / 0.18), (0.1, None)])
def test_a_boss_askew_keeps_its_hole_narrower(scale, half):
    """At 1:5 there are 0.46 mm between the two on paper; at 1:10 the hole would be a line."""
    gone = crowded((BOSS, MOUTH_ASKEW), scale, ())
    assert gone == {MOUTH_ASKEW.curve}
    found = narrowed((BOSS, MOUTH_ASKEW), gone, scale)
    assert [c.minor[1] for c in found.values()] == ([pytest.approx(half)] if half else [])
    assert [c.major[0] for c in found.values()] == ([pytest.approx(2 * half)] if half else [])


def test_what_has_room_is_not_narrowed():
    assert crowded((BOSS, MOUTH_ASKEW), 0.5, ()) == frozenset()
    assert narrowed((BOSS, MOUTH_ASKEW), frozenset(), 0.5) == {}


def test_a_hole_askew_is_drawn_on_the_sheet():
    text = (SPECS / "log-grapple.toml").read_text(encoding="utf-8")
    job = sheet_job(load(checked(text.encode())))
    side = look_at(job).pictures[0]
    holes = [m for m in marks_of(side, job, 0.2, Style()) if m.name == "rod_port.thread"]
    assert any(isinstance(m.curve, EllipseArc) for m in holes)


def _ring(radius, piece, full=2 * pi):
    return Stroke(Arc((3.0, 4.0), radius, 0.0, full), True, "b", piece, "rim")


TUBE, TAPPED = _ring(15.0, "base_port.tube"), _ring(10.5, "base_port.thread")


@pytest.mark.parametrize(("scale", "radius"), [(0.2, 9.0), (0.25, 10.2), (0.1, None)])
def test_the_face_of_a_port_keeps_its_only_hole_narrower(scale, radius):
    """A short tube has no drilling behind its thread: at 1:5 its face was a plain disc."""
    gone = crowded((TUBE, TAPPED), scale, ())
    assert gone == {TAPPED.curve}
    found = narrowed((TUBE, TAPPED), gone, scale)
    assert [c.radius for c in found.values()] == ([pytest.approx(radius)] if radius else [])


def test_a_ring_that_is_left_in_the_face_is_hole_enough():
    rings = (TUBE, TAPPED, _ring(6.0, "base_port.thread"))
    gone = crowded(rings, 0.2, ())
    assert gone == {TAPPED.curve}
    assert narrowed(rings, gone, 0.2) == {}
