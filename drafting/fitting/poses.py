"""From the plane of the arm to the machine's model: where cylinder and arm are at each place.

A pose is 4 x 4, millimetres: what it is put on, in the model's coordinates.
"""

from __future__ import annotations

from math import cos, hypot, radians, sin
from typing import Any

import numpy as np

from drafting.errors import Fault, Refused
from drafting.fitting.machine import Distance, Hinge, Machine, Slide
from drafting.fitting.step_file import Solids
from drafting.fitting.subject import Subject
from drafting.fitting.travel import Place, place, span
from drafting.records import dataclass
from drafting.spec.kinds import nearest

Pose = np.ndarray[Any, np.dtype[np.float64]]
NEAR = 0.5
"""Millimetres, and half a per mille of the length: pins that lie so near lie where they are said.
Whole millimetres are read off a model."""
INCH = 25.4


@dataclass(frozen=True, slots=True)
class Seat:
    """Where the plane of the arm lies in the model: its x and y, the pin's direction, the base pin.

    ``up`` is +1 where the cylinder's 12 o'clock looks to the left of the way from base to rod
    (seen by the reader), -1 where it looks to the right.
    """

    base: Pose
    x: Pose
    y: Pose
    axis: Pose
    origin: tuple[float, float]
    up: float
    start: float

    def point(self, p: tuple[float, float]) -> Pose:
        """Give a point of the plane in the model."""
        dx, dy = p[0] - self.origin[0], p[1] - self.origin[1]
        return np.asarray(self.base + dx * self.x + dy * self.y)


def seat(s: Subject, m: Machine, solids: Solids) -> Seat:
    """Find where the cylinder lies in the model; raises Refused where that cannot be."""
    model = m.model
    assert model is not None
    ends = [_datum(m, solids, name, getattr(model, name)) for name in ("base_pin", "rod_pin")]
    axis = np.asarray(model.axis, float) / hypot(*model.axis)
    run = ends[1] - ends[0]
    off = float(run @ axis)
    flat = run - off * axis
    first = place(m.way, span(m.way)[0])
    faults = _where(m, float(np.linalg.norm(flat)), off, first, solids)
    if faults:
        raise Refused(faults)
    ahead = flat / np.linalg.norm(flat)
    left = np.cross(axis, ahead)
    u = first.unit
    x, y = u[0] * ahead - u[1] * left, u[1] * ahead + u[0] * left
    up = 1.0
    if model.up is not None:
        up = _up(s, m, np.asarray(model.up, float), left, axis)
    base = ends[0] + model.lateral * axis
    return Seat(base, x, y, axis, first.base, up, first.at)


def _datum(m: Machine, solids: Solids, name: str, at: tuple[float, ...] | str) -> Pose:
    if not isinstance(at, str):
        return np.asarray(at, float)
    if at in solids.faces:
        return np.asarray(solids.faces[at][:3], float)
    tip = nearest(at, solids.faces) if solids.faces else "no round face has a name; type [x, y, z]"
    raise Refused(
        [m.fault("no-such-face", "model", name, f'no round face is called "{at}"; {tip}')]
    )


def _where(m: Machine, there: float, off: float, first: Place, solids: Solids) -> list[Fault]:
    """Refuse pins that do not lie as far apart as the machine says at the start."""
    room = NEAR + 5e-4 * first.length
    if abs(there - first.length) <= room:
        if abs(off) <= room:
            return []
        text = (
            f"along the pins it lies {off:.1f} mm beside the base pin; the cylinder would stand "
            "askew: give both in one plane square to axis"
        )
        return [m.fault("pins-askew", "model", "rod_pin", text)]
    said = (
        f"{there:.1f} mm from the base pin in the model, {first.length:.1f} mm at the start of the "
        "travel by this file"
    )
    for ratio, smell in ((INCH, "in inches"), (1 / INCH, "read as inches")):
        if there and abs(there / first.length / ratio - 1.0) < 0.02:
            way = "too large" if ratio > 1 else "too small"
            said += f": 25.4 times {way}, smells of inches: one of the two files is {smell}"
    return [m.fault("pins-elsewhere", "model", "rod_pin", said)]


def _up(s: Subject, m: Machine, up: Pose, left: Pose, axis: Pose) -> float:
    """Say to which side 12 o'clock looks; of pins along 12 o'clock, to which end of the pin."""
    across = axis if _along_clock(s) else left
    side = float(up @ across)
    if abs(side) < 0.1 * float(np.linalg.norm(up)):
        words = "along the pin" if _along_clock(s) else "square to pin and cylinder"
        text = f"12 o'clock of this cylinder looks {words}; up lies square to that"
        raise Refused([m.fault("up-askew", "model", "up", text)])
    return 1.0 if side > 0.0 else -1.0


def _along_clock(s: Subject) -> bool:
    return "z" in (mount.axis for mount in s.mounts)


def cylinder_poses(s: Subject, seat: Seat, p: Place) -> tuple[Pose, Pose]:
    """Give the poses of body and rod at a place; the rod's is for parts at the closed position."""
    ahead = p.unit[0] * seat.x + p.unit[1] * seat.y
    left = np.cross(seat.axis, ahead)
    z = seat.up * (seat.axis if _along_clock(s) else left)
    y = np.cross(z, ahead)
    body = np.eye(4)
    body[:3, 0], body[:3, 1], body[:3, 2], body[:3, 3] = ahead, y, z, seat.base
    rod = body.copy()
    rod[:3, 3] += (p.length - s.closed) * ahead
    return body, rod


def moved_pose(m: Machine, seat: Seat, at: float) -> Pose:
    """Give how far the arm or carriage has moved from where the model shows it."""
    pose = np.eye(4)
    by = at - seat.start
    way = m.way
    if isinstance(way, Hinge):
        c, s = cos(radians(by)), sin(radians(by))
        k = seat.axis
        cross = np.array([[0, -k[2], k[1]], [k[2], 0, -k[0]], [-k[1], k[0], 0]])
        turn = np.eye(3) + s * cross + (1 - c) * (cross @ cross)
        centre = seat.point(way.at)
        pose[:3, :3] = turn
        pose[:3, 3] = centre - turn @ centre
    elif isinstance(way, Slide):
        pose[:3, 3] = by * (way.along[0] * seat.x + way.along[1] * seat.y)
    else:
        assert isinstance(way, Distance)
        pose[:3, 3] = by * seat.x
    return pose
