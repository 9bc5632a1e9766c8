"""The scale, and what shares a page, where a first rule chose badly; all sizes are made up."""

from fractions import Fraction
from pathlib import Path
from types import SimpleNamespace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.opened import open_views
from drafting.drawing.compose.scale import Rule, Scaled
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.border import COLUMN
from drafting.drawing.lists.papers import papers
from drafting.drawing.sheet.breaks import Breaks, Cut
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import GAP, LONG, STUB, Run, breaks_for
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
DOOR = """
title = "Barn door"
units = "mm"
[cylinder]
bore = 40
rod = 25
stroke = 600
retracted = 850
[body_mount]
mount = "pin eye"
[rod_mount]
mount = "pin eye"
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


def test_a_broken_barrel_still_looks_long():
    """A barrel of 679 was a disc, 31 mm long and 50 high on paper; at the same scale it is 121."""
    view = side(compose(job_of(DOOR)))
    sizes = {d.name: d for d in view.dimensions}
    barrel, outside = sizes["cylinder.body_length"], sizes["cylinder.barrel_outside"]
    assert abs(barrel.a[0] - barrel.b[0]) > LONG * abs(outside.a[1] - outside.b[1])
    assert view.scale == 1.0


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


@pytest.mark.parametrize(("high", "spare"), [(5.0, 100.0 - 2 * STUB - GAP), (60.0, 40.0)])
def test_what_is_left_of_a_stretch_is_long_for_its_height(high, spare):
    """Neither squashed to its stubs nor, where it is high, to less than ``LONG`` times that."""
    run = Run(100.0, 200.0, high)
    cut = breaks_for((run,), 1000.0, 1.0, 1000.0 - spare + 0.1).cuts[0]
    assert cut.lo - 100.0 >= STUB - 1e-9
    assert 200.0 - cut.hi >= STUB - 1e-9
    assert breaks_for((run,), 1000.0, 1.0, 1000.0 - spare - 0.1) is None


def test_a_break_aside_leaves_its_longer_side_to_words():
    run = Run(0.0, 1000.0, 10.0)
    cut = breaks_for((run,), 1000.0, 1.0, 300.0 + GAP, at=1 / 3).cuts[0]
    assert cut.lo == pytest.approx(100.0)
    assert 1000.0 - cut.hi == pytest.approx(200.0)


def test_a_slender_cylinder_is_broken_for_a_scale_twice_as_large():
    """Whole, 14 times as long as high, it was a stripe with specks for ports."""
    sheet = compose(job_of((SPECS / "hay-loader.toml").read_text()))
    side = next(v for v in sheet.views if v.name == "side")
    assert side.whole is not None
    assert side.scale == pytest.approx(1 / 2)


def test_an_extended_view_is_broken_at_the_third_scale_before_it_is_whole_at_the_fourth():
    """Beside views at 1:4 it fell to 1:32, a bore of 3 mm, though at 1:16 a break had room."""
    job = job_of((SPECS / "hay-loader.toml").read_text())
    rule = Rule(job, Dresser(job).seen, papers("B", "in")[0])
    ways = [(s.scale, bool(s.breaks)) for s in rule.opened(Fraction(1, 2), (0.0, 0.0, 244.0, 81.0))]
    assert (Fraction(1, 8), True) in ways
    assert ways[-1] == (Fraction(1, 16), False)


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


class _Dresser:
    """Dresses an outline with words that stick out 20 on both sides, or as told, but never less
    than 6.
    """

    def __init__(self):
        self.pictures = {"extended": SimpleNamespace(box=(0.0, 0.0, 300.0, 10.0))}

    def view(self, name, scale, style, breaks, title, room):
        x1 = 300.0 - breaks.saved
        out = max(6.0, -room[0]) if room else 20.0
        return SimpleNamespace(box=(-out, 0.0, x1 + out, 10.0), room=room)


class _Rule:
    """Breaks so that the words have 5 mm of a field 200 wide, and more when more is asked for."""

    paper = SimpleNamespace(is_small=False)

    def opened(self, main, field):
        yield self.open_broken(Fraction(1), field, 0.0, 1)

    def open_broken(self, scale, field, over, cuts):
        cut = Cut(50.0, 50.0 + 105.0 + over + 3.0, 3.0)
        return Scaled(scale, {"extended": Breaks((cut,))})


def test_words_stay_near_in_a_view_that_is_broken_further():
    """Broken further, it forgot that its words were to stand near, and they stuck out again."""
    view, _ = next(open_views(_Dresser(), _Rule(), Fraction(1), Style(), (0.0, 0.0, 200.0, 80.0)))
    assert view.box[2] - view.box[0] == pytest.approx(200.0)
    assert view.room is not None


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


def _sample(name):
    return compose(job_of((SPECS / f"{name}.toml").read_text(encoding="utf-8")))


def test_a_cylinder_not_quite_slender_is_broken_where_that_gains_a_step():
    """Twelve times as long as high it stood whole, at 1:5 where 1:2 has room."""
    view = side(_sample("mill-sluice"))
    assert view.scale == pytest.approx(1 / 2)
    assert view.whole is not None


def test_it_stays_whole_where_that_gains_nothing_and_its_bore_is_large_enough_open():
    """Closed it has room at 1:5; open a bore of 63 stood at 1:10."""
    sheet = _sample("log-grapple")
    opened = next(v for v in sheet.views if v.name == "extended")
    assert side(sheet).whole is None
    assert (side(sheet).scale, opened.scale) == pytest.approx((1 / 5, 1 / 5))
    assert opened.whole is not None


LOUVRE = """
title = "Louvre slide"
units = "mm"
[cylinder]
bore = 50
rod = 32
stroke = 1715
retracted = 1215
clock_seen_from = "rod"
working_pressure = "120 bar"
stop_tube = 80
[body_mount]
mount = "trunnion"
pin = 30
shoulders = 75
width = 125
position = "middle"
[rod_mount]
mount = "ball swivel"
pin = 25
width = 20
ball_width = 25
outside = 56
thread = "M24x2"
thread_length = 35
turned = 90
[base_port]
thread = "M18x1.5 ISO 6149"
clock = "8:30"
[rod_port]
thread = "M18x1.5 ISO 6149"
clock = "9:30"
"""


def test_an_extended_view_broken_in_three_may_fill_its_field_but_for_centre_lines():
    """Two millimetres were missing for sizes beside it that stand within it: it fell to 1:10."""
    sheet = compose(job_of(LOUVRE))
    opened = next(v for v in sheet.views if v.name == "extended")
    assert opened.scale == pytest.approx(1 / 5)
    assert len(opened.whole.breaks.cuts) == 3
