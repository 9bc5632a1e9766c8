"""Dimensions find free places: nothing touches, sizes are true, equal input gives equal output.

Distances from the outline and between lines: ISO 129-1 (W1) and ASME Y14.5 (W2).
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import pairwise
from math import cos, radians, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.dimension.place import place
from drafting.drawing.dimension.table import Item
from drafting.drawing.dimension.ways import Label
from drafting.drawing.project.section import Section
from drafting.drawing.sheet.clash import crossings, in_quads, quads, quads_meet, segments, text_quad
from drafting.drawing.sheet.explode import explode, label_width
from drafting.drawing.sheet.sheet import Linear, Note, Round
from drafting.drawing.sheet.strokes import SIDE, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.settle.wishes import Callout, Length
from drafting.shape.frame import X, Z

STYLE = Style()
LONG, HIGH = 600.0, 100.0


def _picture(steps=()) -> Picture:
    """A long box with upright lines at the steps."""
    corners = [(0.0, -HIGH / 2), (LONG, -HIGH / 2), (LONG, HIGH / 2), (0.0, HIGH / 2)]
    lines = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    lines += [((x, -HIGH / 2), (x, HIGH / 2)) for x in steps]
    strokes = tuple(Stroke(Line(a, b), True, "barrel", "tube", "rim") for a, b in lines)
    return Picture("side", "SIDE", SIDE, "retracted", strokes)


def _ground(picture, scale) -> Ground:
    return Ground(picture, scale, STYLE, segments([]), picture.segments.reshape(-1, 2) * scale)


def _item(wish, picture, texts=None) -> Item:
    size = abs(wish.b[0] - wish.a[0] + wish.b[2] - wish.a[2]) if isinstance(wish, Length) else 0.0
    return Item(Choice(wish, picture, 0.0), Label(texts or (f"{size:g}",), "", size))


def _along(name, a, b) -> Length:
    return Length(name, (a, 0.0, -HIGH / 2), (b, 0.0, -HIGH / 2), X)


def _drawn(dimensions, scale):
    return [explode(d, (0.0, 0.0), scale, STYLE) for d in dimensions]


def _touching(drawn, ground) -> list[str]:
    """Name what touches what, by plain loops over the pieces of the dimensions."""
    bad = []
    strokes = ground.strokes
    for n, d in enumerate(drawn):
        boxes = quads([text_quad(t) for t in d.texts])
        own = segments(d.lines)
        if len(in_quads(boxes, strokes)[0]):
            bad.append(f"outline through {d.name}")
        for k, other in enumerate(drawn):
            if k == n:
                continue
            if len(in_quads(boxes, segments(other.segments))[0]):
                bad.append(f"{other.name} through the text of {d.name}")
            if k > n and len(quads_meet(boxes, quads([text_quad(t) for t in other.texts]))[0]):
                bad.append(f"texts of {d.name} and {other.name}")
            if k > n and len(crossings(own, segments(other.lines))[0]):
                bad.append(f"lines of {d.name} and {other.name}")
    return bad


STATIONS = st.lists(st.integers(0, 24), min_size=2, max_size=12)


@settings(max_examples=25, deadline=None)
@given(STATIONS, st.sampled_from([0.5, 0.25]), st.booleans())
def test_random_lengths_never_touch(stations, scale, dual):
    pairs = {tuple(sorted(p)) for p in zip(stations[::2], stations[1::2], strict=False)}
    spans = [(25.0 * a, 25.0 * b) for a, b in sorted(pairs) if a != b]
    assume(spans)
    picture = _picture()
    ground = _ground(picture, scale)
    items = [
        _item(
            _along(f"s{n}", a, b), picture, (f"{b - a:g}", "[12.34]") if dual else (f"{b - a:g}",)
        )
        for n, (a, b) in enumerate(spans)
    ]
    found = place(items, ground)
    assert len(found.dimensions) == len(items)
    assert _touching(_drawn(found.dimensions, scale), ground) == []
    assert found.clashes == 0
    for d in found.dimensions:
        assert isinstance(d, Linear)
        turn = radians(d.angle)
        measured = abs((d.b[0] - d.a[0]) * cos(turn) + (d.b[1] - d.a[1]) * sin(turn))
        assert measured == pytest.approx(d.measure_mm)
        assert abs(abs(d.line_at[1]) - HIGH / 2) * scale >= STYLE.first - 1e-9
    assert place(list(reversed(items)), ground) == found


def test_a_clash_can_be_seen():
    """The check above turns red when two dimensions are laid on one another."""
    picture = _picture()
    ground = _ground(picture, 0.5)
    found = place([_item(_along("a", 0.0, 400.0), picture)], ground)
    twice = _drawn([*found.dimensions, *found.dimensions], 0.5)
    assert _touching(twice, ground)


def test_shortest_lies_nearest():
    picture = _picture()
    items = [_item(_along(f"to {x}", 0.0, float(x)), picture) for x in (300, 150, 220)]
    found = place(items, _ground(picture, 0.5)).dimensions
    for one in found:
        for other in found:
            same_side = one.line_at[1] * other.line_at[1] > 0
            if same_side and one.measure_mm < other.measure_mm:
                assert abs(one.line_at[1]) < abs(other.line_at[1])
    assert sum(d.line_at[1] < 0 for d in found) >= 2


def test_a_chain_shares_one_line():
    picture = _picture()
    items = [_item(_along("a", 0.0, 200.0), picture), _item(_along("b", 200.0, 420.0), picture)]
    a, b = place(items, _ground(picture, 0.5)).dimensions
    assert a.line_at[1] == pytest.approx(b.line_at[1])


def test_narrow_space_takes_arrows_and_text_outside():
    picture = _picture()
    (d,) = place([_item(_along("a", 100.0, 106.0), picture)], _ground(picture, 0.5)).dimensions
    assert d.outside
    assert not 100.0 <= d.text_at[0] <= 106.0


def test_a_diameter_runs_across_where_the_view_is_long():
    """Higher blocks at both ends: lines from the tube to a strip there would cross them."""
    picture = _blocked([])
    (d,) = place([_item(_across("d"), picture, ("Ø100",))], _ground(picture, 0.5)).dimensions
    assert 0.0 < d.line_at[0] < LONG
    assert abs(d.text_at[1]) > HIGH / 2


def _across(name) -> Length:
    return Length(name, (300.0, 0, -HIGH / 2), (300.0, 0, HIGH / 2), Z, form="round")


def _blocked(strokes) -> Picture:
    """A tube between higher blocks, with more strokes."""
    ends = [
        Stroke(Line((x, -80.0), (x, 80.0)), True, "barrel", "block", "rim")
        for x in (-60.0, -30.0, 630.0, 660.0)
    ]
    return Picture("side", "SIDE", SIDE, "retracted", (*_picture().strokes, *ends, *strokes))


@pytest.mark.parametrize("visible", [True, False])
def test_a_line_across_keeps_clear_of_strokes_beside_it(visible):
    """The middle is its favourite place, unless a stroke stands there."""

    def place_of(picture):
        (d,) = place([_item(_across("d"), picture, ("Ø100",))], _ground(picture, 0.5)).dimensions
        return d.line_at[0]

    middle = Line((LONG / 2, -HIGH / 4), (LONG / 2, HIGH / 4))
    stroke = Stroke(middle, visible, "barrel", "tube", "rim")
    assert place_of(_blocked([])) == pytest.approx(LONG / 2)
    assert 0.5 * abs(place_of(_blocked([stroke])) - LONG / 2) >= 3.0


def test_lines_across_stand_apart():
    """At this scale the places tried are 4.6 mm apart: the second takes the next but one."""
    picture, scale = _blocked([]), 0.1
    items = [_item(_across(name), picture, ("Ø100",)) for name in ("one", "other")]
    one, other = place(items, _ground(picture, scale)).dimensions
    assert abs(one.line_at[0] - other.line_at[0]) * scale >= 6.0


def test_words_stand_clear_of_the_outline_and_of_lines_to_come():
    picture = _picture()
    ground = _ground(picture, 0.5)
    items = [
        _item(Callout("p", (x, 0.0, HIGH / 2), Z, ("G 1/2", "ISO 1179-1", "12:00")), picture,
              ("G 1/2", "ISO 1179-1", "12:00"))
        for x in (80.0, 140.0, 520.0)
    ]  # fmt: skip
    items += [
        _item(Length("l", (0.0, 0.0, 0.0), (x, 0.0, HIGH / 2), X), picture) for x in (80.0, 140.0)
    ]
    found = place(items, ground)
    assert _touching(_drawn(found.dimensions, 0.5), ground) == []
    notes = [d for d in found.dimensions if isinstance(d, Note)]
    assert len(notes) == 3
    assert not any(isinstance(d, Round) for d in found.dimensions)
    assert all(abs(d.knee[1]) > HIGH / 2 for d in notes)


def test_a_text_stands_between_the_gaps_of_a_view_where_it_has_room():
    picture = _picture()
    wide = Label(("EXTENDED 1234.5678 mm",), "", LONG)
    item = replace(_item(_along("whole", 0.0, LONG), picture), label=wide)
    gaps = ((87.0, 97.4), (164.6, 175.0))
    ground = replace(_ground(picture, 0.5), gaps=gaps, found={}, tables={})
    (drawn,) = _drawn(place([item], ground).dimensions, 0.5)
    x = [p[0] for p in text_quad(drawn.texts[0])]
    assert gaps[0][1] < min(x) < max(x) < gaps[1][0]


def test_arrows_stand_inside_where_a_gap_keeps_the_text_out():
    picture = _picture()
    label = Label(("123.456 123.456",), "", 1.0)
    just = label_width(label.texts, label.flag, STYLE) + 4.0  # room for the text, none for arrows
    item = replace(_item(_along("some", 0.0, just / 0.5), picture), label=label)
    outside = []
    for gaps in ((), ((20.0, 30.0),)):
        ground = replace(_ground(picture, 0.5), gaps=gaps, found={}, tables={})
        (dimension,) = place([item], ground).dimensions
        outside.append(dimension.outside)
    assert outside == [True, False]


def _crowd(picture, words=""):
    return [
        _item(_along(f"size.{k}", 60.0 * k, 60.0 * k + 90.0), picture, (f"{k}0.5{words}",))
        for k in range(8)
    ]


WITHINS = [None, (-40.0, -60.0, 340.0, 45.0), (-40.0, -45.0, 340.0, 60.0)]


def _hours():
    box = [(20.0, -48.0), (60.0, -48.0), (60.0, -30.0), (20.0, -30.0)]
    return tuple(zip(box, [*box[1:], box[0]], strict=True))


def test_what_was_placed_before_on_a_ground_does_not_show():
    """Each room in turn on one ground gives what a ground of its own gives."""
    picture = _picture()
    kept = replace(_ground(picture, 0.5), hours=_hours())
    for within in (*WITHINS, *WITHINS[::-1]):
        fresh = replace(kept, found={}, tables={})
        assert place(_crowd(picture), kept, within) == place(_crowd(picture), fresh, within)
    (table,) = kept.tables.values()
    table.begin(None)
    before = dict(table.floor)
    place(_crowd(picture), kept)
    table.begin(None)
    assert table.floor == before
    (other,) = fresh.tables.values()
    other.scene.plan(())
    other.begin(None)
    assert other.floor == before


def test_two_threads_on_one_ground_do_not_disturb_each_other():
    picture = _picture()
    kept = _ground(picture, 0.5)
    alone = {w: place(_crowd(picture), replace(kept, found={}, tables={}), w) for w in WITHINS}
    with ThreadPoolExecutor(6) as pool:
        found = list(pool.map(lambda w: (w, place(_crowd(picture), kept, w)), WITHINS * 8))
    assert all(alone[within] == placed for within, placed in found)


def test_what_has_no_room_on_the_page_touches_nothing():
    """Sizes that stick out of a room that none of them fits are told by their box, not as faults.

    One that stands on another is still counted, whatever room there is.
    """
    picture = _picture()
    ground = _ground(picture, 0.5)
    within = (-5.0, -6.0, 305.0, 6.0)
    placed = place(_crowd(picture), ground, within)
    assert placed.box[3] > within[3] or placed.box[1] < within[1]
    assert _touching(_drawn(placed.dimensions, 0.5), ground) == []
    assert placed.clashes == 0
    bars = tuple(
        Stroke(Line((-300.0, y), (900.0, y)), True, "barrel", "tube", "rim")
        for y in range(-300, 300, 4)
    )
    barred = replace(picture, strokes=(*picture.strokes, *bars))
    assert place(_crowd(barred), _ground(barred, 0.5), within).clashes


def test_what_is_kept_with_a_ground_has_a_bound():
    picture = _picture()
    kept = _ground(picture, 0.5)
    for k in range(60):
        place(_crowd(picture, f" {k}"), kept)
    assert len(kept.tables) <= 4
    assert len(kept.found) <= 400 + 8


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_a_text_stands_on_the_side_of_the_boss_that_it_measures(side):
    """On the other side its line ran on past the whole tube."""
    boss = [(40.0, 50.0), (40.0, 62.0), (64.0, 62.0), (64.0, 50.0)]
    lines = [Line((x, side * y), (v, side * w)) for (x, y), (v, w) in pairwise(boss)]
    strokes = [Stroke(line, True, "barrel", "boss", "rim") for line in lines]
    picture = replace(_picture(), strokes=(*_picture().strokes, *strokes))
    wish = Length("boss.height", (52.0, 0.0, side * 50.0), (52.0, 0.0, side * 62.0), Z)
    (d,) = place([_item(wish, picture, ("12 +0.25", "[.472]"))], _ground(picture, 0.5)).dimensions
    assert d.shelf
    assert 0.0 < 0.5 * side * (d.text_at[1] - side * 62.0) + STYLE.text < 25.0


def test_a_half_diameter_is_measured_where_the_bore_is_open():
    """A rod runs through more than half of the bore; its favourite place was the middle."""
    bore, rod = (0.0, 2000.0, 40.0), (300.0, 2500.0, 22.0)
    level = [bore, rod, (0.0, 2000.0, 50.0), (0.0, 2000.0, -50.0)]
    strokes = [
        Stroke(Line((x0, y), (x1, y)), True, "barrel", f"line at {y:g}", "rim")
        for x0, x1, y in level
    ]
    picture = Picture("extended", "E", SIDE, "extended", tuple(strokes), section=Section(SIDE))
    wish = Length("d", (200.0, 0, -40.0), (200.0, 0, 40.0), Z, form="round", pose="extended")
    (d,) = place([_item(wish, picture, ("Ø80",))], _ground(picture, 0.5)).dimensions
    assert d.half
    assert 0.0 < d.line_at[0] < 300.0


def test_a_line_across_a_boss_stands_in_the_middle_between_its_axis_and_its_pins_edge():
    """No place there is 3 mm clear; the first of them stood 1 mm beside the axis."""
    rows = [((x, y), (x, y + 16.0)) for x in (-10.0, 10.0) for y in (32.0, -48.0)]
    rows += [((-15.0, y), (15.0, y)) for y in (32.0, -32.0)]
    rows += [((x, -80.0), (x, 80.0)) for x in (-300.0, 300.0)]
    strokes = tuple(Stroke(Line(a, b), True, "barrel", "boss", "rim") for a, b in rows)
    picture = Picture("top", "T", SIDE, "retracted", strokes)
    axis = segments([((0.0, -30.0), (0.0, 30.0))])
    ground = replace(_ground(picture, 0.5), centres=axis)
    wish = Length("over", (0.0, 0, -32.0), (0.0, 0, 32.0), Z)
    item = _item(wish, picture, ("64 OVER SHOULDERS",))
    (d,) = place([item], ground, (-70.0, -60.0, 70.0, 60.0)).dimensions
    assert 2.0 < 0.5 * abs(d.line_at[0]) < 3.0
