"""The cylinder swung through the travel inside the machine's solids: what is near, what is struck.

Faces near the swept room are meshed and asked at each place; the nearest place and the first clash
of each pair are confirmed by the kernel. Meshes lie within a tenth of a millimetre of their faces,
so that what they find nearer than twice that, and every clash, is the kernel's to decide. Between
two places that are looked at nothing is asked.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import numpy as np

from drafting.errors import Refused
from drafting.fitting import exact
from drafting.fitting.clearance import AT_THE_PIN, Clearance, Room
from drafting.fitting.machine import Machine, Model
from drafting.fitting.meshes import (
    FINE,
    Array,
    Mesh,
    apart,
    box_of,
    compound,
    faces_of,
    mesh,
    put,
    touch,
)
from drafting.fitting.poses import Seat, cylinder_poses, moved_pose, seat
from drafting.fitting.step_file import Solids, read_solids
from drafting.fitting.subject import Subject
from drafting.fitting.travel import Place, place, span
from drafting.records import dataclass
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.face_names import piece_of
from drafting.spec.kinds import nearest

STEPS = 24
LOOK = 25.0
"""Millimetres beyond what is asked in which things are still named."""
TOUCHING = 1.0
"""Shared volume (mm3) below which two things touch and do not clash."""
MOST_EXACT = 8
"""Pairs clear by more than a millimetre that the kernel confirms, nearest first; the others keep
what the mesh found. All that are nearer are confirmed."""
HOLE = 300.0
"""Millimetres along the pin in which its hole is looked for."""
PINNED, SQUARE = 0.6, 0.999
"""How far (mm) a hole's axis may lie beside the pin, and how much of its direction is the pin's."""
INSIDE = ("piston", "stop tube")


@dataclass(frozen=True, slots=True, eq=False)
class _Thing:
    """A piece of ours: its part's place in the list, its mesh, its box at rest."""

    name: str
    part: int
    rod: bool
    asked: float
    mesh: Mesh
    box: tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Solid:
    name: str
    shape: Any
    moves: bool
    box: tuple[float, ...]
    faces: tuple[Any, ...]
    boxes: Array


@dataclass(frozen=True, slots=True, eq=False)
class _Near:
    """Those faces of a solid that come near, meshed, and the box round them at rest."""

    solid: _Solid
    mesh: Mesh
    box: tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Sight:
    """All that is looked at: parts and their shapes, things, near faces, places and their poses."""

    parts: list[Part]
    shapes: list[Any]
    things: list[_Thing]
    near: list[_Near]
    places: list[Place]
    poses: list[tuple[Array, Array, Array]]
    reach: float

    def own(self, rod: bool, k: int) -> Array:
        """Give the pose of body or rod at a place."""
        return self.poses[k][1 if rod else 0]

    def its(self, solid: _Solid, k: int) -> Array:
        """Give the pose of a machine's solid at a place."""
        return self.poses[k][2] if solid.moves else np.eye(4)


@dataclass(frozen=True, slots=True)
class _Seen:
    """What the meshes saw of a thing and a solid: the least gap, its place, where they meet."""

    thing: int
    near: int
    gap: float
    place: int
    meets: tuple[int, ...]


def room(s: Subject, m: Machine, keep: Path | None = None) -> Room:
    """Read the machine's model and look through it; raises Refused for a model that cannot be."""
    assert m.model is not None
    solids = read_solids(m, keep)
    return look(s, m, solids)


def look(s: Subject, m: Machine, solids: Solids) -> Room:
    """Look at the travel in a machine whose solids are read."""
    model = m.model
    assert model is not None
    where = seat(s, m, solids)
    machine = _machine_solids(m, solids)
    parts = [p for p in (*s.cylinder.parts, *s.cylinder.phantoms) if p.name not in INSIDE]
    shapes = [build_part(p) for p in parts]
    places = _places(s, m)
    reach = max(model.clearance, model.hoses or 0.0) + LOOK
    poses = [(*cylinder_poses(s, where, p), moved_pose(m, where, p.at)) for p in places]
    boxes = [box_of(shape) for shape in shapes]
    near = _near(machine, parts, boxes, poses, reach)
    things = [t for k, p in enumerate(parts) for t in _things(p, shapes[k], k, model)]
    sight = _Sight(parts, shapes, things, near, places, poses, reach)
    done = _confirmed(sight, _sweep(sight))
    swallowed = _contained(sight, machine, done)
    order = _once(sorted((*done, *swallowed), key=lambda c: (-c.clash, c.gap - c.asked)))
    loose = tuple(_unpinned(m, where, machine))
    return Room(where, solids, order, tuple(p.at for p in places), reach, loose)


def _once(found: list[Clearance]) -> tuple[Clearance, ...]:
    """Give each piece and solid once: what stands first of them."""
    once: dict[tuple[str, str], Clearance] = {}
    for c in found:
        once.setdefault((c.piece, c.solid), c)
    return tuple(once.values())


def _places(s: Subject, m: Machine) -> list[Place]:
    """Give the places that are looked at: of the travel, those that the cylinder reaches."""
    a, b = span(m.way)
    all_ = [place(m.way, a + (b - a) * k / STEPS) for k in range(STEPS + 1)]
    return [p for p in all_ if s.closed - 1e-6 <= p.length <= s.open + 1e-6]


def _machine_solids(m: Machine, solids: Solids) -> list[_Solid]:
    model = m.model
    assert model is not None
    bare = {n.partition("#")[0] for n in solids.names}
    unknown = [w for w in model.moving if w not in bare and w not in solids.names]
    if unknown:
        raise Refused([
            m.fault("no-such-solid", "model", "moving",
                    f'no solid is called "{w}"; {nearest(w, sorted(bare))}')
            for w in unknown
        ])  # fmt: skip
    out = []
    for name, shape in zip(solids.names, solids.shapes, strict=True):
        faces = tuple(faces_of(shape))
        boxes = np.array([box_of(f) for f in faces], float)
        moves = name in model.moving or name.partition("#")[0] in model.moving
        box = (*map(float, boxes[:, :3].min(0)), *map(float, boxes[:, 3:].max(0)))
        out.append(_Solid(name, shape, moves, box, faces, boxes))
    return out


def _relative(solid: _Solid, poses: tuple[Array, Array, Array], rod: bool) -> Array:
    """Give our pose as a solid sees it that may have moved itself."""
    own = poses[1] if rod else poses[0]
    return np.linalg.inv(poses[2]) @ own if solid.moves else own


def _near(
    machine: list[_Solid],
    parts: list[Part],
    boxes: list[tuple[float, ...]],
    poses: list[tuple[Array, Array, Array]],
    reach: float,
) -> list[_Near]:
    """Mesh those faces of each solid that come near the swept room."""
    found = []
    for moves in (False, True):
        group = [s for s in machine if s.moves == moves]
        if not group or not poses:
            continue
        close = _close(group, parts, boxes, poses, reach)
        first = 0
        for solid in group:
            some = close[first : first + len(solid.faces)]
            first += len(solid.faces)
            if not some.any():
                continue
            made = mesh([f for f, k in zip(solid.faces, some, strict=True) if k])
            if len(made.owner):
                found.append(_Near(solid, made, _box(made)))
    return found


def _close(
    group: list[_Solid],
    parts: list[Part],
    boxes: list[tuple[float, ...]],
    poses: list[tuple[Array, Array, Array]],
    reach: float,
) -> np.ndarray[Any, np.dtype[np.bool_]]:
    """Tell of each face whether its box comes near the box of a part, as that part sees it.

    A part's own box is tight round it however it leans; a face's is turned and grows by that.
    """
    at = np.concatenate([s.boxes for s in group])
    ends = at.reshape(-1, 2, 3)
    corners = np.stack(
        [np.stack([ends[:, n >> k & 1, k] for k in range(3)], axis=-1) for n in range(8)], axis=1
    )
    close = np.zeros(len(at), bool)
    for pose in poses:
        for rod in (False, True):
            seen = np.linalg.inv(_relative(group[0], pose, rod))
            there = corners @ seen[:3, :3].T + seen[:3, 3]
            low, high = there.min(1) - reach, there.max(1) + reach
            for part, box in zip(parts, boxes, strict=True):
                if (part.owner == "rod") == rod:
                    b = np.asarray(box)
                    close |= np.all((low <= b[3:]) & (b[:3] <= high), axis=1)
    return close


def _box(m: Mesh) -> tuple[float, ...]:
    return (*map(float, m.points.min(0)), *map(float, m.points.max(0)))


def _things(part: Part, shape: Any, k: int, model: Model) -> Iterable[_Thing]:
    """Give the pieces of a part that have faces left, each meshed by itself."""
    groups: dict[str, list[Any]] = {}
    for face in faces_of(shape):
        piece = piece_of(face, part)
        if piece is not None and piece.cut and not piece.name.startswith(AT_THE_PIN):
            continue  # bores and threads inside: what comes to them has crossed the outside
        groups.setdefault(piece.name if piece else part.name, []).append(face)
    for name, faces in groups.items():
        made = mesh(faces)
        if not len(made.owner):
            continue
        if "keep_out" in name:
            asked = model.hoses if model.hoses is not None else model.clearance
        else:
            asked = 0.0 if name.startswith(AT_THE_PIN) else model.clearance
        yield _Thing(name, k, part.owner == "rod", asked, made, _box(made))


def _sweep(v: _Sight) -> list[_Seen]:
    """Ask the meshes at every place."""
    least: dict[tuple[int, int], tuple[float, int]] = {}
    meets: dict[tuple[int, int], list[int]] = {}
    for k in range(len(v.places)):
        own = [exact.corners(t.box, v.own(t.rod, k)) for t in v.things]
        its = [exact.corners(n.box, v.its(n.solid, k)) for n in v.near]
        for thing in v.things:
            put(thing.mesh, v.own(thing.rod, k))
        for n, near in enumerate(v.near):
            put(near.mesh, v.its(near.solid, k))
            for t, thing in enumerate(v.things):
                before = least.get((t, n), (v.reach, 0))[0]
                if not exact.boxes_meet(own[t], its[n], before):
                    continue
                if touch(thing.mesh, near.mesh):
                    meets.setdefault((t, n), []).append(k)
                    least[t, n] = (0.0, k)
                    continue
                gap = apart(thing.mesh, near.mesh)
                if gap < before:
                    least[t, n] = (gap, k)
    return [_Seen(t, n, gap, k, tuple(meets.get((t, n), ()))) for (t, n), (gap, k) in least.items()]


def _confirmed(v: _Sight, seen: list[_Seen]) -> list[Clearance]:
    """Let the kernel decide what struck, what is near, and the nearest of the rest."""
    out = []
    volumes: dict[tuple[int, int, int], float] = {}
    order = sorted(seen, key=lambda s: s.gap - v.things[s.thing].asked)
    for count, s in enumerate(order):
        thing, near = v.things[s.thing], v.near[s.near]
        if not s.meets and s.gap > thing.asked + 10 * FINE and count >= MOST_EXACT:
            out.append(_clear(v, s, s.gap, s.place, False))
            continue
        struck = _struck(v, s, volumes)
        if struck is not None:
            k, volume = struck
            out.append(
                Clearance(
                    thing.name, near.solid.name, 0.0, v.places[k].at, thing.asked, volume, True
                )
            )
            continue
        beside = (s.place - 1, s.place + 1) if s.gap < thing.asked + 10 * FINE else ()
        # The mesh may err by which of two neighbouring places is the nearer.
        ks = sorted({s.place, *(k for k in beside if 0 <= k < len(v.places)), *_some(s.meets)})
        gaps = [(_exact_gap(v, s, k), k) for k in ks]
        gap, k = min(gaps)
        out.append(_clear(v, s, gap, k, True))
    return out


def _clear(v: _Sight, s: _Seen, gap: float, k: int, confirmed: bool) -> Clearance:
    thing, near = v.things[s.thing], v.near[s.near]
    return Clearance(thing.name, near.solid.name, gap, v.places[k].at, thing.asked, 0.0, confirmed)


def _some(ks: tuple[int, ...]) -> tuple[int, ...]:
    """Give the first, the middle and the last."""
    return () if not ks else (ks[0], ks[len(ks) // 2], ks[-1])


def _struck(
    v: _Sight, s: _Seen, volumes: dict[tuple[int, int, int], float]
) -> tuple[int, float] | None:
    """Give the first place at which solids share metal, of those where the meshes meet."""
    part, near = v.things[s.thing].part, v.near[s.near]
    # Where nothing is asked a touch would pass: there no place may be left out.
    for k in _some(s.meets) if v.things[s.thing].asked else s.meets:
        key = (part, s.near, k)
        if key not in volumes:
            own = exact.placed(v.shapes[part], v.own(v.parts[part].owner == "rod", k))
            volumes[key] = exact.shared(own, exact.placed(near.solid.shape, v.its(near.solid, k)))
        if volumes[key] >= TOUCHING:
            return k, volumes[key]
    return None


def _exact_gap(v: _Sight, s: _Seen, k: int) -> float:
    thing, near = v.things[s.thing], v.near[s.near]
    own = exact.placed(compound(thing.mesh.faces), v.own(thing.rod, k))
    faces = [exact.placed(f, v.its(near.solid, k)) for f in near.mesh.faces]
    return exact.distance(own, exact.near_faces(faces, own, s.gap + 4 * FINE))


def _contained(v: _Sight, machine: list[_Solid], done: list[Clearance]) -> list[Clearance]:
    """Find parts wholly inside a solid, or a solid wholly inside a part: no faces meet there."""
    out: list[Clearance] = []
    if not v.places:
        return out
    for k, part in enumerate(v.parts):
        own = exact.placed(v.shapes[k], v.own(part.owner == "rod", 0))
        names = {t.name for t in v.things if t.part == k}
        for solid in machine:
            if any(c.clash and c.solid == solid.name and c.piece in names for c in done):
                continue
            its = exact.placed(solid.shape, v.its(solid, 0))
            if exact.holds(its, own) or exact.holds(own, its):
                volume = exact.shared(own, its)
                if volume >= TOUCHING:
                    name = min(names, default=part.name)
                    out.append(Clearance(name, solid.name, 0.0, v.places[0].at, 0.0, volume, True))
    return out


def _unpinned(m: Machine, where: Seat, machine: list[_Solid]) -> Iterable[str]:
    """Name the pins about which no round face of the machine lies."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType

    start = place(m.way, where.start)
    for name, p in (("base_pin", start.base), ("rod_pin", start.rod)):
        at = where.point(p)
        for solid in machine:
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
                if beside < PINNED and abs(way @ where.axis) > SQUARE:
                    break
            else:
                continue
            break
        else:
            yield name
