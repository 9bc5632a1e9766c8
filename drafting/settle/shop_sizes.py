"""Derived sizes are drawn at sizes that a shop would choose: 1/16 in or 1 mm, up or near."""

from math import ceil

STEP_MM = {"in": 25.4 / 16, "mm": 1.0}
_EXACT = 4
"""Decimals of a sixteenth in mm: 19/16 in is 30.1625 mm sharp, and so is read as a fraction."""


def neat(value: float, units: str) -> float:
    """Give the nearest shop size to a length in mm."""
    step = STEP_MM[units]
    return round(round(value / step) * step, _EXACT)


def neat_up(value: float, units: str) -> float:
    """Give the next shop size not below a length in mm."""
    step = STEP_MM[units]
    return round(ceil(value / step - 1e-9) * step, _EXACT)
