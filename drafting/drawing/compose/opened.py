"""The extended view dressed for the lower left of a page: its scales, the best first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.scale import Rule, Scaled
from drafting.drawing.lists.papers import scale_text
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.view import Dressed

OPEN_TITLE = "EXTENDED, HALF SECTION"
_TRIES = 3
_STEP = Fraction(5, 2)
"""The largest step of a series of scales: of a smaller view nearer words are not worth it."""


def open_views(
    dresser: Dresser, rule: Rule, main: Fraction, style: Style, field: Box
) -> Iterator[tuple[Dressed, Fraction]]:
    """Dress the extended view for a ``field`` (paper mm) beside views at a ``main`` scale.

    One that is broken and too wide has its words nearer, then is broken further; one that is too
    high comes once more with its words nearer.
    """
    room = field[2] - field[0]
    for opened in rule.opened(main, field):
        view = open_view(dresser, opened, main, style)
        if opened.breaks and _wide(view) > room:
            near = _nearer(dresser, opened, room)
            if near:
                view = open_view(dresser, near, main, style)
        more = 0.0
        for _ in range(_TRIES if opened.breaks else 0):
            over = _wide(view) - room
            more += over + 1.0
            cuts = len(opened.breaks["extended"].cuts)
            shorter = rule.open_broken(opened.scale, field, more, cuts) if over > 0.0 else None
            if shorter is None:
                break
            opened = _nearer(dresser, shorter, room) or shorter
            view = open_view(dresser, opened, main, style)
        yield view, opened.scale
        high, near_main = field[3] - field[1], _STEP * opened.scale >= main
        if near_main and not opened.breaks and _wide(view) <= room and _high(view) > high:
            near = _lower(dresser, opened, view.box, high)
            yield open_view(dresser, near, main, style), opened.scale


def open_high(dresser: Dresser, rule: Rule, main: Fraction) -> float:
    """Give how high (mm) the best extended view is that its field is wide enough for, or 0."""
    field = rule.fields()[1]
    views = (view for view, _ in open_views(dresser, rule, main, Style(), field))
    high = (_high(v) for v in views if _wide(v) <= field[2] - field[0])
    return next(high, 0.0)


def open_view(dresser: Dresser, opened: Scaled, main: Fraction, style: Style) -> Dressed:
    """Dress the extended view; its title has its scale where that is not the ``main`` one."""
    title = OPEN_TITLE
    if opened.scale != main:
        title += f" {scale_text(opened.scale)}"
    room = opened.rooms.get("extended") if opened.rooms else None
    breaks = opened.breaks.get("extended")
    return dresser.view("extended", opened.scale, style, breaks, title, room)


def _nearer(dresser: Dresser, opened: Scaled, room: float) -> Scaled | None:
    """Give the same with words that keep within a ``room`` (mm), equally far on both sides."""
    x0, y0, x1, y1 = (v * float(opened.scale) for v in dresser.pictures["extended"].box)
    x1 -= opened.breaks["extended"].saved * float(opened.scale)
    aside = (room - (x1 - x0)) / 2
    if aside < 0.0:
        return None
    high = y1 - y0 + room
    return replace(opened, rooms={"extended": (x0 - aside, y0 - high, x1 + aside, y1 + high)})


def _lower(dresser: Dresser, opened: Scaled, box: Box, high: float) -> Scaled:
    """Give the same with the words of a view's ``box`` nearer, so that it is ``high`` (mm).

    They come nearer where they stand out farther, above its outline or below.
    """
    x0, low, x1, top = box
    k, (_, y0, _, y1) = float(opened.scale), dresser.pictures["extended"].box
    over = top - low - high
    if top - k * y1 >= k * y0 - low:
        top -= over
    else:
        low += over
    return replace(opened, rooms={"extended": (x0, low, x1, top)})


def _high(view: Dressed) -> float:
    return view.box[3] - view.box[1]


def _wide(view: Dressed) -> float:
    return view.box[2] - view.box[0]
