"""When a check may say that something holds: the rules of the project's own spec format.

No verdict rests on a derived or assumed number; without a factor asked for, only what is below or
above the whole span of common practice is judged.
"""

import pytest

from drafting.checks.check import (
    ON_COLUMN,
    against,
    factor,
    failed,
    told,
    verdict,
    would_fail,
)
from drafting.checks.numbers import Number

FIRM = (Number("bore", 80.0), Number("area", 1.0, "computed"))


@pytest.mark.parametrize(("value", "ok"), [(2.4, False), (2.5, None), (3.9, None), (4.0, True)])
def test_common_practice_leaves_a_span_open(value, ok):
    check = factor("c", "C", value, ON_COLUMN, "s", FIRM)
    assert check.ok is ok
    assert ("a person must choose" in check.note) is (ok is None)
    assert "common practice" in check.source


@pytest.mark.parametrize(("value", "ok"), [(3.4, False), (3.5, True)])
def test_a_factor_asked_for_decides(value, ok):
    check = factor("c", "C", value, ON_COLUMN, "s", FIRM, Number("factor", 3.5))
    assert check.ok is ok
    assert check.required == 3.5
    assert check.ratio == value / 3.5


@pytest.mark.parametrize("origin", ["table", "derived", "assumed"])
@pytest.mark.parametrize(("value", "word"), [(9.0, "hold"), (0.1, "fail")])
def test_no_verdict_rests_on_what_nobody_gave(origin, value, word):
    check = against("c", "C", value, 1.0, "N", "s", (*FIRM, Number("wall", 7.5, origin)))
    assert check.ok is None
    assert f"wall ({origin})" in check.note
    assert f"would {word}" in check.note
    assert check.provided == value
    assert verdict(check) == "not judged"
    assert check.would is (word == "hold")
    assert would_fail((check,)) == ((check,) if word == "fail" else ())


def test_a_verdict_that_stands_is_not_also_a_guess():
    for value in (0.1, 9.0):
        check = against("c", "C", value, 1.0, "N", "s", FIRM)
        assert check.ok is not None
        assert check.would is None


def test_failed_are_only_those_judged():
    bad = against("bad", "B", 1.0, 2.0, "N", "s", FIRM)
    good = against("good", "G", 2.0, 1.0, "N", "s", FIRM)
    plain = told("plain", "P", 1.0, "N", "s")
    assert failed((bad, good, plain)) == (bad,)
    assert [verdict(c) for c in (bad, good, plain)] == ["FAILS", "holds", ""]
