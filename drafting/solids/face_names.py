"""Faces get names after the pieces that they come from, so that a CAD user finds them again.

A face is matched by its surface: a cylinder by axis and radius, a plane by normal and distance, a
cone or sphere by its axis. Where several pieces share a surface, one whose extent holds the whole
face goes first, then cuts (a hole's wall is the hole's), then the order of the pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees, floor, hypot
from typing import Any

from drafting.shape.frame import Vec, X, Y, Z, cross, dot, sub
from drafting.shape.pieces import Arc2, Ball, Cone, Line2, Part, Piece, Prism, extent
from drafting.solids.steady import TIE

NEAR = 1e-5
"""Surfaces within this distance (mm), and this sine of the angle between them, are the same."""
ROOM = 0.01
"""Kernel boxes are this much (mm) larger than their faces at the most."""
SQUARE = 0.99
"""A direction with this much of the axis looks along it, one with a hundredth across it."""
COARSE = 0.01
"""Faces whose centres differ by less (mm, degrees, mm2) are told apart by the next measure."""


def names_of(built: Sequence[tuple[Part, Sequence[Any]]]) -> list[list[str]]:
    """Give the names of the faces of all parts of a file, in the order handed in, none twice.

    ``rod_mount.ear_left.bore``: the piece, and which of its faces. A round face is its ``outside``;
    the wall of a mount's hole is the ``bore`` of the piece that it goes through, that of another
    cut its ``wall``; a cone is a ``taper``, a sphere a ``ball``, a plane a ``face`` with the way
    that it looks: ``face_rod``, ``face_base``, or the hour of the clock seen from the rod end,
    ``face_12h``, ``face_1h30``. Several of one name are numbered from the base end on. A face of no
    piece has an empty name.
    """
    plain = [[_name(face, part) for face in faces] for part, faces in built]
    places: dict[str, list[tuple[tuple[float, ...], int, int]]] = {}
    for n, (_, faces) in enumerate(built):
        for k, face in enumerate(faces):
            if plain[n][k]:
                places.setdefault(plain[n][k], []).append((_order(face), n, k))
    for name, found in places.items():
        if len(found) > 1:
            for count, (_, n, k) in enumerate(sorted(found), 1):
                plain[n][k] = f"{name}_{count}"
    return plain


def _name(face: Any, part: Part) -> str:
    """Give piece and kind of a face."""
    piece = piece_of(face, part)
    if piece is None:
        return ""
    kind = _kind(face, piece.cut)
    table, _, field = piece.name.partition(".")
    if piece.cut and field == "hole" and kind == "wall":
        near = [p for p in part.pieces if not p.cut and p.name.startswith(f"{table}.")]
        metal = [p for p in near if _holds(p, face)]
        if metal:
            return f"{min(metal, key=_room).name}.bore"
    return f"{piece.name}.{kind}"


def _kind(face: Any, cut: bool) -> str:
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType as Kind
    from OCP.TopAbs import TopAbs_Orientation

    surface = BRepAdaptor_Surface(face)
    kind = surface.GetType()
    if kind == Kind.GeomAbs_Plane:
        plane = surface.Plane()
        outward = -1.0 if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED else 1.0
        outward *= 1.0 if plane.Direct() else -1.0
        x, y, z = (outward * c for c in _vec(plane.Axis().Direction()))
        return f"face{_way(x, y, z)}"
    if kind == Kind.GeomAbs_Cylinder:
        return "wall" if cut else "outside"
    return "ball" if kind == Kind.GeomAbs_Sphere else "taper"


def _way(x: float, y: float, z: float) -> str:
    """Say where a plane looks; nothing where it looks askew of the axis."""
    if abs(x) > SQUARE:
        return "_rod" if x > 0 else "_base"
    if abs(x) > 1 - SQUARE:
        return ""
    hour, minutes = divmod(round(degrees(atan2(y, z)) * 2) % 720, 60)
    return f"_{hour or 12}h" + (f"{minutes:02}" if minutes else "")


def _order(face: Any) -> tuple[float, ...]:
    """Give what orders faces of one name: centre along the axis, then round it, then size."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    props = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face, props)
    x, y, z = _vec(props.CentreOfMass())
    turn = degrees(atan2(y, z)) % 360 if hypot(y, z) > COARSE else 0.0
    return tuple(floor(v / COARSE + TIE) for v in (x, turn, hypot(y, z), props.Mass()))


def _room(piece: Piece) -> float:
    """Give the room (mm3) of the box round a piece."""
    (a, b), (c, d), (e, f) = (extent(piece, axis) for axis in (X, Y, Z))
    return (b - a) * (d - c) * (f - e)


def piece_of(face: Any, part: Part) -> Piece | None:
    """Give the piece that a kernel face of the part comes from, or None."""
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
    return fits[0] if fits else None


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
