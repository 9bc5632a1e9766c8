"""Outlines cut into convex cells, so that a ray meets each cell at most once."""

from __future__ import annotations

from math import cos, pi, sin

from drafting.shape.pieces import Arc2, Line2, Outline, Point2, polygon

FLAT = 1e-12


def convex_cells(outline: Outline) -> tuple[Outline, ...]:
    """Give convex outlines that touch along chords and together cover the outline.

    A convex outline comes back whole. Otherwise: triangles between the vertices, and a cap between
    chord and arc for every arc (arcs run counterclockwise, so they bulge outwards).
    """
    edges = halved(outline)
    if _is_convex(edges):
        return (outline,)
    caps: list[Outline] = [(e, Line2(_end(e), _start(e))) for e in edges if isinstance(e, Arc2)]
    return (*_triangles([_start(e) for e in edges]), *caps)


def halved(outline: Outline) -> list[Line2 | Arc2]:
    """Split arcs of more than a half turn, whose caps would reach over their chord."""
    out: list[Line2 | Arc2] = []
    for e in outline:
        if isinstance(e, Arc2) and e.a1 - e.a0 > pi:
            mid = (e.a0 + e.a1) / 2
            out += [Arc2(e.centre, e.radius, e.a0, mid), Arc2(e.centre, e.radius, mid, e.a1)]
        else:
            out.append(e)
    return out


def _start(e: Line2 | Arc2) -> Point2:
    return e.a if isinstance(e, Line2) else e.at(e.a0)


def _end(e: Line2 | Arc2) -> Point2:
    return e.b if isinstance(e, Line2) else e.at(e.a1)


def _is_convex(edges: list[Line2 | Arc2]) -> bool:
    for e, after in zip(edges, edges[1:] + edges[:1], strict=True):
        d, n = _heading(e, False), _heading(after, True)
        if d[0] * n[1] - d[1] * n[0] < -1e-9:
            return False
    return True


def _heading(e: Line2 | Arc2, first: bool) -> Point2:
    if isinstance(e, Arc2):
        a = e.a0 if first else e.a1
        return (-sin(a), cos(a))
    d = (e.b[0] - e.a[0], e.b[1] - e.a[1])
    size = (d[0] ** 2 + d[1] ** 2) ** 0.5
    return (d[0] / size, d[1] / size)


def _triangles(points: list[Point2]) -> list[Outline]:
    """Clip ears off a simple counterclockwise polygon."""
    left = list(points)
    out: list[Outline] = []
    while len(left) > 2:
        for i in range(len(left)):
            a, b, c = left[i - 1], left[i], left[(i + 1) % len(left)]
            turn = _area(a, b, c)
            if turn < -FLAT:
                continue
            if turn > FLAT:
                if any(_within(p, a, b, c) for p in left if p not in (a, b, c)):
                    continue
                out.append(polygon((a, b, c)))
            del left[i]
            break
        else:
            raise ValueError("an outline crosses itself or runs clockwise")
    return out


def _area(a: Point2, b: Point2, c: Point2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _within(p: Point2, a: Point2, b: Point2, c: Point2) -> bool:
    return min(_area(a, b, p), _area(b, c, p), _area(c, a, p)) >= 0
