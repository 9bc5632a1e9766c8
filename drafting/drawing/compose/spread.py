"""Views shared out among several sheets, where one of the named size has no room for all."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.compose.page import Blank, Page, blank, laid_out
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.views.view import Dressed

_WEIGHT: tuple[ViewName, ...] = ("side", "end", "extended", "top", "pin")
"""Views in the order in which they find room on the first sheet."""


def spread(first: Blank, views: Sequence[Dressed]) -> tuple[Page, ...]:
    """Fill one sheet after the other; nothing when a view has no room even alone."""
    pages: list[Page] = []
    group: tuple[Dressed, ...] = ()
    sheet = first
    for view in sorted(views, key=lambda v: _WEIGHT.index(v.picture.name)):
        more = laid_out(sheet, (*group, view))
        if more is None and group:
            rest, group = pages[-1].furniture.rest, ()
            sheet = blank(first.job, first.paper, first.scale, len(pages) + 1, rest)
            more = laid_out(sheet, (view,))
        if more is None:
            return ()
        pages = [*(pages[:-1] if group else pages), more]
        group = (*group, view)
    return tuple(pages)
