"""The end view a step larger than the others, where its bolt circles and plates would be small.

One that shows nothing but the hours stays in projection. Its title says its scale. It stands level
with the axis if it can be, else as near as there is room; nothing else on the page moves for it.
Paper millimetres.
"""

from __future__ import annotations

from dataclasses import replace
from math import inf

from drafting.drawing.compose.arrange import moved
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.page import Page, Placed, end_title
from drafting.drawing.compose.scale import AIR
from drafting.drawing.dimension.labels import measure
from drafting.drawing.lists.border import column_box
from drafting.drawing.lists.papers import centring_room, scale_text, scales
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.views.loose_pin import free_places, middle_of

_LEAST, _LEAST_BOLTS = 28.0, 18.0
"""An end view that carries sizes is drawn larger, where it may be, if its outline or a pattern of
bolts on it is smaller."""
_MOST = 70.0
"""It is not drawn larger than this."""
_PATTERNS = (".bolts.circle", ".bolts.pitch.y", ".bolts.pitch.z")
_APART = 5.0
"""Free paper between it and another view."""


def with_larger_end(page: Page, dresser: Dresser) -> Page:
    """Give a page with its end view at the next larger scale of the series, if it has room."""
    end = next((v for v in page.views if v.view.picture.name == "end"), None)
    if end is None or dresser.job.scale != "auto" or page.paper.is_small or end.scale >= 1:
        return page
    scale = min(s for s in scales("auto", page.paper) if s > end.scale)
    x0, y0, x1, y1 = end.view.picture.box
    size = max(x1 - x0, y1 - y0)
    if not _is_small(end, size, dresser) or size * float(scale) > _MOST:
        return page
    title = f"{end_title(dresser)} {scale_text(scale)}"
    larger = dresser.view("end", scale, page.style, None, title)
    was, now = end.view.placed, larger.placed
    if now.clashes > was.clashes or len(now.tangled) > len(was.tangled):
        return page
    others = [v for v in page.views if v is not end]
    at = _place(larger.box, end, page, [v.box for v in others], dresser)
    return replace(page, views=(*others, Placed(larger, at, scale))) if at else page


def _is_small(end: Placed, size: float, dresser: Dresser) -> bool:
    """Tell whether a view with sizes, or a pattern of bolts that it shows, is small on paper."""
    shown = [c.wish for c in dresser.seen.choices if c.picture.name == "end"]
    bolts = [measure(w) for w in shown if w.name.endswith(_PATTERNS)]
    k = float(end.scale)
    small = size * k < _LEAST or min(bolts, default=inf) * k < _LEAST_BOLTS
    return bool(end.view.placed.dimensions) and small


def _place(box: Box, end: Placed, page: Page, views: list[Box], dresser: Dresser) -> Point2 | None:
    """Give the place where a box is clear of all, nearest to where the view was."""
    frame, marks = page.paper.frame, centring_room(page.paper)
    column = column_box(dresser.job, page.paper)
    x = _along(box, end, frame, [*map(_grown, [*views, column]), *marks])
    if x is not None:
        return (x, end.at[1])
    firm = [*views, column, *marks]
    return next(iter(free_places(box, firm, frame, middle_of([end.box]))), None)


def _along(box: Box, end: Placed, frame: Box, firm: list[Box]) -> float | None:
    """Give the place along the axis, or None: it stays on its side of the others."""
    level = moved(box, (0.0, end.at[1]))
    if level[3] > frame[3] - AIR or level[1] < frame[1] + AIR:
        return None
    beside = [b for b in firm if b[1] < level[3] and level[1] < b[3]]
    middle = (end.box[0] + end.box[2]) / 2
    if any(b[0] < middle < b[2] for b in beside):
        return None
    left = max([frame[0] + AIR, *(b[2] for b in beside if b[2] <= middle)])
    right = min([frame[2] - AIR, *(b[0] for b in beside if b[0] >= middle)])
    if right - left < box[2] - box[0]:
        return None
    return min(max(end.at[0], left - box[0]), right - box[2])


def _grown(box: Box) -> Box:
    return (box[0] - _APART, box[1] - _APART, box[2] + _APART, box[3] + _APART)
