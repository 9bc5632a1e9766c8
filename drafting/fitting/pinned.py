"""Whether holes of the machine's model lie about the pins where the machine file has them."""

from __future__ import annotations

from typing import Any

import numpy as np

from drafting.arrays import Flags
from drafting.errors import Refused
from drafting.fitting.meshes import Array
from drafting.fitting.poses import INCH
from drafting.fitting.sight import Sight
from drafting.fitting.travel import place

HOLE = 300.0
"""Millimetres along the pin in which its hole is looked for."""
PINNED, SQUARE = 0.6, 0.999
"""How far (mm) a hole's axis may lie beside the pin, and how much of its direction is the pin's."""


def unpinned(v: Sight) -> tuple[str, ...]:
    """Name the pins about which no round face of the machine lies.

    Raises Refused where faces lie about both as if the model's inches had been taken for
    millimetres, or the other way round.
    """
    start = place(v.machine.way, v.seat.start)
    pins = {"base_pin": v.seat.point(start.base), "rod_pin": v.seat.point(start.rod)}
    bare = tuple(name for name, at in pins.items() if not _held(v, at))
    if bare:  # a pin at the origin is held at any scale
        for scale, words in ((INCH, "25.4 times too large"), (1 / INCH, "25.4 times too small")):
            far = HOLE * max(scale, 1.0)
            if all(_held(v, scale * at, far) for at in pins.values()):
                assert v.machine.model is not None
                text = (
                    f"{v.machine.model.step} is {words}, smells of inches: holes lie about "
                    "both pins at that scale; export it in the unit that its numbers have"
                )
                raise Refused([v.machine.fault("model-unit", "model", "step", text)])
    return bare


def _held(v: Sight, at: Array, far: float = HOLE) -> bool:
    """Tell whether a round face of the machine lies about a pin, within ``far`` mm along it."""
    near = (
        face
        for solid in v.solids
        for face, crossed in zip(
            solid.faces, _crossed(solid.boxes, at, v.seat.axis, far), strict=True
        )
        if crossed
    )
    return any(_about(face, at, v.seat.axis) for face in near)


def _crossed(boxes: Array, at: Array, axis: Array, far: float) -> Flags:
    """Tell which boxes the pin's line crosses, or passes by no farther than a hole may lie."""
    low, high = boxes[:, :3] - at - PINNED, boxes[:, 3:] - at + PINNED
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = low / axis, high / axis
    # Where the line runs along a face of the box the quotient is infinite, and of the right sign.
    first = np.fmin(a, b).max(axis=1, initial=-far)
    last = np.fmax(a, b).min(axis=1, initial=far)
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
