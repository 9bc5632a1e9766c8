"""Counts and boxes of kernel shapes."""

from __future__ import annotations

from typing import Any


def solids(shape: Any) -> int:
    """Count the solids."""
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    walk, count = TopExp_Explorer(shape, TopAbs_SOLID), 0
    while walk.More():
        count += 1
        walk.Next()
    return count


def box(shape: Any) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Give the two extreme corners."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    found = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, found, False, False)
    x0, y0, z0, x1, y1, z1 = found.Get()
    return (x0, y0, z0), (x1, y1, z1)
