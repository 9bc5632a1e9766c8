"""From a job to its sheets: the choice of paper and scale, and the views with all that is theirs.

The smallest sheet of the family is taken on which the views fit with the bore at least 12 mm on
paper, else the largest; on it, the largest scale. Views go on to further sheets where a named sheet
is too small for all of them. The data sheet stands behind, on paper of its own.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Literal

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.insets import pins_have_room, with_insets
from drafting.drawing.compose.page import INSIDE, Blank, Page, blank, laid_out, over, squeezed
from drafting.drawing.compose.spread import spread
from drafting.drawing.dimension.job import Job
from drafting.drawing.lists.data_sheet import data_pages
from drafting.drawing.lists.papers import Paper, papers, scales
from drafting.drawing.sheet.sheet import Sheet, Text, View
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import (
    BROKEN_NOTE,
    GAIN,
    Plain,
    breaks_for,
    is_slender,
    plain_runs,
)
from drafting.drawing.views.looks import Seen, marks_of
from drafting.drawing.views.view import as_view

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


def compose(job: Job) -> Sheet:
    """Compose the sheet of a job, with those that follow it."""
    dresser = Dresser(job)
    found: Page | None = None
    choice = papers(job.sheet, job.units)
    for paper in choice:
        fit = _fill(dresser, paper, 0.0 if paper is choice[-1] else LEAST_BORE)
        if fit is None:
            continue
        found = fit
        if _holds_all(fit):
            break
    found = _broken(dresser, found)
    pages: tuple[Page, ...] = (found,) if found else ()
    if found is None or float(found.blank.scale) * job.bore < LEAST_BORE:
        several = _spread(dresser, choice[-1])
        if several and (found is None or several[0].blank.scale > found.blank.scale):
            pages = several
    return _sheets(pages or (_squeezed(dresser, choice[-1]),), dresser.seen)


def _fill(dresser: Dresser, paper: Paper, least_bore: float) -> Page | None:
    """Fill a paper at the largest scale that holds views and cautions; else the views alone."""
    job, seen = dresser.job, dresser.seen
    fallback: Page | None = None
    for scale in scales(job.scale, paper):
        if not _could_fit(seen, paper, float(scale)):
            continue
        if float(scale) * job.bore < (LEAST_BORE if fallback else least_bore):
            break
        sheet = blank(job, paper, scale)
        fit = dresser.laid_out(sheet)
        if dresser.spare and (fit is None or fit.furniture.cautions_left):
            fit = dresser.laid_out(sheet, lean=True) or fit
        if fit is None:
            continue
        if _holds_all(fit):
            return fit
        fallback = fallback or fit
    return fallback


def _holds_all(page: Page) -> bool:
    """Tell whether a first sheet has what belongs on it: views, cautions, views of loose pins."""
    return not page.furniture.cautions_left and pins_have_room(page)


def _broken(dresser: Dresser, found: Page | None) -> Page | None:
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
            fit = _shortened(dresser, blank(told, paper, scale), plain)
            if fit and _holds_all(fit):
                return fit
        if same:
            break
    return found


def _spread(dresser: Dresser, paper: Paper) -> tuple[Page, ...]:
    """Share the views out among sheets: the fewest with the bore large enough, else the largest."""
    best: tuple[Page, ...] = ()
    widest = max(p.box[2] - p.box[0] for p in dresser.seen.pictures)
    for scale in scales(dresser.job.scale, paper):
        if best and float(scale) * dresser.job.bore < LEAST_SPREAD:
            break
        if widest * float(scale) + 2 * INSIDE > paper.frame[2] - paper.frame[0]:
            continue
        sheet = blank(dresser.job, paper, scale)
        pages = spread(sheet, dresser.all(sheet))
        if pages and (not best or len(pages) < len(best)):
            best = pages
    return best


def _squeezed(dresser: Dresser, paper: Paper) -> Page:
    """Take the largest scale at which the outlines would fit."""
    series = scales(dresser.job.scale, paper)
    fits = (s for s in series if _could_fit(dresser.seen, paper, float(s)))
    sheet = blank(dresser.job, paper, next(fits, series[-1]))
    return squeezed(sheet, dresser.all(sheet))


def _shortened(dresser: Dresser, sheet: Blank, plain: Plain) -> Page | None:
    """Break the views so that they fill the width of a sheet; sizes beside them may need more."""
    x0, _, x1, _ = sheet.paper.frame
    scale, room = float(sheet.scale), x1 - x0 - 2 * INSIDE - 2 * _BESIDE
    if not _high_enough(dresser.seen, sheet.paper, scale):
        return None
    for _ in range(_TRIES):
        breaks = breaks_for(plain, scale, room)
        views = dresser.while_room(sheet, breaks, any_width=True) if breaks else ()
        if not views:
            return None
        wide, high = over(sheet, {v.picture.name: v.box for v in views})
        if high > 0.0:
            return None
        if wide <= 0.0:
            return laid_out(sheet, views)
        room -= wide + 1.0
    return None


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
    sheets += data_pages(first.blank.job, first.blank.paper)
    head, *more = (
        replace(s, texts=tuple(_counted(t, f"{n} / {len(sheets)}") for t in s.texts))
        for n, s in enumerate(sheets, 1)
    )
    return replace(head, following=tuple(more))


def _sheet(page: Page, views: tuple[View, ...]) -> Sheet:
    job, paper, furniture = page.blank.job, page.blank.paper, page.furniture
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    size = (paper.name, paper.width, paper.height)
    lists = (furniture.marks, furniture.texts, dict(job.meta))
    return Sheet(*size, units, views, *lists, model_units=job.units)


def _counted(text: Text, count: str) -> Text:
    return replace(text, text=count) if text.name == "sheet" else text
