"""Numbers of the checks in the units that the trade reads: ``24,050 lbf (107 kN)``, ``160 bar``.

Inside it is mm, N, MPa, l, s; an inch spec reads US units with SI beside them, a metric one kN and
bar. Four figures are kept: none of these is known better.
"""

from __future__ import annotations

import re
from decimal import Decimal

from drafting.factors import INCH, KINDS

Scale = tuple[float, str]
"""How many of the unit make one of the inner unit, and the unit's word."""

_FORCE, _PRESSURE = KINDS["force"].factors, KINDS["pressure"].factors
_GAL_MIN = float(1 / KINDS["flow"].factors["gal/min"])
_IN = float(1 / INCH)
_LBF = float(1 / _FORCE["lbf"])
_FOOT_POUND = 0.3048 * float(_FORCE["lbf"])
"""Watts second (J) in a foot pound force; 550 of them a second make one horsepower."""

METRIC: dict[str, Scale] = {
    "N": (1e-3, "kN"),
    "MPa": (float(1 / _PRESSURE["bar"]), "bar"),
    "l/s": (60.0, "l/min"),
    "N mm": (1e-3, "N m"),
}
"""What is not listed is read as it is: mm, mm2, l, mm/s, kW, s."""

INCHES: dict[str, Scale] = {
    "N": (_LBF, "lbf"),
    "MPa": (float(1 / _PRESSURE["psi"]), "psi"),
    "mm": (_IN, "in"),
    "mm2": (_IN**2, "in2"),
    "l": (_GAL_MIN / 60.0, "gal"),
    "mm/s": (_IN, "in/s"),
    "l/s": (_GAL_MIN, "gal/min"),
    "kW": (1000.0 / (550.0 * _FOOT_POUND), "hp"),
    "N mm": (_LBF * _IN, "lbf in"),
}
_SAID = re.compile(
    r"(?<![\w./(-])(\d+(?:\.\d+)?(?:e[+-]?\d+)?) (MPa|N mm|N|mm2|mm|l/s)(?![\w/]| \([\d.])"
)
"""A number with an inner unit; not one that is followed by its other reading, or that is one."""
_SIGNS = str.maketrans(
    {
        "°": " deg",
        "Ø": "dia ",
        "ø": "dia ",
        "×": "x",
        "±": "+/-",
        "≥": "at least ",
        "≤": "at most ",
        "²": "2",
        "³": "3",
        "µ": "u",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
    }
    | dict.fromkeys("‐‑–—−", "-")
    | dict.fromkeys("“”″", '"')
    | dict.fromkeys("‘’′", "'")
    | {"…": "...", "→": "->", "·": "*", "\u00a0": " "}
)


def reading(value: float, unit: str, units: str, stress: bool = False) -> str:
    """Say a number of a check; ``unit`` is its inner one, ``units`` the spec's ("in" or "mm").

    A ``stress`` stays in MPa where a pressure is read in bar.
    """
    if not unit:
        return f"{value:.3g}"
    as_it_is = (1.0, unit)
    metric = _with(value, as_it_is if stress else METRIC.get(unit, as_it_is), "")
    if units != "in" or unit not in INCHES:
        return metric
    return f"{_with(value, INCHES[unit], ',')} ({metric})"


def retold(words: str, units: str, stress: bool = False) -> str:
    """Give a line of a check with every size, force and pressure in it as the trade reads it.

    ``stress``: what is in MPa there is one.
    """

    def said(found: re.Match[str]) -> str:
        value, unit = float(found[1]), found[2]
        return reading(value, unit, units, stress and unit == "MPa")

    return _SAID.sub(said, words)


def plain(text: str) -> str:
    """Give a text with words and plain marks for signs that a terminal may not have."""
    return text.translate(_SIGNS)


def _with(value: float, scale: Scale, comma: str) -> str:
    factor, word = scale
    return f"{Decimal(f'{value * factor:.4g}').normalize():{comma}f} {word}"
