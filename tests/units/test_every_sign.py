"""Every code point of Unicode in the places of a size: read as the grammar says, or refused.

The grammar is written here a second time, as one strict expression per form, from the list of
forms in the spec format; it shares nothing with the reader. A sign that is in no form is refused.
"""

from __future__ import annotations

import re
import sys
import unicodedata
from fractions import Fraction

import pytest

from drafting.factors import Misread
from drafting.standards.words import tidy
from drafting.units import read_length, read_quantity

GLYPHS = dict(
    pair.split("=")
    for pair in (
        *("¼=1/4", "½=1/2", "¾=3/4", "⅓=1/3", "⅔=2/3", "⅛=1/8", "⅜=3/8", "⅝=5/8", "⅞=7/8"),
        *("⅕=1/5", "⅖=2/5", "⅗=3/5", "⅘=4/5", "⅙=1/6", "⅚=5/6", "⅐=1/7", "⅑=1/9", "⅒=1/10"),
    )
)
SPACE = "[ \\t\\u00a0\\u2007\\u2009\\u202f]"
DASH, SLASH = "[-‐‑–—−]", "[/⁄∕]"
INCHES = r"(?P<inch>in\.?|inch\.?|inches\.?|[\"″”“])"
FEET = r"(?P<feet>ft\.?|foot\.?|feet\.?|['′’‘])"
OTHERS = {"m": 1000, "mm": 1, "cm": 10, "dm": 100, "um": Fraction(1, 1000), "µm": Fraction(1, 1000)}
FORM = re.compile(
    rf"{SPACE}*(?:(?P<whole>[0-9]+)(?:{DASH}|{SPACE}{DASH}{SPACE}|{SPACE}))??"
    rf"(?:(?P<top>[0-9]+) ?{SLASH} ?(?P<bottom>[0-9]+)"
    rf"|(?P<before>[0-9]*){SPACE}?(?P<glyph>[{''.join(GLYPHS)}])"
    rf"|(?P<plain>[0-9]+\.?[0-9]*|\.[0-9]+))"
    rf"{SPACE}*(?:{INCHES}|{FEET}|(?P<other>{'|'.join(OTHERS)})\.?)?{SPACE}*",
    re.ASCII | re.IGNORECASE,
)
FEET_AND_INCHES = re.compile(rf"2 ft {DASH}?(?P<inches>.*) in", re.ASCII | re.DOTALL)
TEMPLATES = ("3{}", "{}", "{}3", "3{}5", "3 1{}2", "3 {} in", "{}1/4 mm", "2 ft {}3 in", "3 m{}")
FEW_PLACES = {"Cn": 1, "Co": 1, "Cs": 1, "Lo": 2}
"""Not assigned, private, half of a pair; letters without case: the test stays short."""


def strict(text: str) -> Fraction | None:
    """Give the size in mm, a bare number in inches, or None for what is no size."""
    both = FEET_AND_INCHES.fullmatch(text)
    if both:
        inches = strict(both["inches"] + " in")
        return None if inches is None or inches >= 12 * 25.4 else 24 * Fraction("25.4") + inches
    found = FORM.fullmatch(text)
    if not found:
        return None
    whole = int(found["whole"] or found["before"] or 0)
    if found["plain"]:
        if found["whole"]:
            return None
        size = Fraction(found["plain"].rstrip("."))
    else:
        size = Fraction(GLYPHS[found["glyph"]]) if found["glyph"] else _share(found)
        if size is None or (whole and size >= 1):
            return None
        size += whole
    if found["other"]:
        return size * OTHERS[found["other"].lower().replace("\u03bc", "µ")]
    return size * Fraction("25.4") * (12 if found["feet"] else 1)


def _share(found: re.Match[str]) -> Fraction | None:
    return Fraction(int(found["top"]), int(found["bottom"])) if int(found["bottom"]) else None


def read(text: str) -> Fraction | None:
    try:
        return read_length(text, "in")
    except Misread:
        return None


def test_every_code_point_in_every_place_of_a_size() -> None:
    wrong = []
    for code in range(sys.maxunicode + 1):
        sign = chr(code)
        places = TEMPLATES[: FEW_PLACES.get(unicodedata.category(sign), 99)]
        wrong += [t for t in (p.replace("{}", sign) for p in places) if read(t) != strict(t)]
    assert wrong == []


@pytest.mark.parametrize(
    "text", ["1²", "10³", "1²⁄2", "1^2", "½5 in", "3½5", "٣3 ft 4 in", "300 px", "3 rod", "3 hand",
             "3 din", "12 pt", "5 \u212am", "1\u200b2", "3\x0b1/2", "2\u20282"]
)  # fmt: skip
def test_what_was_read_as_another_size_is_refused(text: str) -> None:
    with pytest.raises(Misread) as caught:
        read_length(text, "in")
    assert "write" in str(caught.value)


def test_the_strange_sign_is_named() -> None:
    with pytest.raises(Misread, match=r"U\+200B zero width space"):
        read_length("1\u200b2 mm", "in")


@pytest.mark.parametrize("text", ["64 N/mm²", "64 N/mm2", "64 N/mm^2"])
def test_the_power_of_a_unit_is_read(text: str) -> None:
    assert read_quantity(text, "pressure") == 64


def test_a_mil_has_two_readings() -> None:
    with pytest.raises(Misread, match="thousandth of an inch, or a millimetre"):
        read_length("3 mil", "in")


def test_a_glyph_in_a_thread_ends_where_it_ends() -> None:
    assert tidy("1½-12") == "1 1/2-12"
    assert tidy("½5") == "1/2 5"
