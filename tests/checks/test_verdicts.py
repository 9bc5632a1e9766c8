"""When a check may say that something holds: the rules of the project's own spec format."""

import pytest

from drafting.checks.check import failed, open_checks, told
from drafting.checks.judging import ON_COLUMN, against, factor
from drafting.checks.numbers import Number

FIRM = (Number("bore", 80.0), Number("area", 1.0, "computed"))


@pytest.mark.parametrize(
    ("value", "said"), [(2.4, "fails"), (2.5, "depends"), (3.9, "depends"), (4.0, "holds")]
)
def test_common_practice_leaves_a_span_open(value, said):
    check = factor("c", "C", value, ON_COLUMN, "s", FIRM)
    assert check.verdict == said
    assert [d.field for d in check.depends_on] == ["duty.safety_factor"] * (said == "depends")


@pytest.mark.parametrize(("value", "said"), [(3.4, "fails"), (3.5, "holds")])
def test_a_factor_asked_for_decides(value, said):
    check = factor("c", "C", value, ON_COLUMN, "s", FIRM, Number("factor", 3.5))
    assert check.verdict == said
    assert check.required == 3.5
    assert check.ratio == value / 3.5


@pytest.mark.parametrize("origin", ["table", "derived", "assumed"])
@pytest.mark.parametrize("value", [9.0, 0.1])
def test_no_verdict_rests_on_what_nobody_gave(origin, value):
    check = against("c", "C", value, 1.0, "N", "s", (*FIRM, Number("wall", 7.5, origin)))
    assert (check.verdict, check.ok) == ("depends", None)
    assert [d.field for d in check.depends_on] == ["wall"]
    assert check.provided == value


def test_failed_and_open():
    bad = against("bad", "B", 1.0, 2.0, "N", "s", FIRM)
    good = against("good", "G", 2.0, 1.0, "N", "s", FIRM)
    plain = told("plain", "P", 1.0, "N", "s")
    weak = against("weak", "W", 2.0, 1.0, "N", "s", (Number("wall", 7.5, "derived"),))
    assert failed((bad, good, plain, weak)) == (bad,)
    assert open_checks((bad, good, plain, weak)) == (weak,)
    assert plain.ok is None
