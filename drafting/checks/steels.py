"""Steels: what a spec says of one, else the range from the weakest to the best that is usual.

A grade is found by the words that shops order it by, or a yield is typed outright ("75 ksi",
"520 MPa"). Words without a known grade leave the range as it is.
"""

from __future__ import annotations

import re

from drafting.checks.materials import stated
from drafting.factors import Misread
from drafting.records import dataclass
from drafting.standards.table import Row, table
from drafting.units import read_quantity

NORMALISED = 190.0
"""Beside a weld, in MPa, where only a yield was typed: normalised 1015, the weakest usual tube."""


@dataclass(frozen=True, slots=True)
class Steel:
    """A metal by its field: yield, tensile and strength beside a weld in MPa, each (low, high).

    ``typed`` tells that the spec says it; then both ends are one.
    """

    field: str
    strength: tuple[float, float]
    tensile: tuple[float, float]
    welded: tuple[float, float]
    typed: bool
    name: str
    source: str


def steel(field: str, part: str, words: str | None) -> Steel:
    """Give the steel of a part; ``words`` are what the spec says of it, None for nothing."""
    if words:
        known = _named(field, part, words) or _strength(field, words) or _graded(field, words)
        if known is not None:
            return known
    low, high = (_usual(part, end) for end in ("weakest", "best"))
    return Steel(
        field,
        _span(low, high, "yield_mpa"),
        _span(low, high, "tensile_mpa"),
        _span(low, high, "welded_mpa"),
        False,
        f"{low.word('name')} to {high.word('name')}",
        f"{low.where} to {high.where}, {low.confidence}",
    )


def _usual(part: str, end: str) -> Row:
    (row,) = table("steels").where(part=part, usual=end)
    return row


_DENIED = {"not", "no", "non", "never", "without"}
"""Words behind which a grade is not what it is."""


def _span(low: Row, high: Row, column: str) -> tuple[float, float]:
    a, b = (row.number(column) or row.required("yield_mpa") for row in (low, high))
    return a, b


def _one(field: str, strength: float, tensile: float, welded: float, said: str, by: str) -> Steel:
    return Steel(field, (strength, strength), (tensile, tensile), (welded, welded), True, said, by)


def _strength(field: str, words: str) -> Steel | None:
    """Give a steel of which the yield was typed; its tensile strength counts no higher."""
    try:
        mpa = float(read_quantity(words, "pressure"))
    except Misread:
        return None
    return _one(field, mpa, mpa, min(mpa, NORMALISED), f"{words} yield, as typed", "the spec")


def _named(field: str, part: str, words: str) -> Steel | None:
    said = _words(words)
    if said & _DENIED:
        return None
    rows = [r for r in table("steels").where(part=part) if _words(r.word("name")) <= said]
    if not rows:
        return None
    # Of "this or that" the weaker counts, else the row that says most.
    either = "or" in said or "/" in words
    row = min(
        rows,
        key=lambda r: (0 if either else -len(_words(r.word("name"))), r.required("yield_mpa")),
    )
    strength = row.required("yield_mpa")
    welded = row.number("welded_mpa") or strength
    source = f"{row.where}, {row.source}, {row.confidence}"
    return _one(field, strength, row.required("tensile_mpa"), welded, row.word("name"), source)


def _graded(field: str, words: str) -> Steel | None:
    found = stated(words)
    if found is None or _words(words) & _DENIED:
        return None
    strength = found.strength
    tensile = found.tensile or strength
    return _one(field, strength, tensile, min(strength, NORMALISED), found.name, found.source)


def _words(text: str) -> set[str]:
    plain = re.sub(r"\b(s[0-9]{3})[jkmn][a-z0-9]*", r"\1", text.casefold())
    return set(re.findall(r"[a-z0-9.]+", plain))
