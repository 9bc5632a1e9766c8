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
