"""What is printed on a dimension; 1 in = 25.4 mm exactly."""

from dataclasses import replace

import pytest

from drafting.drawing.dimension.labels import measure, texts, wrapped
from drafting.drawing.sheet.letters import width
from drafting.settle.wishes import Callout, Diameter, Length, Radius
from drafting.shape.frame import ORIGIN, X, Y, Z
from tests.drawing.sample_job import job

LONG = Length("a", ORIGIN, (88.9, 3.0, 0.0), X)


@pytest.mark.parametrize(
    ("mode", "expected"),
    [
        ("in", ("3 1/2",)),
        ("mm", ("88.9",)),
        ("in [mm]", ("3 1/2", "[88.9]")),
        ("mm [in]", ("88.9", "[3 1/2]")),
    ],
)
def test_units(mode, expected):
    assert texts(LONG, job(dimensions=mode)) == expected


def test_a_length_is_measured_along_its_direction():
    assert measure(LONG) == pytest.approx(88.9)
    assert measure(Length("a", (9.0, 0, 0), (2.0, 5.0, 0), X)) == pytest.approx(7.0)


@pytest.mark.parametrize(
    ("wish", "expected"),
    [
        (Length("a", ORIGIN, (20.0, 0, 0), X, form="round"), ("Ø20",)),
        (Length("a", ORIGIN, (20.0, 0, 0), X, form="square"), ("□20",)),
        (Length("a", ORIGIN, (20.0, 0, 0), X, reference=True, form="round"), ("(Ø20)",)),
        (Length("a", ORIGIN, (20.0, 0, 0), X, note="TO SHOULDER"), ("20 TO SHOULDER",)),
        (Diameter("body_mount.pin", ORIGIN, Y, 25.1, note="PIN"), ("HOLE FOR Ø25.1 PIN",)),
        (Diameter("a", ORIGIN, Y, 25.1, note="BOSS"), ("Ø25.1 BOSS",)),
        (Length("cylinder.retracted", ORIGIN, (495.0, 0, 0), X), ("RETRACTED 495",)),
        (
            Length("cylinder.extended", ORIGIN, (745.0, 0, 0), X, reference=True),
            ("EXTENDED (745)",),
        ),
        (Diameter("a", ORIGIN, Y, 18.0, note="4 HOLES"), ("Ø18, 4 HOLES",)),
        (Radius("a", ORIGIN, Y, X, 22.5), ("R22.5",)),
        (Callout("a", ORIGIN, Z, ("G 1/2", "12:00")), ("G 1/2", "12:00")),
    ],
)
def test_signs_brackets_notes(wish, expected):
    assert texts(wish, job()) == expected


def test_words_of_a_round_size_that_are_wide_stand_below_it():
    wish = Diameter("a", ORIGIN, Y, 31.75, note="BUSHING OD")
    assert texts(wish, job(dimensions="in [mm]")) == ("Ø1 1/4", "[31.8]", "BUSHING OD")


def test_words_of_an_overall_length_without_room_stand_below_it():
    wish = Length("cylinder.extended", ORIGIN, (995.351, 0, 0), X, note="TO END OF THREAD")
    wide = width("EXTENDED 995.351 TO END OF THREAD", 3.5)
    one = ("EXTENDED 995.351 TO END OF THREAD",)
    assert texts(wish, job()) == texts(wish, job(), wide + 1.0) == one
    assert texts(wish, job(), wide - 1.0) == ("EXTENDED 995.351", "TO END OF THREAD")
    other = replace(wish, name="rod_mount.thread_length")
    assert texts(other, job(), 5.0) == ("995.351 TO END OF THREAD",)


def test_wrapped_lines_fit_and_lose_nothing():
    words = "the fit is for the builder to state and " + "W" * 60
    lines = wrapped(words, 2.5, 40.0)
    assert all(width(line, 2.5) <= 40.0 for line in lines)
    assert "".join(lines).replace(" ", "") == words.replace(" ", "")


@pytest.mark.parametrize(("mode", "said"), [("in [mm]", "1 1/4"), ("mm", "31.75")])
def test_sizes_in_words_stand_in_the_sheet_s_unit_alone(mode, said):
    words = Callout("a", ORIGIN, X, ("RODS {}", "GLAND Ø{} x {}"), sizes=(31.75, 25.4, 12.7))
    other = {"mm": ("25.4", "12.7")}.get(mode, ("1", "1/2"))
    assert texts(words, job(dimensions=mode)) == (f"RODS {said}", "GLAND Ø{} x {}".format(*other))
