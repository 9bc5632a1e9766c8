"""Which thread is it?

Outside checks: 82 readings of published fitting-identification charts and of bands computed from
the standards (``validation/data/identify_cases.csv``, its source column names each), 143 pairs that
a caliper cannot tell apart (``identify_confusions.csv``), and coarse chart rows of common practice:
a hole of 0.98 in with a male of 1 1/16 in is 3/4 NPT, 25/32 with 27/32 is 1/2 NPT, 11/16 with 3/4
is 3/4-16.
"""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.measuring.identify import identify
from drafting.measuring.thread_readings import ReadingError, fraction_step
from drafting.reports.identification import identify_full, identify_json, identify_text
from drafting.standards.bands import known_threads
from drafting.standards.ports import parse_port
from drafting.standards.threads import parse_thread

DATA = Path(__file__).parent.parent / "validation" / "data"
FAMILY = {"J1926": "SAE ORB"}
IN = 25.4


def rows(name):
    with (DATA / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


CASES = rows("identify_cases.csv")
CONFUSIONS = rows("identify_confusions.csv")


def bare(text):
    return text.replace(" ", "").upper()


def names(k):
    """How the charts spell a thread: 3/4-16, M22x1.5, G1/2, R1/2/Rc1/2, 1/2 NPT."""
    own = {k.thread, k.male_name, f"{k.male_name}/{k.thread}"}
    if k.screw:
        own |= {k.screw, k.screw.split(" UN")[0]}
    return {bare(n) for n in own}


def reading(row, value):
    return {"male_mm" if row["feature"] == "male_od" else "female_mm": value}


def place(result, thread, family):
    for n, c in enumerate(result.candidates):
        if bare(thread) in names(c.thread) and c.thread.family == family:
            return n
    return None


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["case_id"])
def test_charts_lead_to_their_thread(case):
    said = reading(case, float(case["measured_mm"]))
    if case["tpi"]:
        said["tpi"] = float(case["tpi"])
    if case["form"] in ("taper", "parallel"):
        said["taper"] = case["form"] == "taper"
    result = identify(**said)
    family = FAMILY.get(case["expected_family"], case["expected_family"])
    where = place(result, case["expected_thread"], family)
    assert where is not None
    if case["tpi"] and not case["others_left_after_tpi"]:
        assert where == 0
        return
    # caliper and pitch leave others: the right one is not ruled out
    assert where < result.rivals


def test_the_caliper_alone_never_hides_the_right_thread():
    """Without the pitch the right thread is still among the candidates."""
    hidden = []
    for case in CASES:
        result = identify(**reading(case, float(case["measured_mm"])))
        family = FAMILY.get(case["expected_family"], case["expected_family"])
        where = place(result, case["expected_thread"], family)
        if where is None or where >= result.rivals:
            hidden.append((case["case_id"], float(case["outside_band_mm"])))
    assert [c for c, miss in hidden if abs(miss) < 0.25] == []
    assert len(hidden) <= 3


@pytest.mark.parametrize("pair", CONFUSIONS, ids=lambda p: f"{p['thread_a']}~{p['thread_b']}")
def test_pairs_that_a_caliper_cannot_tell_are_both_named(pair):
    ends = sorted(float(pair[f"band_{t}_{e}_mm"]) for t in "ab" for e in ("lo", "hi"))
    result = identify(**reading(pair, (ends[1] + ends[2]) / 2))
    left = [c.thread for c in result.candidates[: result.rivals]]
    for thread in (pair["thread_a"], pair["thread_b"]):
        assert any(bare(thread) in names(k) for k in left), thread
    assert not result.decided
    assert result.advice


SPLIT = [p for p in CONFUSIONS if float(p["tpi_difference"]) > 0]


@pytest.mark.parametrize("pair", SPLIT, ids=lambda p: f"{p['thread_a']}~{p['thread_b']}")
def test_the_pitch_splits_the_pairs_that_it_can(pair):
    ends = sorted(float(pair[f"band_{t}_{e}_mm"]) for t in "ab" for e in ("lo", "hi"))
    for own, other in (("a", "b"), ("b", "a")):
        result = identify(**reading(pair, (ends[1] + ends[2]) / 2), tpi=float(pair[f"tpi_{own}"]))
        left = [c.thread for c in result.candidates[: result.rivals]]
        assert any(bare(pair[f"thread_{own}"]) in names(k) for k in left)
        assert not any(bare(pair[f"thread_{other}"]) in names(k) for k in left)


# --- coarse charts, common practice


@pytest.mark.parametrize(
    ("female", "male", "tpi", "thread"),
    [
        (0.98, 17 / 16, 14, "3/4 NPT"),
        (25 / 32, 27 / 32, 14, "1/2 NPT"),
        (11 / 16, 3 / 4, 16, "3/4-16 UNF ORB"),
    ],
)
def test_coarse_chart_rows(female, male, tpi, thread):
    without = identify(female_mm=female * IN, male_mm=male * IN)
    assert without.candidates[0].thread.thread == thread
    assert not without.decided
    result = identify(female_mm=female * IN, male_mm=male * IN, tpi=tpi)
    assert result.candidates[0].thread.thread == thread


def test_a_single_caliper_reading_is_not_picked_from():
    result = identify(female_mm=0.98 * IN)
    left = {c.thread.thread for c in result.candidates[: result.rivals]}
    assert {"3/4 NPT", "1 1/16-12 UN ORB", "M27x2"} <= left
    text = identify_text(result)
    assert "NOT DECIDED" in text
    assert "measure the pitch next" in text
    assert "10 x 12 = 0.83 in" in text


def test_seat_and_taper_decide_where_the_thread_does_not():
    assert identify(male_mm=19.0, tpi=16, seat_deg=37).candidates[0].thread.family == "37 deg flare"
    assert identify(male_mm=19.0, tpi=16, seat_deg=74).candidates[0].thread.family == "37 deg flare"
    assert identify(male_mm=19.0, tpi=16, seat_deg=15).candidates[0].thread.family == "SAE ORB"
    assert identify(male_mm=20.82, tpi=14, taper=False).candidates[0].thread.thread == "G 1/2"
    assert identify(male_mm=20.9, tpi=14, taper=True).candidates[0].thread.thread == "1/2 NPT"


def test_a_fraction_is_taken_as_a_coarse_reading():
    coarse = identify(male_mm=0.75 * IN).readings
    assert coarse.male_uncertainty_mm == pytest.approx(IN / 32)
    assert any("1/16" in n for n in coarse.notes)
    fine = identify(male_mm=0.75 * IN, male_uncertainty_mm=0.02)
    assert fine.readings.notes == ()
    assert fine.rivals < identify(male_mm=0.75 * IN).rivals
    assert [fraction_step(x * IN) for x in (0.75, 25 / 32, 63 / 64, 0.98)] == [16, 32, 64, None]


# --- what cannot be read


@pytest.mark.parametrize(
    ("said", "code", "field"),
    [
        ({}, "no-diameter", "female"),
        ({"tpi": 14.0}, "no-diameter", "female"),
        ({"female_mm": 20.0, "male_mm": 19.0}, "female-not-smaller", "female"),
        ({"male_mm": 20.0, "tpi": 14.0, "pitch_mm": 1.5}, "two-pitches", "pitch"),
        ({"male_mm": 0.0}, "out-of-range", "male"),
        ({"male_mm": float("nan")}, "out-of-range", "male"),
        ({"male_mm": 20.0, "tpi": 0.0}, "out-of-range", "tpi"),
        ({"male_mm": 20.0, "seat_deg": 400.0}, "out-of-range", "seat"),
    ],
)
def test_readings_that_cannot_be_are_refused(said, code, field):
    with pytest.raises(ReadingError) as refused:
        identify(**said)
    assert (refused.value.code, refused.value.field) == (code, field)


def test_nothing_that_agrees_is_said():
    result = identify(male_mm=250.0)
    assert result.candidates == ()
    assert "NONE OF THESE" in identify_text(result)
    assert identify_json(result)["candidates"] == []


# --- every thread finds itself


@given(st.sampled_from(known_threads()), st.floats(0.0, 1.0), st.booleans())
def test_a_reading_within_the_band_with_the_pitch_finds_the_thread(k, share, male):
    low, high = k.male if male else k.female
    said = {"male_mm" if male else "female_mm": low + share * (high - low)}
    result = identify(**said, pitch_mm=k.pitch_mm, taper=k.taper)
    left = [c.thread for c in result.candidates[: result.rivals]]
    assert k in left
    best = max(c.score for c in result.candidates)
    assert next(c.score for c in result.candidates if c.thread is k) == pytest.approx(
        best, abs=0.01
    )


def test_every_spelling_is_accepted_by_a_spec():
    for k in known_threads():
        if k.port:
            assert parse_port(k.port).spelling == k.port
        if k.screw:
            assert parse_thread(k.screw).name == k.screw
        assert k.port or k.screw or k.family == "Whitworth", "Whitworth has no word in a spec"


def test_the_document():
    """The contract: readings, candidates with thread, family, dash, tube, expected, score."""
    document = identify_json(identify(male_mm=11.0, tpi=20))
    first = document["candidates"][0]
    assert document["schema"] == 1
    assert (first["thread"], first["dash"], first["tube"]) == ("7/16-20 UNF ORB", "-4", "1/4 in")
    assert {"thread", "family", "dash", "tube", "expected", "score", "to_decide"} <= first.keys()
    scores = [c["score"] for c in document["candidates"]]
    assert scores == sorted(scores, reverse=True)
    threads = {c["thread"] for c in identify_json(identify(male_mm=22.0))["candidates"]}
    assert "M22x1.5" in threads
    npt = identify_json(identify(male_mm=21.2, tpi=14, taper=True))["candidates"][0]
    assert (npt["thread"], npt["family"], npt["dash"]) == ("1/2 NPT", "NPT", None)


# --- the short answer


def test_below_the_least_agreement_the_answer_is_none_of_these():
    result = identify(male_mm=14.2, pitch_mm=1.411, taper=True)
    assert result.none
    assert not result.decided
    text = identify_text(result)
    assert "NONE OF THESE" in text
    assert "as far as these readings go" not in text
    assert "Look at the taper again: without it 9/16-18" in text


def test_one_wrong_taper_makes_no_pipe_thread():
    """The pitch and the diameter of a 9/16-18 agree with no taper thread."""
    result = identify(male_mm=14.2, pitch_mm=1.411, taper=True)
    assert not any(c.thread.taper and c.score > 0.01 for c in result.candidates)


@pytest.mark.parametrize("k", known_threads(), ids=lambda k: k.thread)
def test_no_answer_is_wider_than_a_screen(k):
    for said in ({"male_mm": sum(k.male) / 2}, {"female_mm": sum(k.female) / 2}):
        text = identify_text(identify(**said))
        assert text.isascii()
        assert max(map(len, text.splitlines()[2:])) <= 100


def test_the_table_has_a_row_for_each_pitch_and_form():
    text = identify_text(identify(female_mm=0.98 * IN), "drafting identify --female 0.98")
    rows = [line.split() for line in text.splitlines() if line.startswith("  ")][1:]
    heads = {(r[0], "taper" in r) for r in rows if r[0][0].isdigit()}
    assert {("14", True), ("14", False), ("12", False), ("7", False)} <= heads
    assert "drafting identify --female 0.98 --tpi N" in text


def test_the_full_answer_has_what_the_short_one_leaves_out():
    result = identify(female_mm=0.98 * IN)
    assert "beware:" in identify_full(result)
    assert "beware:" not in identify_text(result)


@pytest.mark.parametrize(
    ("thread", "minor_in"),
    [
        ("1/4-20", 0.1860),
        ("1/2-12", 0.3933),
        ("3/4-10", 0.6220),
        ("1-8", 0.8400),
        ("1 1/2-6", 1.2866),
        ("2-4.5", 1.7155),
    ],
)
def test_whitworth_minor_diameters(thread, minor_in):
    """Minor diameters of BSW as printed in public tables of BS 84, within 0.0002 in."""
    k = next(k for k in known_threads() if k.thread == f"{thread} BSW")
    assert k.female[0] / IN == pytest.approx(minor_in, abs=2e-4)


def test_families_that_share_a_thread_are_told_by_what_seals():
    """9/16-18: O-ring boss, 37 degree flare and face seal (common practice)."""
    found = [c.thread.family for c in identify(male_mm=14.2, tpi=18).candidates]
    assert {"SAE ORB", "37 deg flare", "face seal"} <= set(found)
    cone = identify(male_mm=25.8, pitch_mm=1.5, seat_deg=24).candidates[0].thread
    assert cone.thread == "M26x1.5 24 deg cone 18L"


def test_a_seat_is_said_by_the_angle_that_was_read():
    """A 24 deg cone lies at 12 deg to the axis: whoever read 24 is not answered with 12."""
    text = identify_text(identify(male_mm=22.0, pitch_mm=1.5, seat_deg=24.0))
    assert "seat 24 deg" in text
    assert "12 deg" not in text
