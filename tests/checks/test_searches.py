"""What would do: each limit named holds, a hundredth less does not; and how far it is looked for.

The factors here are plain products, so that each limit is arithmetic by hand.
"""

from dataclasses import replace
from math import inf

import pytest

from drafting.checks.bands import ON_BURST, ON_JOINT, ON_YIELD
from drafting.checks.check import Check, LoadCase
from drafting.checks.judging import judge, outright
from drafting.checks.numbers import Number
from drafting.checks.question import Input, Question, sized, unknown, unsaid
from drafting.checks.stress import over
from drafting.checks.would_do import enough
from tests.checks.sample_numbers import given

LOAD = LoadCase("one", "one load", rod=1.0)
FIELD = "cylinder.plate"


def asked(entry, factor=lambda x: x, band=ON_JOINT, cases=(LOAD,), typed=None):
    q = Question("c", "C", band, (entry,), lambda at, c: factor(at[entry.field]) / c.rod, "s")
    return judge(q, cases, typed)


def limit(entry, factor=lambda x: x, **changes):
    (d,) = asked(entry, factor, **changes).depends_on
    return d


def drawn(begin, unit):
    return Input(FIELD, begin, begin, sure=False, unit=unit)


@pytest.mark.parametrize(
    ("entry", "unit", "farthest"), [(drawn, "mm", 30.0), (unknown, "mm", 5.0), (unknown, "N", 1e4)]
)
@pytest.mark.parametrize("begin", [0.4, 7.0])
def test_a_size_drawn_is_looked_for_thirty_times_an_unseen_one_five_times(
    entry, unit, farthest, begin
):
    """A force has no such bound: it is looked for up to ten thousand times."""
    entry = drawn(begin, unit) if entry is drawn else unknown(FIELD, begin, unit)
    for far in (1.02, 1.3, farthest * 0.999):
        d = limit(entry, lambda x, far=far: 1.5 * x / (begin * far))
        assert d.would_do == pytest.approx(begin * far, rel=1e-6)
        assert d.would_do >= begin * far * (1 - 1e-12)
        assert d.words == f"plate of {begin * far:.4g} {unit} or more"
    too_far = asked(entry, lambda x: 1.5 * x / (begin * farthest * 1.001))
    assert all(d.would_do is None for d in too_far.depends_on if d.field == FIELD)


@pytest.mark.parametrize("begin", [0.4, 7.0])
def test_a_size_that_is_better_small_is_looked_for_down_to_a_thirtieth(begin):
    for far in (1.01, 1.2, 1.99, 2.3, 29.9):
        d = limit(drawn(begin, "mm"), lambda x, far=far: 1.5 * begin / far / x)
        assert (d.sense, d.would_do) == ("at most", pytest.approx(begin / far, rel=1e-6))
        assert d.words == f"plate of {begin / far:.4g} mm or less"
    too_far = asked(drawn(begin, "mm"), lambda x: 1.5 * begin / 30.1 / x)
    assert too_far.depends_on[0].would_do is None
    assert too_far.depends_on[0].words == "plate: no value of it alone would do"


@pytest.mark.parametrize(("needed", "changed"), [(1.99, "drawn"), (2.01, "typed")])
def test_a_typed_size_is_changed_before_a_drawn_one_by_more_than_twice(needed, changed):
    inputs = (Input("cylinder.drawn", 4.0, 4.0, False), Input("cylinder.typed", 9.0, 9.0))
    q = Question(
        "c",
        "C",
        ON_JOINT,
        inputs,
        lambda at, c: 1.5 * at["cylinder.drawn"] / 4 * (at["cylinder.typed"] / 9) ** 2 / needed,
        "s",
    )
    found = {d.field: d.would_do for d in judge(q, (LOAD,), None).depends_on}
    if changed == "drawn":
        assert found == {"cylinder.drawn": pytest.approx(4 * needed, rel=1e-6)}
    else:
        assert found == {
            "cylinder.typed": pytest.approx(9 * needed**0.5, rel=1e-6),
            "cylinder.drawn": pytest.approx(4.0, rel=1e-6),
        }


def test_what_is_more_than_enough_is_known_down_to_a_third_or_up_to_thrice():
    for short, far in ((1.3, 1.3), (2.95, 2.95), (3.05, 3.0), (1e3, 3.0)):
        less = limit(drawn(6.0, "mm"), lambda x, short=short: 1.5 * x * short / 6)
        assert less.would_do == pytest.approx(6 / far, rel=1e-6)
        more = limit(drawn(6.0, "mm"), lambda x, short=short: 1.5 * short * 6 / x)
        assert more.would_do == pytest.approx(6 * far, rel=1e-6)


def test_where_the_far_end_is_too_far_what_lies_before_it_is_found():
    """A pin may be thicker, but not twice: past half more there is no metal left."""
    for entry in (unknown(FIELD, 10.0), drawn(10.0, "mm")):
        d = limit(entry, lambda x: 0.1 * x if x <= 15.5 else 0.0)
        assert d.would_do == pytest.approx(15.0, rel=1e-6)
        d = limit(entry, lambda x: 10 / x if x >= 6.6 else 0.0)
        assert d.would_do == pytest.approx(10 / 1.5, rel=1e-6)
        none = asked(entry, lambda x: 0.1 * x if x <= 12.0 else 0.0)
        assert [d.would_do for d in none.depends_on if d.field == FIELD] in ([None], [])


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
    d = asked(Input("cylinder.p", 40.0, 40.0, unit="MPa"), lambda x: 1.5 * x / needed).depends_on
    assert [x.would_do for x in d] == ([pytest.approx(needed, rel=1e-6)] if named else [])
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
    """Factor a b2 x 0.9: a must be 1.667-fold, b 1.291-fold for 1.5."""
    a, b = Input("cylinder.a", 3.0, 3.0), Input("cylinder.b", 7.0, 7.0)
    q = Question(
        "c",
        "C",
        ON_JOINT,
        (a, b),
        lambda at, c: 0.9 * at["cylinder.a"] / 3 * (at["cylinder.b"] / 7) ** 2,
        "s",
    )
    for inputs in ((a, b), (b, a)):
        (d,) = judge(
            Question(q.code, q.name, q.band, inputs, q.factor, "s"), (LOAD,), None
        ).depends_on
        assert (d.field, d.would_do) == (
            "cylinder.b",
            pytest.approx(7 * (1.5 / 0.9) ** 0.5, rel=1e-6),
        )
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
    weak = asked(Input(FIELD, 1.5, 1.5), cases=(LOAD, shut))
    assert [d.field for d in weak.depends_on] == ["duty.rod_side"]
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


def test_how_large_a_size_must_be_beside_another():
    """A factor of 0.7 asked of plate times web, where 2 x 0.25 is there."""
    plate, web = drawn(2.0, "mm"), Input("cylinder.web", 0.25, 0.25, sure=False)
    sheets = Question("c", "C", ON_JOINT, (web, plate),
                      lambda at, c: at[FIELD] * at["cylinder.web"] / c.rod, "s")  # fmt: skip
    assert enough(sheets, FIELD, (LOAD,), 0.7) == pytest.approx(2.8, rel=1e-6)
    assert enough(sheets, "cylinder.web", (LOAD,), 0.7) == pytest.approx(0.35, rel=1e-6)
    assert enough(sheets, FIELD, (LOAD,), 0.5) == 0.0
    assert enough(sheets, FIELD, (LOAD,), 1e3) is None
    less = replace(sheets, factor=lambda at, c: 3.0 / at[FIELD])
    assert enough(less, FIELD, (LOAD,), 2.0) is None


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
