"""The plates of a cylinder as they are cut: flange, foot and lug plates, each with its holes.

A plate is a prism of a mount; its holes are the drillings of its part that run through its whole
thickness, and the barrel or rod where that runs through it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import hypot

from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.shape.frame import dot, sub
from drafting.shape.pieces import (
    Cone,
    Line2,
    Outline,
    Part,
    Piece,
    Prism,
    Turned,
    outline_bounds,
)
from drafting.shape.profile import as_turned
from drafting.told.drawn_by_rule import size_label
from drafting.units import both

_PLATE = re.compile(r"(body|rod)_mount\.(plate\d*|ear_(left|right)|eye|bar)")
SAME = 0.02
"""Sizes and places that differ by less (mm) are the same."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole: its centre in the plate, its radius, and what runs through it (mm)."""

    at: tuple[float, float]
    radius: float
    name: str


@dataclass(frozen=True, slots=True)
class Plate:
    """A plate: its outline and holes in its own plane (mm), thickness, and how many are alike."""

    name: str
    outline: Outline
    holes: tuple[Hole, ...]
    thickness: float
    count: int = 1


def plates(c: Cylinder) -> tuple[Plate, ...]:
    """Give the plates of both mounts; those that are alike once, with their number."""
    found: list[Plate] = []
    for part in c.parts:
        for plate in _of_part(part):
            twin = next((k for k, p in enumerate(found) if _alike(p, plate)), None)
            if twin is None:
                found.append(plate)
            else:
                old = found[twin]
                found[twin] = Plate(old.name, old.outline, old.holes, old.thickness, old.count + 1)
    return tuple(found)


def _of_part(part: Part) -> Iterator[Plate]:
    for piece in part.pieces:
        if piece.cut or not isinstance(piece.shape, Prism) or not _PLATE.fullmatch(piece.name):
            continue
        others = [as_turned(p) for p in part.pieces if p is not piece]
        thick = piece.shape.hi - piece.shape.lo
        yield _centred(piece.name, piece.shape.outline, tuple(_holes(piece, others)), thick)


def _centred(name: str, outline: Outline, holes: tuple[Hole, ...], thick: float) -> Plate:
    """Put the origin in the plate's middle, or leave it in a hole that has it (a pin's)."""
    if any(hypot(*h.at) < SAME for h in holes):
        return Plate(name, outline, holes, thick)
    x0, x1, y0, y1 = outline_bounds(outline)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    moved = tuple(
        replace(e, a=(e.a[0] - x, e.a[1] - y), b=(e.b[0] - x, e.b[1] - y))
        if isinstance(e, Line2)
        else replace(e, centre=(e.centre[0] - x, e.centre[1] - y))
        for e in outline
    )
    at = tuple(replace(h, at=(h.at[0] - x, h.at[1] - y)) for h in holes)
    return Plate(name, moved, at, thick)


def _holes(plate: Piece, others: Iterable[Piece]) -> Iterator[Hole]:
    """Give what runs through the whole thickness: drillings, and a round bar or tube."""
    assert isinstance(plate.shape, Prism)
    f, shape = plate.frame, plate.shape
    seen: list[Hole] = []
    for other in others:
        radius = _through(plate, other)
        if radius is None:
            continue
        gap = sub(other.frame.origin, f.origin)
        at = (dot(gap, f.x), dot(gap, f.y))
        if not _inside(shape.outline, at, radius):
            continue
        wider = next((h for h in seen if hypot(h.at[0] - at[0], h.at[1] - at[1]) < radius), None)
        if wider is not None and wider.radius >= radius - SAME:
            continue
        seen = [h for h in seen if hypot(h.at[0] - at[0], h.at[1] - at[1]) + h.radius > radius]
        seen.append(Hole(at, radius, other.name))
    yield from seen


def _through(plate: Piece, other: Piece) -> float | None:
    """Give the radius with which a round piece runs through a plate, None where it does not."""
    assert isinstance(plate.shape, Prism)
    if (
        not isinstance(other.shape, Turned)
        or abs(abs(dot(plate.frame.z, other.frame.x)) - 1) > 1e-9
    ):
        return None
    sense = dot(plate.frame.z, other.frame.x)
    foot = dot(sub(plate.frame.origin, other.frame.origin), other.frame.x)
    a, b = sorted((foot + sense * plate.shape.lo, foot + sense * plate.shape.hi))
    zones = [z for z in other.shape.zones if z.x1 > a + SAME and z.x0 < b - SAME]
    first, last = other.shape.zones[0].x0, other.shape.zones[-1].x1
    if not zones or first > a + SAME or last < b - SAME:
        return None
    radii = [r for z in zones for r in ((z.r0, z.r1) if isinstance(z, Cone) else (z.radius,))]
    return min(radii)


def _inside(outline: Outline, at: tuple[float, float], radius: float) -> bool:
    x0, x1, y0, y1 = outline_bounds(outline)
    x, y = at
    return (
        x0 - SAME <= x - radius
        and x + radius <= x1 + SAME
        and (y0 - SAME <= y - radius and y + radius <= y1 + SAME)
    )


def _alike(a: Plate, b: Plate) -> bool:
    """Tell whether two plates are cut alike: size, thickness, and holes in the same places."""
    if abs(a.thickness - b.thickness) > SAME or len(a.holes) != len(b.holes):
        return False
    if len(a.outline) != len(b.outline):
        return False
    boxes = zip(outline_bounds(a.outline), outline_bounds(b.outline), strict=True)
    if any(abs(p - q) > SAME for p, q in boxes):
        return False
    spots = [sorted((*(round(v, 2) for v in h.at), round(h.radius, 2)) for h in p.holes)
             for p in (a, b)]  # fmt: skip
    return spots[0] == spots[1]


def plate_words(c: Cylinder, plate: Plate) -> tuple[str, ...]:
    """Give what stands beside a plate: whose, how many, how thick, what runs through it."""
    units = c.spec.units
    lines = [
        f"{c.name}  {plate.name}  {plate.count} off",
        f"{both(plate.thickness, units)} thick; this file is in "
        f"{'inches' if units == 'in' else 'millimetres'}",
    ]
    for hole in plate.holes:
        if ".hole" not in hole.name:
            size, what = both(2 * hole.radius, units), size_label(c, hole.name)
            lines.append(f"{size} hole for the {what[:1].lower()}{what[1:]}; its fit is not told")
    return tuple(lines)
