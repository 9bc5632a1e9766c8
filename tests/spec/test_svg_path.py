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
        ("M-1-1-2-3", [((-1, -1), (-2, -3))]),
        ("M 007 1. L 1e1 1E-1", [((7, 1), (10, 0.1))]),
        ("M0 0h2zl1 1", [((0, 0), (2, 0), (0, 0)), ((0, 0), (1, 1))]),
        ("M0 0A0 5 0 0 1 8 0h1", [((0, 0), (8, 0), (9, 0))]),
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
    assert all(hypot(x - centre[0], y - centre[1]) == pytest.approx(10, rel=3e-4) for x, y in line)
    assert (len(line) > 20) == flags.startswith("1")


@pytest.mark.parametrize("glued", ["M10 0A10 10 0 110 10", "M10 0a10,10,0,1 1-10 10z"])
def test_flags_may_be_glued_to_what_follows(glued):
    """SVG 1.1, 8.3.9: a flag is one sign; minifiers leave the space after it out."""
    assert read_path(glued)[0][:30] == read_path("M 10 0 A 10 10 0 1 1 0 10")[0][:30]


def test_curves_end_where_they_should_and_mirror_their_handle():
    (line,) = read_path("M0 0 C 0 5 5 5 5 0 S 10 -5 10 0")
    assert line[-1] == (10, 0)
    assert max(y for _, y in line) == pytest.approx(-min(y for _, y in line))
    (line,) = read_path("M0 0 Q 5 5 10 0 T 20 0")
    assert line[6] == pytest.approx((5.0, 2.5))
    assert line[18] == pytest.approx((15.0, -2.5))


HOSTILE = [
    "M 0 0 L 1e999 1e999", "M 0 0 L 1e300 0", "M 0 0 L -1e12 0", "M 0 0 A 1 1 0 2 0 5 5",
    "M 0 0 A 1 1 0 0.5 0 5 5", "M 0 0 A 1 1 0", "M 0 0 L inf 0", "M 0 0 L nan nan",
    "M 0 0 L ١ ٢", "M 0 0 L ² 1", "M\x000 0 L 1 1", "M 0 0 L 1 1;", "M 0 0 L 1,,1",
    "M 0 0 L 1 1 Z 1", "M 0 0 L", "Z", "M 0 0 C 1 1", "M 0 0 L 0x10 1",
    "M 0 0 L 1 1" + " 1 1" * 10_001,
]  # fmt: skip
STRANGE_BUT_LEGAL = [
    "M 0 0 A 1e-300 1e-300 0 0 0 5 5", "M 0 0 A 1e9 1e-9 45 1 1 1e-9 0", "M 0 0 A 5 5 1e9 0 1 9 9",
    "M 0 0 L -1e9 1e9 L 1e9 -1e9", "M 0 0 Z Z Z L 5 5", "M 0 0 M 0 0 M 5 5", "M 0 0 L 0 0 L 0 0",
    "M 0 0 T 5 5 T 9 9", "M 0 0 S 5 5 9 9", "M 0 0 C -1e8 0 1e8 0 5 5", "M 1e-300 0 L 5 5",
    "M 0 0" + " l 1e9 1e9" * 4000, "M 0 0" + " 1 1" * 9_000,
]  # fmt: skip


@pytest.mark.parametrize("text", STRANGE_BUT_LEGAL, ids=lambda t: t[:40])
def test_a_logo_never_leaves_its_box(text):
    """40 x 20 of a drawing that may reach a million times as far."""
    box = (100.0, 50.0, 138.0, 58.0)
    for mark in logo_marks("0 0 40 20", text, box):
        assert len(mark.curve.points) > 1
        for x, y in mark.curve.points:
            assert box[0] <= x <= box[2]
            assert box[1] <= y <= box[3] + 1e-9


def test_lines_are_cut_where_they_leave_the_viewbox():
    """A stroke across the whole of a 20 x 10 drawing, and one that never enters it."""
    marks = logo_marks("0 0 20 10", "M -20 5 L 40 5 M 30 0 V 9", (0.0, 0.0, 20.0, 10.0))
    assert [m.curve.points for m in marks] == [((0.0, 5.0), (20.0, 5.0))]


@pytest.mark.parametrize(
    "text",
    ["", "L 0 0", "M 0", "M 0 0 X 5", "M 0 0 Z 5", "M 0 0 L 1", *HOSTILE],
    ids=lambda t: t[:40],
)
def test_what_is_no_path_is_refused(text):
    with pytest.raises(Misread):
        read_path(text)


@given(st.text("MmLlCcSsQqTtHhVvAaZz 0123456789.,-e", max_size=40))
def test_anything_is_read_or_refused(text):
    try:
        found = read_path(text)
    except Misread:
        return
    assert all(len(line) > 1 for line in found)


@pytest.mark.parametrize(
    "text", ["0 0 10", "a b c d", "0 0 0 5", "0 0 5 -1", "nan 0 5 5", "0 0 1e-9 5"]
)
def test_viewboxes_that_are_none(text):
    with pytest.raises(Misread):
        read_viewbox(text)


def test_a_logo_fills_its_box_upright():
    """A 20 x 10 drawing into 40 x 8: 16 x 8 in the middle; its top stays up."""
    marks = logo_marks("0 0 20 10", "M 0 0 L 20 0 L 20 10", (100.0, 50.0, 140.0, 58.0))
    assert marks[0].curve.points == ((112.0, 58.0), (128.0, 58.0), (128.0, 50.0))
