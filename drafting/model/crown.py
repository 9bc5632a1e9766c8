"""Heights on round surfaces."""

from math import sqrt


def crown(radius: float, beside: float) -> float:
    """Give the height of a round surface of ``radius`` at a distance ``beside`` its crown."""
    return sqrt(max(radius**2 - beside**2, 0.0))
