"""What is looked at in a machine: our pieces, those faces of its solids that come near, the places.

Our parts are split into pieces by name and meshed; of the machine only faces that come near the
swept room are. At any place of the travel each has a pose.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from drafting.arrays import Flags
from drafting.errors import Refused
from drafting.fitting.clash import Metal
from drafting.fitting.clearance import AT_THE_PIN
from drafting.fitting.machine import Machine, Model
from drafting.fitting.meshes import Array, Mesh, box_of, faces_of, mesh
from drafting.fitting.poses import Seat, cylinder_poses, moved_pose, seat
from drafting.fitting.step_file import Solids
from drafting.fitting.stray import Stray, strays
from drafting.fitting.subject import Subject
from drafting.fitting.travel import crossings, place, span
from drafting.records import dataclass
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.face_names import piece_of
from drafting.spec.kinds import nearest

STEPS = 24
LOOK = 25.0
"""Millimetres beyond what is asked in which things are still named."""
INSIDE = ("piston", "stop tube")
ROOMS = {
    "keep_out": "fitting",
    "keep_out_stem": "fitting",
    "keep_out_hose": "hose",
    "keep_out_bend": "hose_bend",
}
"""What the pieces of the room over a port are called in a report."""


Box = tuple[float, ...]
"""Three least, three greatest."""


@dataclass(frozen=True, slots=True, eq=False)
class Thing:
    """A piece of ours: its part's place in the list, its mesh, its box at rest."""

    name: str
    part: int
    rod: bool
    asked: float
    mesh: Mesh
    box: tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class MachineSolid:
    """A solid of the machine, its faces and their boxes at rest."""

    name: str
    metal: Metal
    moves: bool
    box: Box
    faces: tuple[Any, ...]
    boxes: Array


@dataclass(frozen=True, slots=True, eq=False)
class Near:
    """Those faces of a solid that come near, meshed, and the box round them at rest."""

    solid: MachineSolid
    mesh: Mesh
    box: tuple[float, ...]


Poses = tuple[Array, Array, Array]
"""Of the body, the rod (parts at the closed position) and what moves with the arm."""


class Sight:
    """All that is looked at, and where it is at any place of the travel."""

    def __init__(self, s: Subject, m: Machine, solids: Solids) -> None:
        assert m.model is not None
        self.subject, self.machine = s, m
        self.seat: Seat = seat(s, m, solids)
        self.solids = _machine_solids(m, solids)
        self.parts = [p for p in (*s.cylinder.parts, *s.cylinder.phantoms) if p.name not in INSIDE]
        self.metals = [Metal(build_part(p), p) for p in self.parts]
        self.ats = _places(s, m)
        self.reach = max(m.model.clearance, m.model.hoses or 0.0) + LOOK
        self._poses: dict[float, Poses] = {}
        self.stray: Stray = strays(s, m, self.seat)
        boxes = [
            (p.owner == "rod", box_of(metal.shape))
            for p, metal in zip(self.parts, self.metals, strict=True)
        ]
        self.near = self.near_to(boxes, self.reach)
        self.things = [
            t for k, p in enumerate(self.parts)
            for t in _things(p, self.metals[k].shape, k, m.model)
        ]  # fmt: skip

    def poses(self, at: float) -> Poses:
        """Give where body, rod and arm are at a place."""
        if at not in self._poses:
            own = cylinder_poses(self.subject, self.seat, place(self.machine.way, at))
            self._poses[at] = (*own, moved_pose(self.machine, self.seat, at))
        return self._poses[at]

    def own(self, rod: bool, at: float) -> Array:
        """Give the pose of body or rod at a place."""
        return self.poses(at)[1 if rod else 0]

    def its(self, solid: MachineSolid, at: float) -> Array:
        """Give the pose of a machine's solid at a place."""
        return self.poses(at)[2] if solid.moves else np.eye(4)

    def seen(self, rod: bool, moves: bool, at: float) -> Array:
        """Give the pose of body or rod as a solid sees it that may have moved itself."""
        body, own_rod, arm = self.poses(at)
        own = own_rod if rod else body
        return np.linalg.inv(arm) @ own if moves else own

    def near_to(self, boxes: Sequence[tuple[bool, Box]], reach: float) -> list[Near]:
        """Mesh the machine's faces that come within ``reach`` of boxes that ride with body or rod.

        ``boxes`` are pairs: whether it is the rod's, and the box at the closed position.
        """
        found: list[Near] = []
        for moves in (False, True):
            group = [s for s in self.solids if s.moves == moves]
            if not group or not self.ats:
                continue
            close, first = _close(self, group, boxes, reach), 0
            for solid in group:
                some = close[first : first + len(solid.faces)]
                first += len(solid.faces)
                if not some.any():
                    continue
                made = mesh([f for f, k in zip(solid.faces, some, strict=True) if k])
                if len(made.points) or made.bare:
                    found.append(Near(solid, made, _box(made)))
        return found

    def bare(self) -> tuple[str, ...]:
        """Name the solids of which a near face has no triangles: it was not looked at."""
        return tuple(n.solid.name for n in self.near if n.mesh.bare)


def _places(s: Subject, m: Machine) -> tuple[float, ...]:
    """Give the places that are looked at: of the travel, those that the cylinder reaches."""
    a, b = span(m.way)
    ats = tuple(a + (b - a) * k / STEPS for k in range(STEPS + 1))
    ends = [
        at
        for end in (s.closed, s.open)
        for at in crossings(lambda at, end=end: place(m.way, at).length - end, ats)  # type: ignore[misc]
    ]
    every = sorted((*ats, *ends))
    reached = (s.closed - 1e-6, s.open + 1e-6)
    return tuple(at for at in every if reached[0] <= place(m.way, at).length <= reached[1])


def _machine_solids(m: Machine, solids: Solids) -> list[MachineSolid]:
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
        out.append(MachineSolid(name, Metal(shape), moves, box, faces, boxes))
    return out


def _close(
    v: Sight, group: list[MachineSolid], boxes: Sequence[tuple[bool, Box]], reach: float
) -> Flags:
    """Tell of each face whether its box comes near one of ours, as that one sees it.

    Our own box is tight however it leans; a face's is turned and grows by that, and by what ours
    moves to half way between two places.
    """
    at = np.concatenate([s.boxes for s in group])
    corners = np.stack(
        [at[:, [3 * (n >> k & 1) + k for k in range(3)]] for n in range(8)], axis=1
    )  # fmt: skip
    close = np.zeros(len(at), bool)
    moves = group[0].moves
    for k, here in enumerate(v.ats):
        beside = v.ats[max(k - 1, 0) : k] + v.ats[k + 1 : k + 2]
        for rod in {rod for rod, _ in boxes}:
            seen = np.linalg.inv(v.seen(rod, moves, here))
            there = corners @ seen[:3, :3].T + seen[:3, 3]
            low, high = there.min(1), there.max(1)
            for one, box in boxes:
                if one != rod:
                    continue
                ways = (sorted((here, other)) for other in beside)
                strays = (v.stray.between(rod, moves, box, a, b) for a, b in ways)
                room = reach + max(strays, default=0.0) / 2
                own = np.asarray(box)
                close |= np.all((low - room <= own[3:]) & (own[:3] <= high + room), axis=1)
    return close


def _box(m: Mesh) -> Box:
    if not len(m.points):
        return (np.inf,) * 3 + (-np.inf,) * 3
    return (*map(float, m.points.min(0)), *map(float, m.points.max(0)))


def _things(part: Part, shape: Any, k: int, model: Model) -> Iterable[Thing]:
    """Give the pieces of a part that have faces left, each meshed by itself."""
    groups: dict[str, list[Any]] = {}
    for face in faces_of(shape):
        piece = piece_of(face, part)
        if piece is not None and piece.cut and not _counts(piece.name):
            continue  # bores and threads inside: what comes to them has crossed the outside
        groups.setdefault(_called(piece.name if piece else part.name), []).append(face)
    for name, faces in groups.items():
        made = mesh(faces)
        if not len(made.points):
            continue
        if name.endswith(tuple(f".{w}" for w in ROOMS.values())):
            asked = model.hoses if model.hoses is not None else model.clearance
        else:
            asked = 0.0 if name.startswith(AT_THE_PIN) else model.clearance
        yield Thing(name, k, part.owner == "rod", asked, made, _box(made))


def _counts(cut: str) -> bool:
    """Tell whether the wall that a cut leaves is looked at: a pin's hole, the inside of a bend."""
    return cut.startswith(AT_THE_PIN) or "keep_out" in cut


def _called(name: str) -> str:
    """Give a piece's name in a report: the room over a port is that of a fitting or a hose."""
    table, _, piece = name.partition(".")
    word = ROOMS.get(piece.removesuffix("_inside"))
    return f"{table}.{word}" if word else name
