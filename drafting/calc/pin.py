"""Pins: shear, bending and bearing."""

from __future__ import annotations

from math import pi

from drafting.units import Mm, MPa, N, NMm


def double_shear(force: N, pin: Mm) -> MPa:
    """Mean shear stress of a pin cut in two places, F / (2 pi d^2 / 4).

    Symbols: force F (N), pin d (mm).
    Holds: for a pin held on both sides.
    Source: Hibbeler, Mechanics of Materials, problem 1-61: 18 mm at 60 MPa carries 2 x 15 268 N.

    >>> round(double_shear(2 * 15_268.0, 18.0), 1)
    60.0
    """
    return force / (2 * pi / 4 * pin**2)


def single_shear(force: N, pin: Mm) -> MPa:
    """Mean shear stress of a pin cut in one place, F / (pi d^2 / 4); one pin of a trunnion: F/2.

    Symbols: force F on this pin (N), pin d (mm).
    Holds: for a stub pin close to its support.
    Source: definition.

    >>> round(single_shear(15_268.0, 18.0), 1)
    60.0
    """
    return force / (pi / 4 * pin**2)


def bending_moment(force: N, eye: Mm, ear: Mm, clearance: Mm = 0.0) -> NMm:
    """Greatest bending moment of a clevis pin, F/2 (ear/2 + clearance + eye/4).

    Symbols: force F (N), eye width, one ear's thickness, gap between eye and ear on each side (mm).
    Holds: load spread evenly over eye and ears, pin loose in both: cautious; tight pins bend less.
    Source: statics; common practice for clevis pins.

    >>> bending_moment(40_000.0, 40.0, 20.0)
    400000.0
    """
    return force / 2 * (ear / 2 + clearance + eye / 4)


def cantilever_moment(force: N, length: Mm, clearance: Mm = 0.0) -> NMm:
    """Greatest bending moment of a trunnion pin at its shoulder, F (length/2 + clearance).

    Symbols: force F on this pin (N), bearing length, gap between shoulder and bearing (mm).
    Holds: load spread evenly over the bearing length.
    Source: statics.

    >>> cantilever_moment(20_000.0, 40.0)
    400000.0
    """
    return force * (length / 2 + clearance)


def bending_stress(moment: NMm, pin: Mm) -> MPa:
    """Bending stress at the surface of a round pin, 32 M / (pi d^3).

    Symbols: moment M (N mm), pin d (mm).
    Holds: for an elastic solid pin.
    Source: beam theory.

    >>> round(bending_stress(400_000.0, 40.0), 1)
    63.7
    """
    return 32 * moment / (pi * pin**3)


def bearing_pressure(force: N, pin: Mm, width: Mm) -> MPa:
    """Pressure between a pin and its hole, spread on the projected area, F / (d w).

    Symbols: force F (N), pin d, width w in contact (mm).
    Holds: as a mean figure for a pin that fits; a loose pin bears on a line and far harder.
    Source: Gere, Mechanics of Materials, problem 1.6-6: 7.57 MPa.

    >>> round(bearing_pressure(13_619.5, 18.0, 100.0), 2)
    7.57
    """
    return force / (pin * width)
