"""Weight from the pieces: steel, dry."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from drafting.calc.types import STEEL_DENSITY
from drafting.shape.pieces import Part
from drafting.shape.volume import volume


def dry_mass(parts: Iterable[Part]) -> float:
    """Give the mass in kg of all parts as steel, without oil."""
    return sum(_volume(p) for p in parts) * STEEL_DENSITY


@lru_cache(maxsize=64)
def _volume(part: Part) -> float:
    """Weigh what did not change once."""
    return volume(part)
