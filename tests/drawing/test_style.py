"""Sizes of lines and lettering.

Sources: line widths from the series 0.25 0.35 0.5 0.7 1.0, wide to narrow 2:1 (ISO 128-2, formerly
128-24, as republished); heights from the series of ISO 3098. The fitting of dashes is our own rule.
"""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.sheet.sheet import Role
from drafting.drawing.sheet.style import Style


def test_widths_and_heights_are_of_the_series():
    style = Style()
    for role in get_args(Role):
        assert style.width(role) in (0.18, 0.25, 0.35, 0.5, 0.7, 1.0)
    assert style.wide == pytest.approx(2 * style.narrow)
    for height in (style.text, style.small_text, style.heading, style.field_name):
        assert height in (1.8, 2.5, 3.5, 5.0, 7.0, 10.0)
    assert style.arrow / style.arrow_width == pytest.approx(3)


def test_axes_and_hatching_are_the_thinnest():
    """Our own rule: the outline stands out, and hatching does not fill thin walls."""
    style = Style()
    widths = [style.width(r) for r in ("outline", "dimension", "centre", "hatch", "phantom")]
    assert widths == [0.5, 0.25, 0.18, 0.18, 0.18]


@given(st.sampled_from(["hidden", "centre", "phantom"]), st.floats(0.1, 2000))
def test_dashed_lines_end_on_a_full_dash(role, length):
    style = Style()
    pattern = style.fitted_dashes(role, length)
    if not pattern:
        assert length < (7.2 if role == "centre" else 2.6)
        return
    periods = (length - pattern[0]) / sum(pattern)
    assert periods == pytest.approx(round(periods))
    assert round(periods) >= 1
    if role == "centre":
        assert round(periods) % 2 == 0  # a long dash in the middle, where centre lines cross
    plain = style.pattern(role, length)
    assert 0.55 < pattern[0] / plain[0] < 1.7
    assert [p / pattern[0] for p in pattern] == pytest.approx([p / plain[0] for p in plain])
    assert min(pattern[1::2]) > 0.45  # narrower gaps run together in print


@pytest.mark.parametrize(
    ("role", "length", "marks"),
    # Long dash double dot as on long lines, as long as there is room; then dashes alone.
    [("phantom", 8.0, 6), ("phantom", 5.0, 6), ("phantom", 3.0, 2), ("centre", 8.0, 4)],
)
def test_a_short_line_is_of_its_kind_too(role, length, marks):
    assert len(Style().fitted_dashes(role, length)) == marks


def test_continuous_lines_have_no_dashes():
    dashed = {"hidden", "centre", "phantom"}
    for role in get_args(Role):
        assert bool(Style().fitted_dashes(role, 200)) == (role in dashed)
