"""The circle that bolt holes lie on, seen as a circle: thin and chain-dotted, crossed at each hole.

Practice of ISO 128-2 for pitch circles (from memory): the circle and a short radial line are the
two centre lines of a hole.
"""

from __future__ import annotations

from math import cos, dist, pi, sin

from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.settle.wishes import CentreCircle
from drafting.shape.frame import add, cross, dot, scale, sub

_FACING = 1e-6


def circle_marks(symbol: CentreCircle, picture: Picture, shift: float, over: float) -> list[Mark]:
    """Give circle and radial lines; none where it is seen from aside or its holes are covered.

    ``shift`` is how far the part has moved along the axis (mm), ``over`` the overrun (view mm).
    """
    look = picture.look
    if abs(abs(dot(symbol.axis, look.toward_eye)) - 1.0) > _FACING:
        return []
    centre = flat(look, symbol.centre, shift)
    first = sub(symbol.through, symbol.centre)
    beside = cross(symbol.axis, first)
    radius = dot(first, first) ** 0.5
    marks: list[Mark] = []
    for k in range(symbol.count):
        a = 2 * pi * k / symbol.count
        way = add(scale(first, cos(a)), scale(beside, sin(a)))
        hole = flat(look, add(symbol.centre, way), shift)
        behind = picture.name == "end" and picture.on_hidden((hole[0] + symbol.hole, hole[1]))
        if not behind and not picture.has_circle(hole, symbol.hole):
            continue
        u = tuple((h - c) / radius for h, c in zip(hole, centre, strict=True))
        near, far = (radius - symbol.hole - over), (radius + symbol.hole + over)
        ends = ((centre[0] + r * u[0], centre[1] + r * u[1]) for r in (near, far))
        marks.append(Mark(Line(*ends), "centre", f"{symbol.name}.hole{k + 1}"))
    if marks:
        marks.append(Mark(Arc(centre, dist(hole, centre), 0.0, 2 * pi), "centre", symbol.name))
    return marks
