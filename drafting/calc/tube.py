"""The barrel as a pressure vessel: thick and thin walls, burst, yield, caps and stretch.

Static figures only. Fatigue, notches, weld roots and thread roots are not in them.
"""

from __future__ import annotations

from drafting.calc.force import annulus_area
from drafting.calc.types import STEEL_POISSON
from drafting.units import Mm, Mm2, MPa, N, One


def axial_stress(inside: Mm, outside: Mm, pressure: MPa, outer_pressure: MPa = 0.0) -> MPa:
    """Stress along a closed barrel, (p d^2 - p_o D^2) / (D^2 - d^2).

    Symbols: inside d, outside D (mm), pressure p inside, p_o outside (MPa).
    Holds: away from the ends, when the wall carries both ends' push. Between tie rods it is not so.
    Source: Lamé; Shigley, Mechanical Engineering Design, ch. 3, pressure vessel: 5620 psi.

    >>> round(axial_stress(60.0, 100.0, 20.0, 5.0), 2)
    3.44
    """
    return (pressure * inside**2 - outer_pressure * outside**2) / (outside**2 - inside**2)


def hoop_stress(inside: Mm, outside: Mm, pressure: MPa, at: Mm, outer_pressure: MPa = 0.0) -> MPa:
    """Stress round the wall at a diameter, A + B / x^2 by Lamé.

    A is the axial stress; B = (p - p_o) d^2 D^2 / (D^2 - d^2). Greatest at the bore (x = d).

    Symbols: inside d, outside D, diameter x (mm), pressure p inside, p_o outside (MPa).
    Holds: for an elastic wall of any thickness, away from the ends.
    Source: Lamé's equations.

    >>> round(hoop_stress(50.0, 60.0, 25.0, at=50.0), 3)
    138.636
    """
    base = axial_stress(inside, outside, pressure, outer_pressure)
    return base + _spread(inside, outside, pressure, outer_pressure) / at**2


def radial_stress(inside: Mm, outside: Mm, pressure: MPa, at: Mm, outer_pressure: MPa = 0.0) -> MPa:
    """Stress through the wall at a diameter, A - B / x^2 by Lamé; minus the pressure at the bore.

    Symbols: inside d, outside D, diameter x (mm), pressure p inside, p_o outside (MPa).
    Holds: for an elastic wall of any thickness, away from the ends.
    Source: Lamé's equations; A and B as in ``hoop_stress``.

    >>> round(radial_stress(50.0, 60.0, 25.0, at=50.0), 6)
    -25.0
    """
    base = axial_stress(inside, outside, pressure, outer_pressure)
    return base - _spread(inside, outside, pressure, outer_pressure) / at**2


def equivalent_stress(inside: Mm, outside: Mm, pressure: MPa) -> MPa:
    """Von Mises stress at the bore of a closed barrel, sqrt(3) p D^2 / (D^2 - d^2).

    Symbols: inside d, outside D (mm), pressure p inside (MPa).
    Holds: for an elastic wall of any thickness with closed ends.
    Source: Lamé's stresses put into von Mises.

    >>> round(equivalent_stress(63.0, 75.0, 21.0), 2)
    123.55
    """
    return 3**0.5 * pressure * outside**2 / (outside**2 - inside**2)


def open_barrel_stress(inside: Mm, outside: Mm, pressure: MPa, pressed: N) -> MPa:
    """Von Mises stress at the bore of a barrel that carries no end force but is pressed together.

    Hoop by Lamé, minus the pressure through the wall, minus F / A along it.

    Symbols: inside d, outside D (mm), pressure p inside (MPa), pressing force F (N).
    Holds: for a barrel between tie rods, which carry the ends' push, away from its ends.
    Source: Lamé's stresses put into von Mises.

    >>> round(open_barrel_stress(63.0, 75.0, 21.0, 0.0), 2)
    133.41
    """
    section = annulus_area(outside, inside)
    hoop = hoop_stress(inside, outside, pressure, inside, 0 * pressure)
    radial, along = -pressure, -pressed / section
    squares = (hoop - radial) ** 2 + (radial - along) ** 2 + (along - hoop) ** 2
    stress: MPa = (squares / 2) ** 0.5
    return stress


def yield_pressure(inside: Mm, outside: Mm, strength: MPa) -> MPa:
    """Pressure at which the bore begins to yield, Sy (D^2 - d^2) / (sqrt(3) D^2).

    Symbols: inside d, outside D (mm), yield strength Sy (MPa).
    Holds: as ``equivalent_stress``. Divide by a factor of safety.
    Source: ``equivalent_stress`` turned round.

    >>> round(yield_pressure(63.0, 75.0, 355.0), 1)
    60.3
    """
    return strength * (outside**2 - inside**2) / (3**0.5 * outside**2)


def thin_wall_stress(inside: Mm, wall: Mm, pressure: MPa) -> MPa:
    """Hoop stress of a thin wall, p d / (2 t).

    Symbols: inside d, wall t (mm), pressure p (MPa).
    Holds: for t below d/20; thicker walls carry more at the bore than this says.
    Source: Gere, Mechanics of Materials, problem 8.3-1.

    >>> round(thin_wall_stress(177.8, 8.128, 11.0316), 1)
    120.7
    """
    return pressure * inside / (2 * wall)


def thin_wall_for(inside: Mm, pressure: MPa, stress: MPa) -> Mm:
    """Wall of a thin vessel for an allowed hoop stress, p d / (2 s).

    Symbols: inside d (mm), pressure p, allowed stress s (MPa).
    Holds: for a result below d/20.
    Source: Gere, Mechanics of Materials, problem 8.3-1: 0.32 in.

    >>> round(thin_wall_for(7.0, 1600.0, 35_000.0 / 2), 2)
    0.32
    """
    return pressure * inside / (2 * stress)


def thin_wall_pressure(inside: Mm, wall: Mm, stress: MPa) -> MPa:
    """Pressure that a thin wall carries, 2 t s / d.

    Symbols: inside d, wall t (mm), allowed stress s (MPa).
    Holds: for t below d/20.
    Source: Hibbeler, Mechanics of Materials, ch. 8, cylindrical vessel: 417 psi.

    >>> round(thin_wall_pressure(48.0, 0.5, 20_000.0))
    417
    """
    return 2 * stress * wall / inside


def mean_diameter_pressure(inside: Mm, wall: Mm, stress: MPa) -> MPa:
    """Pressure that a wall carries, reckoned at its mean diameter, 2 t s / (d + t).

    Symbols: inside d, wall t (mm), allowed stress s (MPa).
    Holds: for walls up to about d/10.
    Source: Shigley, Mechanical Engineering Design, ch. 3, pressure vessel: 774 psi.

    >>> round(mean_diameter_pressure(7.5, 0.25, 12_000.0))
    774
    """
    return 2 * stress * wall / (inside + wall)


def barlow_pressure(outside: Mm, wall: Mm, stress: MPa) -> MPa:
    """Pressure at which a tube reaches a stress, by the outside diameter, 2 S t / D.

    With the tensile strength for S it is the usual cautious figure for burst.

    Symbols: outside D, wall t (mm), stress S (MPa).
    Holds: as an estimate for tubes of ordinary wall; cautious for thin ones.
    Source: Barlow's formula.

    >>> round(barlow_pressure(8.625, 0.5, 30_000.0))
    3478
    """
    return 2 * stress * wall / outside


def barlow_wall(outside: Mm, pressure: MPa, stress: MPa) -> Mm:
    """Wall for a stress, by the outside diameter, p D / (2 S).

    Symbols: outside D (mm), pressure p, stress S (MPa).
    Holds: as ``barlow_pressure``.
    Source: Barlow's formula.

    >>> round(barlow_wall(110.0, 2.0, 22.1), 2)
    4.98
    """
    return pressure * outside / (2 * stress)


def cap_stress_held(diameter: Mm, thickness: Mm, pressure: MPa) -> MPa:
    """Greatest bending stress of a flat round cap whose edge cannot turn, 3/16 p d^2 / t^2.

    Symbols: loaded diameter d, thickness t (mm), pressure p (MPa).
    Holds: for t below about d/4 (thicker caps also shear), edge built in; greatest at the edge.
    Source: theory of plates, Timoshenko and Woinowsky-Krieger, clamped round plate (memory).

    >>> round(cap_stress_held(80.0, 20.0, 20.0))
    60
    """
    return 3 / 16 * pressure * diameter**2 / thickness**2


def cap_stress_free(
    diameter: Mm, thickness: Mm, pressure: MPa, poisson: One = STEEL_POISSON
) -> MPa:
    """Greatest bending stress of a flat round cap on a free edge, 3 (3 + v) / 32 p d^2 / t^2.

    Symbols: loaded diameter d, thickness t (mm), pressure p (MPa), Poisson's ratio v.
    Holds: for t below about d/4; greatest in the middle. A welded cap lies between free and held:
    the free figure is the cautious one.
    Source: theory of plates, Timoshenko and Woinowsky-Krieger, supported round plate (memory).

    >>> round(cap_stress_free(80.0, 20.0, 20.0))
    99
    """
    return 3 * (3 + poisson) / 32 * pressure * diameter**2 / thickness**2


def bar_stress(force: N, area: Mm2) -> MPa:
    """Mean stress of a bar, F / A.

    Symbols: force F (N), area A (mm2).
    Holds: for a force in the middle of the section, away from notches.
    Source: definition.

    >>> bar_stress(50_000.0, 1000.0)
    50.0
    """
    return force / area


def _spread(inside: Mm, outside: Mm, pressure: MPa, outer: MPa) -> N:
    """Lamé's B (written for diameters), a pressure times a diameter squared."""
    return (pressure - outer) * inside**2 * outside**2 / (outside**2 - inside**2)
