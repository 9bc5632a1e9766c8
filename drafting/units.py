"""Quantities as people type them, read exactly.

A length may be ``3.5``, ``3 1/2``, ``3-1/2 in``, ``3 1/2"``, ``2 ft 3 1/4 in``, ``2'-3 1/4"`` or
``88.9 mm``; everything else is a number and a unit. Numbers are fractions until the last step, so
that 1/64 in stays 1/64 in. Inside the program: mm, MPa, N, kg, l/s, degrees, degrees Celsius.

Printed: millimetres with a point and no trailing zeros; inches as fractions where exact, else as
decimals without a leading zero (ASME Y14.5, from memory). Neither pads with zeros, because the
places of a number speak of a tolerance: pass ``places`` where one was typed.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import floor
from typing import Annotated

from drafting.errors import named
from drafting.factors import INCH, KINDS, Kind, Misread, Quantity
from drafting.more_units import factor_from_pint

Mm = Annotated[float, "mm"]
Mm2 = Annotated[float, "mm**2"]
Mm3 = Annotated[float, "mm**3"]
Mm4 = Annotated[float, "mm**4"]
MmPerS = Annotated[float, "mm/s"]
N = Annotated[float, "N"]
NMm = Annotated[float, "N*mm"]
MPa = Annotated[float, "MPa"]
Kg = Annotated[float, "kg"]
Second = Annotated[float, "s"]
Deg = Annotated[float, "degree"]
One = Annotated[float, "dimensionless"]

_SAME = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'", "⁄": "/", "∕": "/"}
    | dict.fromkeys("‐‑–—−", "-")
    | dict.fromkeys("\t\u00a0\u2007\u2009\u202f", " ")
    | {"°": "deg", "·": "*", "μ": "µ"}
)
_GLYPH = re.compile("[¼-¾⅐-⅞]")
_STRANGE = re.compile(r"[^ -~²³µ]")
"""What is in no size once marks, dashes and spaces have one spelling."""
_POWER = re.compile(r"(?<=[A-Za-z])(?:\^?([23])|([²³]))(?![0-9²³^])")
"""The power of a unit; beside a number it would be read as a part of it."""
_MIXED = re.compile(r"(?:([0-9]+)(?:-| - |- | ))?([0-9]+) ?/ ?([0-9]+)(?![0-9.])")
_DECIMAL = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_FEET = re.compile(r"(.*?[0-9.]) ?(?:feet|foot|ft\.?|')(?: ?- ?| )?(?=[0-9.])(.+)", re.IGNORECASE)
_EXPONENT = re.compile(r"[0-9.]e[+-]?[0-9]", re.IGNORECASE)
_LONGEST = 80


def read_length(text: str, units: str | None = None, signed: bool = False) -> Fraction:
    """Give a typed length in mm, exactly; ``units`` ("in", "mm") is what a bare number means."""
    return read_quantity(text, "length", units, signed)


def read_quantity(
    text: str, kind: Quantity, units: str | None = None, signed: bool = False
) -> Fraction:
    """Give a typed quantity in the unit of its kind, exactly, or raise ``Misread``.

    A bare number is refused unless ``units`` says what it means. Only ``signed`` may be negative.
    """
    k = KINDS[kind]
    found = _clean(text, k)
    sign = 1
    if found[:1] in ("+", "-"):
        if not signed or found[0] == "+":
            raise Misread("signed", f'"{text.strip()}" has a sign; write the size without it')
        sign, found = -1, found[1:].lstrip()
    if "," in found:
        plain = found.replace(",", "")
        raise Misread(
            "decimal-comma",
            f'"{text.strip()}" has a comma; write a decimal point ("{found.replace(",", ".", 1)}")'
            + (f', or "{plain}" if thousands are meant' if re.search(",[0-9]{3}", found) else ""),
        )
    if _EXPONENT.search(found):
        raise Misread("exponent", f'"{text.strip()}" has an exponent; write the number out')
    feet = _FEET.fullmatch(found) if kind == "length" else None
    value = sign * _feet_and_inches(text, feet) if feet else _plain(text, found, k, units, sign)
    if value and not k.least <= (value if k.shifts else abs(value)) <= k.most:
        raise Misread(
            "out-of-range",
            f'"{text.strip()}" is beyond reason; {k.phrase} here is from {k.least:g} to '
            f"{k.most:g} {k.pint}: check the number and the unit",
        )
    return value


def _clean(text: str, k: Kind) -> str:
    """Bring all spellings of marks, dashes, spaces and glyph fractions to one."""
    if len(text) > _LONGEST:
        raise Misread("not-a-number", f"{len(text)} characters are too many for a size")
    found = without_glyphs(text).translate(_SAME)
    strange = _STRANGE.search(found)
    if strange:
        raise Misread(
            k.code,
            f'"{text.strip()}" has {named(strange[0])} in it, which belongs to no size; write '
            f"for example {k.example}",
        )
    found = " ".join(found.split()).replace("''", '"')
    if not found:
        raise Misread("empty", "nothing is written between the quotes; leave the line out instead")
    return found


def without_glyphs(text: str) -> str:
    """Give the text with ``½`` written out, apart from what stands beside it."""
    if text.isascii():
        return text
    from unicodedata import normalize

    return _GLYPH.sub(lambda m: f" {normalize('NFKC', m[0])} ", text)


def _number(text: str, found: str, k: Kind) -> tuple[Fraction, str]:
    """Split off the number at the front; the rest is the unit."""
    mixed = _MIXED.match(found)
    if mixed:
        whole, top, bottom = (int(g or 0) for g in mixed.groups())
        if bottom == 0:
            raise Misread("zero-below", f'"{text.strip()}" divides by zero; write 1/2, 3/4 or so')
        if mixed[1] and top >= bottom:
            raise Misread(
                "fraction-too-large",
                f'"{text.strip()}" has {top}/{bottom} after a whole number; a fraction there is '
                f'below 1, for example "{whole} 1/2"',
            )
        return whole + Fraction(top, bottom), found[mixed.end() :].strip()
    plain = _DECIMAL.match(found)
    if not plain:
        raise Misread(k.code, f'"{text.strip()}" is not {k.phrase}; write for example {k.example}')
    return Fraction(plain[0].rstrip(".")), found[plain.end() :].strip()


def _plain(text: str, found: str, k: Kind, units: str | None, sign: int) -> Fraction:
    size, word = _number(text, found, k)
    value = sign * size
    if not word:
        if units is None:
            raise Misread(
                "needs-unit",
                f'"{text.strip()}" has no unit; {k.phrase} is written with one, for example '
                f"{k.example}",
            )
        return value * k.factors[units]
    factor, known = _factor(text, word, k)
    return value * factor + k.shifts.get(known, 0)


def _feet_and_inches(text: str, parts: re.Match[str]) -> Fraction:
    k = KINDS["length"]
    feet, (inches, word) = parts[1].strip(), _number(text, parts[2], k)
    if not feet.isdigit():
        raise Misread(
            k.code, f'"{text.strip()}": the feet before inches are whole, as in "2 ft 3 1/4 in"'
        )
    if not word or k.factors.get(word.rstrip(".").lower()) != INCH:
        raise Misread(
            "two-units" if word else "needs-unit",
            f'"{text.strip()}": after feet only inches follow, with their unit, as in '
            '"2 ft 3 1/4 in"',
        )
    if inches >= 12:
        raise Misread(
            "out-of-range", f'"{text.strip()}" has 12 inches or more after the feet; count again'
        )
    return (int(feet) * 12 + inches) * INCH


def _factor(text: str, word: str, k: Kind) -> tuple[Fraction, str]:
    """Give the factor to the inner unit, and the unit's word as the table has it."""
    spelled = re.sub(r" ?/ ?", "/", word).removesuffix(".").replace("deg ", "deg")
    spelled = _POWER.sub(lambda m: m[1] or ("2" if m[2] == "²" else "3"), spelled)
    if spelled in k.unclear:
        raise Misread("ambiguous-unit", f'"{text.strip()}": {spelled} is {k.unclear[spelled]}')
    for known in (spelled, *(w for w in k.factors if w.lower() == spelled.lower())):
        if known in k.factors:
            return k.factors[known], known
    if spelled.lower() in k.unclear:
        raise Misread("ambiguous-unit", f'"{text.strip()}": {word} is {k.unclear[spelled.lower()]}')
    for other in KINDS.values():
        if other is not k and (spelled in other.factors or spelled in other.unclear):
            raise Misread(
                k.code,
                f'"{text.strip()}" is {other.phrase}, not {k.phrase}; write for example '
                f"{k.example}",
            )
    first, *more = spelled.split() or [word]
    if first[0] in "0123456789./-" or (more and first.lower() in k.factors):
        raise Misread(
            "two-units",
            f'"{text.strip()}" has more than one number or unit; write one, {k.example}',
        )
    return factor_from_pint(text, spelled, k), spelled


# --- printing ----------------------------------------------------------------------------------

EXACT_IN = 1e-5
"""A size is a fraction of an inch when it lies this near (in); 25 mm is no 63/64 in."""


def format_mm(value: Mm, places: int | None = None) -> str:
    """Give a length as millimetres: two decimals at most, three where that is exact; 0.5, 88.9."""
    return _decimals(value, 2, places)


def format_inch(value: Mm, fractions: int = 16, places: int | None = None) -> str:
    """Give a length in mm as inches: ``3 1/2`` where exact to the denominator, else ``.984``.

    ``fractions`` is the largest denominator, 0 for decimals always: three at most, four where that
    is exact.
    """
    inches = value / 25.4
    if fractions and places is None:
        parts = nearest_fraction(abs(value), fractions)
        if parts is not None:
            sign = "-" if inches < 0 and parts else ""
            return sign + mixed(parts)
    text = _decimals(inches, 3, places)
    return text.replace("0.", ".", 1) if text.lstrip("-").startswith("0.") else text


def nearest_fraction(value: Mm, fractions: int) -> Fraction | None:
    """Give a length in mm as a fraction of an inch, None where it is none to the denominator."""
    inches = value / 25.4
    parts = Fraction(round(inches * fractions), fractions)
    return parts if abs(inches - parts) < EXACT_IN else None


def mixed(value: Fraction) -> str:
    """Give a fraction >= 0 as a whole number and a fraction below 1: ``3 1/2``."""
    whole, rest = divmod(value, 1)
    return " ".join(str(x) for x in (whole, rest) if x) or "0"


def dual(value: Mm, dimensions: str, fractions: int = 16) -> tuple[str, str | None]:
    """Give the main number and the one in brackets for "in", "mm", "in [mm]" or "mm [in]"."""
    texts = {"in": format_inch(value, fractions), "mm": format_mm(value)}
    main, _, other = dimensions.partition(" ")
    return texts[main], texts[other.strip("[]")] if other else None


def both(value: Mm, units: str) -> str:
    """Give a length with its unit, the other one in parentheses: ``3 1/2 in (88.9 mm)``."""
    inch, mm = f"{format_inch(value, 64)} in", f"{format_mm(value)} mm"
    return f"{inch} ({mm})" if units == "in" else f"{mm} ({inch})"


def _decimals(value: float, most: int, places: int | None) -> str:
    """Round to the nearest, halves away from zero; no trailing zeros unless ``places`` is typed."""
    if places is None:
        exact = abs(value * 10 ** (most + 1) - round(value * 10 ** (most + 1))) < 1e-6
        places, pad = most + 1 if exact else most, False
    else:
        pad = True
    steps = floor(abs(value) * 10**places + 0.5 + 1e-7)
    text = f"{steps / 10**places:.{places}f}"
    if not pad and "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"-{text}" if value < 0 and steps else text


# --- spelling for a spec file ------------------------------------------------------------------


def spell(value: float, kind: Quantity, units: str) -> str:
    """Give the shortest text that reads back as exactly this value, in the usual unit.

    A length without a unit word is in ``units``.
    """
    if kind == "length":
        return _spell_length(value, units)
    k = KINDS[kind]
    for example in k.examples if units == "in" else reversed(k.examples):
        usual = example.partition(" ")[2]
        shown = (Fraction(value) - k.shifts.get(usual, 0)) / k.factors[usual]
        for places in range(10):
            number = _plain_decimal(float(shown), places)
            if float(Fraction(number) * k.factors[usual] + k.shifts.get(usual, 0)) == value:
                return f"{number} {usual}"
    word = next(w for w in k.factors if k.factors[w] == 1 and w not in k.shifts)
    return f"{_plain_decimal(value)} {word}"


def _spell_length(value: Mm, units: str) -> str:
    sign, size = ("-", -value) if value < 0 else ("", value)
    if units == "mm":
        return sign + _plain_decimal(size)
    inches = Fraction(round(size / 25.4 * 64), 64)
    if float(inches * INCH) == size:
        return sign + mixed(inches)
    for places in range(3, 7):
        text = _plain_decimal(size / 25.4, places)
        if float(Fraction(text) * INCH) == size:
            return sign + text
    return f"{sign}{_plain_decimal(size)} mm"


def _plain_decimal(value: float, places: int | None = None) -> str:
    """Give a float without an exponent, with all its digits or rounded to some places."""
    from decimal import Decimal

    text = f"{Decimal(repr(value)):f}" if places is None else f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
