"""A dimension taken apart, against what the standards of dimensioning ask of it.

Sources: text above an unbroken line, read from below or from the right (ISO 129-1, as republished);
filled arrows 3:1; gap about 1.5 and overrun 2 to 3 of extension lines (ASME Y14.5, as republished).
"""

from dataclasses import replace
from math import dist, hypot

import pytest

from drafting.drawing.sheet.explode import (
    explode,
    flag_width,
    label_depth,
    label_width,
)
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.paper import on_paper, paper_box, text_box
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, View
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.drawing.sheet.style import Style
from tests.drawing.sample_sheets import sample

STYLE = Style()
AT, K = (100.0, 150.0), 0.5
BELOW = Linear("l", (0, 0), (80, 20), 0, (40, -60), (40, -58), ("80", "[3.15]"), 80)


def test_horizontal():
    d = explode(BELOW, AT, K, STYLE)
    level = 150 - 30
    assert d.lines == (((100, level), (140, level)),)
    assert sorted(d.extensions) == [
        ((100, 150 - 1.5), (100, level - 2)),
        ((140, 160 - 1.5), (140, level - 2)),
    ]
    assert [a[0] for a in d.arrows] == [(100, level), (140, level)]
    main, other = d.texts
    assert (main.text, main.anchor, main.turn, main.height) == ("80", "middle", 0, 3.5)
    assert main.at[1] == other.at[1] == 150 - 29
    assert (other.text, other.height) == ("[3.15]", 2.5)
    left, right = text_box(main)[0], text_box(other)[2]
    assert (left + right) / 2 == pytest.approx(120)
    assert text_box(main)[2] < text_box(other)[0]


def test_arrows_are_three_to_one_and_lie_on_the_line():
    for outside in (False, True):
        d = explode(replace(BELOW, outside=outside), AT, K, STYLE)
        for tip, left, right in d.arrows:
            back = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)
            assert dist(tip, back) == pytest.approx(3 * dist(left, right))
            assert back[1] == pytest.approx(tip[1])
            between = 100 < back[0] < 140
            assert between is not outside
        (a, b), *_ = d.lines
        reach = 2 * STYLE.arrow if outside else 0
        assert (a[0], b[0]) == (100 - reach, 140 + reach)


def test_vertical_is_read_from_the_right():
    vertical = Linear("v", (0, 0), (10, 40), 90, (60, 0), (57, 20), ("40",), 40)
    for angle in (90, 270, -90):
        d = explode(replace(vertical, angle=angle), AT, K, STYLE)
        (text,) = d.texts
        assert text.turn == 90
        assert text.at == pytest.approx((100 + 28.5, 160))
        a, b = d.lines[0]
        assert (*a, *b) == pytest.approx((130, 150, 130, 170))
        assert text_box(text)[0] < text.at[0] < 130  # the letters stand left of the line


@pytest.mark.parametrize("shelf", ["left", "right"])
def test_a_long_upright_text_turns_level_on_a_shelf(shelf):
    """ISO 129-1 (memory): where room lacks the value stands over a level line bent off its own."""
    side = 1.0 if shelf == "right" else -1.0
    room = label_width(("40", "[1.57]"), "", STYLE) + 2 * STYLE.text_gap
    text_at = (60 + side * room / 2 / K, 58)
    d = explode(
        Linear("v", (0, 0), (10, 40), 90, (60, 0), text_at, ("40", "[1.57]"), 40, shelf=shelf),
        AT,
        K,
        STYLE,
    )
    (a, b), (knee, end) = d.lines
    assert (*a, *b) == pytest.approx((130, 150, 130, 150 + 29 - STYLE.text_gap))
    assert knee == pytest.approx(b)
    assert end == pytest.approx((130 + side * room, b[1]))
    assert [t.turn for t in d.texts] == [0, 0]
    for text in d.texts:
        x0, _, x1, _ = text_box(text)
        assert min(knee[0], end[0]) < x0 < x1 < max(knee[0], end[0])
        assert text.at[1] == pytest.approx(b[1] + STYLE.text_gap)


def test_line_runs_on_under_a_text_beside():
    d = explode(replace(BELOW, text_at=(120, -58)), AT, K, STYLE)
    assert d.lines[0][1][0] == pytest.approx(160 + label_width(BELOW.texts, "", STYLE) / 2)


def test_no_extension_line_where_the_point_is_on_the_line():
    d = explode(replace(BELOW, line_at=(0, 0), text_at=(40, 2)), AT, K, STYLE)
    assert len(d.extensions) == 1


@pytest.mark.parametrize("flag", ["D", "M", "OPEN"])
def test_where_a_size_comes_from_stands_in_a_frame(flag):
    plain = explode(BELOW, AT, K, STYLE)
    d = explode(replace(BELOW, flag=flag), AT, K, STYLE)
    assert [t.text for t in d.texts] == ["80", "[3.15]", flag]
    assert len(d.flag) == 4
    assert not plain.flag
    xs = [p[0] for s in d.flag for p in s]
    letter, number = text_box(d.texts[2]), text_box(d.texts[0])
    assert number[2] < min(xs) < letter[0]
    assert letter[2] < max(xs)
    assert max(xs) - number[0] == pytest.approx(width("80", 3.5) + flag_width(flag, STYLE))
    assert max(xs) < text_box(d.texts[1])[0]


def test_label_room():
    one = label_width(("80", "[3.150]"), "", STYLE)
    assert one > width("80", 3.5) + width("[3.150]", 2.5)
    assert label_depth(("80", "[3.150]"), STYLE) == (4.5, 0)
    assert label_depth(("80", "x"), STYLE, stacked=True) == (4.5 + 1.5 * 3.5, 0)
    assert label_depth(("80",), STYLE) == (4.5, 0)
    assert label_depth(("80", "x"), STYLE) == (4.5, 4.5)
    assert label_depth(("80", "x", "y"), STYLE)[1] == pytest.approx(4.5 + 1.5 * 3.5)


@pytest.mark.parametrize("shelf", ["left", "right"])
@pytest.mark.parametrize("kind", ["round", "note"])
def test_leaders(shelf, kind):
    tip, knee = (6.0, 8.0), (30.0, 40.0)
    d = (
        Round("r", "diameter", (0, 0), 10, tip, knee, shelf, ("Ø20", "[.787]"), 20)
        if kind == "round"
        else Note("n", tip, knee, shelf, ("Ø20", "[.787]"))
    )
    drawn = explode(d, AT, K, STYLE)
    assert drawn.lines[0] == ((103, 154), (115, 170))
    corner, end = drawn.lines[1]
    assert corner == (115, 170)
    assert end[1] == 170
    assert (end[0] > corner[0]) == (shelf == "right")
    low, high = sorted((corner[0], end[0]))
    for text in drawn.texts:
        box = text_box(text)
        assert low < box[0]
        assert box[2] < high
        assert text.at[1] > 170  # all lines stand on the shelf
    (tip_at, left, right) = drawn.arrows[0]
    assert tip_at == (103, 154)
    back = ((left[0] + right[0]) / 2 - 103, (left[1] + right[1]) / 2 - 154)
    assert (back[0] / hypot(*back), back[1] / hypot(*back)) == pytest.approx((0.6, 0.8))


def test_windows_cut_marks_and_name_what_they_leave_out():
    detail = sample().views[1]
    shown = on_paper(detail, STYLE)
    x0, y0, x1, y1 = (detail.at[i % 2] + detail.scale * c for i, c in enumerate(detail.window))
    assert shown.left_out == ("barrel.length", "outside")
    assert [d.name for d in shown.dimensions] == ["detail.wall"]
    bare = replace(shown, dimensions=(), texts=())
    box = paper_box(bare)
    assert box[0] >= x0 - 1e-9
    assert box[1] >= y0 - 1e-9
    assert box[2] <= x1 + 1e-9
    assert box[3] <= y1 + 1e-9
    for _, lines in shown.hatches:
        for p in (p for s in lines for p in s):
            assert x0 - 1e-9 <= p[0] <= x1 + 1e-9


def test_a_view_without_window_loses_nothing():
    side = sample().views[0]
    shown = on_paper(side, STYLE)
    assert shown.left_out == ()
    assert len(shown.marks) == len(side.marks)
    assert len(shown.dimensions) == len(side.dimensions)


def test_marks_are_scaled_and_shifted():
    marks = (Mark(Arc((10, 0), 4, 0, 1), "outline"), Mark(Line((0, 0), (2, 0)), "hidden"))
    shown = on_paper(View("v", "", (5, 6), 2, marks), STYLE)
    assert [m.curve for m in shown.marks] == [Arc((25, 6), 8, 0, 1), Line((5, 6), (9, 6))]
