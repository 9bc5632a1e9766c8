"""Areas, forces and pressures of a cylinder at rest."""

from __future__ import annotations

from math import pi, radians, sin

from drafting.calc.types import STANDARD_GRAVITY, NPerKg
from drafting.units import Deg, Kg, Mm, Mm2, MPa, N, One


def cap_area(bore: Mm) -> Mm2:
    """Area of the piston on the base side, pi D^2 / 4.

    Symbols: bore D (mm).
    Holds: for a sealed piston; a displacement ram pushes on the rod's area alone.
    Source: geometry; worked in Groover, Automation, problems on actuators.

    >>> round(cap_area(75.0))
    4418
    """
    return pi / 4 * bore**2


def rod_area(rod: Mm) -> Mm2:
    """Area of the rod's section, pi d^2 / 4.

    Symbols: rod d (mm).
    Holds: for a solid round rod.
    Source: geometry.

    >>> round(rod_area(14.0), 1)
    153.9
    """
    return pi / 4 * rod**2


def annulus_area(bore: Mm, rod: Mm) -> Mm2:
    """Area of the piston on the rod side, pi (D^2 - d^2) / 4.

    Symbols: bore D (mm), rod d (mm).
    Holds: for one rod; d below D.
    Source: geometry; worked in the Fluid Power Journal, extending and retracting forces, 2017.

    >>> round(annulus_area(101.6, 50.8) / 25.4**2, 2)
    9.42
    """
    return pi / 4 * (bore**2 - rod**2)


def area_ratio(bore: Mm, rod: Mm) -> One:
    """Base side area over rod side area, D^2 / (D^2 - d^2).

    Symbols: bore D (mm), rod d (mm).
    Holds: for one rod; above 1. The nominal ratios of rod series (1.25, 2 ...) are rounded.
    Source: geometry.

    >>> round(area_ratio(50.0, 36.0), 3)
    2.076
    """
    return bore**2 / (bore**2 - rod**2)


def push_force(bore: Mm, rod: Mm, pressure: MPa, back_pressure: MPa = 0.0) -> N:
    """Push at a pressure, p A - p_r (A - a).

    Symbols: bore D, rod d (mm), pressure p on the base side, back pressure p_r on the rod side.
    Holds: at rest, without friction; seals take some 2 to 10 % (common practice), not counted.
    Source: areas times pressures; worked in Groover, Automation, problems on actuators.

    >>> round(push_force(75.0, 14.0, 5.0))
    22089
    """
    return pressure * cap_area(bore) - back_pressure * annulus_area(bore, rod)


def pull_force(bore: Mm, rod: Mm, pressure: MPa, back_pressure: MPa = 0.0) -> N:
    """Pull at a pressure, p (A - a) - p_r A.

    Symbols: bore D, rod d (mm), pressure p on the rod side, back pressure p_r on the base side.
    Holds: at rest, without friction. A return pressure weighs on the larger area here.
    Source: areas times pressures; worked in Groover, Automation, problems on actuators.

    >>> round(pull_force(75.0, 14.0, 5.0))
    21320
    """
    return pressure * annulus_area(bore, rod) - back_pressure * cap_area(bore)


def ram_force(rod: Mm, pressure: MPa) -> N:
    """Push of a displacement ram, p a; also the push of a regenerative connection.

    Symbols: rod d (mm), pressure p (MPa).
    Holds: when both sides of the piston stand under the same pressure, or there is no piston seal.
    Source: equal pressures cancel on the annulus; US Navy Fluid Power, differential areas.

    >>> round(ram_force(45.0, 10.0))
    15904
    """
    return pressure * rod_area(rod)


def pressure_on(force: N, area: Mm2) -> MPa:
    """Pressure under a force spread on an area, F / A.

    Symbols: force F (N), area A (mm2).
    Holds: for a fluid at rest.
    Source: definition; OpenStax College Physics, brake exercise: 500 N on 5 mm across.

    >>> round(pressure_on(500.0, cap_area(5.0)), 1)
    25.5
    """
    return force / area


def blocked_rod_pressure(bore: Mm, rod: Mm, pressure: MPa, pull_load: N = 0.0) -> MPa:
    """Pressure on the rod side when its port is blocked, (p A + F) / (A - a).

    Symbols: bore D, rod d (mm), supply pressure p (MPa), load F that pulls the rod out (N).
    Holds: for a port that is blocked or metered almost shut. A danger: it can pass the rating of
    rod seals, gland, hose and barrel by the area ratio, and by more when the load pulls.
    Source: force balance of the piston.

    >>> round(blocked_rod_pressure(50.0, 36.0, 16.0), 1)
    33.2
    """
    return (pressure * cap_area(bore) + pull_load) / annulus_area(bore, rod)


def weight_along(mass: Kg, angle: Deg, gravity: NPerKg = STANDARD_GRAVITY) -> N:
    """Part of a weight that acts along the stroke, m g sin(angle).

    Symbols: mass m (kg), angle of the stroke above the horizontal (degrees), gravity g (N/kg).
    Holds: for a mass guided along the stroke, without friction; 90 degrees is straight up.
    Source: resolution of forces.

    >>> round(weight_along(100.0, 30.0), 1)
    490.3
    """
    return mass * gravity * sin(radians(angle))
