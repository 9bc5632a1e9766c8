"""Derived sizes are drawn at sizes that a shop would choose: 1/16 in or 1 mm, up or near."""

from math import ceil

STEP_MM = {"in": 25.4 / 16, "mm": 1.0}
_FINER = (1, 2, 4)
"""A step is halved, then quartered, where whole ones lead out of what is allowed."""
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


def neat_within(value: float, lo: float, hi: float, units: str) -> float:
    """Give the shop size nearest to a place in mm that lies from lo to hi, else the place itself.

    >>> neat_within(100.3, 90.0, 110.0, "mm"), neat_within(100.3, 100.2, 100.6, "mm")
    (100.0, 100.5)
    """
    for finer in _FINER:
        step = STEP_MM[units] / finer
        size = round(round(value / step) * step, _EXACT)
        if lo <= size <= hi:
            return size
    return value
