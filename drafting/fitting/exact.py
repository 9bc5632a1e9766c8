"""What the kernel says of shapes: distances, and whether a point lies in metal.

Never what two solids share: the kernel's common solid is not dependable. Of a cone that stands in a
tube it may be empty where thousands of cubic millimetres are shared. Nor does a distance above 0
prove that faces do not cross: of a ball 1.3 mm deep in a tube it was 0.5 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from drafting.fitting.meshes import Array, box_of, compound, faces_of

HAIR = 1e-6
"""Millimetres: points nearer to a face than that lie on it."""


def placed(shape: Any, pose: Array) -> Any:
    """Give a shape at a pose."""
    from OCP.gp import gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    move = gp_Trsf()
    move.SetValues(*(float(v) for v in pose[:3].ravel()))
    return shape.Moved(TopLoc_Location(move))


def distance(a: Any, b: Any) -> float:
    """Give the least distance of two shapes' faces, mm."""
    return nearest_points(a, b)[0]


def nearest_points(a: Any, b: Any) -> tuple[float, list[Array]]:
    """Give the least distance of two shapes (mm), and where it is on the first."""
    from OCP.BRepExtrema import BRepExtrema_DistShapeShape

    found = BRepExtrema_DistShapeShape(a, b)
    if not found.IsDone():
        return float("nan"), []
    points = [found.PointOnShape1(k) for k in range(1, found.NbSolution() + 1)]
    return float(found.Value()), [np.array([p.X(), p.Y(), p.Z()]) for p in points]


def near_faces(faces: Sequence[Any], around: Any, room: float) -> Any:
    """Give those faces whose boxes come within ``room`` mm of the box of a shape, as one."""
    box = box_of(around)
    found = [f for f in faces if boxes_meet(box_of(f), box, room)]
    return compound(found or faces)


def boxes_meet(a: Sequence[float], b: Sequence[float], room: float) -> bool:
    """Tell whether two boxes come within ``room`` mm of each other."""
    return all(a[k] - room <= b[k + 3] and b[k] - room <= a[k + 3] for k in range(3))


def boxes_apart(a: Sequence[float], b: Sequence[float]) -> float:
    """Give how far two boxes are apart, mm; 0 where they meet."""
    gaps = (max(a[k] - b[k + 3], b[k] - a[k + 3], 0.0) for k in range(3))
    return float(sum(g * g for g in gaps) ** 0.5)


def insider(solid: Any) -> Callable[[Array], bool]:
    """Give what tells whether a point lies inside a solid, made ready for many points."""
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.gp import gp_Pnt
    from OCP.TopAbs import TopAbs_State

    ready = BRepClass3d_SolidClassifier(solid)

    def inside(point: Array) -> bool:
        ready.Perform(gp_Pnt(*map(float, point)), HAIR)
        return bool(ready.State() == TopAbs_State.TopAbs_IN)

    return inside


def depth(shape: Any, point: Array) -> float:
    """Give how far a point is from the faces of a shape, mm."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
    from OCP.gp import gp_Pnt

    vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(*map(float, point))).Vertex()
    return distance(vertex, compound(faces_of(shape)))


def corner(shape: Any) -> Array | None:
    """Give one corner of a shape."""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    walk = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_VERTEX)
    if not walk.More():
        return None
    p = BRep_Tool.Pnt_s(TopoDS.Vertex_s(walk.Current()))
    return np.array([p.X(), p.Y(), p.Z()])


def corners(box: Sequence[float], pose: Array) -> tuple[float, ...]:
    """Give the box round a placed box."""
    at = corner_points(box) @ pose[:3, :3].T + pose[:3, 3]
    return (*map(float, at.min(0)), *map(float, at.max(0)))


def corner_points(box: Sequence[float]) -> Array:
    """Give the eight corners of a box."""
    return np.array([[box[3 * (n >> k & 1) + k] for k in range(3)] for n in range(8)], float)


def moved(point: Array, pose: Array) -> Array:
    """Give a point, or rows of points, at a pose."""
    there: Array = point @ pose[:3, :3].T + pose[:3, 3]
    return there


def undone(pose: Array) -> Array:
    """Give the pose that takes another back."""
    return np.asarray(np.linalg.inv(pose), np.float64)
