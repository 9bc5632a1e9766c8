"""Whether holes of the machine's model lie about the pins where the machine file has them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from drafting.arrays import Flags
from drafting.fitting.meshes import Array
from drafting.fitting.sight import Sight
from drafting.fitting.travel import place

HOLE = 300.0
"""Millimetres along the pin in which its hole is looked for."""
PINNED, SQUARE = 0.6, 0.999
"""How far (mm) a hole's axis may lie beside the pin, and how much of its direction is the pin's."""


def unpinned(v: Sight) -> Iterator[str]:
    """Name the pins about which no round face of the machine lies."""
    start = place(v.machine.way, v.seat.start)
    for name, p in (("base_pin", start.base), ("rod_pin", start.rod)):
        at = v.seat.point(p)
        near = (
            face
            for solid in v.solids
            for face, crossed in zip(solid.faces, _crossed(solid.boxes, at, v.seat.axis),
                                     strict=True)
            if crossed
        )  # fmt: skip
        if not any(_about(face, at, v.seat.axis) for face in near):
            yield name


def _crossed(boxes: Array, at: Array, axis: Array) -> Flags:
    """Tell which boxes the pin's line crosses, or passes by no farther than a hole may lie."""
    low, high = boxes[:, :3] - at - PINNED, boxes[:, 3:] - at + PINNED
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = low / axis, high / axis
    # Where the line runs along a face of the box the quotient is infinite, and of the right sign.
    first = np.fmin(a, b).max(axis=1, initial=-HOLE)
    last = np.fmax(a, b).min(axis=1, initial=HOLE)
    found: Flags = first <= last
    return found


def _about(face: Any, at: Array, axis: Array) -> bool:
    """Tell whether a face is round about a line."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType

    surface = BRepAdaptor_Surface(face)
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Cylinder:
        return False
    round_ = surface.Cylinder().Axis()
    o, d = round_.Location(), round_.Direction()
    off = np.array([o.X(), o.Y(), o.Z()]) - at
    way = np.array([d.X(), d.Y(), d.Z()])
    beside = np.linalg.norm(off - (off @ way) * way)
    return bool(beside < PINNED and abs(way @ axis) > SQUARE)
