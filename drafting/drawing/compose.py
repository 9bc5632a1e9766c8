"""From a job to its sheets: the choice of paper and scale, and the views with all that is theirs.

The smallest sheet of the family is taken on which the views, what must hold and the cautions fit
with the bore at least 12 mm on paper, else the largest; on it, the largest scale. Lists that find
no room beside the views go on to further sheets; so do views, where a named sheet is too small for
all of them.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Literal

from drafting.drawing.arrange import BETWEEN, arrange
from drafting.drawing.broken import (
    BROKEN_NOTE,
    GAIN,
    Plain,
    breaks_for,
    is_slender,
    plain_runs,
)
from drafting.drawing.continuation import following
from drafting.drawing.dress import Dressed, as_view, dress, dressed_view
from drafting.drawing.insets import with_insets
from drafting.drawing.job import Job
from drafting.drawing.layout import Paper, papers, scales
from drafting.drawing.page import INSIDE, Page, blank, laid_out, squeezed
from drafting.drawing.picture import ViewName
from drafting.drawing.plane import Box
from drafting.drawing.sheet import Sheet, Text, View
from drafting.drawing.spread import spread
from drafting.drawing.style import Style, style_for
from drafting.drawing.views import Seen, look_at, marks_of

LEAST_BORE = 12.0
"""The bore on paper (mm) below which a larger sheet is taken."""
LEAST_SPREAD = 8.0
"""The bore on paper (mm) that will do where views must share several sheets of a named size."""
_STACKED = ("side", "top", "extended")
_BESIDE = 20.0
"""What sizes beside the ends of a long view may take (paper mm) before more is broken out."""
_TRIES = 3
_ROW_LEAST = 22.0
"""What a row of views needs besides its outline at the least: a strip, a title, free paper."""


class _Dresser:
    """Gives the views at a scale with all that is theirs, each scale made once."""

    def __init__(self, job: Job) -> None:
        self.job, self.seen = job, look_at(job)
        self.made: dict[Fraction, tuple[Dressed, ...]] = {}

    def at(self, scale: Fraction, style: Style) -> tuple[Dressed, ...]:
        """Give all views at a scale."""
        if scale not in self.made:
            self.made[scale] = dress(self.job, self.seen, float(scale), style)
        return self.made[scale]


def compose(job: Job) -> Sheet:
    """Compose the sheet of a job, with those that follow it."""
    dresser = _Dresser(job)
    found: Page | None = None
    choice = papers(job.sheet, job.units)
    for paper in choice:
        fit = _fill(dresser, paper, 0.0 if paper is choice[-1] else LEAST_BORE)
        if fit is None:
            continue
        found = fit
        if not fit.furniture.cautions_left:
            break
    found = _broken(dresser, found)
    pages: tuple[Page, ...] = (found,) if found else ()
    if found is None or float(found.blank.scale) * job.bore < LEAST_BORE:
        several = _spread(dresser, choice[-1])
        if several and (found is None or several[0].blank.scale > found.blank.scale):
            pages = several
    return _sheets(pages or (_squeezed(dresser, choice[-1]),), dresser.seen)


def _fill(dresser: _Dresser, paper: Paper, least_bore: float) -> Page | None:
    """Fill a paper at the largest scale that holds views and cautions; else the views alone."""
    job, seen = dresser.job, dresser.seen
    fallback: Page | None = None
    for scale in scales(job.scale, paper):
        if not _could_fit(seen, paper, float(scale)):
            continue
        if float(scale) * job.bore < (LEAST_BORE if fallback else least_bore):
            break
        sheet = blank(job, paper, scale)
        views = dresser.at(scale, sheet.style)
        fit = laid_out(sheet, views)
        if fit is None or fit.furniture.cautions_left:
            lean = _leaner(job, seen, views, float(scale), sheet.style)
            fit = (laid_out(sheet, lean) if lean else None) or fit
        if fit is None:
            continue
        if not fit.furniture.cautions_left:
            return fit
        fallback = fallback or fit
    return fallback


def _broken(dresser: _Dresser, found: Page | None) -> Page | None:
    """Break the long views of a slender cylinder where a smaller sheet or a larger scale is won."""
    job, seen = dresser.job, dresser.seen
    if job.breaks == "none" or not is_slender(seen.pictures):
        return found
    told = replace(job, notes=(*job.notes, BROKEN_NOTE))
    marks = {p.name: marks_of(p, job, 1.0, Style()) for p in seen.pictures}
    body = frozenset(p.name for p in job.extended if p.owner == "body")
    plain = plain_runs(seen.pictures, marks, job.wishes, body)
    for paper in papers(job.sheet, job.units):
        same = found is not None and paper is found.blank.paper
        least = GAIN * found.blank.scale if found and same else Fraction(0)
        for scale in scales(job.scale, paper):
            if float(scale) * job.bore < LEAST_BORE or scale < least:
                break
            fit = _shortened(told, seen, plain, paper, scale)
            if fit and not fit.furniture.cautions_left:
                return fit
        if same:
            break
    return found


def _spread(dresser: _Dresser, paper: Paper) -> tuple[Page, ...]:
    """Share the views out among sheets: the fewest with the bore large enough, else the largest."""
    best: tuple[Page, ...] = ()
    widest = max(p.box[2] - p.box[0] for p in dresser.seen.pictures)
    for scale in scales(dresser.job.scale, paper):
        if best and float(scale) * dresser.job.bore < LEAST_SPREAD:
            break
        if widest * float(scale) + 2 * INSIDE > paper.frame[2] - paper.frame[0]:
            continue
        sheet = blank(dresser.job, paper, scale)
        pages = spread(sheet, dresser.at(scale, sheet.style))
        if pages and (not best or len(pages) < len(best)):
            best = pages
    return best


def _squeezed(dresser: _Dresser, paper: Paper) -> Page:
    """Take the largest scale at which the outlines would fit."""
    series = scales(dresser.job.scale, paper)
    fits = (s for s in series if _could_fit(dresser.seen, paper, float(s)))
    sheet = blank(dresser.job, paper, next(fits, series[-1]))
    return squeezed(sheet, dresser.at(sheet.scale, sheet.style))


def _shortened(job: Job, seen: Seen, plain: Plain, paper: Paper, scale: Fraction) -> Page | None:
    """Break the views so that they fill the width of a paper; sizes beside them may need more."""
    x0, y0, x1, y1 = paper.frame
    style, room = style_for(paper.name), x1 - x0 - 2 * INSIDE - 2 * _BESIDE
    if not _high_enough(seen, paper, float(scale)):
        return None
    for _ in range(_TRIES):
        breaks = breaks_for(plain, float(scale), room)
        if not breaks:
            return None
        views = dress(job, seen, float(scale), style, breaks)
        boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
        raw = arrange(boxes, job.projection, job.clock_from, BETWEEN)
        if -raw.box[1] > y1 - y0 - 2 * INSIDE:
            return None
        over = raw.box[2] - (x1 - x0 - 2 * INSIDE)
        if over <= 0.0:
            return laid_out(blank(job, paper, scale), views)
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
    return wide * scale + 2 * INSIDE < x1 - x0 and _high_enough(seen, paper, scale)


def _high_enough(seen: Seen, paper: Paper, scale: float) -> bool:
    rows = [p.box[3] - p.box[1] for p in seen.pictures if p.name in _STACKED]
    return sum(rows) * scale + len(rows) * _ROW_LEAST < paper.frame[3] - paper.frame[1]


def _sheets(pages: tuple[Page, ...], seen: Seen) -> Sheet:
    """Give the first sheet with the others behind it, each with its number and how many."""
    first, views = with_insets(pages[0], seen)
    sheets = [_sheet(first, views)]
    for page in pages[1:]:
        scale = float(page.blank.scale)
        places = page.arranged.places
        own = (as_view(v, v.picture.name, places[v.picture.name], scale) for v in page.views)
        sheets.append(_sheet(page, tuple(own)))
    last = pages[-1] if len(pages) > 1 else first
    sheets += following(last)
    head, *more = (
        replace(s, texts=tuple(_counted(t, f"{n} / {len(sheets)}") for t in s.texts))
        for n, s in enumerate(sheets, 1)
    )
    return replace(head, following=tuple(more))


def _sheet(page: Page, views: tuple[View, ...]) -> Sheet:
    job, paper, furniture = page.blank.job, page.blank.paper, page.furniture
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (paper.name, paper.width, paper.height)
    return Sheet(*size, units, views, furniture.marks, furniture.texts, dict(job.meta))


def _counted(text: Text, count: str) -> Text:
    return replace(text, text=count) if text.name == "sheet" else text
