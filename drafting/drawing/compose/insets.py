"""Room for the small views: loose pins and enlarged details, beside what stands on a sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.drawing.compose.arrange import moved
from drafting.drawing.compose.page import INSIDE, Page, shifted
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import View
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.views.details import marked, wanted_details
from drafting.drawing.views.looks import Seen
from drafting.drawing.views.loose_pin import Small, free_places, middle_of, small_views, taken
from drafting.drawing.views.view import as_view, dressed_view

_FAR_APART = 40.0


def with_insets(page: Page, seen: Seen) -> tuple[Page, tuple[View, ...]]:
    """Give a page with room for its small views, and all its views as they are drawn."""
    job, scale = page.blank.job, page.blank.scale
    page, small, boxes = _with_small(page)
    views = {
        v.picture.name: as_view(
            v, v.picture.name, page.arranged.places[v.picture.name], float(scale)
        )
        for v in page.views
    }
    wanted = wanted_details(job, seen, scale, page.blank.paper) if "side" in views else ()
    for detail in wanted:
        parent = marked(views["side"], detail, page.blank.style)
        found = _best_room(page, detail.small, boxes, (False,)) if parent else None
        if parent and found:
            views["side"] = parent
            page, there, view = found
            boxes.append(there)
            small.append(view)
    return page, (*views.values(), *small)


def pins_have_room(page: Page) -> bool:
    """Tell whether every loose pin that is asked for has room for its own view."""
    pins = page.blank.job.pins
    return not pins or len(_with_small(page)[1]) == len(pins)


def _with_small(page: Page) -> tuple[Page, list[View], list[Box]]:
    """Place the small views; where not all find room, with the other views farther left."""
    wanted = small_views(page.blank.job, page.blank.scale, page.blank.paper)
    best = _placed_small(page, wanted)
    if len(best[1]) < len(wanted):
        aside = min(b[0] for b in page.boxes) - page.blank.paper.frame[0] - INSIDE
        left = shifted(page, -aside, 0.0)
        if left:
            best = max(best, _placed_small(left, wanted), key=lambda found: len(found[1]))
    return best


def _placed_small(page: Page, wanted: Sequence[Small]) -> tuple[Page, list[View], list[Box]]:
    """Place the small views, each at the scale it likes best for which there is room."""
    boxes = page.boxes
    views = []
    for small in wanted:
        found = _best_room(page, small, boxes)
        if found is not None:
            page, there, view = found
            boxes.append(there)
            views.append(view)
    return page, views, boxes


def _best_room(
    page: Page, small: Small, boxes: list[Box], give_ways: Sequence[bool] = (False, True)
) -> tuple[Page, Box, View] | None:
    ways = []
    for scale in small.scales:
        one = small.titled(scale)
        seen, style = Seen((one.picture,), one.choices), page.blank.style
        ways.append((float(scale), dressed_view(one.job, seen, one.picture, float(scale), style)))
    for give_way in give_ways:
        for k, dressed in ways:
            clear = not dressed.placed.clashes
            found = _room(page, dressed.box, boxes, give_way) if clear else None
            if found is not None:
                at = found[1]
                return found[0], moved(dressed.box, at), as_view(dressed, small.name, at, k)
    return None


def _room(page: Page, size: Box, boxes: list[Box], give_way: bool) -> tuple[Page, Point2] | None:
    """Find room for one more view: beside the lists as they are, else with the lists set anew.

    Reasons of derived sizes may ``give_way`` to the next sheet: the sizes are on the view.
    """
    furniture, sheet = page.furniture, page.blank
    frame, near = sheet.paper.frame, middle_of(page.boxes)
    firm = [*boxes, *sheet.firm]
    lists = taken(furniture.marks, furniture.texts, frame)
    for at in free_places(size, [*firm, *lists], frame, near):
        return page, at
    for at in free_places(size, firm, frame, near, _FAR_APART):
        less = sheet.furnished([*boxes, moved(size, at)])
        if give_way:
            if less.firm_left <= furniture.firm_left:
                return replace(page, furniture=less), at
        elif less.left_over <= furniture.left_over:
            return replace(page, furniture=less), at
    return None
