"""SVG path data to polylines. The arc's reference is the circle that it must lie on; the rest is
the definition of each command in SVG 1.1, chapter 8."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.lists.title_block import logo_marks
from drafting.factors import Misread
from drafting.spec.svg_path import read_path, read_viewbox


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("M 0 0 L 10 0", [((0, 0), (10, 0))]),
        ("M0,0 10,0 10,5z", [((0, 0), (10, 0), (10, 5), (0, 0))]),
        ("m1 1h2v3H0V0", [((1, 1), (3, 1), (3, 4), (0, 4), (0, 0))]),
        ("M0 0L1 1M5 5l1-1", [((0, 0), (1, 1)), ((5, 5), (6, 4))]),
        ("M.5.5L1.5.5", [((0.5, 0.5), (1.5, 0.5))]),
    ],
)
def test_straight_commands(text, lines):
    assert [tuple(p) for p in read_path(text)] == lines


@pytest.mark.parametrize("flags", ["0 0", "0 1", "1 0", "1 1"])
def test_an_arc_lies_on_its_circle(flags):
    (line,) = read_path(f"M 10 0 A 10 10 0 {flags} 0 10")
    assert line[0] == (10, 0)
    assert line[-1] == (0, 10)
    inside = flags in ("0 1", "1 0")
    centre = (0.0, 0.0) if inside else (10.0, 10.0)
    assert all(hypot(x - centre[0], y - centre[1]) == pytest.approx(10.0) for x, y in line)
    assert (len(line) > 20) == flags.startswith("1")


def test_curves_end_where_they_should_and_mirror_their_handle():
    (line,) = read_path("M0 0 C 0 5 5 5 5 0 S 10 -5 10 0")
    assert line[-1] == (10, 0)
    assert max(y for _, y in line) == pytest.approx(-min(y for _, y in line))
    (line,) = read_path("M0 0 Q 5 5 10 0 T 20 0")
    assert line[6] == pytest.approx((5.0, 2.5))
    assert line[18] == pytest.approx((15.0, -2.5))


@pytest.mark.parametrize("text", ["", "L 0 0", "M 0", "M 0 0 X 5", "M 0 0 Z 5", "M 0 0 L 1"])
def test_what_is_no_path_is_refused(text):
    with pytest.raises(Misread):
        read_path(text)


@given(st.text("MmLlCcAaZz 0123456789.,-e", max_size=40))
def test_anything_is_read_or_refused(text):
    try:
        found = read_path(text)
    except Misread:
        return
    assert all(len(line) > 1 for line in found)


@pytest.mark.parametrize("text", ["0 0 10", "a b c d", "0 0 0 5", "0 0 5 -1", "nan 0 5 5"])
def test_viewboxes_that_are_none(text):
    with pytest.raises(Misread):
        read_viewbox(text)


def test_a_logo_fills_its_box_upright():
    """A 20 x 10 drawing into 40 x 8: 16 x 8 in the middle; its top stays up."""
    marks = logo_marks("0 0 20 10", "M 0 0 L 20 0 L 20 10", (100.0, 50.0, 140.0, 58.0))
    assert marks[0].curve.points == ((112.0, 58.0), (128.0, 58.0), (128.0, 50.0))
