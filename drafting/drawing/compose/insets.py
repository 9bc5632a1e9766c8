"""Room for the small views: loose pins and enlarged details, beside what stands on a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from drafting.drawing.compose.arrange import moved
from drafting.drawing.compose.page import Page
from drafting.drawing.dimension.job import Job
from drafting.drawing.lists.papers import centring_room
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import View
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.details import marked, wanted_details
from drafting.drawing.views.looks import Seen
from drafting.drawing.views.loose_pin import Small, free_places, middle_of, small_views
from drafting.drawing.views.view import as_view, dressed_view


def with_insets(
    page: Page, job: Job, seen: Seen, firm: Sequence[Box]
) -> tuple[tuple[View, ...], tuple[Small, ...]]:
    """Give all views of a page as they are drawn, and the pins that found no room.

    Pins stay together: where one has no room all are left. ``firm`` is what stands on the paper
    beside the views.
    """
    views = {
        p.view.picture.name: as_view(p.view, p.view.picture.name, p.at, float(p.scale))
        for p in page.views
    }
    boxes = [*page.boxes, *firm, *centring_room(page.paper)]
    pins = small_views(job, page.scale, page.paper)
    small = list(_with_room(page, pins, boxes))
    left: tuple[Small, ...] = ()
    if len(small) < len(pins):
        small, left = [], pins
    boxes += [box for box, _ in small]
    for detail in wanted_details(job, seen, page.scale, page.paper):
        parent = marked(views["side"], detail, page.style)
        found = _best_room(page, detail.small, boxes) if parent else None
        if parent and found:
            views["side"] = parent
            boxes.append(found[0])
            small.append(found)
    return (*views.values(), *(view for _, view in small)), left


def _with_room(
    page: Page, pins: Sequence[Small], boxes: Sequence[Box]
) -> Iterator[tuple[Box, View]]:
    """Place pins one after the other, those that have room."""
    taken = list(boxes)
    for pin in pins:
        found = _best_room(page, pin, taken)
        if found:
            taken.append(found[0])
            yield found


def _best_room(page: Page, small: Small, boxes: list[Box]) -> tuple[Box, View] | None:
    """Place a small view at the scale that it likes best for which there is room."""
    near = middle_of(page.boxes)
    for box, view in drawn(small, page.style):
        for at in free_places(box, boxes, page.paper.frame, near):
            return moved(box, at), replace(view, at=at)
    return None


def drawn(small: Small, style: Style) -> Iterator[tuple[Box, View]]:
    """Give a small view at each of its scales, with its box, where nothing in it touches."""
    origin: Point2 = (0.0, 0.0)
    for scale in small.scales:
        one = small.titled(scale)
        seen, k = Seen((one.picture,), one.choices), float(scale)
        dressed = dressed_view(one.job, seen, one.picture, k, style, title=one.picture.title)
        if not dressed.placed.clashes:
            yield dressed.box, as_view(dressed, small.name, origin, k)
