"""What would do: each limit named holds, a hundredth less does not; and how far it is looked for.

The factors here are plain products, so that each limit is arithmetic by hand.
"""

from math import inf

import pytest

from drafting.checks.bands import ON_BURST, ON_JOINT, ON_YIELD
from drafting.checks.barrel import over
from drafting.checks.check import Check, LoadCase
from drafting.checks.judging import Input, Question, judge, outright, sized, unknown, unsaid
from drafting.checks.numbers import Number
from tests.checks.sample_numbers import given

LOAD = LoadCase("one", "one load", rod=1.0)
FIELD = "cylinder.plate"


def asked(entry, factor=lambda x: x, band=ON_JOINT, cases=(LOAD,), typed=None):
    q = Question("c", "C", band, (entry,), lambda at, c: factor(at[entry.field]) / c.rod, "s")
    return judge(q, cases, typed)


def limit(entry, factor=lambda x: x, **changes):
    (d,) = asked(entry, factor, **changes).depends_on
    return d


@pytest.mark.parametrize(
    ("unit", "farthest"), [("mm", 30.0), ("N", 1e4)]
)  # fmt: skip
@pytest.mark.parametrize("begin", [0.4, 7.0])
def test_a_size_is_looked_for_up_to_thirty_times_and_a_force_ten_thousand(unit, farthest, begin):
    for far, found in ((farthest * 0.999, True), (farthest * 1.001, False)):
        entry = unknown(FIELD, begin, unit)
        d = limit(entry, lambda x, far=far: 1.5 * x / (begin * far))
        assert (d.would_do is not None) is found
        if found:
            assert d.would_do == pytest.approx(begin * far, rel=1e-6)
            assert d.would_do >= begin * far * (1 - 1e-12)
            assert d.words == f"plate of {begin * far:.4g} {unit} or more"
        else:
            assert d.words == "plate: no value of it alone would do"


@pytest.mark.parametrize("begin", [0.4, 7.0])
def test_a_size_that_is_better_small_is_looked_for_down_to_a_thirtieth(begin):
    for far, found in ((29.9, True), (30.1, False)):
        d = limit(unknown(FIELD, begin), lambda x, far=far: 1.5 * begin / far / x)
        assert (d.would_do is not None) is found
        assert d.sense == "at most"
        if found:
            assert d.would_do == pytest.approx(begin / far, rel=1e-6)
            assert d.words == f"plate of {begin / far:.4g} mm or less"


def test_what_is_enough_all_the_way_down_is_named_at_the_weak_end():
    assert limit(unknown(FIELD, 6.0), lambda x: 9.0 + x).would_do == pytest.approx(6 / 30)
    assert limit(unknown(FIELD, 6.0), lambda x: 9 + 1 / x).would_do == pytest.approx(6 * 30)


def test_where_the_far_end_is_too_far_twice_is_tried():
    """A pin may be thicker, but not thirty times: past twice the size there is no metal left."""
    d = limit(unknown(FIELD, 10.0), lambda x: 0.1 * x if x <= 20.0 else 0.0)
    assert d.would_do == pytest.approx(15.0, rel=1e-6)
    d = limit(unknown(FIELD, 10.0), lambda x: 10 / x if x >= 5.0 else 0.0)
    assert d.would_do == pytest.approx(10 / 1.5, rel=1e-6)
    assert limit(unknown(FIELD, 10.0), lambda x: 0.1 * x if x <= 14.0 else 0.0).would_do is None


def test_the_way_is_felt_a_twentieth_to_either_side():
    """Best at 10 with a flat top; a mill part outside it: the slope counts where the search begins.

    9.4 lies before the top's edge at 9.8 and within a twentieth of it: more is better.
    """

    def hill(x):
        return x / 9.8 if x < 9.8 else 9.8 / x

    assert limit(unknown(FIELD, 9.4), lambda x: 1.49 * hill(x)).sense == "at least"
    assert limit(unknown(FIELD, 10.2), lambda x: 1.49 * hill(x)).sense == "at most"


@pytest.mark.parametrize(("needed", "named"), [(999.0, True), (1001.0, False)])
def test_no_steel_or_pressure_above_a_thousand_is_named(needed, named):
    d = limit(Input("cylinder.p", 40.0, 40.0, False, unit="MPa"), lambda x: 1.5 * x / needed)
    assert (d.would_do is not None) is named
    assert d.taken == (40.0, 40.0)
    force = limit(Input("cylinder.f", 40.0, 40.0, False, unit="N"), lambda x: 1.5 * x / needed)
    assert force.would_do == pytest.approx(needed, rel=1e-6)


def test_a_word_is_asked_for_as_a_word():
    d = limit(unsaid("cylinder.gland"), lambda x: 1.0)
    assert (d.would_do, d.unit, d.sense, d.words) == (None, "", "is", "gland: not typed")


def test_a_word_that_would_do_or_not():
    flag = Input("duty.load_guided", 0.0, 1.0, unit="flag", word="true")
    for factor, does in ((1.5, "true"), (1.4, None)):
        found = asked(flag, lambda x, f=factor: f * x + 0.7 * (1 - x)).depends_on
        named = [d for d in found if d.field == flag.field]
        assert [d.would_do for d in named] == [does]
        assert (named[0].taken, named[0].words) == ((0.0, 1.0), "load guided: true")


@pytest.mark.parametrize("factor", [1.5, 1.777, 2.0, 2.34999, 2.999])
def test_the_factor_that_could_be_asked_for_is_cut_to_hundredths(factor):
    d = limit(Input(FIELD, factor, factor), band=ON_YIELD)
    assert (d.field, d.sense, d.unit) == ("duty.safety_factor", "at most", "")
    assert d.would_do == pytest.approx(int(factor * 100 + 1e-6) / 100, abs=1e-12)
    assert d.words == f"the factor asked for: {d.would_do:g} or less"
    assert asked(Input(FIELD, factor, factor), band=ON_YIELD, typed=d.would_do).verdict == "holds"
    assert (
        asked(Input(FIELD, factor, factor), band=ON_YIELD, typed=factor + 0.01).verdict == "fails"
    )


def test_of_several_sizes_the_least_change_is_named():
    """Factor a b2 / 4 of 1 x 1: a must be 6-fold, b 2.449-fold for 1.5."""
    a, b = Input("cylinder.a", 3.0, 3.0), Input("cylinder.b", 7.0, 7.0)
    q = Question(
        "c",
        "C",
        ON_JOINT,
        (a, b),
        lambda at, c: at["cylinder.a"] / 3 * (at["cylinder.b"] / 7) ** 2 / 4,
        "s",
    )
    for inputs in ((a, b), (b, a)):
        (d,) = judge(
            Question(q.code, q.name, q.band, inputs, q.factor, "s"), (LOAD,), None
        ).depends_on
        assert (d.field, d.would_do) == ("cylinder.b", pytest.approx(7 * 6**0.5, rel=1e-6))
    # One that is better small: cut to 0.9 is nearer than the other grown to 1.5.
    c = Input("cylinder.c", 5.0, 5.0)
    q = Question("c", "C", ON_JOINT, (a, c),
                 lambda at, _: at["cylinder.a"] / 3 * (5 / at["cylinder.c"]) ** 4, "s")  # fmt: skip
    (d,) = judge(q, (LOAD,), None).depends_on
    assert (d.field, d.would_do) == ("cylinder.c", pytest.approx(5 / 1.5**0.25, rel=1e-6))


def test_what_may_happen_is_named_and_then_what_is_left():
    """Shut it fails twice over; open it still wants 1.5 of 1.2: both are named."""
    shut = LoadCase("two", "twice", rod=2.0, decided_by="duty.rod_side", avoided="open")
    check = asked(Input(FIELD, 1.2, 1.2), cases=(LOAD, shut))
    assert [(d.field, d.would_do) for d in check.depends_on] == [
        ("duty.rod_side", "open"), (FIELD, pytest.approx(1.5, rel=1e-6))]  # fmt: skip
    assert check.depends_on[0].words == "twice: open"
    assert (check.factor_from, check.factor_to, check.case) == (0.6, 1.2, "twice")
    enough = asked(Input(FIELD, 1.5, 1.5), cases=(LOAD, shut))
    assert [d.field for d in enough.depends_on] == ["duty.rod_side"]
    alone = asked(Input(FIELD, 1.2, 1.2), cases=(shut,))
    assert [d.field for d in alone.depends_on] == ["duty.rod_side"]
    unsaid_ = LoadCase("two", "twice", rod=2.0, decided_by="duty.angle")
    (d,) = asked(Input(FIELD, 1.6, 1.6), cases=(LOAD, unsaid_)).depends_on
    assert (d.would_do, d.words) == (None, "twice: not said")


def test_a_case_that_does_not_load_it_is_left_out():
    idle = LoadCase("idle", "idle", rod=0.5)
    q = Question("c", "C", ON_BURST, (Input(FIELD, 5.0, 5.0),),
                 lambda at, c: inf if c is idle else at[FIELD] / c.rod, "s")  # fmt: skip
    check = judge(q, (idle, LOAD), None)
    assert (check.factor_from, check.factor_to, check.case) == (5.0, 5.0, "one load")


def test_over():
    assert [over(6.0, s) for s in (2.0, 0.0, inf, -2.0)] == [3.0, inf, 0.0, 0.0]
    assert over(-3.0, 2.0) == 0.0


def test_inputs():
    assert not Input("f", 2.0, 2.0).open
    assert Input("f", 2.0, 3.0).open
    firm, loose = sized(given("f", 3.0)), sized(given("f", 3.0, "derived"), "N")
    assert (firm.low, firm.high, firm.sure, firm.known, firm.unit) == (3.0, 3.0, True, True, "mm")
    assert (loose.sure, loose.known, loose.unit) == (False, True, "N")
    assert (unsaid("f").sure, unsaid("f").known, unsaid("f").open) == (False, False, False)


def test_the_ratio_is_what_there_is_over_what_is_asked():
    c = outright("c", "C", Number("p", 7.0), 2.0, "MPa", "s")
    assert (c.ratio, c.factor, c.provided, c.required, c.ok) == (3.5, 7.0, 7.0, 2.0, True)
    blank = Check("c", "C", None, None, 2.0, "", None, "s")
    bare = Check("c", "C", 7.0, 7.0, None, "", None, "s")
    assert (blank.ratio, bare.ratio, bare.ok) == (None, None, None)
    assert outright("c", "C", Number("p", 7.0), 8.0, "MPa", "s").depends_on[0].taken == (7.0, 7.0)
