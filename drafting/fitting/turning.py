"""How far a fitting, a head or the whole cylinder would have to be turned for its ports to clear.

Tried in this order, the least turn first: the fitting about its port, by hours of the clock; the
whole cylinder half round about its axis, where both mounts let it; the head of a tie rod cylinder
by quarters (the cap carries the base mount). A welded boss does not turn; at which hour it would
clear is told for whoever has it made. A turn counts where it clears for the whole travel by the
meshes, and where what is turned does not run into our own cylinder.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, radians, sin

import numpy as np

from drafting.fitting import exact
from drafting.fitting.clearance import Clearance, Turn
from drafting.fitting.meshes import FINE, Array, put, touch
from drafting.fitting.sight import ROOMS, Near, Sight, Thing
from drafting.fitting.sweep import MOST_LOOKS, Pair, between
from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.replacing.mounts import BALL, EYE, FORK, family
from drafting.settle.clock import hour
from drafting.shape.frame import X

HOURS = tuple(s * 30.0 * k for k in range(1, 7) for s in (1, -1))[:-1]
"""Turns by hours, the least first; half round once."""
QUARTERS = (90.0, -90.0, 180.0)


@dataclass(frozen=True, slots=True, eq=False)
class _Way:
    """What is turned about what, by which angles; clockwise seen against the axis."""

    what: str
    things: tuple[Thing, ...]
    axis: Array
    through: Array
    angles: tuple[float, ...]


def turns(v: Sight, found: Sequence[Clearance]) -> tuple[Turn, ...]:
    """Give one turn for each port with something in its way, where one is found."""
    bad = [c for c in found if c.clash or c.gap < c.asked]
    out = []
    for port in v.subject.cylinder.ports:
        mine = [c for c in bad if c.piece.startswith(f"{port.table}.")]
        if not mine:
            continue
        for way in _ways(v, port, mine, bad):
            turn = _least(v, port, way)
            if turn is not None:
                out.append(turn)
                break
    return tuple(out)


def _ways(
    v: Sight, port: Port, mine: Sequence[Clearance], bad: Sequence[Clearance]
) -> Iterator[_Way]:
    own = tuple(t for t in v.things if t.name.startswith(f"{port.table}."))
    rooms = tuple(f"{port.table}.{word}" for word in set(ROOMS.values()))
    fitting = tuple(t for t in own if t.name in rooms)
    origin, along = np.zeros(3), np.asarray(X)
    if fitting and all(c.piece in rooms for c in mine):
        yield _Way("fitting", fitting, np.asarray(port.normal), np.asarray(port.tip), HOURS)
    c = v.subject.cylinder
    if _turns_round(v) and all("_port" in b.piece for b in bad):
        yield _Way("whole", tuple(v.things), along, origin, (180.0,))
    if port.part == "head" and c.spec.word("cylinder.construction") == "tie rod":
        yield _Way("head", own, along, origin, QUARTERS)
    elif port.sizes.facing == "out":
        yield _Way("made", own, along, origin, HOURS)


def _turns_round(v: Sight) -> bool:
    """Tell whether both mounts are the same half round: loose pins, trunnions."""
    words = v.subject.cylinder.mounts
    kinds = (family(end, words[end]) for end in ("body", "rod"))
    return all(k in (FORK, EYE, BALL, "trunnion") for k in kinds)


def _least(v: Sight, port: Port, way: _Way) -> Turn | None:
    matrices = {a: _about(way.axis, way.through, -a) for a in way.angles}
    boxes = []
    for thing in way.things:
        seen = [exact.corners(thing.box, m) for m in matrices.values()]
        low, high = np.min([b[:3] for b in seen], axis=0), np.max([b[3:] for b in seen], axis=0)
        boxes.append((thing.rod, (*map(float, low), *map(float, high))))
    near = v.near_to(boxes, v.reach)
    for angle, matrix in matrices.items():
        if way.what != "whole" and _hits_ourselves(v, way, matrix):
            continue
        left = _left(v, way, near, matrix)
        if left is not None:
            return Turn(port.table, way.what, angle, left, _said(v, port, way.what, angle))
    return None


def _about(axis: Array, through: Array, degrees: float) -> Array:
    """Give the pose of a turn, counter-clockwise seen against the axis."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    x, y, z = axis
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    pose = np.eye(4)
    pose[:3, :3] = np.eye(3) + s * cross + (1 - c) * (cross @ cross)
    pose[:3, 3] = through - pose[:3, :3] @ through
    return pose


def _left(v: Sight, way: _Way, near: Sequence[Near], turn: Array) -> float | None:
    """Give what is left beyond what is asked, over the whole travel; None where it is too near."""
    left = v.reach  # what is farther was not gathered
    for thing in way.things:
        asked = thing.asked + 2 * FINE
        left = min(left, v.reach - thing.asked)
        for one in near:
            pair = Pair(v, thing, one, turn)
            least = np.inf
            for at in v.ats:
                least = min(least, pair.look(at, min(least, asked + FINE)))
                if least < asked:
                    return None
            _, step, _ = between(pair, v.ats, least, MOST_LOOKS)
            if step:
                return None
            left = min(left, least - thing.asked)
    return float(left) - 2 * FINE


def _hits_ourselves(v: Sight, way: _Way, turn: Array) -> bool:
    """Tell whether what is turned meets other pieces of the cylinder; its seat it may touch."""
    names = {t.name for t in way.things}
    table = way.things[0].name.partition(".")[0]
    for thing in way.things:
        hose = thing.name.endswith((".hose", ".hose_bend"))
        others = [
            o for o in v.things
            if o.name not in names
            and not o.name.startswith(f"{table}.")
            and (hose or not o.name.startswith("cylinder."))
        ]  # fmt: skip
        put(thing.mesh, turn)
        for other in others:
            for at in v.ats if other.rod else v.ats[:1]:
                body, rod, _ = v.poses(at)
                put(other.mesh, exact.undone(body) @ rod if other.rod else np.eye(4))
                if touch(thing.mesh, other.mesh):
                    return True
    return False


def _said(v: Sight, port: Port, what: str, angle: float) -> str:
    name = port.table.replace("_", " ")
    if what == "fitting":
        was = v.subject.cylinder.value(f"{port.table}.fitting_clock")
        now = (float(was.value) + angle) % 360.0 if was is not None else 0.0
        clock = f' ({port.table}.fitting_clock = "{hour(now)}")'
        way = "clockwise" if angle > 0 else "counter-clockwise"
        return f"turn the fitting of the {name} {abs(angle):g} degrees {way}, looking at it{clock}"
    if what == "whole":
        return "turn the whole cylinder half round about its axis; the pins stay"
    if what == "head":
        way = "clockwise" if angle > 0 else "counter-clockwise"
        return (
            f"turn the head {abs(angle):g} degrees {way} seen from the rod end, on its tie rods; "
            "tie rods tightened anew to the builder's torque, by whoever may"
        )
    return (
        f"a welded boss does not turn: have it made with the {name} at "
        f"{hour((port.clock + angle) % 360.0)} seen from the rod end"
    )
