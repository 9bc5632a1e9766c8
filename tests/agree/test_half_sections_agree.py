"""The extended half section of whole spec files is the kernel's view of its own cut solids.

The gate takes every third of its cases; with DRAFTING_WIDE=1 every case, the clock angles in turn.
``test_*_is_noticed`` prove that the comparison can fail.
"""

from __future__ import annotations

from dataclasses import replace
from math import dist

import pytest

from drafting.drawing.sheet.strokes import Line
from tests.agree.cases import cases, half_runs
from tests.agree.half_section import extended_half, half_differences
from tests.agree.test_views_agree import FIXED
from tests.model.mount_specs import settled

RUNS = [pytest.param(*run, id=f"{run[0].name}, {run[1]} deg") for run in half_runs()]


@pytest.mark.parametrize(("case", "clock"), RUNS)
def test_the_half_section_is_the_kernels(case, clock):
    found = half_differences(*extended_half(settled(case.text(clock))), FIXED)
    assert all(d.length > 500.0 for d in found)
    assert not [str(d) for d in found if not d.agrees]


@pytest.fixture(scope="module")
def drawn():
    (case,) = (c for c in cases() if c.name == "welded: gland bolted")
    return extended_half(settled(case.text(0)))


def test_a_cut_beside_the_axis_is_noticed(drawn):
    picture, parts = drawn
    assert not all(
        d.agrees for d in half_differences(picture, parts, FIXED, aside=8.0, court=False)
    )


def test_an_uncut_half_is_noticed(drawn):
    picture, parts = drawn
    whole = replace(picture, cut=())
    assert not all(d.agrees for d in half_differences(whole, parts, FIXED, court=False))


def test_one_line_left_out_is_noticed(drawn):
    """The shortest of at least 8 mm: its rays are few."""
    picture, parts = drawn
    lines = [s for s in picture.strokes if s.visible and isinstance(s.curve, Line)]
    long = [s for s in lines if s.part == "barrel" and dist(s.curve.a, s.curve.b) > 8.0]
    line = min(long, key=lambda s: dist(s.curve.a, s.curve.b))
    less = replace(picture, strokes=tuple(s for s in picture.strokes if s is not line))
    assert not all(d.agrees for d in half_differences(less, parts, FIXED))
