"""A machine full of things, for measuring: perforated plates and brackets about a cylinder."""

from __future__ import annotations

import cadquery as cq

from tests.fitting.flap import flapping
from tests.fitting.machines import machine

PLATES, BRACKETS = 20, 40


def crowded():
    """Give the machine and its solids by name: 61 solids, some 2,800 faces."""
    parts = {}
    holes = [(-300 + 60 * (k % 11), -292 + 65 * (k // 11)) for k in range(110)]
    drilled = cq.Workplane("XZ").rect(700, 700).pushPoints(holes).circle(9).extrude(6)
    for k in range(PLATES):  # stacked along the pin, either side of the cylinder
        y = (55 + 12 * (k // 2)) * (1 if k % 2 else -1)
        parts[f"plate {k + 1}"] = drilled.translate((250, y, -230))
    for k in range(BRACKETS):
        x, z = -110 + 90 * (k % 8), -800 - 90 * (k // 8)
        block = cq.Workplane("XY", origin=(x, 0, z)).box(60, 60, 40)
        parts[f"bracket {k + 1}"] = block.edges("|Y").fillet(8).faces(">Y").hole(12)
    parts["tray"] = cq.Workplane("XY", origin=(420, 0, 260)).box(500, 300, 20)
    return machine(flapping(moving='"tray"', step="crowded.step")), parts
