"""Numbers of the first screen: one unit, that of the spec, and no more figures than count."""

from __future__ import annotations

from math import ceil, floor, log10

from drafting.told.readings import INCHES, METRIC, Scale
from drafting.units import format_inch, format_mm

STRESS: dict[str, Scale] = {"in": (INCHES["MPa"][0] / 1000.0, "ksi"), "mm": (1.0, "MPa")}
_ONE: Scale = (1.0, "")


def factor(value: float) -> str:
    """Give a factor of safety, rounded down so that none looks better: ``0.34``, ``10.5``."""
    if value >= 1000.0:
        return ">999"
    places = 2 if value < 10.0 else 1 if value < 100.0 else 0
    return f"{floor(value * 10**places + 1e-9) / 10**places:.{places}f}"


def span(low: float | None, high: float | None) -> str:
    """Give one factor, or from-to; a dash where it is not known."""
    if low is None or high is None:
        return "-"
    one, other = factor(low), factor(high)
    return one if one == other else f"{one} to {other}"


def quantity(value: float, unit: str, units: str, stress: bool = False) -> str:
    """Give a quantity (mm, N, MPa ...) in the unit of the spec, "in" or "mm": ``12,270 lbf``."""
    if unit == "mm":
        return f"{size(value, units)} {units}"
    scale = STRESS[units] if stress else (INCHES if units == "in" else METRIC).get(unit, _ONE)
    shown, word = value * scale[0], scale[1] or unit
    return f"{figures(shown)} {word}".rstrip()


def limit(value: float, unit: str, units: str, down: bool, stress: bool = False) -> str:
    """Give a limit rounded to the side that is safe: up unless ``down``.

    Lengths have three decimals of an inch or one of a millimetre, all else three figures.
    """
    scale = STRESS[units] if stress else (INCHES if units == "in" else METRIC).get(unit, _ONE)
    shown, word = value * scale[0], scale[1] or unit
    if shown <= 0.0:
        return f"0 {word}".rstrip()
    places = {"in": 3, "mm": 1}[units] if unit == "mm" else 2 - floor(log10(shown))
    steps = shown * 10.0**places
    whole = (floor(steps + 1e-6) if down else ceil(steps - 1e-6)) / 10.0**places
    text = f"{whole:,.0f}" if whole >= 1000.0 else f"{float(f'{whole:.6g}'):g}"
    return f"{text} {word}".rstrip()


def figures(value: float) -> str:
    """Give a number with four figures and commas at the thousands."""
    if value == 0.0:
        return "0"
    rounded = float(f"{value:.4g}")
    return f"{rounded:,.0f}" if abs(rounded) >= 1000.0 else f"{rounded:g}"


def size(mm: float, units: str) -> str:
    """Give a length as a person of that unit writes it: ``20 1/4``, ``514.4``."""
    return format_inch(mm, 64) if units == "in" else format_mm(mm, None)
