"""Pages of their own for what found no room on the drawing page: pins, views."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, islice, pairwise
from typing import Literal

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.insets import drawn
from drafting.drawing.compose.opened import OPEN_TITLE
from drafting.drawing.compose.page import Page
from drafting.drawing.compose.scale import LEAST_BORE
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.papers import PAPERS, Paper, scale_text, scales
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Sheet, View
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import Small
from drafting.drawing.views.view import as_view

_AIR = 4.0
"""Free paper round the view (mm)."""
_Drawn = tuple[Box, View]
"""A view as it is drawn, with its box."""
_MOST_LARGER = 4
"""So many times the scale of the first page views may have at most, where that is below full
size: two callouts of an ear do not fill a page."""
_FINEST = 10_000
"""No scale is finer than 1 to so many."""


def own_pages(dresser: Dresser, page: Page, pins: Sequence[Small] = ()) -> tuple[Sheet, ...]:
    """Give pages of the same paper for the views that stand alone, and for loose pins behind them.

    All views stand on one at the largest scale at which they have room there and show the bore;
    where none has, as many as have room at their own scales. Pins stand below them on the first
    that has room for all, else on pages that are theirs alone.
    """
    job, paper, style = dresser.job, page.paper, page.style
    field = _field(job, paper, page.scale, style)
    sheets = []
    for made in _shared_out(dresser, page, field):
        with_pins = _with_pins(field, made, pins, paper, style, _readable(pins)) if pins else ()
        pins = () if with_pins else pins
        sheets.append(_sheet(job, paper, style, with_pins or _on_one(field, made)))
    return (*sheets, *pin_pages(job, paper, pins))


def _shared_out(dresser: Dresser, page: Page, field: Box) -> Sequence[Sequence[_Drawn]]:
    """Give the views that stand on each page."""
    job, series = dresser.job, _series(dresser, page)
    if job.scale == "auto":
        series = tuple(s for s in series if float(s) * job.bore >= LEAST_BORE)
    else:
        series = series[:1]
    for scale in series if len(page.alone) > 1 else ():
        made = [_shown(dresser, page, name, scale) for name in page.alone]
        if _on_one(field, made):
            return (made,)
    own = (_own_view(dresser, page, name, field) for name in page.alone)
    return _stacked(field, filter(None, own))


def _field(job: Job, paper: Paper, scale: Fraction, style: Style) -> Box:
    """Give what the title block leaves of a page."""
    x0, _, x1, y1 = paper.frame
    return (x0, bordered(job, paper, scale, style).column[3], x1, y1)


def _series(dresser: Dresser, page: Page) -> tuple[Fraction, ...]:
    """Give the scale that was named, then those of the series that are not much larger."""
    named = scales(dresser.job.scale, page.paper) if dresser.job.scale != "auto" else ()
    most = max(_MOST_LARGER * page.scale, Fraction(1))
    return (*named, *(s for s in scales("auto", page.paper) if s <= most))


def _own_view(dresser: Dresser, page: Page, name: ViewName, field: Box) -> _Drawn | None:
    """Show one view at the scale that was named, else at the largest that has room."""
    x0, foot, x1, y1 = field
    for scale in _series(dresser, page):
        made = _shown(dresser, page, name, scale)
        if _wide([made]) <= x1 - x0 and _high([made]) <= y1 - foot:
            return made
    return None


def _shown(dresser: Dresser, page: Page, name: ViewName, scale: Fraction) -> _Drawn:
    title = OPEN_TITLE if name == "extended" else dresser.pictures[name].title
    view = dresser.view(name, scale, page.style, None, f"{title} {scale_text(scale)}")
    return view.box, as_view(view, name, (0.0, 0.0), float(scale))


def pin_pages(job: Job, paper: Paper, pins: Sequence[Small]) -> tuple[Sheet, ...]:
    """Give landscape pages of the smallest size for the pins.

    All stand on one at the largest scale that has room, full size unless they are thin; where none
    has, each has its own.
    """
    small = next(p for p in PAPERS if p.family == paper.family)
    style = Style()
    field = _field(job, small, Fraction(1), style)
    if views := _with_pins(field, (), pins, small, style) if pins else ():
        return (_sheet(job, small, style, views),)
    own = filter(None, (next(drawn(pin, style), None) for pin in pins))
    pages = _stacked(field, own)
    return tuple(_sheet(job, small, style, _in_rows(field, [[d] for d in p])) for p in pages)


def _with_pins(
    field: Box,
    made: Sequence[_Drawn],
    pins: Sequence[Small],
    paper: Paper,
    style: Style,
    least: Fraction = Fraction(0),
) -> tuple[View, ...]:
    """Place pins below views at the largest scale that has room for all; none where none has."""
    largest = max((Fraction(1), *(min(pin.scales) for pin in pins)))
    for scale in (s for s in scales("auto", paper) if least <= s <= largest):
        more = list(_drawn(pins, scale, style))
        if len(more) == len(pins) and (views := _on_one(field, [*made, *more])):
            return views
    return ()


def _readable(pins: Sequence[Small]) -> Fraction:
    """Give the least scale at which none of the pins is too thin to be read."""
    return max((min(pin.scales) for pin in pins), default=Fraction(0))


def _on_one(field: Box, made: Sequence[_Drawn]) -> tuple[View, ...]:
    """Place views in rows, in as many as have room; none where a field has no room for them."""
    wide, high = field[2] - field[0], field[3] - field[1]
    for count in range(len(made), 0, -1):
        for cuts in combinations(range(1, len(made)), count - 1):
            rows = [made[a:b] for a, b in pairwise((0, *cuts, len(made)))]
            if sum(map(_high, rows)) - _AIR * (count - 1) <= high and max(map(_wide, rows)) <= wide:
                return _in_rows(field, rows)
    return ()


def _drawn(pins: Iterable[Small], scale: Fraction, style: Style) -> Iterator[_Drawn]:
    """Give those of the pins that can be drawn at a scale."""
    for pin in pins:
        yield from islice(drawn(replace(pin, scales=(scale,)), style), 1)


def _stacked(field: Box, made: Iterable[_Drawn]) -> list[list[_Drawn]]:
    """Share views out over pages, one above the other, as many on one as have room in a field."""
    pages: list[list[_Drawn]] = []
    for one in made:
        high = _high([one]) + sum(_high([d]) - _AIR for d in pages[-1]) if pages else 0.0
        if not pages or high > field[3] - field[1]:
            pages.append([])
        pages[-1].append(one)
    return pages


def _high(row: Sequence[_Drawn]) -> float:
    """Give the room that views take down, side by side and level, with free paper round them."""
    return max(b[3] for b, _ in row) - min(b[1] for b, _ in row) + 2 * _AIR


def _wide(row: Sequence[_Drawn]) -> float:
    """Give the room that views take side by side, with free paper round them."""
    return _AIR + sum(b[2] - b[0] + _AIR for b, _ in row)


def _in_rows(field: Box, rows: Sequence[Sequence[_Drawn]]) -> tuple[View, ...]:
    """Spread rows of views over a field, those of a row with their axes level."""
    x0, foot, x1, y1 = field
    down = (y1 - foot - sum(_high(row) - 2 * _AIR for row in rows)) / (len(rows) + 1)
    views, y = [], y1
    for row in rows:
        y -= down + max(b[3] for b, _ in row)
        across = (x1 - x0 - sum(b[2] - b[0] for b, _ in row)) / (len(row) + 1)
        x = x0
        for box, view in row:
            x += across
            views.append(replace(view, at=(x - box[0], y)))
            x += box[2] - box[0]
        y += min(b[1] for b, _ in row)
    return tuple(views)


def _sheet(job: Job, paper: Paper, style: Style, views: tuple[View, ...]) -> Sheet:
    """Give one page with views that have their places."""
    scale = Fraction(views[0].scale).limit_denominator(_FINEST)
    border = bordered(job, paper, scale, style)
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (paper.name, paper.width, paper.height)
    ink = (border.marks, border.texts, dict(job.meta))
    return Sheet(*size, units, views, *ink, model_units=job.units)
