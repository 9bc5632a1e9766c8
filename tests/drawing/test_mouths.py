"""Nothing is seen through the mouth of a port. The block and its sizes are made up."""

from math import pi

import pytest

from drafting.drawing.project.project import project
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import SIDE, TOP, Arc, Line
from drafting.drawing.views.mouths import Mouth, clear_marks, clear_strokes, mouths_of
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, along
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder, stepped

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
