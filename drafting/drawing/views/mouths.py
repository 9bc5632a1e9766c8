"""The mouth of a port shows thread, drilling and centre: nothing of what lies behind it.

It is drawn a little narrower where its boss would leave it no room, face on or askew: a boss
without a hole reads as a plug.

Through its drilling an eye sees edges of bore and gland, and hidden threads run behind it: lines
across a small circle make a slotted screw of it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from math import dist, hypot, inf, pi, sqrt

from drafting.drawing.dimension.owners import group_of, is_port
from drafting.drawing.sheet.on_paper import box, clip, points
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Point2, Stroke
from drafting.drawing.views.crowded import APART, ROOM
from drafting.records import dataclass

RAISED = (".boss", ".tube")
"""What stands out of the barrel at a port."""
_BREATHER = "cylinder.breather"
_ON = 1e-3
_FULL, _HALF = 2 * pi - 1e-6, pi - 1e-6
_CHORD = 0.02
LEAST_MOUTH = 1.2
"""An oval lower than this on paper (mm) is no hole to the eye."""


@dataclass(frozen=True, slots=True)
class Mouth:
    """The circle of a port that is seen face on, and which port it is."""

    port: str
    centre: Point2
    radius: float


def mouths_of(strokes: Iterable[Stroke], below: float | None = None) -> tuple[Mouth, ...]:
    """Find the ports that are seen face on: a full circle of their thread is visible.

    A breather is one too, as wide as it is itself. Of one that is cut in half by an edge at the
    height ``below`` the half is enough.
    """
    found: dict[tuple[str, Point2], float] = {}
    for s in strokes:
        c = s.curve
        if not (s.visible and isinstance(c, Arc)):
            continue
        if c.a1 - c.a0 < (_FULL if below is None or box(c)[3] < below - _ON else _HALF):
            continue
        if s.piece == _BREATHER or (is_port(s.piece) and s.piece.endswith(".thread")):
            key = (group_of(s.piece), (round(c.centre[0], 3), round(c.centre[1], 3)))
            found[key] = max(found.get(key, 0.0), c.radius)
    return tuple(Mouth(port, centre, radius) for (port, centre), radius in found.items())


def clear_strokes(strokes: Sequence[Stroke], below: float | None = None) -> tuple[Stroke, ...]:
    """Take out of the mouths among the strokes what is not of the port's own rims.

    In a half section that is what lies ``below`` the edge of its cut, which may halve a mouth.
    """
    mouths = mouths_of(strokes, below)
    if not mouths:
        return tuple(strokes)
    return tuple(
        replace(s, curve=c) if c is not s.curve else s
        for s in strokes
        for c in _cleared(s.curve, s.piece, mouths, below)
    )


def _cleared(
    curve: Curve, piece: str, mouths: Sequence[Mouth], below: float | None
) -> Sequence[Curve]:
    """Give what is left of a curve; it is parted at the edge of a cut only where a part goes."""
    if below is None:
        return _left(curve, piece, mouths)
    outside = clip(curve, (-inf, -inf, inf, below))
    left = [c for part in outside for c in _left(part, piece, mouths)]
    return [curve] if left == outside else [*clip(curve, (-inf, below, inf, inf)), *left]


def clear_marks(marks: Sequence[Mark], mouths: Sequence[Mouth]) -> tuple[Mark, ...]:
    """Take hidden marks of other pieces out of the mouths."""
    return tuple(
        replace(m, curve=c) if c is not m.curve else m
        for m in marks
        for c in (_left(m.curve, m.name, mouths) if m.role == "hidden" else [m.curve])
    )


def narrowed(
    strokes: Iterable[Stroke], gone: Collection[Curve], scale: float
) -> dict[Curve, Curve]:
    """Give the mouths among those that are ``gone`` which have room when drawn narrower."""
    ports = [s for s in strokes if s.visible and is_port(s.piece)]
    ovals = [s for s in ports if isinstance(s.curve, EllipseArc)]
    return {**_narrow_circles(ports, gone, scale), **_narrow_ovals(ovals, gone, scale)}


def _narrow_circles(
    ports: Sequence[Stroke], gone: Collection[Curve], scale: float
) -> dict[Curve, Curve]:
    """Give the mouths seen face on of which no ring is left within their boss, be it halved."""
    rings = [
        (s, s.curve) for s in ports if isinstance(s.curve, Arc) and s.curve.a1 - s.curve.a0 > _HALF
    ]
    found: dict[Curve, Curve] = {}
    for mouth, at in rings:
        if not mouth.piece.endswith(".thread"):
            continue
        own = [
            (s, c)
            for s, c in rings
            if group_of(s.piece) == group_of(mouth.piece) and dist(c.centre, at.centre) < _ON
        ]
        raised = max((c.radius for s, c in own if s.piece.endswith(RAISED)), default=0.0)
        holes = [c for s, c in own if not s.piece.endswith(RAISED)]
        room = raised - APART / scale
        if 2 * room * scale > LEAST_MOUTH and all(c in gone for c in holes):
            widest = max(holes, key=lambda c: c.radius)
            found[widest] = replace(widest, radius=min(room, widest.radius))
    return found


def _narrow_ovals(
    ovals: Sequence[Stroke], gone: Collection[Curve], scale: float
) -> dict[Curve, Curve]:
    found: dict[Curve, Curve] = {}
    for mouth in ovals:
        c = mouth.curve
        if not isinstance(c, EllipseArc) or c not in gone or not mouth.piece.endswith(".thread"):
            continue
        rims = [s.curve for s in ovals if _is_boss_of(s, mouth)]
        half = max((_half(r) for r in rims if isinstance(r, EllipseArc)), default=0.0)
        room = half - ROOM / scale
        if 2 * room * scale > LEAST_MOUTH:
            k = room / _half(c)
            major, minor = ((v[0] * k, v[1] * k) for v in (c.major, c.minor))
            found[c] = replace(c, major=major, minor=minor)
    return found


def _is_boss_of(stroke: Stroke, mouth: Stroke) -> bool:
    """Tell whether a stroke is the rim of the face that a mouth is in."""
    c, d = stroke.curve, mouth.curve
    if not (isinstance(c, EllipseArc) and isinstance(d, EllipseArc)):
        return False
    own = group_of(stroke.piece) == group_of(mouth.piece) and stroke.piece.endswith(".boss")
    return own and dist(c.centre, d.centre) < _ON


def _half(c: EllipseArc) -> float:
    return min(hypot(*c.major), hypot(*c.minor))


def _left(curve: Curve, piece: str, mouths: Sequence[Mouth]) -> list[Curve]:
    left = [curve]
    for mouth in mouths:
        if not (group_of(piece) == mouth.port and _is_rim(curve, mouth)):
            left = [out for c in left for out in _outside(c, mouth)]
    return left


def _is_rim(curve: Curve, mouth: Mouth) -> bool:
    return isinstance(curve, Arc) and dist(curve.centre, mouth.centre) < _ON


def _outside(curve: Curve, mouth: Mouth) -> list[Curve]:
    """Give what of a curve lies outside; any but a line goes as a whole or stays."""
    if not isinstance(curve, Line):
        return (
            []
            if all(dist(p, mouth.centre) < mouth.radius + _ON for p in points(curve, _CHORD))
            else [curve]
        )
    (ax, ay), (bx, by) = curve.a, curve.b
    long = hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / long, (by - ay) / long
    cx, cy = mouth.centre[0] - ax, mouth.centre[1] - ay
    along, off = cx * ux + cy * uy, abs(cx * uy - cy * ux)
    if off > mouth.radius - _ON:
        return [curve]
    half = sqrt(mouth.radius**2 - off**2)
    t0, t1 = along - half, along + half
    if t1 < _ON or t0 > long - _ON:
        return [curve]

    def at(t: float) -> Point2:
        return (ax + t * ux, ay + t * uy)

    left: list[Curve] = []
    if t0 > _ON:
        left.append(Line(curve.a, at(t0)))
    if t1 < long - _ON:
        left.append(Line(at(t1), curve.b))
    return left
