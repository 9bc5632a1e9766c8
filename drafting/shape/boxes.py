"""Boxes round pieces, world axes: cheap, and never too small. What lies apart need not be cut."""

from __future__ import annotations

from math import sqrt

from drafting.shape.pieces import Ball, Piece, Turned, outline_bounds

Box = tuple[float, float, float, float, float, float]
"""From and to along X, Y and Z (mm)."""


def box_of(piece: Piece) -> Box:
    """Give a box round a piece; exact where the piece's axes are the world's."""
    f, shape = piece.frame, piece.shape
    out: list[float] = []
    if isinstance(shape, Turned):
        zones = shape.zones
        a, b = zones[0].x0, zones[-1].x1
        r = max(z.radius if isinstance(z, Ball) else max(z.r0, z.r1) for z in zones)
        for o, c in zip(f.origin, f.x, strict=True):
            wide = r * sqrt(max(1.0 - c * c, 0.0))
            p, q = (c * a, c * b) if c > 0 else (c * b, c * a)
            out += (o + p - wide, o + q + wide)
    else:
        x0, x1, y0, y1 = outline_bounds(shape.outline)
        z0, z1 = shape.lo, shape.hi
        for o, i, j, k in zip(f.origin, f.x, f.y, f.z, strict=True):
            lo = hi = o
            for c, u, v in ((i, x0, x1), (j, y0, y1), (k, z0, z1)):
                p, q = c * u, c * v
                lo, hi = (lo + p, hi + q) if p < q else (lo + q, hi + p)
            out += (lo, hi)
    return (out[0], out[1], out[2], out[3], out[4], out[5])


def apart(a: Box, b: Box, travel: float = 0.0, least: float = 0.0) -> bool:
    """Tell whether two boxes share no more than ``least`` mm along one axis.

    The second one may stand anywhere on a ``travel`` (mm) towards +X.
    """
    return (
        a[1] - b[0] <= least
        or b[1] + travel - a[0] <= least
        or a[3] - b[2] <= least
        or b[3] - a[2] <= least
        or a[5] - b[4] <= least
        or b[5] - a[4] <= least
    )


def around(boxes: list[Box]) -> Box:
    """Give the box round some boxes, at least one."""
    ends = list(zip(*boxes, strict=True))
    return (
        min(ends[0]),
        max(ends[1]),
        min(ends[2]),
        max(ends[3]),
        min(ends[4]),
        max(ends[5]),
    )
