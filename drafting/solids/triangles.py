"""Triangles of a face in one form, whatever the last bit of a processor made of a tie.

Where four corners lie on one circle both diagonals are as good, and the kernel takes one by the
last bit of its numbers. Here it is always the one from the corner with the lowest number.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from drafting.shape.frame import Vec, cross, dot, sub

Triangle = tuple[int, int, int]
TIE = 1e-5
"""Sine of the angle (radians) by which four corners may miss one circle."""


def settled(points: Sequence[Vec], triangles: Sequence[Triangle]) -> list[Triangle]:
    """Give the triangles with ties settled, each from its lowest corner, in order."""
    found = [_from_lowest(t) for t in triangles]
    beside: dict[tuple[int, int], int] = {}
    for k, t in enumerate(found):
        beside |= dict.fromkeys(_sides(t), k)
    waiting = list(beside)
    while waiting:
        a, b = waiting.pop()
        one, other = beside.get((a, b)), beside.get((b, a))
        if one is None or other is None:
            continue
        c, d = _third(found[one], a, b), _third(found[other], a, b)
        if min(c, d) > min(a, b) or not _is_tie(points, a, b, c, d):
            continue
        del beside[a, b], beside[b, a]
        for k, t in ((one, (c, d, b)), (other, (d, c, a))):
            found[k] = _from_lowest(t)
            beside |= dict.fromkeys(_sides(t), k)
            waiting += _sides(t)
    return sorted(found)


def _sides(t: Triangle) -> list[tuple[int, int]]:
    return [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])]


def _third(t: Triangle, a: int, b: int) -> int:
    return next(k for k in t if k not in (a, b))


def _from_lowest(t: Triangle) -> Triangle:
    k = t.index(min(t))
    return t[k], t[(k + 1) % 3], t[(k + 2) % 3]


def _is_tie(points: Sequence[Vec], a: int, b: int, c: int, d: int) -> bool:
    """Tell whether the angles over the side a-b at c and d make half a turn, in one plane."""
    p, q = points[a], points[b]
    at_c, at_d = (_angle(points[k], p, q) for k in (c, d))
    if at_c is None or at_d is None:
        return False
    (cos_c, sin_c, up_c), (cos_d, sin_d, up_d) = at_c, at_d
    sine, cosine = sin_c * cos_d + cos_c * sin_d, cos_c * cos_d - sin_c * sin_d
    return abs(sine) < TIE and cosine < 0.0 and dot(up_c, up_d) < 0.0


def _angle(corner: Vec, p: Vec, q: Vec) -> tuple[float, float, Vec] | None:
    """Give cosine and sine of an angle and what it turns about; None where there is none."""
    u, v = sub(p, corner), sub(q, corner)
    up = cross(u, v)
    size, sine, cosine = hypot(*u) * hypot(*v), hypot(*up), dot(u, v)
    if size == 0.0 or sine == 0.0:
        return None
    return cosine / size, sine / size, up
