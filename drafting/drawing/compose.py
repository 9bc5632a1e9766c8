"""From a job to its sheet: the choice of paper and scale, and the views with all that is theirs.

The smallest sheet of the family is taken on which everything fits with the bore at least 12 mm on
paper, else the largest; on it, the largest scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.arrange import BETWEEN, Arranged, arrange, moved
from drafting.drawing.aside import Small, free_places, middle_of, small_views, taken
from drafting.drawing.broken import (
    BROKEN_NOTE,
    GAIN,
    Plain,
    breaks_for,
    is_slender,
    plain_runs,
)
from drafting.drawing.details import marked, wanted_details
from drafting.drawing.dress import Dressed, as_view, dress, dressed_view
from drafting.drawing.furniture import Furniture, furnish
from drafting.drawing.job import Job
from drafting.drawing.layout import Paper, papers, scales
from drafting.drawing.picture import ViewName
from drafting.drawing.plane import Box
from drafting.drawing.sheet import Sheet, View
from drafting.drawing.strokes import Point2
from drafting.drawing.style import Style, style_for
from drafting.drawing.views import Seen, look_at, marks_of
from drafting.records import dataclass

LEAST_BORE = 12.0
"""The bore on paper (mm) below which a larger sheet is taken."""
_INSIDE = 4.0
"""Free paper between the frame and the views (mm)."""
_APARTS = (30.0, 24.0, 19.0, 15.0, 12.0, BETWEEN)
_STACKED = ("side", "top", "extended")
_FAR_APART = 40.0
_BESIDE = 20.0
"""What sizes beside the ends of a long view may take (paper mm) before more is broken out."""
_TRIES = 3
_ROW_LEAST = 22.0
"""What a row of views needs besides its outline at the least: a strip, a title, free paper."""


@dataclass(frozen=True, slots=True)
class _Fit:
    """A way to fill a paper."""

    paper: Paper
    scale: Fraction
    views: tuple[Dressed, ...]
    arranged: Arranged
    furniture: Furniture


def compose(job: Job) -> Sheet:
    """Compose the sheet of a job."""
    seen = look_at(job)
    dressed: dict[Fraction, tuple[Dressed, ...]] = {}
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
    job, found = _broken(job, seen, found)
    return _sheet(job, seen, found)


def _fill(
    job: Job,
    seen: Seen,
    paper: Paper,
    least_bore: float,
    dressed: dict[Fraction, tuple[Dressed, ...]],
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
            dressed[scale] = dress(job, seen, float(scale), style)
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


def _broken(job: Job, seen: Seen, found: _Fit) -> tuple[Job, _Fit]:
    """Break the long views of a slender cylinder where a smaller sheet or a larger scale is won."""
    if job.breaks == "none" or not is_slender(seen.pictures):
        return job, found
    told = replace(job, notes=(*job.notes, BROKEN_NOTE))
    marks = {p.name: marks_of(p, job, 1.0, Style()) for p in seen.pictures}
    body = frozenset(p.name for p in job.extended if p.owner == "body")
    plain = plain_runs(seen.pictures, marks, job.wishes, body)
    for paper in papers(job.sheet, job.units):
        same = paper is found.paper
        for scale in scales(job.scale, paper):
            if float(scale) * job.bore < LEAST_BORE or (same and scale < GAIN * found.scale):
                break
            fit = _shortened(told, seen, plain, paper, scale)
            if fit and not fit.furniture.must_left:
                return told, fit
        if same:
            break
    return job, found


def _shortened(job: Job, seen: Seen, plain: Plain, paper: Paper, scale: Fraction) -> _Fit | None:
    """Break the views so that they fill the width of a paper; sizes beside them may need more."""
    x0, y0, x1, y1 = paper.frame
    style, room = style_for(paper.name), x1 - x0 - 2 * _INSIDE - 2 * _BESIDE
    if not _high_enough(seen, paper, float(scale)):
        return None
    for _ in range(_TRIES):
        breaks = breaks_for(plain, float(scale), room)
        if not breaks:
            return None
        views = dress(job, seen, float(scale), style, breaks)
        boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
        raw = arrange(boxes, job.projection, job.clock_from, BETWEEN)
        if -raw.box[1] > y1 - y0 - 2 * _INSIDE:
            return None
        over = raw.box[2] - (x1 - x0 - 2 * _INSIDE)
        if over <= 0.0:
            return _laid_out(job, paper, scale, views, style)
        room -= over + 1.0
    return None


def _leaner(
    job: Job, seen: Seen, full: tuple[Dressed, ...], scale: float, style: Style
) -> tuple[Dressed, ...]:
    """Give the views without the sizes that a sheet can do without; none without such sizes."""
    spare = {c.picture.name for c in seen.choices if c.wish.name in job.spare}
    if not spare:
        return ()
    less = replace(seen, choices=tuple(c for c in seen.choices if c.wish.name not in job.spare))
    return tuple(
        dressed_view(job, less, v.picture, scale, style, v.breaks) if v.picture.name in spare else v
        for v in full
    )


def _could_fit(seen: Seen, paper: Paper, scale: float) -> bool:
    x0, _, x1, _ = paper.frame
    wide = max(p.box[2] - p.box[0] for p in seen.pictures)
    return wide * scale + 2 * _INSIDE < x1 - x0 and _high_enough(seen, paper, scale)


def _high_enough(seen: Seen, paper: Paper, scale: float) -> bool:
    rows = [p.box[3] - p.box[1] for p in seen.pictures if p.name in _STACKED]
    return sum(rows) * scale + len(rows) * _ROW_LEAST < paper.frame[3] - paper.frame[1]


def _laid_out(
    job: Job, paper: Paper, scale: Fraction, views: tuple[Dressed, ...], style: Style
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
    views = dress(job, seen, float(scale), style)
    boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
    x0, _, _, y1 = paper.frame
    arranged = arrange(boxes, job.projection, job.clock_from, BETWEEN).moved(x0 + 3, y1 - 3)
    there = list(arranged.boxes.values())
    return _Fit(paper, scale, views, arranged, furnish(job, paper, scale, style, there))


def _sheet(job: Job, seen: Seen, fit: _Fit) -> Sheet:
    fit, small, boxes = _with_small(job, fit)
    views = {
        v.picture.name: as_view(
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
        ways.append((float(scale), dressed_view(one.job, seen, one.picture, float(scale), style)))
    for give_way in give_ways:
        for k, dressed in ways:
            clear = not dressed.placed.clashes
            found = _room(job, fit, dressed.box, boxes, give_way) if clear else None
            if found is not None:
                at = found[1]
                return found[0], moved(dressed.box, at), as_view(dressed, small.name, at, k)
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
