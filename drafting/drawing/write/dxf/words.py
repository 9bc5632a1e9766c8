"""Texts as DXF wants them, and the printed number tied to the measured one.

DXF has its own spelling of signs: ``%%c`` is the diameter sign that every reader draws, ``<>`` in
the text of a dimension stands for the measured length.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from drafting.drawing.sheet.letters import clean
from drafting.units import mixed

# A number by itself: no part of a word (M24), a count (2x), a fraction (1/2) or 24 of 24 1/8.
_NUMBER = re.compile(
    r"(?<![^\WØ])(?<![.,/⁄-])"
    r"(?:\d+(?:[.]\d+)?|[.]\d+)"
    r"(?![\w/⁄¼-¾⅐-⅞]|[.,]\d|[- ]\d+[/⁄]| ?[¼-¾⅐-⅞])"
)
_DIAMETER = re.compile(r"Ø(?=\s*[\d.(<])")
# Stroke fonts of light programs lack printers' dashes and quotes and draw a blob instead.
_TYPEWRITTEN = str.maketrans(
    {
        "→": "->",
        "–": "-",
        "—": "-",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "′": "'",
        "″": '"',
        "…": "...",
    }
)
_REVISED = re.compile(r" Δ(?=\w{1,3}$)")
_HAIR = 1e-7
_EXACT = 1e-5
"""A measured length (in) is the fraction that the label prints when it lies this near."""
_FINEST = 6
"""Halvings of the finest fraction, 1/64."""
_MIXED = re.compile(
    r"(?<![^\WØ])(?<![.,/-])(?<!\d )(?:\d+ \d+/\d+|\d+/\d+|\d+)(?![\w/.,]|-\d| \d+/)"
)
"""A whole number, a fraction or both, by itself."""
DECIMAL, FRACTIONAL = 2, 5
"""DIMLUNIT."""
UNSTACKED = 2
"""DIMFRAC: 15 1/2 on one line."""
LEADING, TRAILING = 4, 8
"""DIMZIN: suppress the zero before the point, zeros at the end."""


class Form(NamedTuple):
    """How a measured length is printed: DIMDEC, DIMZIN and DIMLUNIT.

    In fractional units DIMDEC counts the halvings: 4 is sixteenths.
    """

    decimals: int
    zeros: int
    units: int = DECIMAL

    @property
    def variables(self) -> dict[str, int]:
        """Give the variables of a dimension style."""
        return {
            "dimdec": self.decimals,
            "dimzin": self.zeros,
            "dimlunit": self.units,
            "dimfrac": UNSTACKED,
        }


def plain(text: str) -> str:
    """Write a text for TEXT: control codes of the format are neutralised."""
    # A caret starts a control character, "^ " is the caret itself (DXF reference, group code 1).
    # Two percent signs start a code, and nothing that every reader knows stands for them.
    words = clean(text).translate(_TYPEWRITTEN).replace("%%", "% %").replace("^", "^ ")
    return _DIAMETER.sub("%%c", words)


def revision_in_words(text: str) -> str:
    """Write the revision mark behind a size as REV B: stroke fonts lack the delta of ``ΔB``."""
    return _REVISED.sub(" REV ", text)


def formatted(text: str) -> str:
    """Write a text for MTEXT and for the text of a dimension."""
    return re.sub(r"([\\{}])", r"\\\1", plain(text))


def shown(value: float, form: Form) -> str:
    """Print a length as a CAD program does for DIMDEC, DIMZIN and DIMLUNIT."""
    if form.units == FRACTIONAL:
        return mixed(Fraction(round(abs(value) * 2**form.decimals), 2**form.decimals))
    text = f"{value:.{form.decimals}f}"
    if form.zeros & TRAILING and "." in text:
        text = text.rstrip("0").rstrip(".")
    if form.zeros & LEADING and text.startswith("0."):
        text = text[1:]
    return text


def tied(text: str, value: float, form: Form) -> str | None:
    """Put ``<>`` where the text prints the value in that form; None when it nowhere does."""
    # A value within a hair of a half is left alone: programs differ in how they round it.
    printed = {shown(value - _HAIR, form), shown(value + _HAIR, form)}
    fractional = form.units == FRACTIONAL
    for number in (_MIXED if fractional else _NUMBER).finditer(text):
        exact = not fractional or abs(Fraction(value) - _fraction(number.group())) < _EXACT
        if printed == {number.group()} and exact:
            return formatted(f"{text[: number.start()]}<>{text[number.end() :]}")
    return None


def _fraction(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def own_form(text: str, value: float) -> Form | None:
    """Find the form in which the text prints the value; None when it does not."""
    for number in _NUMBER.findall(text):
        decimals = len(number.partition(".")[2])
        form = Form(decimals, LEADING if number.startswith(".") else 0)
        if number == shown(value, form):
            return form
    return None


def common_form(labels: Sequence[tuple[str, float]]) -> Form:
    """Find the form that prints most labels of a sheet, so that few need their own."""
    choices = [Form(d, z) for d in range(5) for z in (0, TRAILING, LEADING, LEADING + TRAILING)]
    choices.append(Form(_FINEST, 0, FRACTIONAL))

    def fits(form: Form) -> int:
        return sum(tied(text, value, form) is not None for text, value in labels)

    return max(choices, key=lambda f: (fits(f), -f.decimals, -f.zeros))


def below(lines: Iterable[str]) -> str:
    """Write the lines that hang below the dimension line."""
    return "\\P".join(formatted(line) for line in lines)
