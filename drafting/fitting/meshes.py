"""Faces to triangles that know their face, and triangles to what answers how near they come."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from drafting.records import dataclass

FINE = 0.1
"""Millimetres that a triangle may lie off its face; nearer than twice that the kernel decides."""
TURN = 0.35
"""Radians between neighbouring triangles of a curved face."""
Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """Triangles of some faces; ``owner`` is the face of each triangle. ``body`` asks distances."""

    faces: tuple[Any, ...]
    points: Array
    owner: np.ndarray[Any, np.dtype[np.int64]]
    body: Any


def faces_of(shape: Any) -> list[Any]:
    """Give the faces of a shape."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    found, walk = [], TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while walk.More():
        found.append(TopoDS.Face_s(walk.Current()))
        walk.Next()
    return found


def compound(shapes: Sequence[Any]) -> Any:
    """Give shapes as one."""
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    whole, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(whole)
    for shape in shapes:
        builder.Add(whole, shape)
    return whole


def box_of(shape: Any) -> tuple[float, ...]:
    """Give the box round a shape, no smaller than it: three least, three greatest."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.Add_s(shape, box, False)
    a, b = box.CornerMin(), box.CornerMax()
    return a.X(), a.Y(), a.Z(), b.X(), b.Y(), b.Z()


def mesh(faces: Sequence[Any]) -> Mesh:
    """Give the triangles of faces, in millimetres where the faces are."""
    import fcl
    from OCP.BRep import BRep_Tool
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopLoc import TopLoc_Location

    BRepMesh_IncrementalMesh(compound(faces), FINE, False, TURN, True)
    points: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    owner: list[int] = []
    for n, face in enumerate(faces):
        where = TopLoc_Location()
        found = BRep_Tool.Triangulation_s(face, where)
        if found is None:
            continue
        move, first = where.Transformation(), len(points)
        for k in range(1, found.NbNodes() + 1):
            p = found.Node(k).Transformed(move)
            points.append((p.X(), p.Y(), p.Z()))
        for k in range(1, found.NbTriangles() + 1):
            a, b, c = found.Triangle(k).Get()
            triangles.append((first + a - 1, first + b - 1, first + c - 1))
            owner.append(n)
    at = np.asarray(points, float).reshape(-1, 3)
    body = fcl.BVHModel()
    body.beginModel(len(points), len(triangles))
    body.addSubModel(at, np.asarray(triangles, np.int64).reshape(-1, 3))
    body.endModel()
    return Mesh(tuple(faces), at, np.asarray(owner, np.int64), fcl.CollisionObject(body))


def put(m: Mesh, pose: Array) -> None:
    """Place a mesh for the next questions."""
    import fcl

    m.body.setTransform(fcl.Transform(np.ascontiguousarray(pose[:3, :3]), pose[:3, 3].copy()))


def touch(a: Mesh, b: Mesh) -> bool:
    """Tell whether triangles of two placed meshes meet."""
    import fcl

    return bool(fcl.collide(a.body, b.body, fcl.CollisionRequest(), fcl.CollisionResult()))


def apart(a: Mesh, b: Mesh) -> float:
    """Give how far two placed meshes are apart that do not meet, mm."""
    import fcl

    return float(fcl.distance(a.body, b.body, fcl.DistanceRequest(), fcl.DistanceResult()))
