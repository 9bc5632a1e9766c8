"""Faces get the names of the pieces that they come from, so that a CAD user finds them again.

A face is matched by its surface: a cylinder by axis and radius, a plane by normal and distance, a
cone or sphere by its axis. Where several pieces share a surface, one whose extent holds the whole
face goes first, then cuts (a hole's wall is the hole's), then the order of the pieces.
"""

from __future__ import annotations

from typing import Any

from drafting.shape.frame import Vec, X, Y, Z, cross, dot, sub
from drafting.shape.pieces import Arc2, Ball, Cone, Line2, Part, Piece, Prism, extent

NEAR = 1e-5
"""Surfaces within this distance (mm), and this sine of the angle between them, are the same."""
ROOM = 0.01
"""Kernel boxes are this much (mm) larger than their faces at the most."""


def name_of(face: Any, part: Part) -> str:
    """Give the name of the piece that a kernel face of the part comes from, or an empty text."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType as Kind

    surface = BRepAdaptor_Surface(face)
    kind = surface.GetType()
    if kind == Kind.GeomAbs_Cylinder:
        round_ = surface.Cylinder()
        axis = _line(round_.Axis())
        fits = [p for p in part.pieces if _has_cylinder(p, *axis, round_.Radius())]
    elif kind == Kind.GeomAbs_Plane:
        flat = _line(surface.Plane().Axis())
        fits = [p for p in part.pieces if _has_plane(p, *flat)]
    elif kind == Kind.GeomAbs_Cone:
        axis = _line(surface.Cone().Axis())
        fits = [p for p in part.pieces if _has_cone(p, *axis)]
    elif kind == Kind.GeomAbs_Sphere:
        ball = surface.Sphere()
        fits = [p for p in part.pieces if _has_ball(p, _vec(ball.Location()), ball.Radius())]
    else:
        fits = []
    if len(fits) > 1:
        fits.sort(key=lambda p: (not _holds(p, face), not p.cut))
    return fits[0].name if fits else ""


def _vec(p: Any) -> Vec:
    return (p.X(), p.Y(), p.Z())


def _line(axis: Any) -> tuple[Vec, Vec]:
    return _vec(axis.Location()), _vec(axis.Direction())


def _has_cylinder(piece: Piece, at: Vec, direction: Vec, radius: float) -> bool:
    f, shape = piece.frame, piece.shape
    if isinstance(shape, Prism):
        return any(
            isinstance(e, Arc2)
            and abs(e.radius - radius) < NEAR
            and _same_line(f.point((*e.centre, 0.0)), f.z, at, direction)
            for e in shape.outline
        )
    return _same_line(f.origin, f.x, at, direction) and any(
        isinstance(z, Cone) and abs(z.r0 - radius) < NEAR and abs(z.r1 - radius) < NEAR
        for z in shape.zones
    )


def _has_cone(piece: Piece, at: Vec, direction: Vec) -> bool:
    return (
        not isinstance(piece.shape, Prism)
        and any(isinstance(z, Cone) and z.r0 != z.r1 for z in piece.shape.zones)
        and _same_line(piece.frame.origin, piece.frame.x, at, direction)
    )


def _has_ball(piece: Piece, centre: Vec, radius: float) -> bool:
    return not isinstance(piece.shape, Prism) and any(
        isinstance(z, Ball)
        and abs(z.radius - radius) < NEAR
        and _size(sub(piece.frame.point((z.centre, 0.0, 0.0)), centre)) < NEAR
        for z in piece.shape.zones
    )


def _has_plane(piece: Piece, at: Vec, normal: Vec) -> bool:
    return any(
        abs(dot(sub(p, at), n)) < NEAR and _size(cross(n, normal)) < NEAR for p, n in _flats(piece)
    )


def _flats(piece: Piece) -> list[tuple[Vec, Vec]]:
    """Give a point and the unit normal of every flat side of a piece."""
    f, shape = piece.frame, piece.shape
    if not isinstance(shape, Prism):
        stations = {x for z in shape.zones for x in (z.x0, z.x1)}
        return [(f.point((x, 0.0, 0.0)), f.x) for x in stations]
    flats = [(f.point((0.0, 0.0, z)), f.z) for z in (shape.lo, shape.hi)]
    for edge in shape.outline:
        if isinstance(edge, Line2):
            run = f.vector((edge.b[0] - edge.a[0], edge.b[1] - edge.a[1], 0.0))
            across = cross(run, f.z)
            length = _size(across)
            normal = (across[0] / length, across[1] / length, across[2] / length)
            flats.append((f.point((*edge.a, 0.0)), normal))
    return flats


def _same_line(a: Vec, along_a: Vec, b: Vec, along_b: Vec) -> bool:
    return _size(cross(along_a, along_b)) < NEAR and _size(cross(sub(a, b), along_a)) < NEAR


def _size(v: Vec) -> float:
    return float(dot(v, v) ** 0.5)


def _holds(piece: Piece, face: Any) -> bool:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(face, box, False, False)
    low, high = _vec(box.CornerMin()), _vec(box.CornerMax())
    for i, axis in enumerate((X, Y, Z)):
        least, greatest = extent(piece, axis)
        if low[i] < least - ROOM or high[i] > greatest + ROOM:
            return False
    return True
