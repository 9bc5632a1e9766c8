"""The room straight out of a port that names no fitting, as far as one of its size would reach.

A round bar as wide as the fitting's nut stands on the port and rides with it; the least of it that
stays free over the travel is told. It is looked for at the places of the travel alone.
"""

from __future__ import annotations

import numpy as np

from drafting.fitting import exact
from drafting.fitting.clearance import Ahead
from drafting.fitting.meshes import bar_touches
from drafting.fitting.sight import Sight
from drafting.model.ports.hose_room import Outward, outward
from drafting.model.ports.port import Port
from drafting.shape.frame import along

HALVINGS = 12
"""Of the length: a four thousandth of it is told."""
OFF = 0.2
"""Millimetres from the port's face, so that what the port sits flush with is not in its way."""


def ahead(v: Sight) -> tuple[Ahead, ...]:
    """Look straight out of each port without a fitting."""
    c = v.subject.cylinder
    found = []
    for port in c.ports:
        asked = outward(port, c.spec.units)
        if asked is not None and c.spec.word(f"{port.table}.fitting") is None and v.ats:
            found.append(_free(v, port, asked))
    return tuple(found)


def _free(v: Sight, port: Port, asked: Outward) -> Ahead:
    frame = along(port.normal, port.tip)
    pose = np.eye(4)
    for k, column in enumerate((frame.y, frame.z, frame.x, port.tip)):
        pose[:3, k] = column  # the bar stands along its own z
    box = exact.corners(
        (-asked.wide, -asked.wide, 0.0, asked.wide, asked.wide, asked.straight), pose
    )
    free, solid, where = asked.straight, "", 0.0
    for near in v.near_to([(False, box)], 0.0):
        for at in v.ats:
            there = v.seen(False, near.solid.moves, at) @ pose
            if not bar_touches(near.mesh, there, asked.wide, OFF, free):
                continue
            low, high = OFF, free
            for _ in range(HALVINGS):
                mid = (low + high) / 2
                struck = bar_touches(near.mesh, there, asked.wide, OFF, mid)
                low, high = (low, mid) if struck else (mid, high)
            free, solid, where = low, near.solid.name, at
    return Ahead(port.table, free, asked, solid, where)
