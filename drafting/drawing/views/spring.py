"""A coil spring in the half section: a zigzag in the room that it takes.

Simplified representation of ISO 2162-1 (from memory): a line from side to side, once for each turn.
"""

from __future__ import annotations

from itertools import pairwise
from math import floor

from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.settle.wishes import Spring

_STEEP = 0.6
"""From one side to the other, along the axis, in the room's height."""
_APART = 1.5
"""The same on paper (mm) at least, so that the lines do not run together."""


def spring_marks(spring: Spring, picture: Picture, scale: float) -> list[Mark]:
    """Give the zigzag above the axis; none but in section, where alone the spring is seen.

    It crosses the middle of its room, where its words point.
    """
    if picture.section is None:
        return []
    (x0, y), (x1, _) = (flat(picture.look, p) for p in (spring.start, spring.end))
    step = max(_STEEP * (spring.outer - spring.inner), _APART / scale)
    most = floor((x1 - x0) / step)
    count = max(1, most - 1 + most % 2)
    levels = (y + spring.inner, y + spring.outer)
    points: list[Point2] = [(x0 + (x1 - x0) * k / count, levels[k % 2]) for k in range(count + 1)]
    return [Mark(Line(a, b), "thread", spring.name) for a, b in pairwise(points)]
