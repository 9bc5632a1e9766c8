"""Views beside the column of table and notes: lower than above it, clear of all that stands there.

The cylinder is made up; its sizes all differ.
"""

from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.room import nearest, roomy_places
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.papers import papers
from tests.drawing.test_arrange import BOX, apart
from tests.drawing.test_calm import job_of

KICKER = """
title = "Trunk kicker"
units = "in"
[cylinder]
construction = "tie rod"
bore = 6
rod = 3
stroke = 12
retracted = "21 1/4"
stop_tube = 1.25
square = "7 1/2"
cushions = "both"
working_pressure = "1900 psi"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "base"
seat_height = "4 1/4"
clock = "6:00"
bolts = {count = 2, hole = "1 1/16", pitch = "9 1/4"}
[rod_mount]
mount = "female thread"
thread = "2 1/4-12 UN"
thread_length = 3
[base_port]
thread = "SAE-16"
clock = "12:00"
[rod_port]
thread = "SAE-12"
clock = "12:00"
"""
CHUTE = """
title = "Chip chute swing"
units = "in"
[cylinder]
bore = "3 3/8"
rod = "1 5/8"
stroke = "13 1/4"
extended = "40 1/8"
barrel_outside = "4 1/8"
clock_seen_from = "rod"
rod_keyed = true
[body_mount]
mount = "spade eye"
pin = "1 1/8"
hole = 1.14
width = "1 1/4"
[rod_mount]
mount = "pin eye"
pin = "1 1/8"
hole = 1.14
width = "1 1/2"
left = "1"
right = "1/2"
thread = "1 1/4-12 UNF"
thread_length = 2
adjustment = "3/4"
jam_nut = true
flats = "1 3/8"
turned = 45
[base_port]
thread = "SAE-8"
clock = "200 deg"
[rod_port]
thread = "SAE-8"
clock = "160 deg"
[[extra_port]]
end = "base"
thread = "SAE-4"
clock = "11:00"
plugged = true
[[extra_port]]
end = "rod"
thread = "SAE-4"
clock = "1:00"
plugged = true
[rod_pin]
supplied = true
retention = "keeper plate"
[drawing]
fractions = 32
"""
CRIMPER = """
title = "Cap crimper"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 32
rod = 18
stroke = 35
retracted = 90
square = 45
cushions = "rod"
clock_seen_from = "base"
[body_mount]
mount = "foot"
position = "rod end"
plate = [25, 80]
thickness = 12
seat_height = 28
bolts = {count = 2, hole = 9, pitch = 62}
[rod_mount]
mount = "male thread"
thread = "M14x1.5"
thread_length = 18
flats = 15
[base_port]
thread = "G 1/4"
clock = "3:00"
[rod_port]
thread = "G 1/4"
clock = "9:00"
[drawing]
sheet = "A4"
"""
FIELD, COLUMN = (24.0, 60.0, 406.0, 283.0), (226.0, 10.0, 410.0, 99.0)
RULE = SimpleNamespace(
    paper=papers("A3", "mm")[0],
    job=SimpleNamespace(projection="third", clock_from="rod"),
    beside_column=COLUMN[0] - FIELD[0],
)


def test_a_short_view_hangs_beside_the_column_before_the_scale_falls():
    """It stood at 1:16, 25 mm long on a sheet of 432, since 10 mm were missing above the table."""
    job = job_of(KICKER)
    sheet = compose(job)
    assert next(v for v in sheet.views if v.name == "side").scale == pytest.approx(1 / 8)
    assert not inspect(sheet, job)


def test_a_view_may_be_as_high_as_the_field_that_was_made_for_it():
    """A sum that lost its last digit halved all views, and the extended one once more."""
    job = job_of(CHUTE)
    sheet = compose(job)
    scales = {v.name: v.scale for v in sheet.views}
    assert scales["side"] == pytest.approx(1 / 4)
    assert scales["extended"] == pytest.approx(1 / 8)
    assert not inspect(sheet, job)


def test_on_a_named_sheet_views_go_to_another_page_before_the_bore_is_too_small_to_read():
    """All but the top view stood on the first page, 31 mm long and with a bore of 6."""
    job = job_of(CRIMPER)
    sheet = compose(job)
    pages = [page for page in (sheet, *sheet.following) if page.views]
    assert [v.scale * 32 >= 7.0 for page in pages for v in page.views] == [True] * 4
    assert len(pages) == 2
    assert not inspect(sheet, job)


@given(st.tuples(BOX, BOX, BOX))
def test_what_hangs_lower_keeps_off_the_column(some):
    boxes = dict(zip(("side", "top", "end"), some, strict=True))
    found = roomy_places(RULE, boxes, FIELD, COLUMN)
    alone = roomy_places(RULE, boxes, (FIELD[0], COLUMN[3], FIELD[2], FIELD[3]))
    assert found or not alone
    if found:
        assert apart([*found.boxes.values(), COLUMN])
        x0, y0, x1, y1 = found.box
        assert x0 >= FIELD[0] - 1e-6
        assert y0 >= FIELD[1] - 1e-6
        assert x1 <= FIELD[2] + 1e-6
        assert y1 <= FIELD[3] + 1e-6


def test_a_mark_may_lie_beside_the_words_of_a_view():
    """The box round all of it reached the mark, what stands there did not."""
    high = FIELD[3] - FIELD[1]
    boxes = {"side": (0.0, 0.0, 330.0, high)}
    left = {"side": ((0.0, 0.0, 330.0, 50.0), (20.0, 50.0, 90.0, high))}
    amid = {"side": ((0.0, 0.0, 330.0, 50.0), (150.0, 50.0, 240.0, high))}
    found = [roomy_places(RULE, boxes, (*FIELD[:3], 284.0), parts=p) for p in (None, left, amid)]
    assert [f is not None for f in found] == [False, True, False]


def test_only_what_ends_left_of_the_column_is_counted_as_if_it_hung_no_lower():
    boxes = {
        "side": (-20.0, -60.0, 150.0, 30.0),
        "top": (-25.0, -31.0, 140.0, 32.0),
        "end": (-40.0, -45.0, 41.0, 28.0),
    }
    assert nearest(RULE, boxes, 0.0)[1] - nearest(RULE, boxes, 11.0)[1] == -11.0
    assert nearest(RULE, boxes, 39.0)[1] == nearest(RULE, boxes, 22.0)[1]  # the end view's
    long = {**boxes, "side": (-20.0, -60.0, 210.0, 30.0)}
    assert nearest(RULE, long, 11.0) == nearest(RULE, long, 0.0)
