"""Views in rows and columns: aligned with each other, where the projection angle says.

Paper millimetres. Side, top and extended view share the column of the body datum, so that closed
and open lengths are compared by eye; side and end view share the row of the axis.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.sheet.on_paper import Box, union
from drafting.drawing.sheet.strokes import Point2
from drafting.records import dataclass

BETWEEN = 9.0
"""Least free paper between two views with all that belongs to them."""
_ROWS: dict[str, tuple[ViewName, ...]] = {
    "third": ("top", "side", "extended"),
    "first": ("side", "top", "extended"),
}
_ALONE: tuple[ViewName, ...] = ("end", "pin")
"""Views that are rows of their own where what they stand beside is on another sheet."""


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
    apart: float,
) -> Arranged:
    """Place views from their boxes (round their origins); ``apart`` is what lies between rows.

    The first row's top and the leftmost view's left edge come to 0; everything lies at y <= 0.
    """
    beside: dict[ViewName, tuple[ViewName, ...]] = {"side": ("end",), "top": ("pin",)}
    places: dict[ViewName, Point2] = {}
    level = 0.0
    right = end_is_right(projection, clock_from)
    rows = (*_ROWS[projection], *_ALONE)
    left = -min(boxes[n][0] for n in rows if n in boxes)
    for row in rows:
        if row not in boxes or row in places:
            continue
        names = [row, *(n for n in beside.get(row, ()) if n in boxes)]
        level -= max(boxes[n][3] for n in names)
        places[row] = (left, level)
        for name in names[1:]:
            other, main = boxes[name], boxes[row]
            # The turned mount is the rod's, and the rod lies right.
            to_right = right or name == "pin"
            x = main[2] - other[0] + BETWEEN if to_right else main[0] - other[2] - BETWEEN
            places[name] = (left + x, level)
        level += min(boxes[n][1] for n in names) - apart
    if right and {"pin", "end", "side", "top"} <= places.keys():
        _line_up(places, boxes)
    found = Arranged(places, {n: moved(boxes[n], p) for n, p in places.items()})
    return found.moved(-found.box[0], -found.box[3])


def _line_up(places: dict[ViewName, Point2], boxes: Mapping[ViewName, Box]) -> None:
    """Bring the view along the turned pin into the column of the end view, where it can be."""
    pin, end = places["pin"], places["end"]
    middle = (boxes["pin"][0] + boxes["pin"][2]) / 2
    places["pin"] = (max(pin[0], end[0] - middle), pin[1])
