"""An end view with a bolt circle that would be small is a step larger.

The steps are those of ISO 5455 and of inch practice (memory); a view at another scale than the
sheet's says it (ISO 5455, memory). All sizes are made up.
"""

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.on_paper import box, placed, union
from tests.drawing.test_calm import job_of, view

SHOVE = """
title = "Slag shove"
units = "in"
[cylinder]
bore = 4
rod = "2 1/2"
stroke = 41
retracted = "56 1/2"
barrel_outside = 5
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "base"
plate = "8 1/4"
thickness = "1 3/4"
bolts = {count = 8, hole = "9/16", circle = "6 3/4", first_hole = "astride"}
[rod_mount]
mount = "flange"
plate = 5
thickness = "1 3/8"
bolts = {count = 6, hole = "7/16", circle = 4, first_hole = "on"}
[base_port]
thread = "SAE-16"
clock = "1:30"
position = "4 1/2"
[rod_port]
thread = "SAE-16"
clock = "10:30"
position = "46 1/2"
"""

SHOVER = """
title = "Ladle car shover"
units = "in"
[cylinder]
bore = 10
rod = "5 1/2"
stroke = 40
retracted = 58
barrel_outside = 12
gland = "bolted"
gland_outside = 15.5
clock_seen_from = "rod"
cushions = "both"
[body_mount]
mount = "foot"
position = "base"
plate = [5, 20]
thickness = 2
seat_height = "8 1/2"
bolts = {count = 4, hole = "1 5/16", pitch = [40, "16 1/2"]}
[rod_mount]
mount = "flange"
plate = 10
thickness = "1 7/8"
bolts = {count = 8, hole = "13/16", circle = 8, first_hole = "astride"}
[base_port]
thread = "flange 1 1/2 code 61"
clock = "12:00"
[rod_port]
thread = "flange 1 1/2 code 61"
clock = "12:00"
"""


def titles(one):
    return [t.text for t in one.texts if t.name == "view title"]


def test_a_small_end_view_with_a_bolt_circle_is_a_step_larger():
    sheet = compose(job := job_of(SHOVE))
    side, end = view(sheet, "side"), view(sheet, "end")
    assert end.scale == pytest.approx(2 * side.scale)  # 1:16, 1:8, 1:4: the inch series
    assert abs(end.at[1] - side.at[1]) < 10.0
    assert titles(end) == [f"FROM ROD END 1:{round(1 / end.scale)}"]
    assert not inspect(sheet, job)


def test_so_is_one_whose_feet_are_wide_but_whose_bolt_circle_is_small():
    """Eight holes on 13 mm of paper were taken for the bolts of the gland behind them."""
    sheet = compose(job := job_of(SHOVER))
    assert view(sheet, "end").scale == pytest.approx(2 * view(sheet, "side").scale)
    assert not inspect(sheet, job)


def on_paper(one):
    return union([box(placed(m.curve, one.at, one.scale)) for m in one.marks])


def test_its_outline_keeps_clear_of_the_others_and_inside_the_frame():
    sheet = compose(job_of(SHOVE))
    end = on_paper(view(sheet, "end"))
    assert end[2] < sheet.width - 10.0
    for other in (on_paper(v) for v in sheet.views if v.name != "end"):
        assert other[2] < end[0] or end[2] < other[0] or other[3] < end[1] or end[3] < other[1]


def test_one_that_shows_but_the_hours_stays_in_projection():
    text = SHOVE.replace("[drawing]", "")
    for table in ("body", "rod"):
        start = text.index(f"[{table}_mount]")
        stop = text.index("[", start + 1)
        text = (
            text[:start] + f'[{table}_mount]\nmount = "pin eye"\npin = 2\nwidth = 3\n' + text[stop:]
        )
    sheet = compose(job_of(text))
    assert not view(sheet, "end").dimensions
    assert view(sheet, "end").scale == view(sheet, "side").scale


def test_a_scale_that_was_named_is_that_of_the_end_view_too():
    named = SHOVE + '[drawing]\nscale = "1:16"\nsheet = "B"\n'
    sheet = compose(job_of(named))
    assert view(sheet, "end").scale == pytest.approx(1 / 16)
