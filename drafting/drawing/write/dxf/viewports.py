"""Where views stand in model space, and the viewports that show them on the sheet.

Views of one scale stand as they stand on the paper, and one viewport shows them all. A broken view
stands whole and true; what its breaks leave is shown through viewports side by side, and what
stands right of broken views moves out of the way of their true length.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import ceil

from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.on_paper import Box, at_place, placed, union
from drafting.drawing.sheet.paper import on_paper, paper_box
from drafting.drawing.sheet.sheet import Dimension, Linear, Mark, Note, Role, Round, View, Whole
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

MARGIN = 3.0
"""Paper mm around everything that a viewport shows."""
_LEVEL = 1e-6


@dataclass(frozen=True, slots=True)
class Window:
    """What one viewport shows: a box of the paper (mm) and of model space."""

    paper: Box
    model: Box


@dataclass(frozen=True, slots=True)
class Stand:
    """Views in one place of model space.

    ``shift`` is added to a point of the paper, taken back to true size, to reach model space; for
    a broken view that holds left of its first break.
    """

    views: tuple[View, ...]
    shift: Point2
    windows: tuple[Window, ...]


def standing(
    pages: Sequence[Sequence[View]], style: Style, unit: float, above: float | None
) -> list[list[Stand]]:
    """Give each page's scales their places in model space, clear of each other.

    The origin of the first view comes to x = 0 and to y = 0, or to the lowest round y at which all
    lies clear of a sheet of the height ``above``.
    """
    stands: list[list[Stand]] = [[] for _ in pages]
    for n, k in dict.fromkeys((n, v.scale) for n, views in enumerate(pages) for v in views):
        group = [v for v in pages[n] if v.scale == k]
        boxes = {v.name: b for v in group if (b := paper_box(on_paper(v, style)))}
        if not boxes:
            continue
        true = k * unit
        x0, y0, x1, _ = union(list(boxes.values()))
        left, low, right = (x0 - MARGIN) / true, (y0 - MARGIN) / true, (x1 + MARGIN) / true
        seen = [w.model for of_page in stands for s in of_page for w in s.windows]
        if seen:
            shift = (max(m[2] for m in seen) + (right - left) / 4 - left, seen[0][1] - low)
        else:
            x, y = (c / true for c in group[0].at)
            level = 0.0
            if above is not None:
                step = 100.0 if unit == 1.0 else 10.0
                level = step * ceil((above / unit + step / 10 + y - low) / step)
            shift = (-x, level - y)
        stands[n] += _stands_of(group, boxes, shift, unit)
    return stands


def _stands_of(
    group: Sequence[View], boxes: Mapping[str, Box], shift: Point2, unit: float
) -> list[Stand]:
    """Give views of one scale their stands; ``boxes`` are theirs on paper, by name."""
    saved = max((v.whole.breaks.saved for v in group if v.whole), default=0.0)
    if not saved:
        paper = union(list(boxes.values()))
        return [
            Stand(tuple(group), shift, (_window(paper, MARGIN, MARGIN, group[0], shift, unit),))
        ]
    first = min(lo for v in group for lo, _ in paper_gaps(v))
    out = []
    for view in (v for v in group if v.name in boxes):
        box, at = boxes[view.name], shift
        if view.whole:
            windows = _slices(view, view.whole.breaks, box, shift, unit)
        else:
            if box[0] > first - _LEVEL:
                at = (shift[0] + saved / unit, shift[1])
            windows = (_window(box, MARGIN, MARGIN, view, at, unit),)
        out.append(Stand((view,), at, windows))
    return out


def _slices(view: View, breaks: Breaks, box: Box, shift: Point2, unit: float) -> tuple[Window, ...]:
    out, left, moved, before = [], box[0], 0.0, MARGIN
    for (lo, hi), cut in zip(paper_gaps(view), breaks.cuts, strict=True):
        part = (left, box[1], lo, box[3])
        out.append(_window(part, before, 0.0, view, (shift[0] + moved / unit, shift[1]), unit))
        left, moved, before = hi, moved + cut.saved, 0.0
    part = (left, box[1], box[2], box[3])
    out.append(_window(part, 0.0, MARGIN, view, (shift[0] + moved / unit, shift[1]), unit))
    return tuple(out)


def _window(box: Box, left: float, right: float, view: View, shift: Point2, unit: float) -> Window:
    paper = (box[0] - left, box[1] - MARGIN, box[2] + right, box[3] + MARGIN)
    low, high = (at_place(p, shift, 1 / (view.scale * unit)) for p in (paper[:2], paper[2:]))
    return Window(paper, (*low, *high))


def paper_gaps(view: View) -> tuple[tuple[float, float], ...]:
    """Give the gaps of a broken view on paper (x from, to)."""
    gaps = view.whole.breaks.gaps if view.whole else ()
    return tuple((view.at[0] + view.scale * a, view.at[0] + view.scale * b) for a, b in gaps)


def unbroken(view: View, p: Point2) -> Point2:
    """Give the place on paper of a point of a view, were the view not broken."""
    if not view.whole:
        return p
    x = (p[0] - view.at[0]) / view.scale
    return (view.at[0] + view.scale * view.whole.breaks.true(x), p[1])


def whole(view: View) -> View:
    """Give a broken view as it truly is; its texts stay."""
    if not view.whole:
        return view
    breaks = view.whole.breaks
    return replace(
        view,
        marks=view.whole.marks,
        hatches=view.whole.hatches,
        dimensions=tuple(_true(d, breaks) for d in view.dimensions),
        whole=None,
    )


def _true(d: Dimension, breaks: Breaks) -> Dimension:
    at = breaks.true_point
    if isinstance(d, Linear):
        return replace(d, a=at(d.a), b=at(d.b), line_at=at(d.line_at), text_at=at(d.text_at))
    if isinstance(d, Note):
        return replace(d, tip=at(d.tip), knee=at(d.knee))
    assert isinstance(d, Round)
    return replace(d, centre=at(d.centre), tip=at(d.tip), knee=at(d.knee))


def over_gaps(view: View, style: Style) -> tuple[Mark, ...]:
    """Give what the sheet draws between the viewports of a broken view, in paper mm.

    Break lines, and the level lines of dimensions, which no break interrupts.
    """
    if not view.whole:
        return ()
    lines = tuple(
        Mark(Line((lo, a[1]), (hi, b[1])), "dimension", d.name)
        for d in view.dimensions
        for a, b in explode(d, view.at, view.scale, style).segments
        if abs(a[1] - b[1]) < _LEVEL
        for lo, hi in paper_gaps(view)
        if min(a[0], b[0]) < lo and hi < max(a[0], b[0])
    )
    breaks = (m for m in view.marks if m.role == "break")
    return (*(replace(m, curve=placed(m.curve, view.at, view.scale)) for m in breaks), *lines)


def bare_whole(found: Whole, roles: Sequence[Role]) -> Whole:
    """Keep the edges of what a broken view was made from."""
    return Whole(found.breaks, tuple(m for m in found.marks if m.role in roles), ())
