"""Views in rows and columns: aligned with each other, where the projection angle says.

Paper millimetres. Side and top view share the column of the body datum, side and end view the row
of the axis. The extended view stands on its own: it has a scale of its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.sheet.on_paper import Box, union
from drafting.drawing.sheet.strokes import Point2
from drafting.records import dataclass

BETWEEN = 5.5
"""Least free paper between two views with all that belongs to them."""
MOST_BETWEEN = 26.0
"""Views farther apart than this (mm) no longer read as one."""
_ROWS: dict[str, tuple[ViewName, ...]] = {"third": ("top", "side"), "first": ("side", "top")}
_BESIDE: dict[ViewName, ViewName] = {"side": "end", "top": "pin"}


@dataclass(frozen=True, slots=True)
class Arranged:
    """Places of the views' origins, and their boxes there."""

    places: dict[ViewName, Point2]
    boxes: dict[ViewName, Box]

    @property
    def box(self) -> Box:
        """Give the box of all views."""
        return union(list(self.boxes.values()))

    def moved(self, dx: float, dy: float) -> Arranged:
        """Give all views shifted."""
        return Arranged(
            {n: (p[0] + dx, p[1] + dy) for n, p in self.places.items()},
            {n: moved(b, (dx, dy)) for n, b in self.boxes.items()},
        )


def moved(box: Box, by: Point2) -> Box:
    """Give a box shifted."""
    return (box[0] + by[0], box[1] + by[1], box[2] + by[0], box[3] + by[1])


def end_is_right(projection: Literal["third", "first"], clock_from: Literal["rod", "base"]) -> bool:
    """Say where the end view stands: in third angle on the side that it is seen from."""
    return (clock_from == "rod") == (projection == "third")


def arrange(
    boxes: Mapping[ViewName, Box],
    projection: Literal["third", "first"],
    clock_from: Literal["rod", "base"],
    apart: Point2 = (BETWEEN, BETWEEN),
) -> Arranged:
    """Place views from their boxes (round their origins); ``apart``: free paper across and down.

    The first row's top and the leftmost view's left edge come to 0; everything lies at y <= 0.
    """
    places: dict[ViewName, Point2] = {}
    level = 0.0
    right = end_is_right(projection, clock_from)
    for row in (r for r in _ROWS[projection] if r in boxes):
        other = _BESIDE[row]
        names = [n for n in (row, other) if n in boxes]
        level -= max(boxes[n][3] for n in names)
        places[row] = (0.0, level)
        if other in boxes:
            # The turned mount is the rod's, and the rod lies right.
            to_right = right or other == "pin"
            beside, main = boxes[other], boxes[row]
            x = main[2] - beside[0] + apart[0] if to_right else main[0] - beside[2] - apart[0]
            places[other] = (x, level)
        level += min(boxes[n][1] for n in names) - apart[1]
    if right and {"pin", "end", "side", "top"} <= places.keys():
        _line_up(places, boxes)
    found = Arranged(places, {n: moved(boxes[n], p) for n, p in places.items()})
    return found.moved(-found.box[0], -found.box[3])


def within(
    boxes: Mapping[ViewName, Box],
    field: Box,
    projection: Literal["third", "first"],
    clock_from: Literal["rod", "base"],
) -> Arranged | None:
    """Spread views over a field, white space round and between them; None without room."""
    near = arrange(boxes, projection, clock_from)
    wide, high = field[2] - field[0] - near.box[2], field[3] - field[1] + near.box[1]
    if wide < 0.0 or high < 0.0:
        return None
    rows = sum(1 for r in _ROWS[projection] if r in boxes)
    across = min(MOST_BETWEEN, BETWEEN + wide / 3)
    down = min(MOST_BETWEEN, BETWEEN + high / 3) if rows > 1 else BETWEEN
    found = arrange(boxes, projection, clock_from, (across, down))
    if found.box[2] > field[2] - field[0]:
        found = arrange(boxes, projection, clock_from, (BETWEEN, down))
    spare_x = field[2] - field[0] - found.box[2]
    spare_y = field[3] - field[1] + found.box[1]
    return found.moved(field[0] + spare_x / 2, field[3] - spare_y / 2)


def _line_up(places: dict[ViewName, Point2], boxes: Mapping[ViewName, Box]) -> None:
    """Bring the view along the turned pin into the column of the end view, where it can be."""
    pin, end = places["pin"], places["end"]
    middle = (boxes["pin"][0] + boxes["pin"][2]) / 2
    places["pin"] = (max(pin[0], end[0] - middle), pin[1])
