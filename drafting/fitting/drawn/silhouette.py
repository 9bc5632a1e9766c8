"""The machine's edges as seen along its pins: where its model stands, in the plane of the arm."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from drafting.fitting.clearance import Room
from drafting.fitting.machine import Machine, Point
from drafting.fitting.travel import carried
from drafting.records import dataclass

MOST_EDGES = 4_000
"""Edges beyond that are left out: a picture of so many is black."""
ROUND = 24
"""Points on a curved edge."""
SHORT = 0.5
"""Edges that look shorter than this (mm) look at the reader."""


@dataclass(frozen=True, slots=True)
class Edge:
    """An edge of a solid of the machine, as points in the machine file's x and y.

    ``moves`` with the arm or carriage; it stands where the model shows it.
    """

    solid: str
    moves: bool
    points: tuple[Point, ...]


def silhouette(room: Room, m: Machine) -> Iterator[Edge]:
    """Give each edge once."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp
    from OCP.TopoDS import TopoDS
    from OCP.TopTools import TopTools_IndexedMapOfShape

    assert m.model is not None
    seen: set[tuple[tuple[int, int], ...]] = set()
    left = MOST_EDGES
    for name, shape in zip(room.solids.names, room.solids.shapes, strict=True):
        moves = name in m.model.moving or name.partition("#")[0] in m.model.moving
        edges = TopTools_IndexedMapOfShape()
        TopExp.MapShapes_s(shape, TopAbs_ShapeEnum.TopAbs_EDGE, edges)
        for k in range(1, edges.Extent() + 1):
            left -= 1
            if left < 0:
                return
            found = _points(TopoDS.Edge_s(edges.FindKey(k)), room)
            ends = ((round(x), round(y)) for x, y in (found[0], found[len(found) // 2], found[-1]))
            key = tuple(sorted(ends))
            span = np.ptp(np.asarray(found), axis=0)
            if key in seen or float(span.max()) < SHORT:
                continue
            seen.add(key)
            yield Edge(name, moves, found)


def at_place(edge: Edge, m: Machine, shown: float, at: float) -> tuple[Point, ...]:
    """Give an edge's points at a place of the travel; the model stands at the place ``shown``."""
    if not edge.moves or at == shown:
        return edge.points
    return tuple(carried(m.way, p, at - shown) for p in edge.points)


def _points(edge: Any, room: Room) -> tuple[Point, ...]:
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GeomAbs import GeomAbs_CurveType

    curve = BRepAdaptor_Curve(edge)
    a, b = curve.FirstParameter(), curve.LastParameter()
    n = 1 if curve.GetType() == GeomAbs_CurveType.GeomAbs_Line else ROUND
    seat, out = room.seat, []
    for k in range(n + 1):
        p = curve.Value(a + (b - a) * k / n)
        off = np.array([p.X(), p.Y(), p.Z()]) - seat.base
        out.append((seat.origin[0] + float(off @ seat.x), seat.origin[1] + float(off @ seat.y)))
    return tuple(out)
