"""Units that the table of factors does not know, asked of pint: those of the trade alone.

To pint a pixel, a hand, a rod (of land) and a tenth of an inch (``din``) are lengths too: what is
no unit of a workshop is refused, however well it is known.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from drafting.factors import Kind, Misread

if TYPE_CHECKING:
    import pint

_WORD = re.compile(r"µ?[A-Za-z][A-Za-zµ_ /*]*[23]?")
_METRIC = frozenset(("meter", "gram", "newton", "pascal", "bar", "liter", "second"))
_PREFIXES = frozenset(("", "micro", "milli", "centi", "deci", "kilo", "mega"))
_OTHERS = frozenset(
    (
        *("inch", "foot", "yard", "thou", "micron", "cubic_centimeter", "cubic_foot", "quart"),
        *("gallon", "imperial_gallon", "minute", "hour", "radian", "degree", "arcminute", "turn"),
        *("pound", "ounce", "metric_ton", "dyne", "poundal", "kip", "force_pound", "force_ounce"),
        *("force_kilogram", "force_gram", "pound_force_per_square_inch", "kip_per_square_inch"),
        *("standard_atmosphere", "technical_atmosphere", "torr", "inch_Hg", "millimeter_Hg"),
    )
)


def factor_from_pint(text: str, word: str, k: Kind) -> Fraction:
    """Give the factor of a unit's word to the unit inside, or raise ``Misread``.

    Only the word goes there; ``text`` is what was typed, for the message.
    """
    unknown = Misread(
        "unknown-unit",
        f'"{text.strip()}": the unit {word} is not known for {k.phrase}; write for example '
        f"{k.example}",
    )
    if k.shifts or not _WORD.fullmatch(word):
        raise unknown
    registry = _registry()
    try:
        units = registry.parse_units(word)
        names = [registry.parse_unit_name(name)[0] for name in units._units]
        one = registry.Quantity(Fraction(1), units)
        factor = Fraction(one.to(k.pint).magnitude) if one.is_compatible_with(k.pint) else None
    except Exception as error:  # its parser fails in many ways on what is no unit
        raise unknown from error
    if not all(_of_the_trade(prefix, unit) for prefix, unit, _ in names):
        raise unknown
    if factor is None:
        raise Misread(
            k.code,
            f'"{text.strip()}": {word} is no unit of {k.phrase.split()[-1]}; write for example '
            f"{k.example}",
        )
    return factor


def _of_the_trade(prefix: str, unit: str) -> bool:
    return (unit in _METRIC and prefix in _PREFIXES) or (unit in _OTHERS and not prefix)


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)
