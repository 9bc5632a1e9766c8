"""Tie rods: preload, what the pressure adds, and where the joint opens."""

from __future__ import annotations

from drafting.calc.types import STEEL_MODULUS, NPerMm
from drafting.units import Mm, Mm2, MPa, N, One


def bar_stiffness(area: Mm2, length: Mm, modulus: MPa = STEEL_MODULUS) -> NPerMm:
    """Stiffness of a bar or tube along its length, E A / L.

    Symbols: section A (mm2), length L (mm), modulus E (MPa).
    Holds: for an elastic bar of one section. For n tie rods take n times the section.
    Source: Hooke's law.

    >>> round(bar_stiffness(157.0, 500.0))
    64684
    """
    return modulus * area / length


def load_share(rods: NPerMm, barrel: NPerMm) -> One:
    """Part of the pressure's end force that the tie rods feel, kr / (kr + kb).

    Symbols: stiffness of all tie rods kr, of the barrel kb (N/mm).
    Holds: while the joint is closed; heads taken as stiff.
    Source: bolted joint theory, Shigley, Mechanical Engineering Design, ch. 8 (memory).

    >>> round(load_share(2.5e5, 1.0e6), 3)
    0.2
    """
    return rods / (rods + barrel)


def separating_force(preload: N, share: One) -> N:
    """End force at which the barrel lifts off its seat, Fi / (1 - C).

    Symbols: preload of all tie rods Fi (N), load share C.
    Holds: without the barrel's own shortening under pressure, which eats some preload: keep a
    factor of 1.5 or more (common practice).
    Source: bolted joint theory, Shigley, Mechanical Engineering Design, ch. 8 (memory).

    >>> round(separating_force(120_000.0, 0.2))
    150000
    """
    return preload / (1 - share)


def rod_force(preload: N, share: One, end_force: N) -> N:
    """Force in all tie rods under pressure: Fi + C P while closed, P once it has opened.

    Symbols: preload of all tie rods Fi (N), load share C, end force P (N).
    Holds: for tie rods that share alike.
    Source: bolted joint theory, Shigley, Mechanical Engineering Design, ch. 8 (memory).

    >>> rod_force(120_000.0, 0.25, 100_000.0)
    145000.0
    """
    return max(preload + share * end_force, end_force)


def barrel_force(preload: N, share: One, end_force: N) -> N:
    """Force that still presses the barrel on its seats under pressure, Fi - (1 - C) P, not below 0.

    Symbols: preload of all tie rods Fi (N), load share C, end force P (N).
    Holds: as ``rod_force``, of which it is the part that the pressure does not carry.
    Source: bolted joint theory, Shigley, Mechanical Engineering Design, ch. 8 (memory).

    >>> barrel_force(120_000.0, 0.25, 100_000.0)
    45000.0
    """
    return max(preload - (1 - share) * end_force, 0 * end_force)
