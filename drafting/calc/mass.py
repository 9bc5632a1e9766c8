"""Mass of plain bars and tubes, for estimates before a model exists."""

from __future__ import annotations

from math import pi

from drafting.calc.types import STEEL_DENSITY, KgPerMm3
from drafting.units import Kg, Mm


def bar_mass(diameter: Mm, length: Mm, density: KgPerMm3 = STEEL_DENSITY) -> Kg:
    """Mass of a round bar, rho pi d^2 L / 4.

    Symbols: diameter d, length L (mm), density rho (kg/mm3).
    Holds: for a solid round bar.
    Source: geometry; density of steel by common practice.

    >>> round(bar_mass(50.0, 1000.0), 2)
    15.41
    """
    return density * pi / 4 * diameter**2 * length


def tube_mass(outside: Mm, inside: Mm, length: Mm, density: KgPerMm3 = STEEL_DENSITY) -> Kg:
    """Mass of a tube, rho pi (D^2 - d^2) L / 4.

    Symbols: outside D, inside d, length L (mm), density rho (kg/mm3).
    Holds: for a round tube.
    Source: geometry; density of steel by common practice.

    >>> round(tube_mass(95.0, 80.0, 1000.0), 2)
    16.18
    """
    return density * pi / 4 * (outside**2 - inside**2) * length
