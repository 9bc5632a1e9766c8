"""Screw threads of rods and studs.

Outside checks: formulas of ASME B1.1 and ISO 724; printed minor diameters are from memory of the
usual tables. 1-14 is a special (UNS) in ASME B1.1 and often written UNF: common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.standards.table import table
from drafting.standards.threads import (
    ThreadWordError,
    parse_thread,
    usual_length,
    usual_threads,
)


@pytest.mark.parametrize(
    ("text", "name", "callout"),
    [
        ("1 1/4-12 UNF", "1 1/4-12 UNF", "1 1/4-12 UNF-2A"),
        ("1-1/4-12", "1 1/4-12 UNF", "1 1/4-12 UNF-2A"),
        ("1¼-12 unf-2a", "1 1/4-12 UNF", "1 1/4-12 UNF-2A"),
        ("1.25-12 UNF", "1 1/4-12 UNF", "1 1/4-12 UNF-2A"),
        ("1-14 UNS", "1-14 UNS", "1-14 UNS-2A"),
        ("1-14 UNF", "1-14 UNS", "1-14 UNS-2A"),
        ("1 1/16-12", "1 1/16-12 UN", "1 1/16-12 UN-2A"),
        ("2-4 1/2 UNC", "2-4.5 UNC", "2-4.5 UNC-2A"),
        ("5 3/4-12", "5 3/4-12 UN", "5 3/4-12 UN-2A"),
        ("3/4-16 UNF LH", "3/4-16 UNF", "3/4-16 UNF-2A-LH"),
        ("3/4-16 UNF-3A", "3/4-16 UNF", "3/4-16 UNF-3A"),
        ("M30x2", "M30x2", "M30x2-6g"),
        ("m30 × 2,0 - 6g", "M30x2", "M30x2-6g"),
        ("M125x4", "M125x4", "M125x4-6g"),
        ("M30", "M30x3.5", "M30x3.5-6g"),
    ],
)
def test_usual_spellings(text, name, callout):
    thread = parse_thread(text)
    assert (thread.name, thread.callout()) == (name, callout)


def test_a_class_for_the_other_side_is_not_used():
    assert parse_thread("3/4-16 UNF-2A").callout(internal=True) == "3/4-16 UNF-2B"
    assert parse_thread("M30x2-6H").callout(internal=True) == "M30x2-6H"
    assert parse_thread("M30x2-6H").callout() == "M30x2-6g"


@pytest.mark.parametrize(
    ("text", "code", "told"),
    [
        ("1 1/4", "thread-incomplete", "1 1/4-12 UNF"),
        ("M31", "thread-incomplete", "M31"),
        ("1 1/4-12 UNC", "thread-two-meanings", "1 1/4-7 UNC"),
        ("1 1/4-7 UNF", "thread-two-meanings", "1 1/4-12 UNF"),
        ("1 1/4-11 UNF", "thread-two-meanings", "1 1/4-12 UNF"),
        ("M30x30", "thread-size", "no thread"),
        ("M3000x2", "thread-size", "no thread"),
        ("1-0", "thread-unknown", "threads in an inch"),
        ("1/2 NPT", "thread-unknown", "M30x2"),
        ("1/0-12", "thread-unknown", "M30x2"),
        ("", "thread-unknown", "M30x2"),
    ],
)
def test_what_is_no_thread_is_refused(text, code, told):
    with pytest.raises(ThreadWordError) as refused:
        parse_thread(text)
    assert refused.value.code == code
    assert told in refused.value.message


@pytest.mark.parametrize(("typed", "example"), [("M4", "M30x2"), ("7/64", "1 1/4-12 UNF")])
def test_the_example_is_of_the_family_that_was_typed(typed, example):
    """Whoever typed M4 was told to write 1 1/4-12 UNF."""
    with pytest.raises(ThreadWordError) as refused:
        parse_thread(typed)
    assert refused.value.message.endswith(f'write for example "{example}"')


def test_what_was_understood_beyond_the_word_is_said():
    assert "ISO 965-1" in parse_thread("M30").note
    assert "UNS" in parse_thread("1-14 UNF").note
    assert "formulas" in parse_thread("5 3/4-12").note
    assert parse_thread("1 1/4-12 UNF").note == ""


def test_sizes_by_the_formulas():
    """ASME B1.1: 1 1/4-12 has D1 1.1598 in; ISO 724: M30x2 has D1 27.835, d3 27.546 (printed)."""
    inch, metric = parse_thread("1 1/4-12 UNF"), parse_thread("M30x2")
    assert inch.major_mm == 31.75
    assert inch.bore_mm / 25.4 == pytest.approx(1.1598, abs=0.0001)
    assert metric.bore_mm == pytest.approx(27.835, abs=0.001)
    assert metric.minor_mm == pytest.approx(27.546, abs=0.001)


def test_every_row_reads_back_to_itself():
    for row in table("thread_un_metric").rows:
        thread = parse_thread(row.word("thread"))
        assert thread.where == row.where
        assert thread.major_mm == pytest.approx(row.required("major_mm"), abs=0.001)
        assert thread.minor_mm < thread.bore_mm < thread.major_mm
        assert parse_thread(thread.name) == thread


def test_every_rod_end_thread_is_narrower_than_its_rod():
    """A thread with a shoulder cannot be wider than the rod it is cut on."""
    for row in table("rod_end_threads").where(table="rod_to_thread"):
        assert parse_thread(row.word("thread")).major_mm < row.size("rod") + 0.02, row.where


def test_usual_length_is_the_rods_own_row():
    """ISO 4395: M30x2 has 40 mm short; tie-rod practice: 1 3/4 rod has 2 in of 1 1/4-12."""
    assert usual_length(parse_thread("M30x2")).length_mm == 40
    thread = parse_thread("1 1/4-12")
    assert usual_length(thread, 44.45).length_mm == pytest.approx(50.8)
    assert usual_length(thread).length_mm == pytest.approx(41.275)
    assert usual_length(parse_thread("1 1/4-7 UNC")) is None


def test_usual_threads_of_a_rod():
    names = [t.name for t, _ in usual_threads(44.45)]
    assert names == ["1 1/4-12 UNF", "1 1/2-12 UNF"]
    assert usual_threads(43.0) == ()


@given(st.text(alphabet="0123456789/-. xMUNFCSLHABg", max_size=16))
def test_any_text_is_taken_or_refused_in_words(text):
    try:
        said = parse_thread(text).callout()
    except ThreadWordError as refused:
        said = refused.message
    assert said
