"""Enlarged details on the sample with a male thread, M33x2 at 1:5: 6.6 mm on paper.

A detail repeats a place at a larger scale of the same series, marked by a narrow circle and a
letter: ISO 128-3 (memory). Each size once on a sheet: ISO 129-1 (W1).
"""

import io
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest

from drafting.drawing.compose import insets
from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Text
from drafting.drawing.sheet.strokes import Arc
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.details import marked
from drafting.drawing.views.looks import look_at
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.told.rows import load_all

SPEC = Path(__file__).parents[2] / "specs" / "hay-shuttle.toml"
SIZES = {"rod_mount.thread", "rod_mount.shoulder", "rod_mount.flats"}


@pytest.fixture(scope="module")
def job():
    return replace(sheet_job(load_all([str(SPEC)])[0]), sheet="A2", scale="1:5")


@pytest.fixture(scope="module")
def sheet(job):
    return compose(job)


def _view(sheet, name):
    return next(v for v in sheet.views if v.name == name)


def test_a_small_thread_is_shown_again_larger(sheet):
    detail, side = _view(sheet, "detail_a"), _view(sheet, "side")
    assert 33.0 * side.scale < 8.0 < 12.0 <= 33.0 * detail.scale
    assert detail.title == "DETAIL A (1:2)"
    assert detail.scale == pytest.approx(0.5)
    # The thread's roots are drawn, and the cut shank ends in a break line.
    assert {m.role for m in detail.marks} >= {"outline", "thread", "centre", "break"}


def test_its_sizes_moved_with_it(sheet):
    detail = _view(sheet, "detail_a")
    assert {d.name for d in detail.dimensions} == SIZES
    others = [d.name for v in sheet.views if v is not detail for d in v.dimensions]
    assert not SIZES & set(others)


def test_the_place_is_marked_on_the_parent(sheet):
    side = _view(sheet, "side")
    (ring,) = [m for m in side.marks if m.role == "break"]
    assert isinstance(ring.curve, Arc)
    detail = _view(sheet, "detail_a")
    for mark in detail.marks:
        if mark.role == "outline":
            for p in (mark.curve.a, mark.curve.b) if hasattr(mark.curve, "a") else ():
                away = (p[0] - ring.curve.centre[0], p[1] - ring.curve.centre[1])
                assert (away[0] ** 2 + away[1] ** 2) ** 0.5 <= ring.curve.radius + 1e-6
    assert [t.text for t in side.texts if t.name == "detail"] == ["A"]


def test_the_sheet_is_clear_and_not_larger_for_it(job, sheet, monkeypatch):
    assert not inspect(sheet, job)
    monkeypatch.setattr(insets, "wanted_details", lambda *_: ())
    plain = compose(job)
    assert len(plain.views) == len(sheet.views) - 1
    assert (plain.size_name, plain.views[0].scale) == (sheet.size_name, sheet.views[0].scale)
    assert {d.name for d in _view(plain, "side").dimensions} >= SIZES


def test_no_detail_where_the_thread_can_be_read(job):
    large = compose(replace(job, sheet="A0", scale="1:2"))
    assert not [v for v in large.views if v.name.startswith("detail")]


def test_no_detail_where_its_circle_would_run_through_words(job, sheet):
    details = insets.wanted_details(job, look_at(job), sheet.views[0].scale, _paper())
    detail = next(iter(details))
    side = _view(sheet, "side")
    x = (detail.window[0] + detail.window[2]) / 2
    rim = ((detail.window[2] - x) ** 2 + detail.window[3] ** 2) ** 0.5
    busy = replace(side, texts=(*side.texts, Text((x, rim - 1.0), "WORDS", 5.0, "middle")))
    assert marked(side, detail, Style()) is not None
    assert marked(busy, detail, Style()) is None


def _paper():
    from drafting.drawing.lists.papers import PAPERS

    return next(p for p in PAPERS if p.name == "A2")


def test_in_dxf_each_size_stands_once_and_the_bare_outline_has_no_detail(sheet):
    document = ezdxf.read(io.StringIO(dxf_bytes(sheet).decode()))
    measured = [
        round(d.dxf.actual_measurement, 6) for d in document.modelspace().query("DIMENSION")
    ]
    assert measured.count(45.0) == 2  # the rod's diameter and the shoulder
    without = replace(sheet, views=tuple(v for v in sheet.views if v.name != "detail_a"))

    def edges(some):
        text = dxf_bytes(some, outline_only=True).decode()
        return len(ezdxf.read(io.StringIO(text)).modelspace())

    assert edges(sheet) == edges(without)
