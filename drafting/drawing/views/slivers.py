"""What would be a blot of ink at a scale is left out: what stands behind, seen by its edges.

A boss or tube behind the barrel may stand out of its outline by less than two lines are wide; the
mouth of a drilling in the bore's far wall may be lower than what an eye takes for a hole; the edge
of a half section may leave as little of one in front. Another view shows the port. In the end view
a round part looks out behind a straight edge by as little, before the face of a larger round.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import cos, dist, pi

from drafting.drawing.dimension.owners import group_of, is_port
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.on_paper import box, ends, union
from drafting.drawing.sheet.strokes import SIDE, TOP, Arc, Point2, Stroke
from drafting.drawing.views.mouths import LEAST_MOUTH, RAISED
from drafting.shape.frame import Vec
from drafting.shape.pieces import Part, extent

_SQUARE = 1e-6
_FULL = 2 * pi - 1e-6
_ONE = 0.05
"""Diameters that differ by less (mm) are one."""
_OTHER = {"side": TOP, "top": SIDE}
"""The long view that shows a port which stands behind in this one, unless it does so there too."""


def without_slivers(
    picture: Picture,
    parts: Sequence[Part],
    scale: float,
    line: float,
    measured: Sequence[float] = (),
) -> Picture:
    """Give a view at a scale without slivers; ``line`` is a wide line's width on paper.

    What is round and of a ``measured`` diameter (mm) stays.
    """
    rim, mouth = 2 * line / scale, LEAST_MOUTH / scale
    if picture.name == "end":
        gone = frozenset(_sickles(picture, rim, measured))
    elif picture.name in ("side", "top", "extended"):
        gone = frozenset(_slivers(picture, parts, rim, mouth))
    else:
        return picture
    kept = tuple(s for s in picture.strokes if s not in gone)
    return replace(picture, strokes=kept) if gone else picture


def _sickles(picture: Picture, rim: float, measured: Sequence[float]) -> Iterator[Stroke]:
    """Give arcs that stand less than ``rim`` out of the edge along their chord, within a circle."""
    arcs = [(s, s.curve) for s in picture.visible if isinstance(s.curve, Arc)]
    for stroke, arc in arcs:
        half = (arc.a1 - arc.a0) / 2
        if half > pi / 2 or arc.radius * (1.0 - cos(half)) >= rim:
            continue
        if any(abs(2 * arc.radius - d) < _ONE for d in measured):
            continue
        if any(_surrounds(c, arc) for _, c in arcs) and _is_on_edge(ends(arc), picture):
            yield stroke


def _surrounds(circle: Arc, arc: Arc) -> bool:
    room = circle.radius - arc.radius
    return circle.a1 - circle.a0 > _FULL and dist(circle.centre, arc.centre) < room


def _is_on_edge(chord: tuple[Point2, Point2], picture: Picture) -> bool:
    """Tell whether an edge that is seen runs along a chord."""
    (ax, ay), (bx, by) = chord
    return all(
        picture.on_line((ax + (bx - ax) * k, ay + (by - ay) * k)) for k in (0.2, 0.4, 0.6, 0.8)
    )


def _slivers(picture: Picture, parts: Sequence[Part], rim: float, mouth: float) -> Iterator[Stroke]:
    """Give what is seen of ports behind that is lower than ``rim``, of their holes ``mouth``."""
    seen = [s for s in picture.strokes if s.visible and is_port(s.piece)]
    other = _OTHER.get(picture.name)
    for port in sorted({group_of(s.piece) for s in seen}):
        if picture.section and picture.section.above is not None:
            yield from _left_below(seen, port, picture.section.above, rim)
        behind = _is_behind(port, parts, picture.look.toward_eye)
        if not behind or (other and _is_behind(port, parts, other.toward_eye)):
            continue
        for raised, least in ((True, rim), (False, mouth)):
            own = [s for s in seen if group_of(s.piece) == port and _raised(s) is raised]
            if own and _height(own) < least:
                yield from own


def _left_below(seen: Sequence[Stroke], port: str, edge: float, rim: float) -> Iterator[Stroke]:
    """Give what the edge of the cut leaves of a port in front that is lower than ``rim``."""
    below = [s for s in seen if group_of(s.piece) == port and box(s.curve)[3] < edge + _SQUARE]
    if below and -rim < union([box(s.curve) for s in below])[1] - edge:
        yield from below


def _is_behind(port: str, parts: Sequence[Part], eye: Vec) -> bool:
    """Tell whether a port's hole points away from an eye."""
    holes = (q for p in parts for q in p.pieces if q.name == f"{port}.thread")
    return any(sum(extent(q, eye)) < -_SQUARE for q in holes)


def _raised(stroke: Stroke) -> bool:
    return stroke.piece.endswith(RAISED)


def _height(strokes: Sequence[Stroke]) -> float:
    _, low, _, high = union([box(s.curve) for s in strokes])
    return high - low
