"""The cases cover every word of the spec format, by the package's own lists; the page says so."""

from __future__ import annotations

import pytest

from tests.agree.cases import cases
from tests.agree.coverage import PAGE, covered, missing, page, wanted


def test_every_word_is_covered():
    assert missing() == []


def test_the_page_is_current():
    """``python -m tests.agree.coverage`` writes it anew."""
    assert PAGE.read_text(encoding="utf-8") == page()


@pytest.mark.parametrize(
    ("left_out", "point"),
    [
        ("NPTF", ("port", "NPTF", "tie rod")),
        ("keeper plate", ("pin", "rod, keeper plate", "")),
        ("wire ring", ("gland", "wire ring", "welded")),
        ("ram", ("piston", "displacement", "tie rod")),
        ("angles at both ends", ("foot", "end angles", "")),
        ("cap turned 270", ("cap_turned", "270", "tie rod")),
    ],
)
def test_a_case_that_is_left_out_is_missed(left_out, point):
    assert point in wanted()
    rest = [c for c in cases() if left_out not in c.name and left_out not in c.text()]
    assert len(rest) < len(cases())
    assert point not in {p for c in rest for p in covered(c)}
