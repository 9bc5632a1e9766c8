"""Small views in the room that is left; source: plane geometry, and the sheet's own inspector.

The pin is made up: 25 thick, a head of 38 by 7, 81 long with the head, one hole of 6.3.
"""

import io
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.own_pages import own_pages, pin_pages
from drafting.drawing.compose.page import Page
from drafting.drawing.inspect.inspect import inspect, inspect_page
from drafting.drawing.lists.papers import PAPERS
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.sheet import Round
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import free_places, small_views
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.model.pins.details import PinDetail
from drafting.settle.wishes import CentreLine, Diameter, Length
from drafting.shape.frame import X, Y, Z, along
from drafting.shape.pieces import Part, Piece, cylinder
from tests.drawing.sample_job import job

PIN = PinDetail(
    "body_pin",
    "BASE END PIN",
    (
        Part(
            "body pin",
            "body",
            (
                Piece("body_pin.shank", cylinder(12.5, -7.0, 74.0)),
                Piece("body_pin.head", cylinder(19.0, -7.0, 0.0)),
                Piece("body_pin.hole", cylinder(3.15, -14.0, 14.0), along(Y, (64.0, 0, 0)), True),
            ),
            hatched=False,
        ),
    ),
    (
        Length("body_pin.diameter", (30.0, 0, -12.5), (30.0, 0, 12.5), Z, form="round"),
        Length("body_pin.length", (-7.0, 0, -12.5), (74.0, 0, -12.5), X),
        Length("body_pin.hole_at", (0.0, 0, -12.5), (64.0, 0, -12.5), X),
        Diameter("body_pin.hole", (64.0, 0.0, 0.0), Y, 6.3),
    ),
    (CentreLine("body_pin.axis", (-7.0, 0, 0), (74.0, 0, 0)),),
)


@pytest.fixture(scope="module")
def sheet():
    return compose(job(pins=(PIN,)))


def _pin(sheet):
    return next(v for v in sheet.views if v.name == "body_pin")


def test_a_pin_has_a_view_of_its_own_with_its_sizes(sheet):
    view = _pin(sheet)
    assert {d.name: d.measure_mm for d in view.dimensions} == {
        "body_pin.diameter": 25.0,
        "body_pin.length": 81.0,
        "body_pin.hole_at": 64.0,
        "body_pin.hole": 6.3,
    }
    assert any(isinstance(d, Round) and d.name == "body_pin.hole" for d in view.dimensions)
    ratio = view.title.partition("(")[2].strip(")").split(":")
    assert int(ratio[0]) / int(ratio[1]) == pytest.approx(view.scale)
    assert 25.0 * view.scale >= 8.0


def test_it_costs_the_other_views_nothing(sheet):
    without = compose(job())
    assert (sheet.size_name, sheet.views[0].scale) == (without.size_name, without.views[0].scale)
    assert not inspect(sheet, job(pins=(PIN,)))


def test_a_pin_that_is_not_shown_is_told():
    found = inspect(compose(job()), job(pins=(PIN,)))
    assert {f.field for f in found} == {w.name for w in PIN.wishes}


def test_in_dxf_it_stands_in_true_size_clear_of_the_cylinder(sheet):
    document = ezdxf.read(io.StringIO(dxf_bytes(sheet).decode()))
    measured = sorted(
        round(d.dxf.actual_measurement, 6) for d in document.modelspace().query("DIMENSION")
    )
    assert measured.count(81.0) == 1
    spans = [
        sorted((e.dxf.start.x, e.dxf.end.x))
        for e in document.modelspace().query("LINE")
        if abs(e.dxf.start.y - e.dxf.end.y) < 1e-9
        and abs(abs(e.dxf.start.x - e.dxf.end.x) - 74) < 1
    ]
    assert spans
    scales = {
        v.dxf.view_height / v.dxf.height for v in document.layouts.get("Sheet").viewports()[1:]
    }
    assert len(scales) == len({v.scale for v in sheet.views})


boxes = st.tuples(st.floats(0, 150), st.floats(0, 100), st.floats(5, 80), st.floats(5, 60)).map(
    lambda b: (b[0], b[1], b[0] + b[2], b[1] + b[3])
)


@given(st.lists(boxes, max_size=6), st.floats(5, 60), st.floats(5, 60))
def test_a_free_place_touches_nothing(blocked, wide, high):
    frame, size = (0.0, 0.0, 200.0, 150.0), (-wide / 2, -high, wide / 2, 3.0)
    for x, y in free_places(size, blocked, frame, (100.0, 75.0)):
        own = (x + size[0], y + size[1], x + size[2], y + size[3])
        assert own[0] > 0
        assert own[1] > 0
        assert own[2] < 200.0
        assert own[3] < 150.0
        for b in blocked:
            assert own[2] <= b[0] or b[2] <= own[0] or own[3] <= b[1] or b[3] <= own[1]


def test_no_place_where_there_is_none():
    assert free_places((0, 0, 50, 50), [(0, 0, 100, 100)], (0, 0, 100, 100), (0, 0)) == []
    assert free_places((0, 0, 150, 50), [], (0, 0, 100, 100), (0, 0)) == []


def _pages(*longer):
    """Give the pages of pins that are longer than ``PIN`` by so much."""
    pins = []
    for n, more in enumerate(longer):
        far = 74.0 + more
        part = replace(
            PIN.parts[0],
            pieces=(Piece("body_pin.shank", cylinder(12.5, -7.0, far)), *PIN.parts[0].pieces[1:2]),
        )
        wishes = (PIN.wishes[0], replace(PIN.wishes[1], b=(far, 0, -12.5)))
        pins.append(replace(PIN, title=f"PIN {n}", parts=(part,), wishes=wishes))
    one = job(pins=tuple(pins))
    return pin_pages(one, PAPERS[0], small_views(one, Fraction(1, 10), PAPERS[0]))


@pytest.mark.parametrize(
    ("longer", "scale"),
    [((0.0,), 1.0), ((0.0, 10.0), 1.0), ((120.0,), 1.0), ((0.0, 120.0), 1.0), ((300.0, 0.0), 0.5)],
)
def test_pins_share_a_page_at_the_largest_scale_that_has_room(longer, scale):
    (page,) = _pages(*longer)
    assert [v.scale for v in page.views] == [scale] * len(longer)
    boxes = []
    for view in page.views:
        marks = union([box(m.curve) for m in view.marks])
        boxes.append([v * view.scale + at for v, at in zip(marks, view.at * 2, strict=True)])
    for b in boxes:
        assert PAPERS[0].frame[0] < b[0]
        assert b[2] < PAPERS[0].frame[2]
    for a, b in pairwise(boxes):
        assert a[2] < b[0] or b[3] < a[1]


@pytest.mark.parametrize(
    ("many", "alone", "pages"),
    [
        (1, ("extended",), [["extended", "body_pin"]]),
        (2, ("extended",), [["extended", "body_pin", "body_pin"]]),
        (1, ("end", "top", "extended"), [["end", "top", "extended", "body_pin"]]),
        (9, ("extended",), [["extended"], ["body_pin"] * 9]),
        (2, (), [["body_pin"] * 2]),
    ],
)
def test_pins_stand_below_views_that_have_a_page_of_their_own(many, alone, pages):
    """A half section stood alone on one page and a short pin alone on the next."""
    one = job(pins=(PIN,) * many)
    first = Page(PAPERS[0], Fraction(1, 5), Style(), (), alone=alone)
    found = own_pages(Dresser(one), first, small_views(one, Fraction(1, 5), PAPERS[0]))
    assert [[v.name for v in page.views] for page in found] == pages
    codes = {f.code for page in found for f in inspect_page(page, one)}
    assert codes <= {"sheet-said-twice"}  # the same pin, many times
    thin = [25.0 * v.scale for page in found[:1] for v in page.views if v.name == PIN.table]
    assert not thin or min(thin) >= 8.0


@pytest.mark.parametrize(("many", "here"), [(1, True), (2, False), (9, False)])
def test_pins_are_not_torn_apart(many, here):
    """Of two one has room beside the views: then both stand on a page of their own."""
    sheet = compose(job(pins=(PIN,) * many))
    first, *more = (sum(v.name == PIN.table for v in s.views) for s in (sheet, *sheet.following))
    assert (first, sum(more)) == ((many, 0) if here else (0, many))
