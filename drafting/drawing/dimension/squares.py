"""Whether a long view has room to measure a square head or cap right across."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.drawing.dimension.owners import group_of
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.strokes import Line
from drafting.settle.wishes import Length

_ROOM, _OF_SQUARE = 0.03, 0.18
"""So much of a view's length, some 6 mm on paper, a line right across wants to itself; or so much
of the square, as a long view may be broken."""
_SAME = 1e-3
"""Nearer (mm) than so one edge is at the height, or the end, of another."""

Run = tuple[float, float]


def has_clear_square(wish: Length, picture: Picture) -> bool:
    """Tell whether a line from edge to edge of a square has room beside all that stands before it.

    Over the circle of a port or of a trunnion, or close by one, it would be read as theirs.
    """
    a, b = (picture.look.flat(p) for p in (wish.a, wish.b))
    low, high = sorted((a[1], b[1]))
    least = min(_ROOM * (picture.box[2] - picture.box[0]), _OF_SQUARE * (high - low))
    return any(
        end - start >= least
        for piece, run in _edges(a[0], high, picture)
        for start, end in _free(piece, run, (low, high), picture)
    )


def _edges(x: float, high: float, picture: Picture) -> Iterator[tuple[str, Run]]:
    """Give the pieces whose level edge at a height is seen at a place, and how far it runs."""
    for piece in dict.fromkeys(s.piece for s in picture.visible if isinstance(s.curve, Line)):
        for run in picture.seen_level(piece, high):
            if run[0] - _SAME <= x <= run[1] + _SAME:
                yield piece, run


def _free(piece: str, run: Run, heights: Run, picture: Picture) -> Iterator[Run]:
    """Give the stretches of a run before which nothing of other parts is seen."""
    start = run[0]
    others = (box(s.curve) for s in picture.visible if group_of(s.piece) != group_of(piece))
    for lo, bottom, hi, top in sorted(others):
        beside = lo > run[1] - _SAME or hi < run[0] + _SAME
        if not beside and bottom < heights[1] - _SAME and top > heights[0] + _SAME:
            yield start, lo
            start = max(start, hi)
    yield start, run[1]
