"""Welds, by the mean stress on their throat. Repeated load is not covered: welds fail first."""

from __future__ import annotations

from math import pi

from drafting.units import Mm, MPa, N


def throat(leg: Mm) -> Mm:
    """Throat of a fillet weld with equal legs, h / sqrt 2.

    Symbols: leg h (mm).
    Holds: for a flat fillet without extra penetration.
    Source: geometry.

    >>> round(throat(8.0), 3)
    5.657
    """
    return leg / 2**0.5


def fillet_stress(force: N, leg: Mm, length: Mm) -> MPa:
    """Shear stress on the throat of fillet welds, F / (0.7071 h L).

    Symbols: force F (N), leg h (mm), length L of all runs together (mm).
    Holds: for a force through the middle of the runs, whatever its direction: cautious.
    Source: Shigley, Mechanical Engineering Design, ch. 9: 3/8 in at 21 ksi carries 5.57 kip/in.

    >>> round(fillet_stress(5570.0, 0.375, 1.0) / 1000, 1)
    21.0
    """
    return force / (throat(leg) * length)


def cross_tube_stress(force: N, leg: Mm, run: Mm) -> MPa:
    """Throat stress where a cross tube is welded on by two straight runs, F / (2 0.7071 h L).

    Symbols: force F (N), leg h, length L of one run along the tube (mm).
    Holds: for two runs that share alike.
    Source: ``fillet_stress``.

    >>> round(cross_tube_stress(60_000.0, 8.0, 150.0), 2)
    35.36
    """
    return fillet_stress(force, leg, 2 * run)


def ring_fillet_stress(force: N, leg: Mm, diameter: Mm) -> MPa:
    """Throat stress of a fillet round a tube, F / (0.7071 h pi D).

    Symbols: force F along the tube (N), leg h, diameter D of the root (mm).
    Holds: for a force along the axis, without bending.
    Source: ``fillet_stress`` with L = pi D.

    >>> round(ring_fillet_stress(100_000.0, 8.0, 95.0), 1)
    59.2
    """
    return fillet_stress(force, leg, pi * diameter)


def ring_groove_stress(force: N, depth: Mm, outside: Mm) -> MPa:
    """Tension in a groove weld round a tube, F / (pi (D - t) t).

    Symbols: force F along the tube (N), depth t of sound weld, outside D of the tube (mm).
    Holds: for a weld of depth t from the outside; for full penetration t is the wall.
    Source: statics, ring of mean diameter D - t.

    >>> round(ring_groove_stress(100_000.0, 7.5, 95.0), 1)
    48.5
    """
    return force / (pi * (outside - depth) * depth)
