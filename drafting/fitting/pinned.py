"""Whether holes of the machine's model lie about the pins where the machine file has them."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from drafting.fitting.sight import Sight
from drafting.fitting.travel import place

HOLE = 300.0
"""Millimetres along the pin in which its hole is looked for."""
PINNED, SQUARE = 0.6, 0.999
"""How far (mm) a hole's axis may lie beside the pin, and how much of its direction is the pin's."""


def unpinned(v: Sight) -> Iterable[str]:
    """Name the pins about which no round face of the machine lies."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType

    start = place(v.machine.way, v.seat.start)
    for name, p in (("base_pin", start.base), ("rod_pin", start.rod)):
        at = v.seat.point(p)
        for solid in v.solids:
            for face, box in zip(solid.faces, solid.boxes, strict=True):
                if (at < box[:3] - HOLE).any() or (at > box[3:] + HOLE).any():
                    continue
                surface = BRepAdaptor_Surface(face)
                if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Cylinder:
                    continue
                axis = surface.Cylinder().Axis()
                o, d = axis.Location(), axis.Direction()
                off = np.array([o.X(), o.Y(), o.Z()]) - at
                way = np.array([d.X(), d.Y(), d.Z()])
                beside = np.linalg.norm(off - (off @ way) * way)
                if beside < PINNED and abs(way @ v.seat.axis) > SQUARE:
                    break
            else:
                continue
            break
        else:
            yield name
