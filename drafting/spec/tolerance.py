"""A tolerance as people type it: ``±0.5``, ``+1/16 -0 in``, ``24.9 to 25.1``, ``H8``.

What was not typed does not exist: one deviation alone, or a width without a sign, is refused.
"""

from __future__ import annotations

import re
from dataclasses import replace

from drafting.factors import Misread
from drafting.records import dataclass
from drafting.units import read_length

_EXAMPLES = '"±0.5", "+1/16 -0 in", "24.9 to 25.1 mm" or "H8"'
_FIT = re.compile(r"([A-Z]{1,2}|[a-z]{1,2}) ?(01|0|[1-9][0-9]?)")
_LETTERS = re.compile(r"(?:cd|ef|fg|js|za|zb|zc|[a-hjkmnprstuvxyz])", re.IGNORECASE)
_NUMBER = r"[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+\.?"
_UNIT = r'[a-zA-Z"”″]*'
_LONE = re.compile(rf"([+-]) ?({_NUMBER}) ?({_UNIT})")
_PAIR = re.compile(
    rf"([+-]?) ?({_NUMBER}) ?({_UNIT})(?: ?/ ?| |(?=[+-]))([+-]?) ?({_NUMBER}) ?({_UNIT})"
)
_LIMITS = re.compile(r"(.+?) ?(?:to|\.\.\.?|…) ?(.+)")
_TYPED = str.maketrans({"−": "-", "–": "-", "‐": "-", "⁄": "/"})


@dataclass(frozen=True, slots=True)
class TypedTolerance:
    """What was typed: a class, two deviations or two limits (mm, lower first).

    ``fractions`` tells that they were typed as fractions of an inch, ``places`` with how many
    decimals of ``unit`` ("in", "mm").
    """

    fit: str = ""
    deviations: tuple[float, float] | None = None
    limits: tuple[float, float] | None = None
    fractions: bool = False
    places: int = 0
    unit: str = ""


def read_tolerance(text: str, units: str) -> TypedTolerance:
    """Read a tolerance; a bare number is in ``units``. Raises Misread."""
    read = _read(text, units)
    places = max((len(found) for found in re.findall(r"\.([0-9]+)", text)), default=0)
    unit = "mm" if "mm" in text.lower() else "in" if re.search(r"in|[\"”″]", text, re.I) else units
    return read if read.fit else replace(read, places=places, unit=unit)


def _read(text: str, units: str) -> TypedTolerance:
    said = " ".join(text.translate(_TYPED).split())
    if not said:
        raise Misread("empty", "nothing is written between the quotes; leave the line out instead")
    comma = re.search(r"[0-9]*,[0-9]+", said)
    if comma:
        raise Misread(
            "decimal-comma",
            f'"{text.strip()}" has a comma; write a decimal point ({comma[0].replace(",", ".")})',
        )
    fit = _FIT.fullmatch(said)
    if fit:
        return TypedTolerance(_class(text, fit))
    fractions = _in_fractions(said)
    if re.match(r"±|\+ ?/? ?-(?=[ 0-9.])", said):
        size = _size(re.sub(r"^(?:±|\+ ?/? ?-) ?", "", said), units)
        return _deviations(text, -size, size, fractions)
    lone, pair = _LONE.fullmatch(said), _PAIR.fullmatch(said)
    if lone:
        other = f'{said.replace(lone[1], "", 1).strip()}"'
        raise Misread(
            "not-a-tolerance",
            f'"{text.strip()}" is one deviation; write both, as in "+{other[:-1]} -0", or '
            f'"±{other} for the same to both sides',
        )
    if pair and (pair[1] or pair[4]):
        unit = pair[3] or pair[6]
        values = [
            _signed(text, pair[1], pair[2], pair[3] or unit, units),
            _signed(text, pair[4], pair[5], pair[6] or unit, units),
        ]
        return _deviations(text, min(values), max(values), fractions)
    limits = _LIMITS.fullmatch(said)
    if limits:
        word = re.search(rf"({_UNIT})$", limits[2])
        first = limits[1]
        if word and word[1] and not re.search(r"[a-zA-Z\"]$", first):
            first = f"{first} {word[1]}"
        low, high = sorted((_size(first, units), _size(limits[2], units)))
        if high - low < 1e-6:
            raise Misread("not-a-tolerance", f'"{text.strip()}": the two limits are the same size')
        return TypedTolerance(limits=(low, high), fractions=_in_fractions(*limits.groups()))
    raise Misread(
        "not-a-tolerance", f'"{text.strip()}" is not a tolerance; write for example {_EXAMPLES}'
    )


def _in_fractions(*sizes: str) -> bool:
    """Tell whether sizes are typed in fractions; a slash between two deviations makes none."""
    said = " ".join(re.sub(r" / ?|/ ", "", size) for size in sizes)
    return "/" in said and "." not in said


def _class(text: str, found: re.Match[str]) -> str:
    grade = found[2]
    if not _LETTERS.fullmatch(found[1]):
        raise Misread(
            "not-a-tolerance",
            f'"{text.strip()}": ISO 286 has no deviation {found[1]}; write for example {_EXAMPLES}',
        )
    if grade not in ("01", "0") and int(grade) > 18:
        raise Misread(
            "not-a-tolerance", f'"{text.strip()}": the grades of ISO 286 go from 01 to 18'
        )
    return found[1] + grade


def _size(text: str, units: str) -> float:
    return float(read_length(text, units))


def _signed(text: str, sign: str, number: str, unit: str, units: str) -> float:
    size = _size(f"{number} {unit}".strip(), units)
    if size and not sign:
        raise Misread("not-a-tolerance", f'"{text.strip()}": {number} has no sign; write + or -')
    return -size if sign == "-" and size else size


def _deviations(text: str, lower: float, upper: float, fractions: bool) -> TypedTolerance:
    if upper - lower < 1e-6:
        raise Misread(
            "not-a-tolerance",
            f'"{text.strip()}" leaves no room: nothing is made to an exact size',
        )
    return TypedTolerance(deviations=(lower, upper), fractions=fractions)
