"""Letters that no glyph of the sheet's typeface stands for are told, field by field."""

from __future__ import annotations

import pytest

from drafting.jobs.letters import missing_letters
from drafting.model.catalog import mounts_by_end
from drafting.spec.check import read_spec

TEXT = """
title = "{title}"
units = "mm"
notes = {notes}
[cylinder]
bore = 80
rod = 45
stroke = 500
retracted = 950
[body_mount]
mount = "none"
[rod_mount]
mount = "plain"
[drawing]
customer = "{customer}"
"""


def found(title="Sluice gate", notes="[]", customer="Lenn valley"):
    text = TEXT.format(title=title, notes=notes, customer=customer)
    spec = read_spec(text.encode(), mounts=mounts_by_end())
    return [(f.code, f.level, f.field, f.message) for f in missing_letters(spec)]


@pytest.mark.parametrize(
    "text", ["Schütz für Höhe ½ Ø 60 µm", "Затвор шлюза", "Θυρόφραγμα", "plain"]
)
def test_latin_greek_and_cyrillic_print(text):
    assert found(title=text, customer=text) == []


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("水门", "水 (U+6C34"),
        ("مرحبا", "U+0645 arabic letter meem"),
        ("שער", "U+05E9 hebrew letter shin"),
        ("👷 on site", "U+1F477 construction worker"),
        ("note \ue000", "U+E000"),
    ],
)
def test_others_are_named_with_their_field(text, named):
    for fields in ({"title": text}, {"customer": text}, {"notes": f'["first", "{text}"]'}):
        ((code, level, field, message),) = found(**fields)
        assert (code, level) == ("letters-missing", "warning")
        assert field.removeprefix("drawing.") == next(iter(fields))
        assert named in message
        assert "boxes" in message
        assert "installed" in message


def test_a_letter_without_its_mark_is_a_note():
    ((code, level, _, message),) = found(title="ễ")
    assert (code, level) == ("letters-bare", "note")
    assert "plain letter" in message


def test_many_letters_are_counted():
    ((*_, message),) = found(title="".join(chr(0x4E00 + k) for k in range(40)))
    assert "and 34 more" in message
