"""Which views are broken, and where, so that the metal can be read; all sizes are made up."""

from fractions import Fraction
from pathlib import Path
from types import SimpleNamespace
from typing import ClassVar

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.opened import open_views
from drafting.drawing.compose.scale import Rule, Scaled
from drafting.drawing.lists.papers import papers
from drafting.drawing.sheet.breaks import Breaks, Cut
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import GAP, LONG, STUB, Run, breaks_for
from tests.drawing.test_calm import job_of

SPECS = Path(__file__).parents[2] / "specs"
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


def test_a_broken_barrel_still_looks_long():
    """A barrel of 679 was a disc, 31 mm long and 50 high on paper; at the same scale it is 121."""
    view = _side(compose(job_of(DOOR)))
    sizes = {d.name: d for d in view.dimensions}
    barrel, outside = sizes["cylinder.body_length"], sizes["cylinder.barrel_outside"]
    assert abs(barrel.a[0] - barrel.b[0]) > LONG * abs(outside.a[1] - outside.b[1])
    assert view.scale == 1.0


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
    view = _side(sheet)
    assert view.whole is not None
    assert view.scale == pytest.approx(1 / 2)


def test_an_extended_view_is_broken_at_the_third_scale_before_it_is_whole_at_the_fourth():
    """Beside views at 1:4 it fell to 1:32, a bore of 3 mm, though at 1:16 a break had room."""
    job = job_of((SPECS / "hay-loader.toml").read_text())
    rule = Rule(job, Dresser(job).seen, papers("B", "in")[0])
    ways = [(s.scale, bool(s.breaks)) for s in rule.opened(Fraction(1, 2), (0.0, 0.0, 244.0, 81.0))]
    assert (Fraction(1, 8), True) in ways
    assert ways[-1] == (Fraction(1, 16), False)


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


def _side(sheet):
    return next(v for v in sheet.views if v.name == "side")


def _sample(name):
    return compose(job_of((SPECS / f"{name}.toml").read_text(encoding="utf-8")))


def test_a_cylinder_not_quite_slender_is_broken_where_that_gains_a_step():
    """Twelve times as long as high it stood whole, at 1:5 where 1:2 has room."""
    view = _side(_sample("mill-sluice"))
    assert view.scale == pytest.approx(1 / 2)
    assert view.whole is not None


def test_it_stays_whole_where_that_gains_nothing_and_its_bore_is_large_enough_open():
    """Closed it has room at 1:5; open a bore of 63 stood at 1:10."""
    sheet = _sample("log-grapple")
    opened = next(v for v in sheet.views if v.name == "extended")
    assert _side(sheet).whole is None
    assert (_side(sheet).scale, opened.scale) == pytest.approx((1 / 5, 1 / 5))
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


class _Tall:
    """A view of 10 mm whose words stand 50 above it and 30 below, nearer in a room."""

    pictures: ClassVar = {"extended": SimpleNamespace(box=(0.0, 0.0, 150.0, 10.0))}

    def view(self, name, scale, style, breaks, title, room):
        low, top = (room[1], room[3]) if room else (-30.0, 60.0)
        return SimpleNamespace(box=(0.0, low, 150.0, top))


@pytest.mark.parametrize(("main", "heights"), [(1, [90.0, 84.0]), (4, [90.0])])
def test_an_extended_view_comes_once_more_with_its_words_nearer_where_they_make_it_too_high(
    main, heights
):
    """It fell by a step, or three, for two millimetres; a small one is worth no nearer words."""
    rule = SimpleNamespace(opened=lambda main, field: [Scaled(Fraction(1), {})])
    views = open_views(_Tall(), rule, Fraction(main), Style(), (0.0, 0.0, 200.0, 84.0))
    assert [view.box[3] - view.box[1] for view, _ in views] == heights


STOUT = """
title = "Stamp holder"
units = "in"
[cylinder]
bore = 10
rod = "5 1/2"
stroke = "3 3/4"
retracted = "21 1/2"
barrel_outside = 12
gland = "bolted"
working_pressure = "3000 psi"
proof_pressure = "4500 psi"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "base"
plate = 17
thickness = "2"
seat = "rod side"
bolts = {count = 8, hole = "1 3/16", circle = "14 3/4", first_hole = "on"}
[rod_mount]
mount = "female thread"
thread = "3-8 UN"
thread_length = "3 1/2"
flats = "4 3/4"
[base_port]
thread = "SAE-16"
clock = "1:30"
[rod_port]
thread = "SAE-16"
clock = "7:00"
"""


def test_an_extended_view_is_as_high_as_the_others_leave_it():
    """More was counted on than they left: its words came no nearer, and it fell to 1:32."""
    sheet = compose(job_of(STOUT))
    scales = {v.name: v.scale for v in sheet.views}
    assert scales["extended"] == pytest.approx(1 / 16)
    assert scales["side"] == pytest.approx(1 / 8)
