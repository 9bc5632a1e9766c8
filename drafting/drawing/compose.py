"""From a job to its sheet: the choice of paper and scale, and the views with all that is theirs.

The smallest sheet of the family is taken on which everything fits with the bore at least 12 mm on
paper, else the largest; on it, the largest scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from drafting.drawing.arrange import BETWEEN, Arranged, arrange, moved
from drafting.drawing.aside import Small, free_places, middle_of, small_views, taken
from drafting.drawing.clash import segments, text_quad
from drafting.drawing.details import marked, wanted_details
from drafting.drawing.dial import clear_of, dial_of
from drafting.drawing.footprint import Label
from drafting.drawing.furniture import Furniture, furnish
from drafting.drawing.job import Job
from drafting.drawing.labels import measure, texts, wrapped
from drafting.drawing.layout import Paper, papers, scales
from drafting.drawing.picture import Picture, ViewName
from drafting.drawing.place import Item, Placed, place
from drafting.drawing.plane import Box, box, hull, union
from drafting.drawing.sheet import Mark, Sheet, Text, View
from drafting.drawing.strips import Ground
from drafting.drawing.strokes import Line, Point2
from drafting.drawing.style import Style, style_for
from drafting.drawing.views import Seen, hatches_of, look_at, marks_of, phantom_lines
from drafting.model.wishes import Length
from drafting.records import dataclass

LEAST_BORE = 12.0
"""The bore on paper (mm) below which a larger sheet is taken."""
_INSIDE = 4.0
"""Free paper between the frame and the views (mm)."""
_APARTS = (30.0, 24.0, 19.0, 15.0, 12.0, BETWEEN)
_STACKED = ("side", "top", "extended")
_FAR_APART = 40.0
_ROW_LEAST = 22.0
"""What a row of views needs besides its outline at the least: a strip, a title, free paper."""


@dataclass(frozen=True, slots=True)
class _Dressed:
    """One view at a scale: marks (view mm), dimensions, own texts (paper, from its origin)."""

    picture: Picture
    marks: tuple[Mark, ...]
    placed: Placed
    texts: tuple[Text, ...]
    box: Box


@dataclass(frozen=True, slots=True)
class _Fit:
    """A way to fill a paper."""

    paper: Paper
    scale: Fraction
    views: tuple[_Dressed, ...]
    arranged: Arranged
    furniture: Furniture


def compose(job: Job) -> Sheet:
    """Compose the sheet of a job."""
    seen = look_at(job)
    dressed: dict[Fraction, tuple[_Dressed, ...]] = {}
    found: _Fit | None = None
    choice = papers(job.sheet, job.units)
    for paper in choice:
        least = 0.0 if paper is choice[-1] else LEAST_BORE
        fit = _fill(job, seen, paper, least, dressed)
        if fit is None:
            continue
        found = fit
        if not fit.furniture.must_left:
            break
    if found is None:
        found = _squeezed(job, seen, choice[-1])
    return _sheet(job, seen, found)


def _fill(
    job: Job,
    seen: Seen,
    paper: Paper,
    least_bore: float,
    dressed: dict[Fraction, tuple[_Dressed, ...]],
) -> _Fit | None:
    """Fill a paper at the largest scale that holds the views and the lists; else the views."""
    style = style_for(paper.name)
    fallback: _Fit | None = None
    for scale in scales(job.scale, paper):
        if not _could_fit(seen, paper, float(scale)):
            continue
        if float(scale) * job.bore < (LEAST_BORE if fallback else least_bore):
            break
        if scale not in dressed:
            dressed[scale] = _dress(job, seen, float(scale), style)
        fit = _laid_out(job, paper, scale, dressed[scale], style)
        if fit is None or fit.furniture.must_left:
            lean = _leaner(job, seen, dressed[scale], float(scale), style)
            fit = (lean and _laid_out(job, paper, scale, lean, style)) or fit
        if fit is None:
            continue
        if not fit.furniture.must_left:
            return fit
        fallback = fallback or fit
    return fallback


def _leaner(
    job: Job, seen: Seen, full: tuple[_Dressed, ...], scale: float, style: Style
) -> tuple[_Dressed, ...]:
    """Give the views without the sizes that a sheet can do without; none without such sizes."""
    spare = {c.picture.name for c in seen.choices if c.wish.name in job.spare}
    if not spare:
        return ()
    less = replace(seen, choices=tuple(c for c in seen.choices if c.wish.name not in job.spare))
    return tuple(
        _dressed(job, less, v.picture, scale, style) if v.picture.name in spare else v for v in full
    )


def _could_fit(seen: Seen, paper: Paper, scale: float) -> bool:
    x0, y0, x1, y1 = paper.frame
    boxes = [p.box for p in seen.pictures]
    wide = max(b[2] - b[0] for b in boxes)
    rows = [b[3] - b[1] for b, p in zip(boxes, seen.pictures, strict=True) if p.name in _STACKED]
    high = sum(rows) * scale + len(rows) * _ROW_LEAST
    return wide * scale + 2 * _INSIDE < x1 - x0 and high < y1 - y0


def _laid_out(
    job: Job, paper: Paper, scale: Fraction, views: tuple[_Dressed, ...], style: Style
) -> _Fit | None:
    x0, y0, x1, y1 = paper.frame
    boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
    best: _Fit | None = None
    for apart in _APARTS:
        raw = arrange(boxes, job.projection, job.clock_from, apart)
        free = x1 - x0 - 2 * _INSIDE - raw.box[2]
        if free < 0 or -raw.box[1] > y1 - y0 - 2 * _INSIDE:
            continue
        for aside in (free / 2, 0.0):
            arranged = raw.moved(x0 + _INSIDE + aside, y1 - _INSIDE)
            boxes_there = list(arranged.boxes.values())
            furniture = furnish(job, paper, scale, style, boxes_there)
            if not _clear(furniture, boxes_there):
                continue
            fit = _Fit(paper, scale, views, arranged, furniture)
            if best is None or furniture.left_over < best.furniture.left_over:
                best = fit
            if not furniture.left_over:
                return _lowered(job, fit, style)
    return _lowered(job, best, style) if best else None


def _lowered(job: Job, fit: _Fit, style: Style) -> _Fit:
    """Bring the views into the middle of the room that the lists leave, where nothing is lost."""
    bottom = min(b[1] for b in fit.arranged.boxes.values())
    for part in (0.5, 0.3):
        down = part * (bottom - fit.furniture.top - _INSIDE)
        if down < 1.0:
            break
        arranged = fit.arranged.moved(0.0, -down)
        there = list(arranged.boxes.values())
        furniture = furnish(job, fit.paper, fit.scale, style, there)
        if furniture.left_over <= fit.furniture.left_over and _clear(furniture, there):
            return replace(fit, arranged=arranged, furniture=furniture)
    return fit


def _clear(furniture: Furniture, views: list[Box]) -> bool:
    """Tell whether no view lies on the title block or on the check bar."""
    return not any(
        v[0] < b[2] and b[0] < v[2] and v[1] < b[3] and b[1] < v[3]
        for v in views
        for b in furniture.blocks
    )


def _squeezed(job: Job, seen: Seen, paper: Paper) -> _Fit:
    """Take the smallest scale where nothing fits; the inspector will say so."""
    style, scale = style_for(paper.name), scales(job.scale, paper)[-1]
    views = _dress(job, seen, float(scale), style)
    boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
    x0, _, _, y1 = paper.frame
    arranged = arrange(boxes, job.projection, job.clock_from, BETWEEN).moved(x0 + 3, y1 - 3)
    there = list(arranged.boxes.values())
    return _Fit(paper, scale, views, arranged, furnish(job, paper, scale, style, there))


def _dress(job: Job, seen: Seen, scale: float, style: Style) -> tuple[_Dressed, ...]:
    """Place the dimensions and titles of all views at a scale."""
    return tuple(_dressed(job, seen, p, scale, style) for p in seen.pictures)


def _dressed(job: Job, seen: Seen, picture: Picture, scale: float, style: Style) -> _Dressed:
    marks = marks_of(picture, job, scale, style)
    centres = segments(
        [
            tuple((p[0] * scale, p[1] * scale) for p in (m.curve.a, m.curve.b))  # type: ignore[misc]
            for m in marks
            if m.role == "centre" and isinstance(m.curve, Line)
        ]
    )
    dial = dial_of(picture, scale, style) if picture.name == "end" else ()
    edge = [picture.segments.reshape(-1, 2) * scale]
    edge += [np.array(text_quad(t), float) for t in dial]
    room = phantom_lines(marks, scale)
    ground = Ground(picture, scale, style, centres, np.concatenate(edge), room)
    derived = job.derived
    items = [
        Item(
            c,
            Label(
                texts(c.wish, job, style.text),
                c.wish.name in derived,
                measure(c.wish),
                isinstance(c.wish, Length) and c.wish.reference,
            ),
        )
        for c in seen.choices
        if c.picture is picture
    ]
    placed = place(items, ground)
    dial = clear_of(placed.dimensions, dial, scale, style, room)
    reach = [tuple(v * scale for v in box(m.curve)) for m in marks]
    boxes: list[Box] = [(r[0], r[1], r[2], r[3]) for r in reach]
    boxes += [hull(text_quad(t)) for t in dial]
    if placed.box:
        boxes.append(placed.box)
    whole = union(boxes)
    titles = _titles(picture, job, whole, scale, style)
    all_boxes = [whole, *(hull(text_quad(t)) for t in titles)]
    return _Dressed(picture, marks, placed, (*dial, *titles), union(all_boxes))


def _titles(picture: Picture, job: Job, whole: Box, scale: float, style: Style) -> tuple[Text, ...]:
    """Write the view's name below it, in the middle of its outline."""
    middle = scale * (picture.box[0] + picture.box[2]) / 2
    lines = [(picture.title, style.text, True)]
    if picture.name == "end" and job.clock_words:
        room = max(60.0, scale * (picture.box[2] - picture.box[0]))
        lines += [
            (w, style.small_text, False) for w in wrapped(job.clock_words, style.small_text, room)
        ]
    y, out = whole[1] - 3.0, []
    for words, height, bold in lines:
        y -= height
        out.append(Text((middle, y), words, height, "middle", bold=bold, name="view title"))
        y -= 0.7 * height
    return tuple(out)


def _sheet(job: Job, seen: Seen, fit: _Fit) -> Sheet:
    fit, small, boxes = _with_small(job, fit)
    views = {
        v.picture.name: _view(
            v, v.picture.name, fit.arranged.places[v.picture.name], float(fit.scale)
        )
        for v in fit.views
    }
    style = style_for(fit.paper.name)
    for detail in wanted_details(job, seen, fit.scale, fit.paper):
        parent = marked(views["side"], detail, style)
        found = _best_room(job, fit, detail.small, boxes, style, (False,)) if parent else None
        if parent and found:
            views["side"] = parent
            fit, there, view = found
            boxes.append(there)
            small.append(view)
    return Sheet(
        fit.paper.name,
        fit.paper.width,
        fit.paper.height,
        "in" if job.dimensions.startswith("in") else "mm",
        (*views.values(), *small),
        fit.furniture.marks,
        fit.furniture.texts,
        dict(job.meta),
    )


def _view(v: _Dressed, name: str, at: Point2, scale: float) -> View:
    words = tuple(_in_view(t, scale) for t in v.texts)
    hatches = hatches_of(v.picture, scale)
    return View(name, v.picture.title, at, scale, v.marks, v.placed.dimensions, hatches, words)


def _with_small(job: Job, fit: _Fit) -> tuple[_Fit, list[View], list[Box]]:
    """Place the small views; where not all find room, with the other views farther left."""
    wanted = small_views(job, fit.scale, fit.paper)
    best = _placed_small(job, fit, wanted)
    if len(best[1]) < len(wanted):
        aside = min(b[0] for b in fit.arranged.boxes.values()) - fit.paper.frame[0] - _INSIDE
        arranged = fit.arranged.moved(-aside, 0.0)
        there = list(arranged.boxes.values())
        furniture = furnish(job, fit.paper, fit.scale, style_for(fit.paper.name), there)
        if furniture.left_over <= fit.furniture.left_over and _clear(furniture, there):
            left = replace(fit, arranged=arranged, furniture=furniture)
            best = max(best, _placed_small(job, left, wanted), key=lambda found: len(found[1]))
    return best


def _placed_small(
    job: Job, fit: _Fit, wanted: Sequence[Small]
) -> tuple[_Fit, list[View], list[Box]]:
    """Place the small views, each at the scale it likes best for which there is room."""
    style = style_for(fit.paper.name)
    boxes = list(fit.arranged.boxes.values())
    views = []
    for small in wanted:
        found = _best_room(job, fit, small, boxes, style)
        if found is not None:
            fit, there, view = found
            boxes.append(there)
            views.append(view)
    return fit, views, boxes


def _best_room(
    job: Job,
    fit: _Fit,
    small: Small,
    boxes: list[Box],
    style: Style,
    give_ways: Sequence[bool] = (False, True),
) -> tuple[_Fit, Box, View] | None:
    ways = []
    for scale in small.scales:
        one = small.titled(scale)
        seen = Seen((one.picture,), one.choices)
        ways.append((float(scale), _dressed(one.job, seen, one.picture, float(scale), style)))
    for give_way in give_ways:
        for k, dressed in ways:
            clear = not dressed.placed.clashes
            found = _room(job, fit, dressed.box, boxes, give_way) if clear else None
            if found is not None:
                at = found[1]
                return found[0], moved(dressed.box, at), _view(dressed, small.name, at, k)
    return None


def _room(
    job: Job, fit: _Fit, size: Box, boxes: list[Box], give_way: bool
) -> tuple[_Fit, Point2] | None:
    """Find room for one more view: beside the lists as they are, else with the lists set anew.

    Reasons of derived sizes may ``give_way``: the sizes themselves are on the view.
    """
    frame, near = fit.paper.frame, middle_of(list(fit.arranged.boxes.values()))
    firm = [*boxes, *fit.furniture.blocks]
    lists = taken(fit.furniture.marks, fit.furniture.texts, frame)
    for at in free_places(size, [*firm, *lists], frame, near):
        return fit, at
    for at in free_places(size, firm, frame, near, _FAR_APART):
        there = [*boxes, moved(size, at)]
        furniture = furnish(job, fit.paper, fit.scale, style_for(fit.paper.name), there)
        less = furniture.must_left if give_way else furniture.left_over
        if less <= (fit.furniture.must_left if give_way else fit.furniture.left_over):
            return replace(fit, furniture=furniture), at
    return None


def _in_view(text: Text, scale: float) -> Text:
    place: Point2 = (text.at[0] / scale, text.at[1] / scale)
    return Text(place, text.text, text.height, text.anchor, text.turn, text.bold, text.name)
