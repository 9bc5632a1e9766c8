"""The other reader: the open-source solid kernel's own hidden-line views of the built solids.

Edges that are only seams or smooth joints are no edges: same-domain faces are unified by the
builder, regularity is encoded at 1e-6, and only sharp edges and contours are taken.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from drafting.drawing.strokes import Look
from drafting.model.pieces import Arc2, Cone, Part, Piece, Prism, Turned
from drafting.solid.build import build_part

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
    from OCP.BRep import BRep_Builder
    from OCP.BRepLib import BRepLib
    from OCP.TopoDS import TopoDS_Compound

    shelf = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(shelf)
    for part in parts:
        shape = build_part(part)
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
    from OCP.GCPnts import GCPnts_QuasiUniformDeflection
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    BRepLib.BuildCurves3d_s(compound)
    chains = []
    walk = TopExp_Explorer(compound, TopAbs_EDGE)
    while walk.More():
        curve = BRepAdaptor_Curve(TopoDS.Edge_s(walk.Current()))
        points = GCPnts_QuasiUniformDeflection(curve, 0.002)
        chain = [points.Value(k) for k in range(1, points.NbPoints() + 1)]
        chains.append(np.array([(p.X(), p.Y()) for p in chain]))
        walk.Next()
    return chains
