"""The views alone, as a screen shows them: each size of the sheet, in one unit, to be read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.screen import views_alone
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.load import checked, load

SPECS = Path(__file__).parents[2] / "specs"
SHOWN = ("weir-gate", "hay-loader", "mill-sluice")
WIDEST = 360.0
"""Paper mm that are shown on 700 px and more: a letter of 3.5 mm is then 7 px high, 10 px with what
reaches above and below it (drawn at 1400 px and looked at)."""


def job_of(name):
    return sheet_job(load(checked((SPECS / f"{name}.toml").read_bytes(), name)))


def names(sheet):
    """Words of like ports may go to any of them: ``2x`` stands for each."""
    shown = [d for v in sheet.views for d in v.dimensions]
    return {"2x" if " ".join(d.texts).startswith("2x ") else d.name for d in shown}


@pytest.fixture(scope="module", params=SHOWN)
def shown(request):
    job = job_of(request.param)
    return job, [*views_alone(job)]


def test_each_view_is_two_steps_and_the_last_holds_the_sheet(shown):
    """All views are projected, then dressed one by one: whoever asks may leave off between two."""
    _, (*steps, last) = shown
    assert [(s.sheet, s.outline) for s in steps] == [(None, None)] * len(steps)
    shown_views = sorted(v.name for v in last.sheet.views)
    half = len(steps) // 2
    for some in (steps[:half], steps[half:]):
        assert sorted(s.view for s in some) == shown_views
    assert set(shown_views) >= {"side", "top", "end", "extended"}


def test_it_has_the_sizes_of_the_sheet_and_stands_on_its_own_paper(shown):
    job, (*_, last) = shown
    sheet = last.sheet
    assert names(sheet) >= names(compose(job))
    assert sheet.width <= WIDEST
    assert not sheet.marks
    assert not sheet.texts
    for view in sheet.views:
        for d in view.dimensions:
            assert not any("[" in t for t in d.texts), d


def test_the_inspector_finds_nothing_on_it(shown):
    job, (*_, last) = shown
    own = replace(job, dimensions=last.sheet.units)
    assert [f.message for f in inspect(last.sheet, own)] == []


def test_the_inspector_would_find_a_view_that_is_missing(shown):
    job, (*_, last) = shown
    less = replace(last.sheet, views=last.sheet.views[:1])
    own = replace(job, dimensions=last.sheet.units)
    assert {f.code for f in inspect(less, own)} >= {"sheet-missing-size"}
