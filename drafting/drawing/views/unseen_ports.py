"""A port that no long view shows is drawn hidden in the side view, by the rim of its face.

What a callout points at and a position is measured to has to be seen. An end view shows of it an
edge at most. One in a flat side that faces down or up is seen along that side: there its thread is
two lines.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from math import dist, hypot

from drafting.drawing.dimension.owners import group_of, is_port
from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.project.project import project
from drafting.drawing.sheet.strokes import Arc, Curve, Line, Look, Point2, Stroke
from drafting.drawing.views.mouths import RAISED
from drafting.settle.wishes import CentreLine, Symbol
from drafting.shape.pieces import Part

_KEPT = 8
_ON = 0.05
_LONG = ("side", "top")


def with_unseen_ports(
    pictures: Sequence[Picture], parts: tuple[Part, ...], symbols: Iterable[Symbol]
) -> tuple[Picture, ...]:
    """Give the pictures, with the ports of the retracted ``parts`` that no long one shows."""
    seen = {t for p in pictures if p.name in _LONG for t in p.tables}
    unseen = [s for s in symbols if isinstance(s, CentreLine) and _is_port_without(s.name, seen)]
    return tuple(
        replace(p, strokes=(*p.strokes, *_rims(unseen, p.look, _strokes(parts, p.look))))
        if p.name == "side" and unseen
        else p
        for p in pictures
    )


def _is_port_without(name: str, seen: Collection[str]) -> bool:
    """Tell whether a centre line is the axis of a port that is not among what is seen."""
    own = group_of(name)
    return is_port(own) and name == f"{own}.thread" and own not in seen


@lru_cache(maxsize=_KEPT)
def _strokes(parts: tuple[Part, ...], look: Look) -> tuple[Stroke, ...]:
    """Give the hidden strokes of all ports in a look."""
    return tuple(s for s in project(parts, look) if not s.visible and is_port(s.piece))


def _rims(axes: Iterable[CentreLine], look: Look, strokes: Sequence[Stroke]) -> Iterator[Stroke]:
    """Give what is drawn of each port: its boss, or in a flat side the widest of its hole."""
    for axis in axes:
        own = [s for s in strokes if group_of(s.piece) == group_of(axis.name)]
        raised = [s for s in own if s.piece.endswith(RAISED) and s.kind != "crossing"]
        if raised:
            yield from raised
            continue
        foot, tip = flat(look, axis.a), flat(look, axis.b)
        off = [_off_axis(s.curve, foot, tip) for s in own]
        yield from (s for s, r in zip(own, off, strict=True) if r and r > max(off) - _ON)


def _off_axis(curve: Curve, foot: Point2, tip: Point2) -> float:
    """Give how far from an axis a circle round it or a line along it is; 0 of anything else."""
    if isinstance(curve, Arc):
        return curve.radius if dist(curve.centre, tip) < _ON else 0.0
    along = (tip[0] - foot[0], tip[1] - foot[1])
    if not isinstance(curve, Line) or hypot(*along) < _ON:
        return 0.0
    x, y = along[0] / hypot(*along), along[1] / hypot(*along)
    one, other = ((p[0] - tip[0]) * y - (p[1] - tip[1]) * x for p in (curve.a, curve.b))
    return abs(one) if abs(one - other) < _ON else 0.0
