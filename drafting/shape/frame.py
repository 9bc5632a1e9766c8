"""Points, directions and frames in millimetres. World axes: +X to the rod, +Z 12 o'clock."""

from __future__ import annotations

from math import cos, radians, sin

from drafting.records import dataclass

Vec = tuple[float, float, float]

ORIGIN: Vec = (0.0, 0.0, 0.0)
X: Vec = (1.0, 0.0, 0.0)
Y: Vec = (0.0, 1.0, 0.0)
Z: Vec = (0.0, 0.0, 1.0)


def add(a: Vec, b: Vec) -> Vec:
    """a + b."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """a - b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, k: float) -> Vec:
    """K times a."""
    return (a[0] * k, a[1] * k, a[2] * k)


def dot(a: Vec, b: Vec) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def unit(v: Vec) -> Vec:
    """Give the direction of a vector with length 1."""
    return scale(v, dot(v, v) ** -0.5)


def cross(a: Vec, b: Vec) -> Vec:
    """Vector product, right-handed."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


@dataclass(frozen=True, slots=True)
class Frame:
    """An origin and three orthonormal axes; a mirrored frame is left-handed and that is allowed."""

    origin: Vec = ORIGIN
    x: Vec = X
    y: Vec = Y
    z: Vec = Z

    def vector(self, v: Vec) -> Vec:
        """Turn a local direction into the outer one."""
        return add(add(scale(self.x, v[0]), scale(self.y, v[1])), scale(self.z, v[2]))

    def point(self, p: Vec) -> Vec:
        """Turn a local point into the outer one."""
        return add(self.origin, self.vector(p))

    def within(self, outer: Frame) -> Frame:
        """Give this frame, stated inside ``outer``, as seen from outside."""
        return Frame(
            outer.point(self.origin),
            outer.vector(self.x),
            outer.vector(self.y),
            outer.vector(self.z),
        )

    def moved(self, x: float = 0.0, y: float = 0.0, z: float = 0.0) -> Frame:
        """Give this frame shifted by an outer vector."""
        return Frame(add(self.origin, (x, y, z)), self.x, self.y, self.z)


def along(direction: Vec, origin: Vec = ORIGIN, hint: Vec = Z) -> Frame:
    """Give the right-handed frame with the unit x axis ``direction`` and z as near ``hint``."""
    y = cross(hint, direction)
    if dot(y, y) < 1e-12:
        y = cross(X if abs(direction[0]) < 0.9 else Y, direction)
    y = scale(y, dot(y, y) ** -0.5)
    return Frame(origin, direction, y, cross(direction, y))


def about_x(degrees: float) -> Frame:
    """Give the frame turned about +X so that Y goes towards Z for positive angles (right hand)."""
    c, s = _exact(cos(radians(degrees))), _exact(sin(radians(degrees)))
    return Frame(ORIGIN, X, (0.0, c, s), (0.0, -s, c))


def clock_direction(degrees: float) -> Vec:
    """Give the radial direction at a clock angle in degrees.

    Clockwise from 12, seen from the rod end: 12 o'clock is +Z and 3 o'clock is +Y.
    """
    return (0.0, _exact(sin(radians(degrees))), _exact(cos(radians(degrees))))


WORLD = Frame()
MIRROR_X = Frame(ORIGIN, (-1.0, 0.0, 0.0), Y, Z)
"""Turns a mount drawn for the body end (face towards +X) to the rod end; Y and Z stay."""


def _exact(value: float) -> float:
    """Quarter turns come out as exact 0 and 1, so that flats stay flat in every file."""
    return float(round(value)) if abs(value - round(value)) < 1e-15 else value
