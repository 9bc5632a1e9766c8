"""Eyes, ears and lugs round a pin."""

from __future__ import annotations

from drafting.units import Mm, MPa, N


def eye_tension(force: N, outside: Mm, hole: Mm, thickness: Mm) -> MPa:
    """Mean tension beside the hole of an eye, F / (t (W - d)).

    Symbols: force F (N), width W across the eye at the hole, hole d, thickness t (mm); for a clevis
    the thickness of both ears.
    Holds: as a mean figure; at the hole's edge it is two to three times as high, which matters for
    repeated load and brittle metal.
    Source: statics.

    >>> round(eye_tension(60_000.0, 60.0, 30.0, 22.0), 2)
    90.91
    """
    return force / (thickness * (outside - hole))


def tear_out(force: N, nose: Mm, hole: Mm, thickness: Mm) -> MPa:
    """Shear stress as a pin tears out through the nose of an eye, F / (2 t (R - d/2)).

    Symbols: force F (N), nose R from the pin's centre to the edge, hole d, thickness t (mm).
    Holds: on two planes of the shortest length, which is cautious.
    Source: statics; common practice for lugs.

    >>> round(tear_out(100_000.0, 42.0, 40.0, 28.0), 2)
    81.17
    """
    return force / (2 * thickness * (nose - hole / 2))
