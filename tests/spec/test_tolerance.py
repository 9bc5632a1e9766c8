"""Tolerances as typed. What is right follows from 1 in = 25.4 mm; the forms are the trade's."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.factors import Misread
from drafting.spec.tolerance import read_tolerance


@pytest.mark.parametrize(
    ("text", "lower", "upper"),
    [
        ("±0.5", -12.7, 12.7),
        ("+/- 1/32", -25.4 / 32, 25.4 / 32),
        ("+1/16 -0 in", 0.0, 25.4 / 16),
        ("+1/16-0", 0.0, 25.4 / 16),
        ("+0.5/0 mm", 0.0, 0.5),
        ("0/-0.039 mm", -0.039, 0.0),
        ("+.002/-.000 in", 0.0, 0.0508),
        ("-0.1 -0.3 mm", -0.3, -0.1),
        ("+1 mm -1/16 in", -25.4 / 16, 1.0),
        ("+0.2 +0.5 mm", 0.2, 0.5),
    ],
)
def test_deviations(text, lower, upper):
    assert read_tolerance(text, "in").deviations == pytest.approx((lower, upper))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("24.9 to 25.1 mm", 24.9, 25.1), ("27 1/8 to 27 3/8 in", 688.975, 695.325)],
)
def test_limits(text, low, high):
    assert read_tolerance(text, "mm").limits == pytest.approx((low, high))


@pytest.mark.parametrize(
    ("text", "in_fractions"),
    [
        ("1 9/16 to 1 5/8 in", True),
        ("1 9/16 ... 2", True),
        ("1.5625 to 1 5/8", False),
        ("1.5 to 1.75", False),
        ("+1/16 -0", True),
        ("+.002/-.000", False),
    ],
)
def test_what_was_typed_in_fractions_is_known_as_such(text, in_fractions):
    assert read_tolerance(text, "in").fractions == in_fractions


@pytest.mark.parametrize(("text", "word"), [("H8", "H8"), ("h 9", "h9"), ("js6", "js6")])
def test_classes(text, word):
    assert read_tolerance(text, "mm").fit == word


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("+0.5", "one deviation"),
        ("0.5", "is not a tolerance"),
        ("±0", "no room"),
        ("+0.5 0.2", "no sign"),
        ("I7", "no deviation I"),
        ("H25", "01 to 18"),
        ("±0,5", "comma"),
        ("close", "is not a tolerance"),
        ("25 to 25", "same size"),
    ],
)
def test_refused(text, told):
    with pytest.raises(Misread, match=told.replace("+", r"\+")):
        read_tolerance(text, "mm")


@given(st.text('+-±/ 0123456789.HhtoIN"', max_size=14))
def test_anything_is_read_or_refused_in_words(text):
    try:
        found = read_tolerance(text, "mm")
    except Misread:
        return
    pair = found.deviations or found.limits
    assert found.fit or (pair is not None and pair[0] < pair[1])
