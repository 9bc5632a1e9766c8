"""Broken long views: shorter on paper, true in every number, whole in DXF model space.

Break lines narrow with a zigzag, pieces on one axis, the dimension over the break true and its line
unbroken: ISO 128-2 (W1) and common practice. The lengths are those typed in the sample spec.
"""

from dataclasses import replace
from io import StringIO
from pathlib import Path

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.scale import LEAST_BORE
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.page_notes import BROKEN
from drafting.drawing.lists.papers import PAPERS
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.breaks import Breaks, Cut
from drafting.drawing.sheet.paper import on_paper, text_box
from drafting.drawing.sheet.sheet import Linear
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import GAP, STUB
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.drawing.write.dxf.viewports import paper_gaps
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from tests.drawing.sample_job import job as short_job

SPEC = Path(__file__).parents[2] / "specs" / "hay-loader.toml"
RETRACTED, EXTENDED = 46.25 * 25.4, 82.25 * 25.4
TWO = Breaks((Cut(100.0, 400.0, 10.0), Cut(600.0, 700.0, 10.0)))


@pytest.fixture(scope="module")
def job():
    """At a scale at which no whole view has room on the smallest sheet."""
    made = sheet_job(load(read_spec(SPEC.read_bytes(), mounts=mounts_by_end(), file=SPEC.name)))
    return replace(made, scale="1:2")


@pytest.fixture(scope="module")
def sheet(job):
    return compose(job)


def broken(sheet):
    return {v.name: v for v in sheet.views if v.whole}


@given(st.floats(-1000.0, 2000.0), st.floats(-1000.0, 2000.0))
def test_what_is_drawn_leads_back_to_what_is_true(a, b):
    for x in (a, b):
        if not any(c.lo < x < c.hi for c in TWO.cuts):
            assert TWO.true(TWO.drawn(x)) == pytest.approx(x, abs=1e-9)
    if a <= b:
        assert TWO.drawn(a) <= TWO.drawn(b) + 1e-9


def test_a_cut_leaves_its_gap_and_nothing_else():
    assert TWO.gaps == ((100.0, 110.0), (310.0, 320.0))
    assert TWO.saved == 380.0
    assert TWO.shown(Line((0.0, 1.0), (1000.0, 1.0))) == [
        Line((0.0, 1.0), (100.0, 1.0)),
        Line((110.0, 1.0), (310.0, 1.0)),
        Line((320.0, 1.0), (620.0, 1.0)),
    ]
    assert TWO.shown(Arc((500.0, 0.0), 20.0, 0.0, 1.0)) == [Arc((210.0, 0.0), 20.0, 0.0, 1.0)]
    assert TWO.shown(Line((200.0, 0.0), (300.0, 0.0))) == []


def test_a_long_cylinder_wins_a_smaller_sheet(job, sheet):
    whole = compose(replace(job, breaks="none"))
    names = [p.name for p in PAPERS]
    assert not broken(whole)
    assert set(broken(sheet)) == {"side", "top", "extended"}
    smaller = names.index(sheet.size_name) < names.index(whole.size_name)
    assert smaller or sheet.views[0].scale > 1.5 * whole.views[0].scale
    assert sheet.views[0].scale * job.bore >= LEAST_BORE
    texts = " ".join(t.text for s in (sheet, *sheet.following) for t in s.texts)
    assert BROKEN.partition(":")[0] in texts
    assert inspect(sheet, job) == ()


def test_a_short_cylinder_keeps_true_proportions():
    assert not broken(compose(short_job()))


def test_views_stay_aligned_and_the_rod_has_a_break_of_its_own(sheet):
    side, top, opened = (broken(sheet)[n] for n in ("side", "top", "extended"))
    assert paper_gaps(side) == paper_gaps(top)
    assert len(paper_gaps(side)) == 1
    assert len(paper_gaps(opened)) == 2
    for lo, hi in paper_gaps(opened):
        assert hi - lo == pytest.approx(GAP)


def test_breaks_keep_clear_of_all_that_is_not_plain(sheet):
    for view in broken(sheet).values():
        clear = STUB / view.scale - 1e-6
        places = [
            view.whole.breaks.true(x)
            for d in view.dimensions
            if isinstance(d, Linear) and d.angle == 0.0
            for x in (d.a[0], d.b[0])
        ]
        for mark in view.whole.marks:
            if isinstance(mark.curve, Line) and mark.curve.a[1] == mark.curve.b[1]:
                places += [mark.curve.a[0], mark.curve.b[0]]
            elif isinstance(mark.curve, Arc):
                places.append(mark.curve.centre[0])
        for cut in view.whole.breaks.cuts:
            assert not any(cut.lo - clear < x < cut.hi + clear for x in places)
        assert sum(m.name == "break" for m in view.marks) == 2 * len(view.whole.breaks.cuts)


def test_no_letters_stand_over_a_gap(sheet):
    style = Style()
    for view in broken(sheet).values():
        boxes = [text_box(t) for d in on_paper(view, style).dimensions for t in d.texts]
        for lo, hi in paper_gaps(view):
            assert not any(b[0] < hi and lo < b[2] for b in boxes)


def test_the_inspector_knows_the_true_length(job, sheet):
    """A view that forgets its breaks measures too short, and is told."""
    side = next(v for v in sheet.views if v.name == "side")
    forgetful = replace(
        sheet, views=tuple(replace(v, whole=None) if v is side else v for v in sheet.views)
    )
    assert {(f.code, f.field) for f in inspect(forgetful, job)} >= {
        ("sheet-label-unlike-size", "cylinder.retracted")
    }


@pytest.fixture(scope="module")
def document(sheet):
    return ezdxf.read(StringIO(dxf_bytes(sheet).decode()))


def test_dxf_measures_the_true_lengths(document):
    found = [
        abs(d.get_measurement()) * 25.4
        for d in document.modelspace().query("DIMENSION")
        if d.dimtype == 0
    ]
    for true in (RETRACTED, EXTENDED, EXTENDED - RETRACTED):
        assert any(m == pytest.approx(true, abs=1e-6) for m in found)


def test_dxf_model_space_is_whole(document):
    """The lowest view's axis runs from eye to eye of the open cylinder; no break line is there."""
    outline = [e for e in document.modelspace().query("LINE") if e.dxf.layer == "OUTLINE"]
    low = min(e.dxf.start.y for e in outline)
    opened = [e for e in outline if e.dxf.start.y < low + 3.5]
    longest = max(abs(e.dxf.end.x - e.dxf.start.x) for e in opened) * 25.4
    assert longest > 0.8 * RETRACTED  # barrel's lower side in one piece
    places = [x for e in opened for x in (e.dxf.start.x, e.dxf.end.x)]
    assert (max(places) - min(places)) * 25.4 > EXTENDED - 150.0


def test_dxf_viewports_leave_out_what_the_breaks_leave_out(sheet, document):
    unit = 25.4
    opened = broken(sheet)["extended"]
    cuts = opened.whole.breaks.cuts
    rows = {}
    for v in document.layouts.get("Sheet").viewports()[1:]:
        half = v.dxf.view_height * v.dxf.width / v.dxf.height / 2
        x, y = v.dxf.view_center_point.x, v.dxf.view_center_point.y
        if v.dxf.height / v.dxf.view_height == pytest.approx(opened.scale):
            rows.setdefault(round(y, 3), []).append((x - half, x + half))
    (row,) = (sorted(r) for r in rows.values() if len(r) == len(cuts) + 1 > 2)
    # Where the body's datum of this view lies in model space is the writer's affair.
    datum = row[0][1] * unit - cuts[0].lo
    assert [b * unit - datum for _, b in row[:-1]] == pytest.approx([c.lo for c in cuts])
    assert [a * unit - datum for a, _ in row[1:]] == pytest.approx([c.hi for c in cuts])


def test_dxf_dimension_lines_run_on_over_the_gaps(sheet, document):
    layout = document.layouts.get("Sheet")
    lines = [e for e in layout.query("LINE") if e.dxf.layer == "DIMENSION"]
    gaps = {round(lo, 6) for v in broken(sheet).values() for lo, _ in paper_gaps(v)}
    starts = {round(min(e.dxf.start.x, e.dxf.end.x) * 25.4, 6) for e in lines}
    assert starts == gaps
