"""The sheets after those with views: the lists that found no room beside them."""

from __future__ import annotations

from drafting.drawing.compose.page import Page
from drafting.drawing.lists.border import GUTTER, Border, bordered, lettering
from drafting.drawing.lists.columns import Column, Set, flow
from drafting.drawing.lists.papers import Paper
from drafting.drawing.sheet.sheet import Sheet

_WIDEST = 120.0
"""Columns are no wider than this (mm): long lines are hard to follow."""
_EDGE = 7.0


def following(last: Page) -> tuple[Sheet, ...]:
    """Set what is left of the lists on as many more sheets as it takes."""
    before = last.blank
    job, paper, style = before.job, before.paper, before.style
    height = lettering(paper, style)
    border = bordered(job, paper, before.scale, style, before.number + 1)
    columns = _columns(paper, border)
    pages: list[Set] = []
    left = last.furniture.rest
    while left:
        words = f"CONTINUED ON SHEET {before.number + len(pages) + 2}"
        pages.append(flow(left, columns, height, height * style.line_pitch, words))
        if pages[-1].rest == left:
            break
        left = pages[-1].rest
    return tuple(
        Sheet(
            paper.name,
            paper.width,
            paper.height,
            "in" if job.dimensions.startswith("in") else "mm",
            (),
            (*border.marks, *page.marks),
            (*border.texts, *page.texts),
            dict(job.meta),
        )
        for page in pages
    )


def _columns(paper: Paper, border: Border) -> list[Column]:
    x0, _, x1, y1 = paper.frame
    left, wide = x0 + _EDGE, x1 - x0 - 2 * _EDGE
    count = max(1, round(wide / _WIDEST))
    each = (wide - (count - 1) * GUTTER) / count
    lefts = [left + n * (each + GUTTER) for n in range(count)]
    return [Column(x, each, y1 - _EDGE, border.foot(x, x + each) + _EDGE) for x in lefts]
