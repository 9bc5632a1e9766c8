"""Whether metal of ours and metal of the machine share space: sworn to by a point inside of both.

The point comes from the meshes' common body, or from where the kernel finds faces to cross; that it
lies in both, and how deep, is said by the pieces' closed forms and by the kernel. So no mesh and no
boolean of the kernel makes a clash that is none. The volume is that of the meshes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cached_property
from math import pi
from typing import Any

import numpy as np

from drafting.arrays import Flags
from drafting.fitting import exact
from drafting.fitting.meshes import Array, faces_of, triangles_of
from drafting.records import dataclass
from drafting.shape.body import body
from drafting.shape.pieces import Part

TOUCHING = 0.01
"""Millimetres: metal that overlaps by no more than this touches and does not clash."""
OIL = ("cylinder.bore", "cylinder.gland_bore", "cylinder.cap_recess", "cylinder.tube_room")
"""What is hollow and shut: a solid of the machine within it is struck, though no metal meets."""
MOST_LUMPS, MOST_POINTS = 4, 12
"""Pieces of the meshes' common body that are looked at, greatest first; points tried in each."""
STEPS, WAYS, MOST_MEETINGS = (0.02, 0.06, 0.2, 0.6, 1.8, 5.0), 400, 2
"""Round a place where faces meet, points are tried so far off (mm), in so many directions."""
WELD = 1e-6
"""Millimetres between points of neighbouring faces that are one."""


@dataclass(frozen=True, slots=True)
class Struck:
    """What is shared: a point (in the machine's solid at rest), how deep mm, about how much mm3."""

    at: tuple[float, ...]
    deep: float
    volume: float


class Metal:
    """A solid that is asked for clashes: its shape, and its closed mesh made when it is asked."""

    def __init__(self, shape: Any, part: Part | None = None) -> None:
        self.shape = shape
        self.part = part

    @cached_property
    def mesh(self) -> Any:
        """Give the closed mesh; None where the triangles do not close."""
        import manifold3d

        at, triangles, _ = triangles_of(faces_of(self.shape))
        _, first, same = np.unique(
            np.round(at / WELD).astype(np.int64), axis=0, return_index=True, return_inverse=True
        )
        welded = same.reshape(-1)[triangles]
        flat = (welded == np.roll(welded, 1, axis=1)).any(axis=1)
        made = manifold3d.Manifold(
            manifold3d.Mesh64(at[first], np.ascontiguousarray(welded[~flat], np.uint64))
        )
        return None if made.is_empty() else made

    def holds(self, point: Array) -> bool:
        """Tell whether a point lies in the metal, by the kernel."""
        return self._inside(point)

    @cached_property
    def _inside(self) -> Callable[[Array], bool]:
        return exact.insider(self.shape)

    def encloses(self, point: Array) -> bool:
        """Tell whether a point lies in a part of ours or in the oil within it."""
        assert self.part is not None
        full = replace(self.part, pieces=tuple(p for p in self.part.pieces if p.name not in OIL))
        return bool(body(full).inside(point[None, :])[0])

    def ours(self, points: Array) -> Flags:
        """Tell of each point whether it lies in a part of ours, by closed form."""
        assert self.part is not None
        return body(self.part).inside(points)


def struck(ours: Metal, theirs: Metal, pose: Array) -> Struck | None:
    """Tell what two solids share; ``pose`` puts ours where it is as the other one sees it."""
    found, volume = None, 0.0
    if ours.mesh is not None and theirs.mesh is not None:
        common = ours.mesh.transform(np.ascontiguousarray(pose[:3])) ^ theirs.mesh
        volume = float(common.volume())
        lumps = sorted(common.decompose(), key=lambda m: -m.volume())[:MOST_LUMPS]
        found = _sworn(ours, theirs, pose, [p for lump in lumps for p in _middles(lump)])
    if found is None:
        found = _sworn(ours, theirs, pose, _around(ours, theirs, pose))
    if found is None:
        return None
    at, deep = found
    return Struck(tuple(map(float, at)), deep, max(volume, 4 / 3 * pi * deep**3))


def _sworn(
    ours: Metal, theirs: Metal, pose: Array, points: list[Array]
) -> tuple[Array, float] | None:
    """Give the first point that lies deep enough in both, and how deep."""
    if not points:
        return None
    back = exact.undone(pose)
    for p in np.array(points)[ours.ours(exact.moved(np.array(points), back))]:
        if not theirs.holds(p):
            continue
        deep = min(exact.depth(theirs.shape, p), exact.depth(ours.shape, exact.moved(p, back)))
        if 2 * deep > TOUCHING:
            return p, deep
    return None


def _middles(lump: Any) -> list[Array]:
    """Give middles of chords that run inwards from a mesh's triangles, longest chord first."""
    made = lump.to_mesh64()
    at = np.asarray(made.vert_properties)[:, :3]
    corners = at[np.asarray(made.tri_verts, np.int64)]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = np.linalg.norm(normal, axis=1)
    far = float(np.ptp(at, axis=0).max()) + 1.0
    chords = []
    for k in np.argsort(-area)[: 2 * MOST_POINTS]:
        if area[k] <= 0.0:
            continue
        n = normal[k] / area[k]
        start = corners[k].mean(axis=0) - exact.HAIR * n
        hits = lump.ray_cast(tuple(start), tuple(start - far * n))
        if hits:
            run = float(hits[0].distance) * far
            chords.append((run, start - run / 2 * n))
    chords.sort(key=lambda c: -c[0])
    return [p for _, p in chords[:MOST_POINTS]]


def _around(ours: Metal, theirs: Metal, pose: Array) -> list[Array]:
    """Give points round where the kernel finds faces to meet: a shallow lens hides from meshes."""
    gap, where = exact.nearest_points(exact.placed(ours.shape, pose), theirs.shape)
    if not gap < TOUCHING:
        return []
    k = np.arange(WAYS) + 0.5
    lean, turn = np.arccos(1 - 2 * k / WAYS), pi * (1 + 5**0.5) * k
    ways = np.stack([np.cos(turn) * np.sin(lean), np.sin(turn) * np.sin(lean), np.cos(lean)], 1)
    return [p + step * way for p in where[:MOST_MEETINGS] for step in STEPS for way in ways]
