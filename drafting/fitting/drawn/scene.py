"""What of a mechanism is drawn in the plane of its arm: x to the right, y up, mm of the machine.

The cylinder stands closed in outlines, half-way in narrow lines, open in phantom. So does what
moves of the machine; where no model shows it, it is a bar from the hinge to pin and load.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, hypot, pi, radians, sin

from drafting.drawing.project.project import project
from drafting.drawing.sheet.sheet import Mark, Role
from drafting.drawing.sheet.strokes import SIDE, TOP, Arc, Curve, EllipseArc, Line, Poly
from drafting.fitting.drawn.silhouette import Edge, at_place
from drafting.fitting.fit import Fit
from drafting.fitting.machine import Distance, Hinge, Load, Point
from drafting.fitting.travel import Place, carried, extremes, hard_span, place, span, turned
from drafting.records import dataclass
from drafting.shape.pieces import Part

INSIDE = ("piston", "stop tube")
BAR, SIGN = 1.6, 2.2
"""Half of a bar's width, and the radius of a load's sign, paper mm."""
ARROW = 12.0
CLEAR = 2.0
"""Degrees between the travel's end and a stop that is drawn: nearer, they lie on each other."""


@dataclass(frozen=True, slots=True)
class Scene:
    """A mechanism to be drawn: the answer, the machine's edges, and paper mm for each mm."""

    fit: Fit
    edges: tuple[Edge, ...]
    k: float

    @property
    def ends(self) -> tuple[Place, Place, Place]:
        """Give the places where the cylinder is shortest, half-way and longest."""
        return ends(self.fit)


def ends(f: Fit) -> tuple[Place, Place, Place]:
    """Give the places where the cylinder is shortest, half-way and longest."""
    near, far = extremes(f.machine.way, *span(f.machine.way))
    return near, place(f.machine.way, (near.at + far.at) / 2), far


def scene_marks(s: Scene) -> Iterator[Mark]:
    """Give all that is drawn."""
    near, middle, far = s.ends
    looks: tuple[tuple[Place, Role], ...] = (
        (far, "phantom"),
        (middle, "thread"),
        (near, "outline"),
    )
    for edge in s.edges:
        if not edge.moves:
            yield Mark(Poly(edge.points), "thread", f"machine {edge.solid}")
    for p, role in looks:
        if role != "thread":
            yield from _moving(s, p, role)
        yield from cylinder_marks(s.fit, p, role, bare=role == "thread")
        yield Mark(Line(p.base, p.rod), "centre", "between pins")
    yield from _hinge(s)
    yield from _arcs(s)
    if not s.edges:
        yield from _ground(s, near.base)


def _moving(s: Scene, p: Place, role: Role) -> Iterator[Mark]:
    """Give what moves of the machine at a place: its edges, its arm, its loads."""
    way, shown = s.fit.machine.way, s.fit.room.seat.start if s.fit.room else 0.0
    for edge in s.edges:
        if edge.moves:
            track = at_place(edge, s.fit.machine, shown, p.at)
            narrow: Role = "thread" if role == "outline" else role
            yield Mark(Poly(track), narrow, f"machine {edge.solid}")
    if isinstance(way, Distance):
        return
    if isinstance(way, Hinge):
        ats = [p.rod, *(carried(way, load.at, p.at) for load in way.loads)]
        for at in ats:
            if s.edges:
                yield Mark(Line(way.at, at), "centre", "arm")
            else:
                yield from _bar(way.at, at, BAR / s.k, role)
    for load in way.loads:
        yield from _load(s, load, p, role)


def _bar(a: Point, b: Point, half: float, role: Role) -> Iterator[Mark]:
    """Give a bar with round ends from one point to another."""
    run = hypot(b[0] - a[0], b[1] - a[1])
    if run < 1e-9:
        return
    nx, ny = -(b[1] - a[1]) / run * half, (b[0] - a[0]) / run * half
    turn = atan2(b[1] - a[1], b[0] - a[0])
    yield Mark(Line((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)), role, "arm")
    yield Mark(Line((a[0] - nx, a[1] - ny), (b[0] - nx, b[1] - ny)), role, "arm")
    yield Mark(Arc(a, half, turn + pi / 2, turn + 3 * pi / 2), role, "arm")
    yield Mark(Arc(b, half, turn - pi / 2, turn + pi / 2), role, "arm")


def _load(s: Scene, load: Load, p: Place, role: Role) -> Iterator[Mark]:
    """Give a load's sign: a ring with a cross, and an arrow the way it acts."""
    way, r = s.fit.machine.way, SIGN / s.k
    at = carried(way, load.at, p.at)
    yield Mark(Arc(at, r, 0.0, 2 * pi), "thread" if role == "outline" else role, "load")
    yield from cross(at, r, "load", "thread")
    force = (0.0, -1.0) if load.mass else load.force
    if isinstance(way, Hinge) and load.turns and not load.mass:
        force = turned(force, (0.0, 0.0), p.at)
    size = hypot(*force)
    if role == "outline" and size:
        u = (force[0] / size, force[1] / size)
        tip = (at[0] + u[0] * ARROW / s.k, at[1] + u[1] * ARROW / s.k)
        yield Mark(Line(at, tip), "dimension", "load")
        yield from arrow(tip, (-u[0], -u[1]), s.k, "load")


def arrow(tip: Point, back: Point, k: float, name: str) -> Iterator[Mark]:
    """Give an open arrow head whose shaft lies in the direction ``back``."""
    for side in (1.0, -1.0):
        x = back[0] - side * back[1] / 4
        y = back[1] + side * back[0] / 4
        yield Mark(Line(tip, (tip[0] + 3.0 * x / k, tip[1] + 3.0 * y / k)), "dimension", name)


def cylinder_marks(f: Fit, p: Place, role: Role, bare: bool = False) -> Iterator[Mark]:
    """Give the cylinder's visible strokes at a place; ``bare`` without ports and fittings."""
    s = f.subject
    along = "z" in (m.axis for m in s.mounts)
    out = min(max(p.length - s.closed, 0.0), s.open - s.closed)
    parts: list[Part] = [q for q in s.cylinder.at(out) if q.name not in INSIDE]
    up = f.room.seat.up if f.room is not None else 1.0
    for stroke in project(parts, TOP if along else SIDE, hidden=False):
        if stroke.visible and not (bare and "_port" in stroke.piece):
            yield Mark(_placed(stroke.curve, p, up), role, stroke.piece)


def _placed(c: Curve, p: Place, up: float) -> Curve:
    """Turn a curve of the cylinder's own view (datum at 0) to where it lies; ``up`` -1 mirrors."""
    ux, uy = p.unit

    def at(q: Point) -> Point:
        y = up * q[1]
        return p.base[0] + q[0] * ux - y * uy, p.base[1] + q[0] * uy + y * ux

    if isinstance(c, Line):
        return Line(at(c.a), at(c.b))
    if isinstance(c, Arc):
        turn = atan2(uy, ux)
        a0, a1 = (c.a0, c.a1) if up > 0 else (-c.a1, -c.a0)
        return Arc(at(c.centre), c.radius, a0 + turn, a1 + turn)
    if isinstance(c, EllipseArc):
        n = 24
        ts = [c.t0 + (c.t1 - c.t0) * i / n for i in range(n + 1)]
        return Poly(tuple(
            at((c.centre[0] + cos(t) * c.major[0] + sin(t) * c.minor[0],
                c.centre[1] + cos(t) * c.major[1] + sin(t) * c.minor[1])) for t in ts
        ))  # fmt: skip
    return Poly(tuple(at(q) for q in c.points))


def _hinge(s: Scene) -> Iterator[Mark]:
    way = s.fit.machine.way
    if not isinstance(way, Hinge):
        return
    yield Mark(Arc(way.at, 2.0 / s.k, 0.0, 2 * pi), "outline", "hinge")
    yield from cross(way.at, 4.0 / s.k, "hinge")
    if not s.edges:
        yield from _ground(s, way.at)
    a, b = span(way)
    low, high = hard_span(way)
    for at, stop in ((a, low), (b, high)):
        if abs(stop - at) > CLEAR:
            yield Mark(Line(way.at, carried(way, way.rod_pin, stop)), "hidden", "stop")


def _ground(s: Scene, at: Point) -> Iterator[Mark]:
    """Give the sign of what stands still under a pin."""
    x, y, w, h = at[0], at[1], 4.0 / s.k, 5.0 / s.k
    yield Mark(Line((x, y), (x - w, y - h)), "thread", "ground")
    yield Mark(Line((x, y), (x + w, y - h)), "thread", "ground")
    yield Mark(Line((x - 1.6 * w, y - h), (x + 1.6 * w, y - h)), "thread", "ground")
    for n in range(-3, 4):
        left = x + 0.45 * n * w
        yield Mark(Line((left, y - h), (left - 0.4 * w, y - 1.3 * h)), "hatch", "ground")


def _arcs(s: Scene) -> Iterator[Mark]:
    """Give the way of the rod's pin, and the travel as an arc with arrows."""
    way = s.fit.machine.way
    a, b = span(way)
    if not isinstance(way, Hinge):
        yield Mark(Line(place(way, a).rod, place(way, b).rod), "centre", "rod pin")
        return
    r = hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])
    first = atan2(way.rod_pin[1] - way.at[1], way.rod_pin[0] - way.at[0])
    yield Mark(Arc(way.at, r, first + radians(a), first + radians(b)), "centre", "rod pin")
    inner = travel_radius(s)
    yield Mark(Arc(way.at, inner, first + radians(a), first + radians(b)), "dimension", "travel")
    for at, sign in ((a, 1.0), (b, -1.0)):
        t = first + radians(at)
        tip = (way.at[0] + inner * cos(t), way.at[1] + inner * sin(t))
        t += sign * 1.5 / (inner * s.k)
        yield from arrow(tip, (-sign * sin(t), sign * cos(t)), s.k, "travel")


def travel_radius(s: Scene) -> float:
    """Give the radius of the arc that shows the travel, between hinge and rod pin."""
    way = s.fit.machine.way
    assert isinstance(way, Hinge)
    return 0.55 * hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])


def cross(at: Point, r: float, name: str, role: Role = "centre") -> Iterator[Mark]:
    """Give a cross about a point."""
    yield Mark(Line((at[0] - r, at[1]), (at[0] + r, at[1])), role, name)
    yield Mark(Line((at[0], at[1] - r), (at[0], at[1] + r)), role, name)
