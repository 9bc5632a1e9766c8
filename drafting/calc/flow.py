"""Speeds, times, oil and power of a cylinder that moves.

Flow here is in mm3/s: one litre per second is 1e6 mm3/s, one US gallon a minute 63 090 mm3/s.
"""

from __future__ import annotations

from drafting.calc.force import annulus_area, area_ratio, cap_area, rod_area
from drafting.calc.types import Mm3PerS, NMmPerS
from drafting.units import Mm, Mm2, Mm3, MmPerS, MPa, N, Second

PRESSURE_LINE_SPEED: MmPerS = 6000.0
"""Highest oil speed in a pressure hose or port: 6 m/s (20 ft/s), common practice, from memory."""


def speed(flow: Mm3PerS, area: Mm2) -> MmPerS:
    """Speed of a piston, or of oil in a line, Q / A.

    Symbols: flow Q (mm3/s), area A (mm2).
    Holds: for oil that does not leak past and does not shrink under pressure.
    Source: continuity; Groover, Automation, problems on actuators.

    >>> round(speed(200_000.0, cap_area(75.0)), 1)
    45.3
    """
    return flow / area


def extend_speed(bore: Mm, flow: Mm3PerS) -> MmPerS:
    """Speed out, Q / A.

    Symbols: bore D (mm), flow Q into the base port (mm3/s).
    Holds: for a sealed piston without leakage.
    Source: continuity; Esposito, Fluid Power with Applications, example with 20 gal/min.

    >>> round(extend_speed(50.8, 20 * 63090.2) / 304.8, 2)
    2.04
    """
    return flow / cap_area(bore)


def retract_speed(bore: Mm, rod: Mm, flow: Mm3PerS) -> MmPerS:
    """Speed in, Q / (A - a).

    Symbols: bore D, rod d (mm), flow Q into the rod port (mm3/s).
    Holds: for one rod, without leakage.
    Source: continuity; Esposito, Fluid Power with Applications, example with 20 gal/min.

    >>> round(retract_speed(50.8, 25.4, 20 * 63090.2) / 304.8, 2)
    2.72
    """
    return flow / annulus_area(bore, rod)


def regenerative_speed(rod: Mm, flow: Mm3PerS) -> MmPerS:
    """Speed out when the rod side's oil is led to the base side, Q / a; also of a ram.

    Symbols: rod d (mm), flow Q from the pump (mm3/s).
    Holds: while rod and base side are joined; the base port then passes Q D^2 / d^2.
    Source: continuity: the pump fills only the volume of the rod.

    >>> round(regenerative_speed(45.0, 500_000.0), 1)
    314.4
    """
    return flow / rod_area(rod)


def return_flow(bore: Mm, rod: Mm, flow: Mm3PerS) -> Mm3PerS:
    """Flow that leaves the base while it retracts, Q D^2 / (D^2 - d^2).

    Symbols: bore D, rod d (mm), flow Q into the rod port (mm3/s).
    Holds: at steady speed. Valve, filter and hose must pass this flow, not the pump's.
    Source: continuity.

    >>> round(return_flow(50.0, 36.0, 500_000.0))
    1038206
    """
    return flow * area_ratio(bore, rod)


def rod_side_return_flow(bore: Mm, rod: Mm, flow: Mm3PerS) -> Mm3PerS:
    """Flow that leaves the rod port while it extends, Q (D^2 - d^2) / D^2.

    Symbols: bore D, rod d (mm), flow Q into the base port (mm3/s).
    Holds: at steady speed.
    Source: continuity; tutorial case: 100/70 mm and 40 L/min give 20.4 L/min back.

    >>> round(rod_side_return_flow(100.0, 70.0, 40.0), 1)
    20.4
    """
    return flow / area_ratio(bore, rod)


def stroke_time(stroke: Mm, velocity: MmPerS) -> Second:
    """Time of a stroke, s / v.

    Symbols: stroke s (mm), speed v (mm/s).
    Holds: at steady speed; starting, stopping and cushioning take longer.
    Source: definition.

    >>> stroke_time(400.0, 80.0)
    5.0
    """
    return stroke / velocity


def extend_volume(bore: Mm, stroke: Mm) -> Mm3:
    """Oil that a stroke out takes in, A s.

    Symbols: bore D, stroke s (mm).
    Holds: for a sealed piston; dead volume and compression not counted.
    Source: geometry; US Army TM 1-1500-204-23-2: 8 in2 and 10 in give 80 in3.

    >>> round(extend_volume(100.0, 500.0) / 1e6, 3)
    3.927
    """
    return cap_area(bore) * stroke


def retract_volume(bore: Mm, rod: Mm, stroke: Mm) -> Mm3:
    """Oil that a stroke in takes in, (A - a) s.

    Symbols: bore D, rod d, stroke s (mm).
    Holds: for one rod; dead volume and compression not counted.
    Source: geometry.

    >>> round(retract_volume(100.0, 70.0, 500.0) / 1e6, 3)
    2.003
    """
    return annulus_area(bore, rod) * stroke


def rod_volume(rod: Mm, stroke: Mm) -> Mm3:
    """Oil that the tank gives up between in and out, a s.

    Symbols: rod d, stroke s (mm).
    Holds: for one rod. The tank's level swings by this.
    Source: ``extend_volume`` less ``retract_volume``.

    >>> round(rod_volume(70.0, 500.0) / 1e6, 3)
    1.924
    """
    return rod_area(rod) * stroke


def line_speed(flow: Mm3PerS, inside: Mm) -> MmPerS:
    """Mean speed of oil in a hose or port of inside diameter d, Q / (pi d^2 / 4).

    Symbols: flow Q (mm3/s), inside diameter d (mm).
    Holds: for a round passage running full. Set it against ``PRESSURE_LINE_SPEED``.
    Source: continuity.

    >>> round(line_speed(40 / 60 * 1e6, 12.7) / 1000, 2)
    5.26
    """
    return flow / cap_area(inside)


def hydraulic_power(pressure: MPa, flow: Mm3PerS) -> NMmPerS:
    """Power of a flow under pressure, p Q.

    Symbols: pressure p (MPa), flow Q (mm3/s); 1e6 N mm/s are 1 kW.
    Holds: for the oil alone; pump and motor need more. Heat is not claimed.
    Source: definition; tutorial case: 200 bar and 40 L/min give 13.3 kW.

    >>> round(hydraulic_power(20.0, 40 / 60 * 1e6) / 1e6, 1)
    13.3
    """
    return pressure * flow


def mechanical_power(force: N, velocity: MmPerS) -> NMmPerS:
    """Power of a load that moves, F v.

    Symbols: force F (N), speed v (mm/s); 1e6 N mm/s are 1 kW.
    Holds: for force and speed along the stroke.
    Source: definition; Esposito, Fluid Power with Applications: 1000 lbf at 2.04 ft/s are 3.71 hp.

    >>> round(mechanical_power(4448.2, 622.55) / 745_700, 2)
    3.71
    """
    return force * velocity
