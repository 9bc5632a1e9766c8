"""When a check may say that something holds: weakest steel, typed sizes, top of the band.

The factor here is a plain product, so that every bound is arithmetic by hand. The bands are pinned
to what the trade's handbooks say (common practice, from memory): 2.5 to 4 against buckling, 1.5 to
3 on yield, 2.5 to 4 on burst.
"""

from dataclasses import replace

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from drafting.checks import bands
from drafting.checks.bands import ON_COLUMN, ON_YIELD
from drafting.checks.check import LoadCase, failed, open_checks, told
from drafting.checks.judging import judge, outright
from drafting.checks.numbers import Number
from drafting.checks.question import Input, Question, unknown

LOAD = LoadCase("one", "one load", rod=1.0)
DOUBLE = LoadCase("two", "twice the load", rod=2.0, decided_by="duty.rod_side", avoided="open")
PLATE = Input("cylinder.plate", 2.0, 2.0)
STEEL = Input("cylinder.steel", 1.0, 1.0, unit="MPa")


def verdict(plate=PLATE, steel=STEEL, cases=(LOAD,), asked=None, band=ON_YIELD):
    def factor(at, case):
        return at[plate.field] * at[steel.field] / case.rod

    return judge(Question("c", "C", band, (plate, steel), factor, "s"), cases, asked)


@pytest.mark.parametrize(
    ("band", "least", "ample"),
    [("ON_COLUMN", 2.5, 4.0), ("ON_YIELD", 1.5, 3.0), ("ON_BURST", 2.5, 4.0),
     ("ON_YIELD_AT_PROOF", 1.0, 1.25), ("ON_BEARING", 1.0, 2.0), ("ON_JOINT", 1.0, 1.5),
     ("ON_FORCE", 1.0, 1.1), ("ON_RATING", 1.0, 1.0)],
)  # fmt: skip
def test_the_bands_are_those_of_common_practice(band, least, ample):
    found = getattr(bands, band)
    assert (found.least, found.ample) == (least, ample)
    assert found.source
    assert f"{least:g} to {ample:g}" in found.why(None)


@pytest.mark.parametrize(
    ("strength", "said"),
    [(0.74, "fails"), (0.75, "depends"), (1.49, "depends"), (1.5, "holds"), (9.0, "holds")],
)
def test_common_practice_leaves_a_span_open(strength, said):
    check = verdict(steel=Input("cylinder.steel", strength, strength, unit="MPa"))
    assert check.verdict == said
    assert check.required == 3.0
    if said == "depends":
        (d,) = check.depends_on
        assert (d.field, d.sense) == ("duty.safety_factor", "at most")
        assert d.would_do == pytest.approx(2 * strength, abs=0.01)
        assert d.would_do <= 2 * strength + 1e-9


@pytest.mark.parametrize(("asked", "said"), [(1.9, "holds"), (2.0, "holds"), (2.01, "fails")])
def test_a_factor_asked_for_rules(asked, said):
    check = verdict(asked=asked)
    assert (check.verdict, check.required) == (said, asked)
    assert check.why_asked == "asked for in the spec"


def test_a_factor_asked_for_is_never_below_the_least_of_common_practice():
    check = verdict(asked=1.0, band=ON_COLUMN)
    assert (check.verdict, check.required) == ("fails", 2.5)
    assert "never below 2.5" in check.why_asked
    assert verdict(asked=1.0, band=bands.ON_YIELD_AT_PROOF).required == 1.25


@pytest.mark.parametrize("low", [1.6, 2.9, 8.9])
def test_no_verdict_rests_on_a_size_that_nobody_typed(low):
    check = verdict(plate=Input("cylinder.plate", low, low, sure=False))
    assert check.verdict == "depends"
    assert check.depends_on[0].field == "cylinder.plate"
    assert check.depends_on[0].would_do == pytest.approx(3.0, rel=1e-5)
    assert check.depends_on[0].would_do >= 3.0


@pytest.mark.parametrize(
    ("low", "known", "said"),
    [(0.049, True, "fails"), (0.051, True, "depends"),
     (0.29, False, "fails"), (0.31, False, "not known")],
)  # fmt: skip
def test_where_no_size_of_it_would_do_it_fails(low, known, said):
    """1.5 is the least of the band: thirty times a drawn size, five times one only looked for."""
    check = verdict(plate=Input("cylinder.plate", low, low, False, known))
    assert check.verdict == said


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [(1.5, 3.0, "holds"), (1.4, 3.0, "depends"), (0.2, 0.7, "fails"), (0.2, 0.75, "depends")],
)
def test_steel_is_a_range(low, high, said):
    check = verdict(steel=Input("cylinder.steel", low, high, unit="MPa"))
    assert check.verdict == said
    assert (check.factor_from, check.factor_to) == (2 * low, 2 * high)
    if said == "depends":
        d, *factor = check.depends_on
        assert (d.field, d.sense, d.unit) == ("cylinder.steel", "at least", "MPa")
        assert d.would_do == pytest.approx(min(1.5, high), rel=1e-5)
        assert [f.would_do for f in factor] == ([] if high >= 1.5 else [2 * high])
        assert d.taken == (low, high)


def test_what_may_or_may_not_happen_gives_at_worst_depends():
    check = verdict(steel=Input("cylinder.steel", 2.0, 2.0, unit="MPa"), cases=(LOAD, DOUBLE))
    assert (check.factor_from, check.factor_to) == (2.0, 4.0)
    (d,) = check.depends_on
    assert (check.verdict, d.field, d.would_do) == ("depends", "duty.rod_side", "open")
    assert check.case == "twice the load"
    weak = Input("cylinder.steel", 0.5, 0.5, unit="MPa")
    assert verdict(steel=weak, cases=(LOAD, DOUBLE)).verdict == "fails"
    assert verdict(steel=weak, cases=(DOUBLE,)).verdict == "depends"


def test_the_worst_case_governs_in_any_order():
    heavy = LoadCase("heavy", "the heavier", rod=1.5)
    for cases in ((LOAD, heavy), (heavy, LOAD)):
        check = verdict(cases=cases)
        assert (check.case, check.factor_from) == ("the heavier", 2 / 1.5)


def test_what_nobody_knows_is_not_known_and_says_what_would_do():
    check = verdict(plate=unknown("cylinder.plate", 10.0))
    assert (check.verdict, check.factor_from, check.factor_to) == ("not known", None, None)
    assert check.depends_on[0].would_do == pytest.approx(10 / 3, rel=1e-5)  # a third of 10
    assert check.depends_on[0].taken is None
    assert check.ratio is None


def test_what_is_taken_for_the_unknown_is_shown_from_to():
    check = verdict(plate=Input("body_mount.ear", 1.0, 4.0, False, False))
    assert (check.verdict, check.factor_from, check.factor_to) == ("not known", 1.0, 4.0)


def test_a_failing_one_says_the_least_change():
    check = verdict(plate=Input("cylinder.plate", 1.7, 1.7), asked=3.0,
                    steel=Input("cylinder.steel", 1.0, 1.0, unit=""))  # fmt: skip
    assert check.verdict == "fails"
    (d,) = check.depends_on
    assert (d.field, d.would_do) == ("cylinder.plate", pytest.approx(3.0, rel=1e-5))


def test_a_size_that_is_better_small():
    thin = Input("cylinder.gap", 8.0, 8.0, sure=False)
    q = Question("c", "C", ON_YIELD, (thin,), lambda at, c: 12 / at["cylinder.gap"], "s")
    (d,) = judge(q, (LOAD,), None).depends_on
    assert (d.sense, d.would_do) == ("at most", pytest.approx(4.0, rel=1e-5))
    assert d.would_do <= 4.0


def test_two_steels_that_only_do_together_are_both_named():
    a, b = (Input(f"cylinder.{x}", 1.0, 2.0, unit="MPa") for x in "ab")
    q = Question("c", "C", ON_YIELD, (a, b), lambda at, c: 1.9 * min(at.values()), "s")
    found = {d.field: d.would_do for d in judge(q, (LOAD,), None).depends_on}
    assert found["cylinder.a"] == found["cylinder.b"] == pytest.approx(3 / 1.9, rel=1e-5)
    assert set(found) == {"cylinder.a", "cylinder.b"}


def typed(inputs, decides):
    """The inputs as if all that is named had been typed."""
    would = {d.field: d.would_do for d in decides if d.would_do is not None}
    return tuple(
        replace(i, low=would[i.field], high=would[i.field], sure=True, known=True)
        if i.field in would and not (i.known and not i.sure and enough(i, would[i.field], decides))
        else replace(i, sure=True)
        for i in inputs
    )


def enough(i, limit, decides):
    """A size as drawn that is on the good side of its limit is typed as drawn."""
    (d,) = (d for d in decides if d.field == i.field)
    return i.low >= limit if d.sense == "at least" else i.low <= limit


@drawn(
    st.tuples(*3 * [st.floats(0.2, 5.0)]), st.sampled_from(["known", "unseen", "typed"]),
    st.sampled_from(["known", "unseen", "typed"]), st.floats(1.0, 3.0),
    st.sampled_from([None, 2.0, 5.0]),
)  # fmt: skip
def test_all_that_is_named_typed_together_holds(sizes, one, other, spread, asked):
    """Whatever a check waits for: with everything that it names it no longer waits, and holds."""
    a, b, c = sizes
    inputs = (
        Input("cylinder.a", a, a, one == "typed", one != "unseen"),
        Input("cylinder.b", b, b, other == "typed", other != "unseen"),
        Input("cylinder.steel", c, c * spread, unit="MPa"),
    )

    def factor(at, case):
        return at["cylinder.a"] * at["cylinder.steel"] / at["cylinder.b"] ** 2

    q = Question("c", "C", ON_YIELD, inputs, factor, "s")
    check = judge(q, (LOAD,), asked)
    if check.verdict in ("depends", "not known"):
        assert all(d.would_do is not None for d in check.depends_on)
        factors = [d.would_do for d in check.depends_on if d.field == "duty.safety_factor"]
        again = replace(q, inputs=typed(inputs, check.depends_on))
        found = judge(again, (LOAD,), factors[0] if factors else asked)
        assert found.verdict == "holds", (check, found)


@drawn(
    st.floats(0.05, 20.0), st.floats(0.05, 20.0), st.floats(1.0, 3.0), st.booleans(),
    st.booleans(), st.sampled_from([None, 1.0, 2.0, 5.0]), st.booleans(),
)  # fmt: skip
def test_holds_is_never_said_below_the_weakest(size, low, spread, sure, known, asked, shut):
    plate = Input("cylinder.plate", size, size, sure and known, known)
    steel = Input("cylinder.steel", low, low * spread, unit="MPa")
    cases = (LOAD, DOUBLE) if shut else (LOAD,)
    check = verdict(plate, steel, cases, asked)
    worst = size * low / (2.0 if shut else 1.0)
    least = max(asked, 1.5) if asked else 1.5
    if check.verdict == "holds":
        assert sure
        assert known
        assert worst >= (max(asked, 1.5) if asked else 3.0)
    if check.verdict == "fails":
        assert size * low * spread < least
    if check.verdict in ("depends", "not known"):
        assert check.depends_on
    for d in check.depends_on:
        # What is named would do: typed, with the rest as it is at its weakest, or as asked.
        if len(check.depends_on) == 1 and d.field == "cylinder.plate" and check.verdict != "fails":
            assert d.would_do * low / (2.0 if shut else 1.0) >= check.required * (1 - 1e-9)


def test_outright():
    bad = outright("bad", "B", Number("p", 1.0), 2.0, "MPa", "s")
    good = outright("good", "G", Number("p", 2.0), 1.0, "MPa", "s")
    even = outright("even", "E", Number("p", 2.0), 2.0, "MPa", "s")
    weak = outright("weak", "W", Number("p", 2.0, "derived"), 1.0, "MPa", "s")
    plain = told("plain", "P", 1.0, "N", "s")
    assert [c.verdict for c in (bad, good, even, weak)] == ["fails", "holds", "holds", "depends"]
    assert bad.depends_on[0].would_do == 2.0
    assert failed((bad, good, plain, weak)) == (bad,)
    assert open_checks((bad, good, plain, weak)) == (weak,)
    assert [c.ok for c in (bad, good, weak, plain)] == [False, True, None, None]


def test_no_load_no_check():
    q = Question("c", "C", ON_YIELD, (PLATE,), lambda at, c: float("inf"), "s")
    assert judge(q, (LOAD,), None) is None


@pytest.mark.parametrize(
    "origin",
    ["given", "computed", "measured", "builder", "table", "derived", "open", "assumed"],
)
def test_a_verdict_rests_only_on_what_was_typed_measured_or_answered(origin):
    firm = origin in ("given", "computed", "measured", "builder")
    assert Number("x", 1.0, origin).firm is firm


def test_between_the_ends_of_a_band_that_no_typed_factor_moves_a_size_is_named():
    force = Input("cylinder.tie_rod_preload", 1.2, 1.2, unit="N")
    q = Question("c", "C", bands.ON_JOINT, (force,), lambda at, c: at[force.field], "s")
    check = judge(q, (LOAD,), None)
    (d,) = check.depends_on
    assert (check.verdict, d.field) == ("depends", force.field)
    assert d.would_do == pytest.approx(1.5, rel=1e-5)
