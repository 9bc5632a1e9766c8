"""The words of a page whose views have their places: those that stand badly get all the room.

No view moves, none gets larger or smaller. Paper millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.page import Page, Placed
from drafting.drawing.compose.scale import AIR
from drafting.drawing.dimension.yielding import RESTLESS
from drafting.drawing.lists.border import column_box
from drafting.drawing.lists.papers import centring_room
from drafting.drawing.sheet.on_paper import Box

_APART = 5.0
"""Free paper between a view with its words and another."""
_HAIR = 0.01
_NOTES = 5
"""So many lines of notes stand in the column at the most."""


def with_settled_words(page: Page, dresser: Dresser) -> tuple[Page, Dresser]:
    """Give a page with its words as good as the room beside its views lets them be.

    Words that still stand badly go to another view that shows them as well, where that has room.
    """
    extra = [one.view.placed.extra for one in page.views]
    for k in sorted(range(len(extra)), key=extra.__getitem__):
        found = _with(page, k, dresser) if extra[k] > RESTLESS else None
        if found and found.views[k].view.placed.extra < extra[k]:
            page = found
    for name in page.tangled:
        for other in dresser.moved(name):
            found = _moved(page, name, other)
            if found and {*found.tangled} < {*page.tangled}:
                page, dresser = found, other
                break
    return page, dresser


def _moved(page: Page, name: str, other: Dresser) -> Page | None:
    """Give a page with words in the view where another dresser has them, if it has room there."""
    new = [one.view.picture is other.picture_of(name) for one in page.views]
    found = page if any(new) else None  # it may be left out, or on another page
    for k, one in enumerate(page.views):
        had = name in dict(one.view.placed.ways)
        if found and had != new[k]:
            found = _with(found, k, other)
    return found


def _with(page: Page, k: int, dresser: Dresser) -> Page | None:
    """Give a page with its view ``k`` dressed again, for the room that it has there.

    None where it finds none, or where more touches then than does now.
    """
    views = list(page.views)
    one = views[k]
    lists = (column_box(dresser.job, page.paper, _NOTES), *centring_room(page.paper))
    firm = [*(v.box for v in views if v is not one), *lists]
    x0, y0, x1, y1 = _room(one, firm, page.paper.frame)
    x, y = one.at
    words = (x0 - x, y0 - y, x1 - x, y1 - y)
    again = replace(one, view=dresser.again(one.view, one.scale, page.style, words))
    views[k] = again
    left, low, right, high = again.box
    fits = x0 <= left + _HAIR and y0 <= low + _HAIR and right <= x1 + _HAIR and high <= y1 + _HAIR
    if not fits or again.view.placed.clashes > one.view.placed.clashes:
        return None
    return replace(page, views=tuple(views))


def _room(view: Placed, firm: Sequence[Box], frame: Box) -> Box:
    """Give the room round a view: as wide as it may be at its height, then as high."""
    x0, y0, x1, y1 = view.box
    beside = [b for b in firm if b[1] < y1 + _APART and y0 - _APART < b[3]]
    x0 = max([frame[0] + AIR, *(b[2] + _APART for b in beside if b[2] <= x0)])
    x1 = min([frame[2] - AIR, *(b[0] - _APART for b in beside if b[0] >= x1)])
    over = [b for b in firm if b[0] < x1 + _APART and x0 - _APART < b[2]]
    y0 = max([frame[1] + AIR, *(b[3] + _APART for b in over if b[3] <= y0)])
    y1 = min([frame[3] - AIR, *(b[1] - _APART for b in over if b[1] >= y1)])
    left, low, right, high = view.box
    return (min(x0, left), min(y0, low), max(x1, right), max(y1, high))
