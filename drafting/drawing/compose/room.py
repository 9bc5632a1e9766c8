"""Where on the paper the retracted views have room: above the extended one, beside the column.

Paper millimetres. Views that end left of the column of table and notes may hang lower than those
above it, as low as the extended view allows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from drafting.drawing.compose.arrange import Arranged, arrange, moved, within
from drafting.drawing.compose.scale import Rule
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.papers import centring_room
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.strokes import Point2

PAST = 3.0
"""So much farther inside, views are clear of a centring mark (mm)."""

Boxes = Mapping[ViewName, Box]


def nearest(rule: Rule, boxes: Boxes, step: float) -> Box:
    """Give the box round views that stand as near as may be, counted as if none hung lower.

    Those that end left of the column may hang lower by a ``step``.
    """
    found = arrange(boxes, rule.job.projection, rule.job.clock_from)
    x0, y0, x1, y1 = found.box
    if step:
        y0 = min(b[1] + step * (b[2] <= rule.beside_column) for b in found.boxes.values())
    return (x0, y0, x1, y1)


def roomy_places(
    rule: Rule,
    boxes: Boxes,
    field: Box,
    column: Box | None = None,
    parts: Mapping[ViewName, Sequence[Box]] | None = None,
) -> Arranged | None:
    """Arrange views in a field, clear of the centring marks and of a ``column`` in its corner.

    Rather than nowhere, a mark may lie within the box of a view where none of its ``parts`` are.
    """
    firm = [*centring_room(rule.paper), *([column] if column else [])]
    ways = [*_ways(rule, boxes, field, column)]
    for found in ways:
        if not any(_meet(b, m) for b in found.boxes.values() for m in firm):
            return found
    for found in ways if parts else ():
        each = (moved(b, found.places[n]) for n, some in (parts or {}).items() for b in some)
        if not any(_meet(b, m) for b in each for m in firm):
            return found
    return None


def in_the_middle(box: Box, field: Box) -> Point2:
    """Give the place at which a box lies in the middle of a field."""
    return (
        (field[0] + field[2] - box[0] - box[2]) / 2,
        (field[1] + field[3] - box[1] - box[3]) / 2,
    )


def _ways(rule: Rule, boxes: Boxes, field: Box, column: Box | None) -> Iterator[Arranged]:
    """Spread views over a field, then over what lies farther inside, then beside a ``column``."""
    x0, y0, x1, y1 = field
    for inner in (field, (x0, y0, x1, y1 - PAST), (x0 + PAST, y0, x1 - PAST, y1 - PAST)):
        found = within(boxes, inner, rule.job.projection, rule.job.clock_from)
        if found:
            yield found
    if column:
        near = arrange(boxes, rule.job.projection, rule.job.clock_from)
        spare = x1 - x0 - near.box[2], y1 - y0 + near.box[1]
        if min(spare) >= 0.0:
            yield from _beside(near.moved(x0, y1), spare, column)


def _beside(found: Arranged, spare: Point2, column: Box) -> Iterator[Arranged]:
    """Move views from the upper left to the middle of what is free, as far as a column lets."""
    for down in (spare[1] / 2, min(PAST, spare[1]), 0.0):
        low = [b for b in found.boxes.values() if b[1] - down < column[3]]
        free = min([spare[0], *(column[0] - b[2] for b in low)])
        if free >= 0.0:
            yield found.moved(free / 2, -down)
            yield found.moved(min(PAST, free), -down)


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
