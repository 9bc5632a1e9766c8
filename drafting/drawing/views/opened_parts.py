"""What the extended view shows with its upper half laid open, and what it leaves to other views.

Left to them are ports and knobs of the closed half where the extension lines of a size within have
to run down. What the edge of the cut halves is drawn as far as it is seen. Places in mm.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from drafting.drawing.dimension.owners import group_of, is_fitting, is_port
from drafting.drawing.sheet.strokes import SIDE
from drafting.settle.wishes import Length, Wish
from drafting.shape.frame import X, dot
from drafting.shape.pieces import Part, Piece, extent

_SQUARE = 1e-6
_Fitted = tuple[str, float]
"""The table of a port; of a knob its name, and where it stands along the axis."""


def opened_parts(extended: Sequence[Part], wishes: Sequence[Wish]) -> tuple[Part, ...]:
    """Give the parts of the extended view without what is left to other views."""
    some = [(key, q) for p in extended for q in p.pieces if (key := _fitted(q))]
    left = frozenset(_in_the_way(some, wishes))
    return tuple(_without(extended, left))


def _fitted(piece: Piece) -> _Fitted | None:
    """Say which port or knob a piece is of."""
    if is_port(piece.name):
        return group_of(piece.name), 0.0
    return (piece.name, sum(extent(piece, X)) / 2) if is_fitting(piece.name) else None


def _in_the_way(some: Sequence[tuple[_Fitted, Piece]], wishes: Sequence[Wish]) -> Iterator[_Fitted]:
    """Give what lies below the ends of sizes within that have something above them too."""
    ends = {
        p[0]
        for w in wishes
        if isinstance(w, Length) and w.pose == "extended" and w.direction == X
        for p in (w.a, w.b)
        if dot(p, SIDE.up) > _SQUARE
    }
    for x in ends:
        there = [(key, q) for key, q in some if extent(q, X)[0] <= x <= extent(q, X)[1]]
        if any(extent(q, SIDE.up)[0] > 0.0 for _, q in there):
            yield from (key for key, q in there if extent(q, SIDE.up)[1] < 0.0)


def _without(parts: Sequence[Part], left: Collection[_Fitted]) -> Iterator[Part]:
    for part in parts:
        pieces = tuple(q for q in part.pieces if _fitted(q) not in left)
        if pieces:
            yield replace(part, pieces=pieces)
