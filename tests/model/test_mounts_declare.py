"""What every mount in the folder declares of itself, so that no other place names it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.model.catalog import mount_types, mount_words
from drafting.settle.carried import Carried
from drafting.settle.to_read import OnWorksheet
from tests.model.mount_specs import EVERY, at_end, example

every = pytest.mark.parametrize(("end", "word"), EVERY, ids=[f"{e} {w}" for e, w in EVERY])


@every
def test_a_mount_says_how_it_is_read(end, word):
    kind = mount_types()[end, word]
    sheet = kind.worksheet
    assert isinstance(sheet, OnWorksheet)
    assert sheet.datum
    fields = (*kind.fields, *kind.rod_fields)
    letters = [x.letter for x in sheet.letters]
    assert len(set(letters)) == len(letters)
    assert not set(letters) & set("IO0123456789")
    assert set(sheet.edges) <= set(letters)
    for x in sheet.letters:
        assert x.field.partition(".")[0] in fields
    for name in sheet.sample:
        assert name.partition(".")[0] in fields


@every
def test_what_a_spec_cannot_do_without_is_read(end, word):
    """Every size of the example is a letter, or a word that is seen and asked for."""
    kind = mount_types()[end, word]
    asked = {"seat", "clock", "position"}
    asked |= {"bushing"}  # inside the eye: read on the bench, when it is out
    missing = {f for f in kind.example if not kind.worksheet.reads(f)} - asked
    assert missing == set()


@every
def test_a_loose_pin_has_a_way_through_and_a_pivot_has_a_pin(end, word):
    kind = mount_types()[end, word]
    assert (kind.turns == "ball") == ("ball_width" in kind.fields)
    assert bool(kind.turns) == ("pin" in kind.fields)
    if kind.turns:
        assert "P" in kind.worksheet.edges


def test_words_of_an_end_are_the_catalogue_s():
    assert [(e, w) for e in ("body", "rod") for w in mount_words(e)] == list(EVERY)


@every
def test_a_mount_names_its_datum_and_only_its_own_rows(end, word):
    kind = mount_types()[end, word]
    assert kind.datum
    assert set(kind.sheet_words) <= set(kind.fields)


def lacks(kind, carried) -> list[str]:
    """Name what a mount does not declare: its judging, its letters, their sample, its datum."""
    sheet = kind.worksheet
    given = {
        "a section or a reason": bool(carried.sections) or any(carried.not_judged),
        "letters": bool(sheet.letters) or not kind.example,
        "a sample": bool(sheet.sample) or not sheet.letters,
        "a datum": bool(getattr(kind, "datum", "")) and bool(sheet.datum),
        "a pivot with a pin": bool(kind.turns) == ("pin" in kind.fields),
    }
    return [what for what, is_so in given.items() if not is_so]


@every
def test_a_mount_declares_its_judging_its_letters_their_sample_and_its_datum(end, word):
    c = at_end(end, word, example(end, word))
    assert lacks(mount_types()[end, word], c.carried[end]) == []


@pytest.mark.parametrize(
    ("left_out", "what"),
    [
        ({"worksheet": OnWorksheet("", (), {})}, ["letters", "a datum"]),
        ({"datum": ""}, ["a datum"]),
        ({"turns": ""}, ["a pivot with a pin"]),
    ],
)
def test_what_is_left_out_is_named(left_out, what):
    kind = mount_types()["rod", "clevis"]
    less = type("Less", (kind,), left_out)
    assert lacks(less, Carried((), not_judged=("its pin",))) == what


def test_a_mount_without_a_sample_or_a_check_is_named():
    kind = mount_types()["rod", "clevis"]
    bare = replace(kind.worksheet, sample={})
    less = type("Less", (kind,), {"worksheet": bare})
    assert lacks(less, Carried(())) == ["a section or a reason", "a sample"]
