"""One drawing page: which views stand on it, where, and what stands beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import inf

from drafting.drawing.compose.arrange import Arranged, arrange, moved
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.opened import open_view, open_views
from drafting.drawing.compose.room import PAST, in_the_middle, nearest, roomy_places
from drafting.drawing.compose.scale import LEAST_BESIDE, Rule, Scaled
from drafting.drawing.compose.tight import rooms
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.papers import Paper, centring_room
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.loose_pin import free_places, middle_of
from drafting.drawing.views.view import Dressed
from drafting.records import dataclass

_TRIES = 3
Names = tuple[ViewName, ...]
ONE_APART: tuple[Names, ...] = (("extended",), ("end", "pin"), ("top", "pin"))
"""What stands on other pages where a named sheet has no room: one view with its neighbour."""
MORE_APART: tuple[Names, ...] = (
    ("top", "pin", "extended"),
    ("end", "pin", "extended"),
    ("end", "top", "pin", "extended"),
)
"""What stands there where that is not enough."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A dressed view in its place, at its scale."""

    view: Dressed
    at: Point2
    scale: Fraction

    @property
    def box(self) -> Box:
        """Give its box on the paper."""
        return moved(self.view.box, self.at)


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet with its views; ``scale`` is that of the retracted ones.

    ``alone`` are views that found no room: each has a page of its own.
    """

    paper: Paper
    scale: Fraction
    style: Style
    views: tuple[Placed, ...]
    left_out: tuple[ViewName, ...] = ()
    alone: tuple[ViewName, ...] = ()

    @property
    def boxes(self) -> list[Box]:
        """Give the boxes of the views on the paper."""
        return [v.box for v in self.views]

    @property
    def clashes(self) -> int:
        """Count the dimensions that touch something."""
        return sum(v.view.placed.clashes for v in self.views)

    @property
    def tangled(self) -> list[str]:
        """Name the words that stand badly."""
        return [name for v in self.views for name in v.view.placed.tangled]

    @property
    def scales(self) -> dict[ViewName, Fraction]:
        """Give the scale of each view."""
        return {v.view.picture.name: v.scale for v in self.views}

    @property
    def is_broken(self) -> bool:
        """Tell whether a view is broken."""
        return any(v.view.breaks for v in self.views)


def laid_out(
    dresser: Dresser, rule: Rule, main: Scaled, alone: tuple[ViewName, ...] = ()
) -> Page | None:
    """Lay out a page at a scale; None where the views have no room.

    On a named sheet that has no room for all of them some are to stand ``alone``, elsewhere.
    """
    style = Style()
    for left_out in _less(rule, main):
        gone = (*left_out, *alone)
        for _ in range(_TRIES):
            if not alone and not _may_fit(dresser, rule, main, style, left_out):
                break
            views = _main_views(dresser, main, style, gone)
            boxes = {n: v.box for n, v in views.items()}
            if "extended" in alone:
                arranged = roomy_places(rule, boxes, _whole(rule))
                page = _page(rule, main, style, views, arranged) if arranged else None
            else:
                page = _with_open(dresser, rule, main, style, views)
            if page:
                own = tuple(n for n in alone if n in dresser.pictures and n not in left_out)
                if "extended" in own and (opened := _open_beside(dresser, rule, main, style, page)):
                    own = tuple(n for n in own if n != "extended")
                    page = replace(page, views=(*page.views, opened))
                return replace(page, left_out=left_out, alone=own)
            shorter = _shorter(dresser, rule, main, boxes, rule.fields()[0])
            if shorter is None:
                break
            main = shorter
    return None


def tightened(
    dresser: Dresser,
    rule: Rule,
    main: Scaled,
    alone: tuple[ViewName, ...] = (),
    open_high: float = 0.0,
    firm: bool = False,
) -> Scaled | None:
    """Give a scale at which words keep nearer to their views; None where they have no such room.

    Where that was asked before, ``firm`` words that came as near as they can are asked no more.

    Where some are to stand ``alone``, the extended one among them, its field is theirs too;
    else it is ``open_high`` (paper mm), or about so high as it is at its least.
    """
    open_high = open_high or rule.least_open_high(main.scale)
    bare = {n: _shown(dresser, n, main) for n in _main_names(dresser, alone)}
    dressed = {n: _main_view(dresser, n, main, Style()).box for n in bare}
    shared = rule.fields(open_high, low=True)[0]
    x0, y0, x1, y1 = _whole(rule) if alone else shared
    wide, high = x1 - x0 - 2 * PAST, y1 - y0 - PAST
    step = 0.0 if alone else rule.step(open_high)

    def around(boxes: Mapping[ViewName, Box]) -> Box:
        return nearest(rule, boxes, step)

    had, again = main.rooms if firm else None, main.rooms is not None
    found = rooms(bare, dressed, (wide, high), around, had, again)
    if found is None and rule.may_break(main):
        found = rooms(bare, dressed, (inf, high), around, had, again)
    return replace(main, rooms=found) if found else None


def has_bare_room(dresser: Dresser, rule: Rule, main: Scaled, alone: tuple[ViewName, ...]) -> bool:
    """Tell whether the outlines have room without their words, those left that stand ``alone``."""
    names = _main_names(dresser, alone)
    if rule.spare_top:
        names = [n for n in names if n != "top"]
    bare = {n: _shown(dresser, n, main) for n in names}
    x0, y0, x1, y1 = _whole(rule) if alone else rule.fields(low=True)[0]
    box = arrange(bare, dresser.job.projection, dresser.job.clock_from).box
    wide = inf if rule.may_break(main) else x1 - x0
    return box[2] - box[0] <= wide and box[3] - box[1] <= y1 - y0


def _shown(dresser: Dresser, name: ViewName, main: Scaled) -> Box:
    """Give the box of the bare outlines of a view as it is drawn, broken where it is."""
    k = float(main.scale)
    x0, y0, x1, y1 = _times(dresser.pictures[name].box, k)
    saved = main.breaks[name].saved * k if name in main.breaks else 0.0
    return (x0, y0, x1 - saved, y1)


def _shorter(
    dresser: Dresser, rule: Rule, main: Scaled, boxes: Mapping[ViewName, Box], field: Box
) -> Scaled | None:
    """Break the views, or break them further, where they are too wide for a field."""
    near = arrange(boxes, dresser.job.projection, dresser.job.clock_from)
    over = near.box[2] - (field[2] - field[0] - 2 * PAST)
    return rule.shorter(main, over) if over > 0.0 else None


def _whole(rule: Rule) -> Box:
    """Give the field of the retracted views where the extended one stands on another page."""
    return rule.fields()[0] if rule.paper.is_small else rule.fields(low=True)[0]


def squeezed(dresser: Dresser, rule: Rule, main: Scaled) -> Page:
    """Lay out a page that has no room for its views; the inspector will say what does not fit."""
    style = Style()
    views = _main_views(dresser, main, style, ())
    opened = open_view(dresser, Scaled(main.scale, {}), main.scale, style)
    upper, lower = rule.fields(opened.box[3] - opened.box[1])
    boxes = {n: v.box for n, v in views.items()}
    near = arrange(boxes, dresser.job.projection, dresser.job.clock_from)
    arranged = near.moved(upper[0], upper[3])
    return _page(rule, main, style, views, arranged, (opened, lower, main.scale))


def _less(rule: Rule, main: Scaled) -> tuple[tuple[ViewName, ...], ...]:
    """Give what may be left out, the least first: a top view without a size of its own."""
    if not rule.spare_top:
        return ((),)
    return ((), ("top",)) if rule.top_has_room(main) else (("top",),)


def _may_fit(
    dresser: Dresser, rule: Rule, main: Scaled, style: Style, left_out: tuple[ViewName, ...]
) -> bool:
    """Dress view after view, until those that are dressed leave the bare outlines no room.

    To be too wide is no reason where a break makes the views shorter; it never makes them lower.
    """
    x0, y0, x1, y1 = rule.fields(low=True)[0]
    wide = inf if rule.may_break(main) else x1 - x0
    names = _main_names(dresser, left_out)
    step = rule.step(rule.least_open_high(main.scale))
    boxes = {n: _times(dresser.pictures[n].box, float(main.scale)) for n in names}
    for n in sorted(names, key="end".__eq__):  # the end view decides least
        boxes[n] = _main_view(dresser, n, main, style).box
        box = nearest(rule, boxes, step)
        if box[2] - box[0] > wide or box[3] - box[1] > y1 - y0:
            return False
    return True


def _main_names(dresser: Dresser, left_out: tuple[ViewName, ...]) -> list[ViewName]:
    return [n for n in dresser.pictures if n != "extended" and n not in left_out]


def _main_views(
    dresser: Dresser, main: Scaled, style: Style, left_out: tuple[ViewName, ...]
) -> dict[ViewName, Dressed]:
    return {n: _main_view(dresser, n, main, style) for n in _main_names(dresser, left_out)}


def _main_view(dresser: Dresser, name: ViewName, main: Scaled, style: Style) -> Dressed:
    title = dresser.pictures[name].title if name == "pin" else ""
    if name == "end":
        title = end_title(dresser)
    room = main.rooms.get(name) if main.rooms else None
    return dresser.view(name, main.scale, style, main.breaks.get(name), title, room)


def end_title(dresser: Dresser) -> str:
    """Name the end view by the end that it is seen from."""
    return f"FROM {dresser.job.clock_from.upper()} END"


def _with_open(
    dresser: Dresser,
    rule: Rule,
    main: Scaled,
    style: Style,
    views: Mapping[ViewName, Dressed],
) -> Page | None:
    boxes, parts = {n: v.box for n, v in views.items()}, {n: v.parts for n, v in views.items()}
    top, field = rule.fields()
    small = rule.paper.is_small
    low = nearest(rule, boxes, rule.step(rule.least_open_high(main.scale)))
    x0, y0, x1, y1 = rule.fields(low=True)[0]
    if not small and (low[3] - low[1] > y1 - y0 or low[2] - low[0] > x1 - x0):
        return None
    near = arrange(boxes, dresser.job.projection, dresser.job.clock_from).box
    # What others leave it, with white space or without: higher it would not fit below them.
    free = top[3] - (near[3] - near[1])
    most = max(min(field[3], free), free - 2 * PAST)
    roomy = field if small else (field[0], field[1], field[2], most)
    for view, scale in open_views(dresser, rule, main.scale, style, roomy):
        wide, high = view.box[2] - view.box[0], view.box[3] - view.box[1]
        for upper, lower, column in rule.parted(high):
            # The field may have been made as high as the view, to within what adding loses.
            if wide > lower[2] - lower[0] or high > lower[3] - lower[1] + 1e-6:
                continue
            # Rather than a smaller extended view, words come nearer.
            beside = parts if scale == main.scale else None
            arranged = roomy_places(rule, boxes, upper, column, beside)
            if arranged:
                return _page(rule, main, style, views, arranged, (view, lower, scale))
    return None


def _open_beside(
    dresser: Dresser, rule: Rule, main: Scaled, style: Style, page: Page
) -> Placed | None:
    """Place the extended view beside the others, where nothing is, rather than on another page."""
    field = _whole(rule)
    firm = [*page.boxes, *centring_room(rule.paper)]
    for view, scale in open_views(dresser, rule, main.scale, style, field):
        places = free_places(view.box, firm, field, middle_of(page.boxes))
        if places and rule.bore(scale) >= LEAST_BESIDE:
            return Placed(view, places[0], scale)
    return None


def _page(
    rule: Rule,
    main: Scaled,
    style: Style,
    views: Mapping[ViewName, Dressed],
    arranged: Arranged,
    opened: tuple[Dressed, Box, Fraction] | None = None,
) -> Page:
    placed = [Placed(v, arranged.places[n], main.scale) for n, v in views.items()]
    if opened:
        view, field, scale = opened
        placed.append(Placed(view, in_the_middle(view.box, field), scale))
    return Page(rule.paper, main.scale, style, tuple(placed))


def _times(box: Box, k: float) -> Box:
    return (box[0] * k, box[1] * k, box[2] * k, box[3] * k)
