"""Plane curves and strokes: what a view is made of. Model millimetres, x right, y up."""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass
from drafting.shape.frame import Vec, cross

Point2 = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    a: Point2
    b: Point2


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular stroke, counterclockwise from a0 to a1 in radians; a1 - a0 = 2 pi is a circle."""

    centre: Point2
    radius: float
    a0: float
    a1: float


@dataclass(frozen=True, slots=True)
class EllipseArc:
    """centre + cos(t) major + sin(t) minor, t from t0 to t1 (radians, t1 > t0)."""

    centre: Point2
    major: Point2
    minor: Point2
    t0: float
    t1: float


@dataclass(frozen=True, slots=True)
class Poly:
    """Any other curve as points on it, dense enough for paper."""

    points: tuple[Point2, ...]


Curve = Line | Arc | EllipseArc | Poly


@dataclass(frozen=True, slots=True)
class Stroke:
    """A curve with what is known of it."""

    curve: Curve
    visible: bool
    part: str
    piece: str
    kind: Literal["rim", "contour", "crossing", "section"]


@dataclass(frozen=True, slots=True)
class Look:
    """A parallel projection: ``right`` and ``up`` on paper; the eye lies along right x up."""

    right: Vec
    up: Vec

    @property
    def toward_eye(self) -> Vec:
        """Give the direction from the object to the eye."""
        return cross(self.right, self.up)

    def flat(self, p: Vec) -> Point2:
        """Project a point."""
        r, u = self.right, self.up
        return (
            p[0] * r[0] + p[1] * r[1] + p[2] * r[2],
            p[0] * u[0] + p[1] * u[1] + p[2] * u[2],
        )


SIDE = Look((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
"""Seen from 9 o'clock (-Y): rod to the right, 12 o'clock up."""
TOP = Look((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
"""Seen from 12 o'clock (+Z): rod to the right, 3 o'clock (seen from the rod end) up."""
BOTTOM = Look((1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
"""Seen from 6 o'clock."""
FROM_ROD = Look((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
"""Seen from the rod end, looking at its face: 3 o'clock (+Y) on the right."""
FROM_BASE = Look((0.0, -1.0, 0.0), (0.0, 0.0, 1.0))
"""Seen from the base end: 3 o'clock as read from there (-Y) on the right."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """A section face of one part: closed boundary loops (outer and holes) and the lines inside.

    ``lines`` are the hatch lines themselves, exact, for writers without a hatch of their own.
    """

    part: str
    loops: tuple[tuple[Curve, ...], ...]
    angle: float
    pitch: float
    lines: tuple[tuple[Point2, Point2], ...]
