"""Centre lines and threads. Overrun 2 to 3 mm: ISO 128-2 (memory); threads: ISO 6410-1 (W1, W2)."""

from math import pi

import pytest

from drafting.drawing.dimension.picture import Picture
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.strokes import FROM_ROD, SIDE, TOP, Arc, Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.symbols import symbol_marks
from drafting.settle.wishes import CentreLine, Thread
from drafting.shape.frame import ORIGIN, X, Y, along
from drafting.shape.pieces import Part, Piece, cylinder

STYLE = Style()
PIN = CentreLine("pin", (0.0, -20.0, 0.0), (0.0, 20.0, 0.0))
AXIS = CentreLine("axis", ORIGIN, (100.0, 0.0, 0.0))
EYE = Part(
    "rod",
    "rod",
    (
        Piece("eye", cylinder(25.0, -20.0, 20.0), along(Y)),
        Piece("hole", cylinder(10.0, -21.0, 21.0), along(Y), cut=True),
        Piece("rod", cylinder(12.0, 15.0, 100.0), along(X)),
    ),
)


def _picture(name, look, parts=(EYE,), shift=0.0):
    return Picture(name, name, look, "retracted", project(parts, look), shift)


def _lines(marks, role):
    return [m.curve for m in marks if m.role == role and isinstance(m.curve, Line)]


@pytest.mark.parametrize("scale", [0.5, 0.2])
def test_the_axis_overruns_the_outline_by_the_same_paper_at_every_scale(scale):
    marks = symbol_marks((AXIS, PIN), _picture("side", SIDE), scale, STYLE).marks
    level = [c for c in _lines(marks, "centre") if c.a[1] == c.b[1] == 0.0]
    assert len(level) == 1  # the axis and the level arm of the pin's mark are one line
    x0, _, x1, _ = box(level[0])
    assert (-25.0 - x0) * scale == pytest.approx(STYLE.centre_overrun)
    assert (x1 - 100.0) * scale == pytest.approx(STYLE.centre_overrun)


def test_a_pin_is_a_cross_where_it_is_round_and_a_line_where_it_lies():
    over = STYLE.centre_overrun / 0.5
    side = _lines(symbol_marks((PIN,), _picture("side", SIDE), 0.5, STYLE).marks, "centre")
    assert {box(c) for c in side} == {
        (-25.0 - over, 0.0, 25.0 + over, 0.0),
        (0.0, -25.0 - over, 0.0, 25.0 + over),
    } or {box(c) for c in side} == {
        (-10.0 - over, 0.0, 10.0 + over, 0.0),
        (0.0, -10.0 - over, 0.0, 10.0 + over),
    }
    top = _lines(symbol_marks((PIN,), _picture("top", TOP), 0.5, STYLE).marks, "centre")
    assert [box(c) for c in top] == [(0.0, -20.0 - over, 0.0, 20.0 + over)]


def test_the_rods_symbols_move_out_with_it():
    pin = CentreLine("pin", PIN.a, PIN.b, "rod")
    from drafting.shape.pieces import moved

    picture = _picture("extended", SIDE, (moved(EYE, 40.0),), 40.0)
    marks = symbol_marks((pin,), picture, 0.5, STYLE).marks
    assert all(box(m.curve)[0] <= 40.0 <= box(m.curve)[2] for m in marks)


THREAD = Thread("t", (100.0, 0.0, 0.0), (70.0, 0.0, 0.0), 24.0, 20.0, False, "rod")


def test_an_external_thread_has_narrow_roots_and_a_wide_end():
    marks = symbol_marks((THREAD,), _picture("side", SIDE), 1.0, STYLE).marks
    roots = _lines(marks, "thread")
    assert sorted(box(c) for c in roots) == [
        (70.0, -10.0, 100.0, -10.0),
        (70.0, 10.0, 100.0, 10.0),
    ]
    assert [box(c) for c in _lines(marks, "outline")] == [(70.0, -12.0, 70.0, 12.0)]


def test_end_on_the_root_is_three_quarters_of_a_circle():
    marks = symbol_marks((THREAD,), _picture("end", FROM_ROD), 1.0, STYLE).marks
    arcs = [m.curve for m in marks if isinstance(m.curve, Arc)]
    assert [(a.radius, m.role) for a, m in zip(arcs, marks[-1:], strict=True)] == [(10.0, "thread")]
    assert arcs[0].a1 - arcs[0].a0 == pytest.approx(1.5 * pi)


def test_an_internal_thread_gives_its_wide_circle_to_the_crest():
    tapped = Part(
        "rod",
        "rod",
        (
            Piece("rod", cylinder(20.0, 0.0, 100.0), along(X)),
            Piece("tap", cylinder(12.0, 60.0, 101.0), along(X), cut=True),
        ),
    )
    inside = Thread("t", (100.0, 0.0, 0.0), (60.0, 0.0, 0.0), 24.0, 20.0, True, "rod")
    drawn = symbol_marks((inside,), _picture("end", FROM_ROD, (tapped,)), 1.0, STYLE)
    radii = {(m.curve.radius, m.role) for m in drawn.marks if isinstance(m.curve, Arc)}
    assert radii == {(12.0, "thread"), (10.0, "outline")}
    assert [s.curve.radius for s in drawn.replaced] == [12.0]
