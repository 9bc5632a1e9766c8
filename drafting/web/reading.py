"""What was understood of a typed size, in both units."""

from __future__ import annotations

from drafting.factors import Misread
from drafting.units import both, read_length

_LENGTHS = ("length", "word or length", "pair or length")


def reading(value: str, kind: str, units: str) -> str:
    """Give a length as ``3 1/2 in = 88.9 mm``; empty for what is none, or none yet."""
    if kind not in _LENGTHS or units not in ("in", "mm"):
        return ""
    try:
        mm = float(read_length(value, units, signed=True))
    except Misread:
        return ""
    return both(mm, units).replace(" (", " = ").removesuffix(")")
