"""A cell that stands for several: ``20; 22``, ``[20, 22]`` or ``20..30 step 2``, units or none."""

from __future__ import annotations

import re
from fractions import Fraction

MOST = 1000
"""Values of one cell."""
_RANGE = re.compile(
    r"(.{1,40}?)\s*\.\.\s*(.{1,40}?)\s+(?:step\s+)?([0-9][0-9 ./-]{0,20}(?:\s?[a-z\"']{1,8})?)",
    re.IGNORECASE,
)
"""The word step may be left out: what stands last is the step."""
_SIZE = re.compile(r"(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)|([0-9]+(?:\.[0-9]+)?)")


class BadSweep(ValueError):
    """A cell that looks like several values and is none."""


def several(cell: str, whole: bool = False) -> list[str]:
    """Give the values of a cell, one for a cell that is no sweep; raises BadSweep.

    ``whole``: the field itself holds a list, and what stands in brackets is one value.
    """
    listed = cell.strip()
    inside = listed[1:-1] if listed[:1] == "[" and listed[-1:] == "]" and not whole else ""
    if ";" in cell or inside:
        parts = cell.split(";") if not inside else re.split("[,;]", inside)
        found = [text for part in parts if (text := part.strip().strip("\"'").strip())]
        if len(found) > MOST:
            raise BadSweep(f"{len(found)} values; at most {MOST}")
        return found or [""]
    if ".." not in cell:
        return [cell]
    match = _RANGE.fullmatch(cell.strip())
    if not match:
        raise BadSweep('write a range as "20..30 step 2", with one unit or none')
    sizes = [_size(text) for text in match.groups()]
    units = {unit for _, unit in sizes if unit}
    if len(units) > 1:
        raise BadSweep(f"a range in one unit, not in {' and '.join(sorted(units))}")
    (first, _), (last, _), (step, _) = sizes
    if step <= 0 or last < first:
        raise BadSweep("a range goes upwards, by a step above 0")
    count = int((last - first) / step) + 1
    if count > MOST:
        raise BadSweep(f"{count} values; at most {MOST}")
    unit = f" {units.pop()}" if units else ""
    return [f"{_said(first + k * step)}{unit}" for k in range(count)]


def _size(text: str) -> tuple[Fraction, str]:
    text = text.strip()
    match = _SIZE.match(text)
    if not match:
        raise BadSweep(f'"{text}" is no number')
    whole, top, bottom, plain = match.groups()
    if bottom is not None and int(bottom) == 0:
        raise BadSweep(f'"{text}" is no number')
    value = Fraction(plain) if plain else Fraction(whole or 0) + Fraction(int(top), int(bottom))
    return value, text[match.end() :].strip()


def _said(value: Fraction) -> str:
    """Say a number as a person types it: decimals where they end, else a fraction."""
    if value.denominator == 1:
        return str(value.numerator)
    for places in range(1, 7):
        if (value * 10**places).denominator == 1:
            return f"{float(value):.{places}f}"
    whole, rest = divmod(value.numerator, value.denominator)
    return f"{whole} {rest}/{value.denominator}" if whole else f"{rest}/{value.denominator}"
