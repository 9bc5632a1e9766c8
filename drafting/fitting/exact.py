"""What the kernel says of two placed shapes: distance, shared metal, one inside the other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from drafting.fitting.meshes import Array, box_of, compound
from drafting.solids.build import kernel_volume


def placed(shape: Any, pose: Array) -> Any:
    """Give a shape at a pose."""
    from OCP.gp import gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    move = gp_Trsf()
    move.SetValues(*(float(v) for v in pose[:3].ravel()))
    return shape.Moved(TopLoc_Location(move))


def distance(a: Any, b: Any) -> float:
    """Give the least distance of two shapes' faces, mm."""
    from OCP.BRepExtrema import BRepExtrema_DistShapeShape

    found = BRepExtrema_DistShapeShape(a, b)
    return float(found.Value()) if found.IsDone() else float("nan")


def shared(a: Any, b: Any) -> float:
    """Give the volume that two solids share, mm3."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common

    common = BRepAlgoAPI_Common(a, b)
    return abs(kernel_volume(common.Shape())) if common.IsDone() else 0.0


def near_faces(faces: Sequence[Any], around: Any, room: float) -> Any:
    """Give those faces whose boxes come within ``room`` mm of the box of a shape, as one."""
    box = box_of(around)
    found = [f for f in faces if boxes_meet(box_of(f), box, room)]
    return compound(found or faces)


def boxes_meet(a: Sequence[float], b: Sequence[float], room: float) -> bool:
    """Tell whether two boxes come within ``room`` mm of each other."""
    return all(a[k] - room <= b[k + 3] and b[k] - room <= a[k + 3] for k in range(3))


def holds(outer: Any, inner: Any) -> bool:
    """Tell whether a corner of one solid lies inside another; both placed, faces not crossing."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.TopAbs import TopAbs_ShapeEnum, TopAbs_State
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    a, b = box_of(outer), box_of(inner)
    if not all(a[k] <= b[k + 3] and b[k] <= a[k + 3] for k in range(3)):
        return False
    walk = TopExp_Explorer(inner, TopAbs_ShapeEnum.TopAbs_VERTEX)
    if not walk.More():
        return False
    point = BRep_Tool.Pnt_s(TopoDS.Vertex_s(walk.Current()))
    said = BRepClass3d_SolidClassifier(outer, point, 1e-6).State()
    return bool(said == TopAbs_State.TopAbs_IN)


def corners(box: Sequence[float], pose: Array) -> tuple[float, ...]:
    """Give the box round a placed box."""
    c = np.array([[box[3 * (n >> k & 1) + k] for k in range(3)] for n in range(8)])
    at = c @ pose[:3, :3].T + pose[:3, 3]
    return (*map(float, at.min(0)), *map(float, at.max(0)))
