"""Outlines of ears and eyes, in the X-Z plane: the pin at the origin, the cylinder towards +x."""

from __future__ import annotations

from math import asin, pi

from drafting.model.mounts.pinned import SMALL
from drafting.shape.pieces import Arc2, Line2, Outline, tongue


def ear_outline(half: float, nose: float, reach: float) -> Outline:
    """Give an ear of half height ``half``, swing radius ``nose`` >= half, root at ``reach``."""
    if nose <= half + SMALL:
        return tongue(half, reach)
    a = asin(half / nose)
    x = -((nose**2 - half**2) ** 0.5)
    return (
        Arc2((0.0, 0.0), nose, pi - a, pi + a),
        Line2((x, -half), (reach, -half)),
        Line2((reach, -half), (reach, half)),
        Line2((reach, half), (x, half)),
    )


def eye_root(half: float, nose: float, carrier: float) -> float:
    """Give the half height of an eye where it meets a ``carrier`` (mm across): not much wider."""
    return half if nose > half + SMALL else min(half, 0.55 * carrier)


def eye_outline(half: float, nose: float, reach: float, root: float) -> Outline:
    """Give an eye that tapers from ``half`` round the pin to ``root`` at ``reach``."""
    return ear_outline(half, nose, reach) if root >= half else tongue(half, reach, root)
