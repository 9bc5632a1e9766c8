"""Uniform columns: Euler for slender ones, Johnson for short ones, and their sections."""

from __future__ import annotations

from math import pi

from drafting.calc.types import STEEL_MODULUS, NMm2
from drafting.units import Mm, Mm4, MPa, N, One


def bar_inertia(diameter: Mm) -> Mm4:
    """Second moment of area of a round bar, pi d^4 / 64.

    Symbols: diameter d (mm).
    Holds: for a solid round section.
    Source: geometry.

    >>> round(bar_inertia(45.0))
    201289
    """
    return pi / 64 * diameter**4


def tube_inertia(outside: Mm, inside: Mm) -> Mm4:
    """Second moment of area of a tube, pi (D^4 - d^4) / 64.

    Symbols: outside D, inside d (mm).
    Holds: for a round tube.
    Source: geometry.

    >>> round(tube_inertia(95.0, 80.0))
    1987579
    """
    return pi / 64 * (outside**4 - inside**4)


def euler_load(stiffness: NMm2, length: Mm, factor: One = 1.0) -> N:
    """Critical load of a slender uniform column, pi^2 EI / (K L)^2.

    Symbols: stiffness EI (N mm2), length L (mm), length factor K.
    Holds: while the stress P/A stays below half the yield; else ``johnson_load``.
    Source: Euler; Gere, Mechanics of Materials, problem 11.4-2: 62.2 kN.

    >>> round(euler_load(210_000.0 * tube_inertia(40.0, 36.0), 1200.0) / 1000, 1)
    62.2
    """
    return pi**2 * stiffness / (factor * length) ** 2


def slenderness_limit(strength: MPa, modulus: MPa = STEEL_MODULUS) -> One:
    """Slenderness at which Euler and Johnson meet, sqrt(2 pi^2 E / Sy).

    Symbols: yield strength Sy, modulus E (MPa).
    Holds: for ductile metal; at the limit both give half the yield.
    Source: Shigley, Mechanical Engineering Design, ch. 4, rectangular link: 88.9.

    >>> round(slenderness_limit(517.1, 206_842.7), 1)
    88.9
    """
    limit: One = (2 * pi**2 * modulus / strength) ** 0.5
    return limit


def johnson_stress(slenderness: One, strength: MPa, modulus: MPa = STEEL_MODULUS) -> MPa:
    """Critical stress of a short column, Sy (1 - Sy (KL/r)^2 / (4 pi^2 E)).

    Symbols: slenderness K L / r, yield strength Sy, modulus E (MPa).
    Holds: for slenderness below ``slenderness_limit``; meets Euler there with value and slope.
    Source: J. B. Johnson; Mott, Machine Elements in Mechanical Design, ch. 6, 53.3 kN on 18x12.

    >>> round(johnson_stress(0.8 * 280.0 / (12.0 / 12**0.5), 290.0, 207_000.0) * 18 * 12 / 1000, 1)
    53.3
    """
    return strength * (1 - strength * slenderness**2 / (4 * pi**2 * modulus))


def rankine_stress(slenderness: One, crushing: MPa, constant: One = 1 / 7500) -> MPa:
    """Critical stress by Rankine, fc / (1 + c (KL/r)^2); only to follow older texts.

    Symbols: slenderness K L / r, crushing stress fc (MPa), constant c.
    Holds: for mild steel with fc 320 to 335 MPa and c = 1/7500.
    Source: Rankine; strength-of-materials texts.

    >>> round(rankine_stress(183.0, 335.0), 1)
    61.3
    """
    return crushing / (1 + constant * slenderness**2)
