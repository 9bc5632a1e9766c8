"""The scale, and what shares a page, where a first rule chose badly; all sizes are made up."""

from pathlib import Path

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.scale import Rule
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.border import COLUMN
from drafting.drawing.lists.papers import papers
from tests.drawing.test_calm import LATCH, job_of

SPECS = Path(__file__).parents[2] / "specs"
JACK = """
title = "Bearing jack"
units = "in"
[cylinder]
bore = 14
rod = 13
stroke = 1.5
retracted = 23
barrel_outside = 18
action = "push"
piston = "displacement"
return = "load"
working_pressure = "5000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "none"
[rod_mount]
mount = "plain"
[base_port]
thread = "3/8 NPT"
clock = "4:30"
"""
PLUNGER = """
title = "Jig plunger"
units = "mm"
[cylinder]
bore = 10
rod = 6
stroke = 8
retracted = 71
barrel_outside = 20
action = "push"
return = "load"
clock_seen_from = "rod"
working_pressure = "100 bar"
[body_mount]
mount = "none"
[rod_mount]
mount = "female thread"
thread = "M3x0.5"
thread_length = 8
[base_port]
thread = "M8x1 ISO 6149"
clock = "12:00"
"""
PUSHER = """
title = "Crate pusher"
units = "mm"
[cylinder]
bore = 100
rod = 60
stroke = 180
retracted = 420
action = "push"
return = "load"
working_pressure = "180 bar"
clock_seen_from = "rod"
[body_mount]
mount = "none"
[rod_mount]
mount = "plain"
[base_port]
thread = "G 1/2"
clock = "12:00"
"""
CLAMP = """
title = "Mould clamp"
units = "mm"
[cylinder]
bore = 50
rod = 36
stroke = 3
retracted = 58
working_pressure = "210 bar"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "rod end"
plate = [110, 80]
thickness = 16
bolts = {count = 4, hole = 11, pitch = [88, 58]}
[rod_mount]
mount = "flange"
plate = 60
thickness = 12
bolts = {count = 4, hole = 6.6, circle = 48}
[base_port]
thread = "G 1/4"
clock = 12
[rod_port]
thread = "G 1/4"
clock = 12
"""
RING = """
title = "Ring main tester"
units = "in"
[cylinder]
construction = "tie rod"
bore = 5
rod = 2
stroke = 14
retracted = 28
square = 6.5
tie_rod = "7/8-14 UNF"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "base"
plate = [9.5, 9.5]
thickness = 1.25
bolts = {count = 4, hole = 0.906, pitch = [7.5, 7.5]}
[rod_mount]
mount = "female thread"
thread = "1 1/2-12 UNF"
thread_length = 2.25
flats = 1.75
[base_port]
thread = "SAE-12"
clock = 12
[rod_port]
thread = "SAE-12"
clock = 12
""" + "".join(
    f"""
[[extra_port]]
end = "{end}"
thread = "{thread}"
clock = {clock}
"""
    for thread, clock in (("SAE-6", 3), ("1/4 NPT", 9))
    for end in ("base", "rod")
)


def names(page):
    return [v.name for v in page.views]


def side(sheet):
    return next(v for v in sheet.views if v.name == "side")


def test_a_top_view_without_a_size_does_not_make_the_scale_smaller():
    """It stood bare above a jack that was drawn 28 mm high where 57 have room."""
    job = job_of(JACK)
    sheet = compose(job)
    assert side(sheet).scale == pytest.approx(1 / 8)
    assert "top" not in names(sheet)
    assert not inspect(sheet, job)


def test_a_scale_is_not_missed_by_a_hair():
    """The outlines and what sizes take on average missed the field by 3 mm: 1:5 instead of 1:2."""
    job = job_of(PUSHER)
    sheet = compose(job)
    assert side(sheet).scale == pytest.approx(1 / 2)
    assert not inspect(sheet, job)


@pytest.mark.parametrize(
    ("text", "scale"), [(CLAMP, 1 / 2), (PLUNGER, 2.0)], ids=["clamp", "plunger"]
)
def test_the_extended_view_is_not_smaller_for_a_hair(text, scale):
    """A stroke of 3 stood there at 1:5, six tenths of a millimetre on paper."""
    job = job_of(text)
    sheet = compose(job)
    opened = next(v for v in sheet.views if v.name == "extended")
    assert opened.scale == side(sheet).scale == pytest.approx(scale)
    assert not inspect(sheet, job)


def test_a_table_of_six_ports_keeps_white_space_above_it():
    """Its heading stood 2 mm below the title of the end view."""
    sheet = compose(job_of(RING))
    end = next(v for v in sheet.views if v.name == "end")
    title = next(t for t in end.texts if t.name == "view title")
    heading = next(t for t in sheet.texts if t.text == "PORTS")
    assert end.at[1] + title.at[1] * end.scale - heading.at[1] - heading.height > 5.0


@pytest.mark.parametrize(("ports", "more"), [(4, 0.0), (6, 8.8)])
def test_the_column_takes_from_the_views_what_it_needs_and_no_more(ports, more):
    """Four ports took 1.6 mm, for which a sheet fell from 1:4 to 1:8."""
    head, *tables = RING.split("[[extra_port]]")
    text = "[[extra_port]]".join((head, *tables[: ports - 2]))
    dresser = Dresser(job_of(text))
    paper = papers("B", "in")[0]
    upper, _ = Rule(dresser.job, dresser.seen, paper).fields()
    assert upper[1] - paper.frame[1] == pytest.approx(COLUMN + more)


@pytest.mark.parametrize(
    ("stroke", "retracted", "scale", "sheet", "pages"),
    [
        ("4", "11", "1:1", "B", [["side", "top", "extended"], ["end"]]),
        ("6", "13", "1:2", "A", [["side", "top"], ["end", "extended"]]),
    ],
)
def test_a_named_scale_drives_no_view_away_that_has_room(stroke, retracted, scale, sheet, pages):
    """The end view had no room, and so each view but the side view had a page of its own."""
    text = LATCH.format(stroke=f'"{stroke}"', retracted=f'"{retracted}"', scale=scale)
    job = job_of(text.replace('sheet = "A"', f'sheet = "{sheet}"'))
    found = compose(job)
    assert [names(page) for page in (found, *found.following) if page.views] == pages
    assert not inspect(found, job)
    count = len(pages) - 1
    last = len(found.following) + 1
    said = " ".join(t.text for t in found.texts)
    end = ":" if any("extended" in page for page in pages[1:]) else "."
    where = f"sheet {last}" if count == 1 else f"sheets {last - count + 1} to {last}"
    assert f"{where}{end}" in said


def test_three_lengths_stay_together_where_a_tall_boss_drives_the_top_view_away():
    """The extended view went with the top view, and its lengths with it, from half a free page."""
    text = LATCH.format(stroke=6, retracted=13, scale="1:2").replace('sheet = "A"', 'sheet = "B"')
    job = job_of(text.replace('clock = "12:00"', 'clock = "3:00"\nheight = 5', 1))
    sheet = compose(job)
    assert [names(p) for p in (sheet, *sheet.following) if p.views] == [
        ["side", "end", "extended"],
        ["top"],
    ]
    assert not inspect(sheet, job)
