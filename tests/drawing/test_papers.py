"""Paper and scales. Sizes: ISO 216 and ASME Y14.1 (W2, W1); scales: ISO 5455 (memory)."""

from fractions import Fraction
from itertools import pairwise
from math import isclose, sqrt

import pytest

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.border import notes_at
from drafting.drawing.lists.papers import (
    PAPERS,
    border,
    papers,
    print_bar,
    projection_symbol,
    scale_text,
    scales,
)
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.paper import text_box
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.drawing.sheet.style import Style

BY_NAME = {p.name: p for p in PAPERS}


def test_iso_sizes_halve_and_keep_their_shape():
    """ISO 216: sides 1 : sqrt 2, each sheet half of the one before, A0 one square metre."""
    a = [BY_NAME[f"A{n}"] for n in range(5)]
    for paper in a:
        longer, shorter = max(paper.width, paper.height), min(paper.width, paper.height)
        assert isclose(longer / shorter, sqrt(2), abs_tol=0.005)
    for large, small in pairwise(a):
        assert isclose(large.width * large.height, 2 * small.width * small.height, rel_tol=0.006)
    assert isclose(a[0].width * a[0].height, 1e6, rel_tol=0.001)


def test_inch_sizes():
    inches = ((n, BY_NAME[n].width / 25.4, BY_NAME[n].height / 25.4) for n in "ABCDE")
    sizes = {n: (round(w, 6), round(h, 6)) for n, w, h in inches}
    expected = {"A": (11, 8.5), "B": (17, 11), "C": (22, 17), "D": (34, 22), "E": (44, 34)}
    assert sizes == expected


@pytest.mark.parametrize("name", ["A2", "A1", "A0"])
def test_zones_are_fifty_from_the_middle(name):
    """ISO 5457 (W1): 50 mm from the centring marks, letters without I and O."""
    paper = BY_NAME[name]
    marks, texts = border(paper)
    x0, y0, x1, y1 = paper.frame
    cuts = sorted(
        m.curve.a[0]
        for m in marks
        if m.role == "table" and isinstance(m.curve, Line) and m.curve.a == (m.curve.b[0], y1)
    )
    steps = {round(b - a, 6) for a, b in pairwise(cuts)}
    assert steps == {50.0}
    assert len(cuts) == paper.zones[0] - 1
    assert any(isclose(c, paper.width / 2) for c in cuts)
    letters = {t.text for t in texts if t.text.isalpha()}
    assert len(letters) == paper.zones[1]
    assert not letters & {"I", "O"}
    assert all(0 < t.at[0] < paper.width and 0 < t.at[1] < paper.height for t in texts)
    assert x0 == 20
    assert (paper.width - x1, y0, paper.height - y1) == (10, 10, 10)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_no_ink_is_nearer_to_the_edge_than_six(paper):
    """Printers leave a margin of about 4 to 6 mm white (common practice)."""
    marks, texts = border(paper)
    bar_marks, bar_texts = print_bar(paper)
    boxes = [box(m.curve) for m in (*marks, *bar_marks)]
    boxes += [text_box(t) for t in (*texts, *bar_texts)]
    x0, y0, x1, y1 = union(boxes)
    assert min(x0, y0, paper.width - x1, paper.height - y1) >= 6.0 - 0.5


@pytest.mark.parametrize("name", ["A4", "A3", "A", "B"])
def test_small_sheets_have_no_zones(name):
    assert border(BY_NAME[name])[1] == ()
    assert BY_NAME[name].width > BY_NAME[name].height


@pytest.mark.parametrize(("name", "long"), [("A3", 50.0), ("A2", 50.0), ("B", 50.8), ("D", 50.8)])
def test_the_print_bar_is_50_mm_or_2_in_and_clear_of_the_frame(name, long):
    paper = BY_NAME[name]
    marks, _ = print_bar(paper)
    x0, _, x1, y1 = union([box(m.curve) for m in marks])
    assert x1 - x0 == pytest.approx(long)
    assert (y1 < paper.frame[1]) is (not any(paper.zones))


def test_letters_run_from_top_to_bottom():
    _, texts = border(BY_NAME["A2"])
    left = [t for t in texts if t.text.isalpha() and t.at[0] < 30]
    assert [t.text for t in sorted(left, key=lambda t: -t.at[1])] == list("ABCDEFGH")


def test_families_follow_the_units():
    assert [p.name for p in papers("auto", "in")] == ["B", "C", "D", "E"]
    assert [p.name for p in papers("auto", "mm")] == ["A3", "A2", "A1", "A0"]
    assert [p.name for p in papers("A4", "in")] == ["A4"]


def test_scales():
    assert [scale_text(s) for s in scales("auto", BY_NAME["A3"])[:6]] == [
        "5:1", "2:1", "1:1", "1:2", "1:5", "1:10",
    ]  # fmt: skip
    assert [scale_text(s) for s in scales("auto", BY_NAME["B"])[2:6]] == [
        "1:1",
        "1:2",
        "1:4",
        "1:8",
    ]
    assert scales("1:4", BY_NAME["A3"]) == (Fraction(1, 4),)
    assert scale_text(Fraction(2, 5)) == "1:2.5"


@pytest.mark.parametrize(("angle", "side"), [("third", -1), ("first", 1)])
def test_symbol_shows_the_cone_from_its_small_end(angle, side):
    """ISO 5456-2: seen from the left, the circles lie left in third angle, right in first."""
    marks = projection_symbol((0.0, 0.0), angle)
    circles = [m.curve for m in marks if isinstance(m.curve, Arc)]
    upright = [m.curve for m in marks if m.role == "thread" and isinstance(m.curve, Line)]
    ends = sorted((c.a[0], abs(c.a[1])) for c in upright if c.a[0] == c.b[0])
    assert ends[0][1] < ends[1][1]  # small end on the left
    assert {c.radius for c in circles} == {ends[0][1], ends[1][1]}
    cone = union([box(c) for c in upright])
    assert side * (circles[0].centre[0] - (cone[0] + cone[2]) / 2) > 0


@pytest.mark.parametrize("room", range(36, 120, 3))
def test_signs_and_sizes_of_a_note_are_not_torn(room):
    """'( )' stood at the end of a line and 'reference.' on the next; '1 x' above '1/2'."""
    boss = "Ø1 1/4 D x 1 1/2 D"
    note = f"D: not given. ( ) reference. [ ] mm, for information. Bosses: base port {boss}."
    found, _ = notes_at((0.0, 0.0), (note,), room, Style())
    lines = [t.text for t in found]
    assert " ".join(lines) == note
    assert all(any(whole in line for line in lines) for whole in ("( ) reference", "[ ] mm"))
    assert any(boss in line for line in lines)


@pytest.mark.parametrize("room", range(33, 120, 2))
def test_a_word_and_its_number_stay_on_one_line(room):
    """'STROKE' stood at the end of a line, '3, EXTENDED (4)' on the next."""
    sizes = ("STROKE 13 3/16", "EXTENDED (41)", "bore Ø1 1/2", "sheet 3")
    note = f"Further views: {sizes[3]}: {', '.join(sizes[:3])}."
    lines = [t.text for t in notes_at((0.0, 0.0), (note,), room, Style())[0]]
    assert " ".join(lines) == note
    assert all(any(size in line for line in lines) for size in sizes)


@pytest.mark.parametrize("end", ["rod", "base"])
@pytest.mark.parametrize(
    ("turning", "room"),
    [
        ("free to turn", 159.0),
        ("free to turn", 129.0),
        ("free to turn, drawn with rod pin 30° clockwise", 159.0),
        ("free to turn, drawn turned 7° anticlockwise", 120.0),
    ],
)
def test_a_note_that_is_broken_ends_its_lines_where_its_sentences_end(end, turning, room):
    """'turn.' or 'clockwise.' alone stood below a full line."""
    clock = f"Clock as seen from the {end} end, degrees clockwise from 12."
    note = f"{clock} Inside: builder's choice. Rod {turning}."
    lines = [t.text for t in notes_at((0.0, 0.0), (note,), room, Style())[0]]
    assert " ".join(lines) == note
    assert len(lines) == 2
    assert all(line.endswith(".") for line in lines)


@pytest.mark.parametrize("room", [60.0, 95.0, 120.0])
def test_the_lines_of_a_long_sentence_are_about_as_long(room):
    note = "Clock as seen from the base end, degrees clockwise from 12, rod drawn turned 7°."
    lines = [t.text for t in notes_at((0.0, 0.0), (note,), room, Style())[0]]
    wide = [width(line, Style().small_text) for line in lines]
    assert " ".join(lines) == note
    assert len(lines) == len(wrapped(note, Style().small_text, room))
    assert max(wide) - min(wide) < 12.0
