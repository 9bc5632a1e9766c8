"""How far a piece reaches from the cylinder's axis."""

from __future__ import annotations

from math import cos, hypot, radians, sin

from drafting.shape.frame import Y, Z
from drafting.shape.pieces import Piece, extent

_COARSE, _FINE = 5.0, 0.25


def reach(piece: Piece, beyond: float = 0.0) -> float:
    """Give how far a piece reaches from the cylinder's axis (mm), within 0.001 %.

    ``beyond`` is a distance below which nobody asks: 0 comes back where the piece's box is inside.
    """
    corner = hypot(*(max(map(abs, extent(piece, axis))) for axis in (Y, Z)))
    if corner <= beyond:
        return 0.0

    def at(degrees: float) -> float:
        a = radians(degrees)
        return extent(piece, (0.0, cos(a), sin(a)))[1]

    near = max((k * _COARSE for k in range(round(360.0 / _COARSE))), key=at)
    steps = round(_COARSE / _FINE)
    return max(at(near + k * _FINE) for k in range(-steps, steps + 1))
