"""The one typeface of the sheets and how wide it runs, the same on every machine.

Drafting Sans is a renamed subset of Liberation Sans 2 (``data/OFL.txt``), made by
``tests/drawing/make_typeface.py``. It has the advance widths of Arial, so that a DXF whose text
style asks for Arial sets the same texts in the same room. Sizes of lettering are heights of a
capital in paper millimetres, as ISO 3098 counts them.

A character that the typeface lacks is never dropped without a word: it stays as typed in SVG and
DXF, where the reader's machine may have it; in a PDF its letter without the accent stands in, or
else a box with its code. ``unknown`` names such characters, so that somebody can be told.
"""

from __future__ import annotations

import json
import unicodedata
from functools import cache, lru_cache
from pathlib import Path
from typing import NamedTuple

FAMILY = "Drafting Sans"
_DATA = Path(__file__).parent / "data"
_SAME_SIGN = str.maketrans(
    {
        "⌀": "Ø",  # U+2300, missing in most typefaces; trade drawings print the letter
        "∅": "Ø",
        "\u2009": "\u00a0",  # thin and narrow spaces
        "\u202f": "\u00a0",
        "\u2010": "-",
        "\u2011": "-",
        "\u00ad": None,  # soft hyphen and zero widths: nothing to print
        "\u200b": None,
        "\ufeff": None,
    }
)


class _Face(NamedTuple):
    units_per_em: int
    cap_height: int
    descent: int
    western: frozenset[str]
    regular: dict[str, int]
    bold: dict[str, int]


@cache
def _face() -> _Face:
    table = json.loads((_DATA / "letters.json").read_text(encoding="utf-8"))
    table["western"] = frozenset(table["western"])
    return _Face(**table)


@lru_cache(maxsize=4096)
def clean(text: str) -> str:
    """Give the text as it is printed: composed, one line, one spelling of a sign."""
    composed = unicodedata.normalize("NFC", text).translate(_SAME_SIGN)
    if composed.isprintable():
        return composed
    return "".join(_printable(c) for c in composed)


def _printable(char: str) -> str:
    kind = unicodedata.category(char)
    if kind == "Cs" or ord(char) & 0xFFFE == 0xFFFE:  # half a pair or no character: XML refuses
        return "\N{REPLACEMENT CHARACTER}"
    return " " if kind in ("Cc", "Zl", "Zp") else char


@lru_cache(maxsize=4096)
def stand_in(char: str) -> str | None:
    """Give what a PDF prints for one character: itself, its bare letter, or None for a box."""
    widths = _face().regular
    if char in widths:
        return char
    apart = unicodedata.normalize("NFKD", char).translate(_SAME_SIGN)
    letters = "".join(c for c in apart if not unicodedata.combining(c))
    return letters if all(c in widths for c in letters) else None


def unknown(text: str) -> str:
    """Name the characters that the typeface lacks, each once, in order of their codes."""
    return "".join(sorted(set(clean(text)) - _face().regular.keys()))


@lru_cache(maxsize=4096)
def width(text: str, cap_height: float, bold: bool = False) -> float:
    """Measure a line of text in the unit of ``cap_height``."""
    face = _face()
    widths = face.bold if bold else face.regular
    total = 0
    for char in clean(text):
        advance = widths.get(char)
        if advance is None:
            letters = stand_in(char)
            advance = face.units_per_em if letters is None else sum(widths[c] for c in letters)
        total += advance
    return total * cap_height / face.cap_height


def font_size(cap_height: float) -> float:
    """Give the size of the em for a height of capitals."""
    return cap_height * _face().units_per_em / _face().cap_height


def descent(cap_height: float) -> float:
    """Give how far the lowest letters reach below the base line."""
    return cap_height * _face().descent / _face().cap_height


def is_western(text: str) -> bool:
    """Say whether the western half of the typeface is enough for a text."""
    return _face().western.issuperset(clean(text))


def ttf_path(bold: bool = False) -> Path:
    """Give the whole face as a TTF file."""
    return _DATA / ("drafting-sans-bold.ttf" if bold else "drafting-sans.ttf")


def woff_path(bold: bool, western: bool) -> Path:
    """Give one half of a face as a WOFF file: the western letters and signs, or the others."""
    half = "western" if western else "other"
    return _DATA / f"drafting-sans{'-bold' if bold else ''}-{half}.woff"
