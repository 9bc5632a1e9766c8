"""Faces to triangles, and triangles to what answers how near they come."""

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
Corners = np.ndarray[Any, np.dtype[np.int64]]


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """Triangles of some faces. ``body`` asks distances; ``bare`` counts faces without triangles."""

    faces: tuple[Any, ...]
    points: Array
    body: Any
    bare: int = 0


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

    at, triangles, bare = triangles_of(faces)
    body = fcl.BVHModel()
    body.beginModel(len(at), len(triangles))
    body.addSubModel(at, triangles)
    body.endModel()
    return Mesh(tuple(faces), at, fcl.CollisionObject(body), bare)


def triangles_of(faces: Sequence[Any]) -> tuple[Array, Corners, int]:
    """Give points, triangles that look outwards, and how many faces the kernel gave none of."""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_Orientation
    from OCP.TopLoc import TopLoc_Location

    _triangulate(compound(faces))
    points: list[tuple[float, float, float]] = []
    corners: list[tuple[int, int, int]] = []
    bare = 0
    for face in faces:
        where = TopLoc_Location()
        found = BRep_Tool.Triangulation_s(face, where)
        if found is None or not found.NbTriangles():
            bare += 1
            continue
        move, first = where.Transformation(), len(points) - 1
        for k in range(1, found.NbNodes() + 1):
            p = found.Node(k).Transformed(move)
            points.append((p.X(), p.Y(), p.Z()))
        back = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        for k in range(1, found.NbTriangles() + 1):
            a, b, c = found.Triangle(k).Get()
            corners.append((first + a, first + c, first + b) if back
                           else (first + a, first + b, first + c))  # fmt: skip
    at = np.asarray(points, float).reshape(-1, 3)
    return at, np.asarray(corners, np.int64).reshape(-1, 3), bare


def _triangulate(shape: Any) -> None:
    """Let the kernel make triangles its quicker way, which takes a third for a perforated plate."""
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.IMeshTools import IMeshTools_MeshAlgoType, IMeshTools_Parameters

    how = IMeshTools_Parameters()
    how.Deflection, how.Angle, how.InParallel = FINE, TURN, True
    how.MeshAlgo = IMeshTools_MeshAlgoType.IMeshTools_MeshAlgoType_Delabella
    BRepMesh_IncrementalMesh(shape, how)


def put(m: Mesh, pose: Array) -> None:
    """Place a mesh for the next questions."""
    _put(m.body, pose)


def _put(body: Any, pose: Array) -> None:
    import fcl

    body.setTransform(fcl.Transform(np.ascontiguousarray(pose[:3, :3]), pose[:3, 3].copy()))


def touch(a: Mesh, b: Mesh) -> bool:
    """Tell whether triangles of two placed meshes meet."""
    import fcl

    return bool(fcl.collide(a.body, b.body, fcl.CollisionRequest(), fcl.CollisionResult()))


def apart(a: Mesh, b: Mesh) -> float:
    """Give how far two placed meshes are apart that do not meet, mm."""
    import fcl

    return float(fcl.distance(a.body, b.body, fcl.DistanceRequest(), fcl.DistanceResult()))


def bar_touches(m: Mesh, pose: Array, radius: float, low: float, high: float) -> bool:
    """Tell whether a round bar along the pose's z, from ``low`` to ``high``, meets a mesh."""
    import fcl

    middle = np.eye(4)
    middle[2, 3] = (low + high) / 2
    bar = fcl.CollisionObject(fcl.Cylinder(radius, high - low))
    _put(bar, pose @ middle)
    put(m, np.eye(4))
    return bool(fcl.collide(bar, m.body, fcl.CollisionRequest(), fcl.CollisionResult()))
