"""Pieces to kernel solids. The only module that imports the kernel, and only inside functions.

Few large booleans: turned pieces on one axis are first joined as plane profiles, so that a barrel
is one revolve and each of its cylinders one face; what is left is one fuse and one cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import cos, sin
from typing import Any

from drafting.errors import OutputFailed
from drafting.shape.frame import Frame, Vec, cross
from drafting.shape.pieces import Arc2, Ball, Cone, Line2, Part, Piece, Prism, Turned
from drafting.shape.profile import Ring, Zone, as_turned, radius, rings, union, zones_on
from drafting.shape.volume import FINE, volume

SHORT = 1e-7
"""Edges below this length (mm) are points to the kernel."""
SEAM = 0.3711
"""Where seams lie (radians from the frame's y axis): where no plane or axis of a part does."""


VOLUME = 0.004
"""By how much (share) the kernel may differ from the volume of the pieces."""
NUDGES = (0.0, -7e-4, -2e-3, 7e-4)
"""Changes of radius (mm), tried in turn on pieces across the main axis: the kernel's booleans go
wrong where a cylinder just touches a plane, and a step far below any tolerance frees them."""


def build_part(part: Part) -> Any:
    """Give the part as a valid kernel shape (``TopoDS_Solid``, a compound when it falls apart).

    World axes, millimetres. The kernel's volume is held against the volume of the pieces. Raises
    ``OutputFailed`` when nothing is left, or when the kernel cannot make the shape.
    """
    pieces = [as_turned(p) for p in part.pieces]
    expected = volume(part)
    if expected <= 0.0:
        raise OutputFailed(f"no metal is left of {part.name}: its cuts take all of it")
    for nudge in NUDGES:
        shape = _alone(_built([_nudged(p, pieces[0].frame, nudge) for p in pieces]))
        if _is_good(shape, expected):
            return shape
        if nudge == 0.0:  # before anything is changed: perhaps it was weighed too coarsely
            expected = volume(part, FINE)
            if _is_good(shape, expected):
                return shape
    raise OutputFailed(
        f"the solid kernel cannot make {part.name}; faces that only touch are the usual reason: "
        "change one of its sizes a little"
    )


def _built(pieces: Sequence[Piece]) -> Any:
    materials = [p for p in pieces if not p.cut]
    cuts = [p for p in pieces if p.cut]
    axis = materials[0].frame
    if all(zones_on(p, axis) is not None for p in materials):
        # One revolve says all that happens about the axis; only cuts across it are left.
        inner = [p for p in cuts if zones_on(p, axis) is not None]
        cuts = [p for p in cuts if p not in inner]
        hollow = [z for p in inner for z in zones_on(p, axis) or ()]
        solid = [z for p in materials for z in zones_on(p, axis) or ()]
        shape = _compound([_revolved(ring, axis) for ring in rings(solid, hollow)])
    else:
        shape = _unified(_fused(_solids(materials)))
    return _unified(_cut(shape, _solids(cuts))) if cuts else shape


def _nudged(piece: Piece, axis: Frame, by: float) -> Piece:
    if by == 0.0 or not isinstance(piece.shape, Turned) or zones_on(piece, axis) is not None:
        return piece
    zones = tuple(
        replace(z, radius=z.radius + by)
        if isinstance(z, Ball)
        else replace(z, r0=max(z.r0 + by, 0.0), r1=max(z.r1 + by, 0.0))
        for z in piece.shape.zones
    )
    return replace(piece, shape=Turned(zones))


def _is_good(shape: Any, expected: float) -> bool:
    from OCP.BRepCheck import BRepCheck_Analyzer

    off = abs(kernel_volume(shape) - expected)
    return bool(BRepCheck_Analyzer(shape).IsValid()) and off < VOLUME * expected


def kernel_volume(shape: Any) -> float:
    """Give the kernel's volume of a shape (mm3)."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, props)
    return float(props.Mass())


# --- single solids -----------------------------------------------------------------------------


def _solids(pieces: Sequence[Piece]) -> list[Any]:
    """Give solids whose union is the union of the pieces: one for each axis and each prism."""
    shapes = []
    groups: list[tuple[Frame, list[Zone]]] = []
    for piece in pieces:
        if isinstance(piece.shape, Prism):
            shapes.append(_extruded(piece.shape, piece.frame))
            continue
        for axis, zones in groups:
            found = zones_on(piece, axis)
            if found is not None:
                zones += found
                break
        else:
            groups.append((piece.frame, list(piece.shape.zones)))
    for axis, zones in groups:
        shapes += [_revolved(ring, axis) for ring in rings(union(zones), ())]
    return shapes


def _revolved(ring: Ring, frame: Frame) -> Any:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt

    corners: list[tuple[float, float]] = []
    edges: list[Any] = []

    def point(at: tuple[float, float]) -> Any:
        return gp_Pnt(*frame.point((at[0], at[1] * cos(SEAM), at[1] * sin(SEAM))))

    def go(to: tuple[float, float], over: tuple[float, float] | None = None) -> None:
        if corners:
            last = corners[-1]
            if abs(to[0] - last[0]) + abs(to[1] - last[1]) < SHORT:
                return
            edges.append(_edge(point(last), point(to), point(over) if over else None))
        corners.append(to)

    first = ring.inner[0]
    go((first.x0, radius(first, first.x0)))
    for zone in ring.outer:
        _run(go, zone, zone.x0, zone.x1)
    for zone in reversed(ring.inner):
        _run(go, zone, zone.x1, zone.x0)
    go(corners[0])
    face = _face(edges)
    axis = gp_Ax1(gp_Pnt(*frame.origin), gp_Dir(*frame.x))
    return _outward(BRepPrimAPI_MakeRevol(face, axis).Shape())


def _run(go: Any, zone: Cone | Ball, a: float, b: float) -> None:
    go((a, radius(zone, a)))
    mid = (a + b) / 2
    go((b, radius(zone, b)), (mid, radius(zone, mid)) if isinstance(zone, Ball) else None)


def _extruded(prism: Prism, frame: Frame) -> Any:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Pnt, gp_Vec

    def point(at: tuple[float, float]) -> Any:
        return gp_Pnt(*frame.point((at[0], at[1], prism.lo)))

    normal = cross(frame.x, frame.y)
    edges = []
    for e in prism.outline:
        if isinstance(e, Line2):
            edges.append(_edge(point(e.a), point(e.b), None))
        else:
            centre = frame.point((e.centre[0], e.centre[1], prism.lo))
            edges.append(_arc(e, centre, normal, frame.x))
    height = prism.hi - prism.lo
    sweep = gp_Vec(*(height * c for c in frame.z))
    return _outward(BRepPrimAPI_MakePrism(_face(edges), sweep).Shape())


def _edge(a: Any, b: Any, over: Any) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.GC import GC_MakeArcOfCircle

    if over is None:
        return BRepBuilderAPI_MakeEdge(a, b).Edge()
    return BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(a, over, b).Value()).Edge()


def _arc(arc: Arc2, centre: Vec, normal: Vec, x: Vec) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.gp import gp_Ax2, gp_Circ, gp_Dir, gp_Pnt

    ring = gp_Circ(gp_Ax2(gp_Pnt(*centre), gp_Dir(*normal), gp_Dir(*x)), arc.radius)
    return BRepBuilderAPI_MakeEdge(ring, arc.a0, arc.a1).Edge()


def _face(edges: Sequence[Any]) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire

    wire = BRepBuilderAPI_MakeWire()
    for edge in edges:
        wire.Add(edge)
    return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()


def _outward(shape: Any) -> Any:
    """Turn a solid right side out: a sweep along a mirrored frame comes inside out."""
    from OCP.BRepLib import BRepLib
    from OCP.TopoDS import TopoDS

    solid = TopoDS.Solid_s(shape)
    BRepLib.OrientClosedSolid_s(solid)
    return solid


# --- booleans ----------------------------------------------------------------------------------


def _fused(shapes: Sequence[Any]) -> Any:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse

    if len(shapes) == 1:
        return shapes[0]
    return _boolean(BRepAlgoAPI_Fuse(), shapes[:1], shapes[1:])


def _cut(shape: Any, tools: Sequence[Any]) -> Any:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    return _boolean(BRepAlgoAPI_Cut(), [shape], tools)


def _boolean(operation: Any, arguments: Sequence[Any], tools: Sequence[Any]) -> Any:
    from OCP.TopTools import TopTools_ListOfShape

    for put, shapes in ((operation.SetArguments, arguments), (operation.SetTools, tools)):
        shelf = TopTools_ListOfShape()
        for shape in shapes:
            shelf.Append(shape)
        put(shelf)
    operation.SetRunParallel(True)
    operation.Build()
    if not operation.IsDone():
        return _compound([])
    return operation.Shape()


def _unified(shape: Any) -> Any:
    from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain

    tidy = ShapeUpgrade_UnifySameDomain(shape, True, True, False)
    tidy.Build()
    return tidy.Shape()


def _compound(shapes: Sequence[Any]) -> Any:
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    shelf = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(shelf)
    for shape in shapes:
        builder.Add(shelf, shape)
    return shelf


def _alone(shape: Any) -> Any:
    """Give the one solid inside, or the shape itself when there are several or none."""
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    found = []
    walk = TopExp_Explorer(shape, TopAbs_SOLID)
    while walk.More():
        found.append(TopoDS.Solid_s(walk.Current()))
        walk.Next()
    return found[0] if len(found) == 1 else shape
