"""The other reader: the open-source solid kernel's own hidden-line views of the built solids.

Edges that are only seams or smooth joints are no edges: same-domain faces are unified by the
builder, regularity is encoded at 1e-6, and only sharp edges and contours are taken.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from drafting.drawing.sheet.strokes import Look
from drafting.shape.pieces import Arc2, Cone, Part, Piece, Prism, Turned
from drafting.solids.build import build_part

EASE = 0.01
"""By how much eased parts are thinner (mm): equal radii of rod and bore give false contours."""


def eased(part: Part) -> Part:
    """Give the part with round materials thinner in radius by EASE."""
    return replace(part, pieces=tuple(p if p.cut else _thinner(p) for p in part.pieces))


def _thinner(piece: Piece) -> Piece:
    shape = piece.shape
    if isinstance(shape, Turned):
        zones = tuple(
            replace(z, r0=z.r0 - EASE, r1=z.r1 - EASE)
            if isinstance(z, Cone)
            else replace(z, radius=z.radius - EASE)
            for z in shape.zones
        )
        return replace(piece, shape=Turned(zones))
    edge = shape.outline[0]
    if isinstance(shape, Prism) and len(shape.outline) == 1 and isinstance(edge, Arc2):
        thin = replace(edge, radius=edge.radius - EASE)
        return replace(piece, shape=replace(shape, outline=(thin,)))
    return piece


def views(parts: Sequence[Part], looks: Sequence[Look]) -> list[dict[str, list[Any]]]:
    """Give for each look the kernel's visible and hidden edges as dense chains of points (n, 2)."""
    return views_of([build_part(p) for p in parts], looks)


def views_of(shapes: Sequence[Any], looks: Sequence[Look]) -> list[dict[str, list[Any]]]:
    """Do as ``views`` does, with built solids."""
    from OCP.BRep import BRep_Builder
    from OCP.BRepLib import BRepLib
    from OCP.TopoDS import TopoDS_Compound

    shelf = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(shelf)
    for shape in shapes:
        BRepLib.EncodeRegularity_s(shape, 1e-6)
        builder.Add(shelf, shape)
    return [_view(shelf, look) for look in looks]


def _view(shape: Any, look: Look) -> dict[str, list[Any]]:
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

    algo = HLRBRep_Algo()
    algo.Add(shape)
    place = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*look.toward_eye), gp_Dir(*look.right))
    algo.Projector(HLRAlgo_Projector(place))
    algo.Update()
    algo.Hide()
    out = HLRBRep_HLRToShape(algo)
    return {
        "visible": _chains(out.VCompound()) + _chains(out.OutLineVCompound()),
        "hidden": _chains(out.HCompound()) + _chains(out.OutLineHCompound()),
    }


def _chains(compound: Any) -> list[Any]:
    if compound is None:
        return []
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.BRepLib import BRepLib
    from OCP.GCPnts import GCPnts_AbscissaPoint
    from OCP.GeomAbs import GeomAbs_Line
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    BRepLib.BuildCurves3d_s(compound)
    chains = []
    walk = TopExp_Explorer(compound, TopAbs_EDGE)
    while walk.More():
        curve = BRepAdaptor_Curve(TopoDS.Edge_s(walk.Current()))
        straight = curve.GetType() == GeomAbs_Line
        n = 2 if straight else max(int(GCPnts_AbscissaPoint.Length_s(curve) / 0.3), 24)
        chain = [curve.Value(float(t)) for t in _even(curve, n)]
        chains.append(np.array([(p.X(), p.Y()) for p in chain]))
        walk.Next()
    return chains


def _even(curve: Any, n: int) -> Any:
    return np.linspace(curve.FirstParameter(), curve.LastParameter(), n)


def seen(shapes: Sequence[Any], look: Look, points: Any) -> Any:
    """Tell for paper points (n, 2) whether the kernel's rays see an edge of the solids there.

    The hidden-line view of the kernel is sometimes wrong where faces touch; its rays are the court
    of appeal. An edge point is seen when a ray from beside it, on either side, reaches the eye.
    """
    from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
    from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

    courts = []
    for shape in shapes:
        court = IntCurvesFace_ShapeIntersector()
        court.Load(shape, 1e-6)
        courts.append(court)
    paper = np.array([look.right, look.up]).T
    spots = np.concatenate([_edge_points(s) for s in shapes])
    flat = spots[:, :3] @ paper
    eye = gp_Dir(*look.toward_eye)
    out = np.zeros(len(points), bool)
    for k, point in enumerate(np.asarray(points)):
        away = np.hypot(*(flat - point).T)
        for row in np.flatnonzero(away < 0.06):
            along = spots[row, 3:] @ paper
            if np.hypot(*along) < 1e-6:
                continue
            aside = np.array([-along[1], along[0]]) / np.hypot(*along) * 2e-3
            for side in (paper @ aside, -paper @ aside):
                start = spots[row, :3] + side + 0.05 * np.array(look.toward_eye)
                ray = gp_Lin(gp_Pnt(*start), eye)
                if not any(_hits(court, ray) for court in courts):
                    out[k] = True
                    break
            if out[k]:
                break
    return out


def _hits(court: Any, ray: Any) -> bool:
    court.Perform(ray, 0.0, 1e5)
    return bool(court.NbPnt() > 0)


def _edge_points(shape: Any) -> Any:
    """Give points every 0.1 mm on true edges (of two faces), with directions: rows of six."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GCPnts import GCPnts_AbscissaPoint
    from OCP.gp import gp_Pnt, gp_Vec
    from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE
    from OCP.TopExp import TopExp
    from OCP.TopoDS import TopoDS
    from OCP.TopTools import TopTools_IndexedDataMapOfShapeListOfShape

    beside = TopTools_IndexedDataMapOfShapeListOfShape()
    TopExp.MapShapesAndAncestors_s(shape, TopAbs_EDGE, TopAbs_FACE, beside)
    rows = []
    for k in range(1, beside.Extent() + 1):
        edge = TopoDS.Edge_s(beside.FindKey(k))
        faces = list(beside.FindFromIndex(k))
        if BRep_Tool.Degenerated_s(edge) or all(f.IsSame(faces[0]) for f in faces):
            continue
        curve = BRepAdaptor_Curve(edge)
        n = max(int(GCPnts_AbscissaPoint.Length_s(curve) / 0.1), 2)
        for t in _even(curve, n):
            p, d = gp_Pnt(), gp_Vec()
            curve.D1(float(t), p, d)
            rows.append((p.X(), p.Y(), p.Z(), d.X(), d.Y(), d.Z()))
    return np.array(rows)
