"""From a job to its sheets: one drawing page, the data sheet behind it, loose pins at the end.

The choice is arithmetic (``scale.py``): A3 or B landscape, at the largest scale that shows the
views with white space round them and the bore large enough; then with broken views; then a larger
sheet. What is said in words never enters the choice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain, product
from typing import Literal

from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.insets import with_insets
from drafting.drawing.compose.larger_end import with_larger_end
from drafting.drawing.compose.opened import open_high
from drafting.drawing.compose.own_pages import own_pages
from drafting.drawing.compose.page import (
    MORE_APART,
    ONE_APART,
    Page,
    has_bare_room,
    laid_out,
    squeezed,
    tightened,
)
from drafting.drawing.compose.scale import LEAST_BORE, LEAST_NAMED, Rule, Scaled
from drafting.drawing.compose.settled import with_settled_words
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.inspect.inspect import inspect_page
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.data_sheet import data_pages
from drafting.drawing.lists.page_notes import page_notes, where_views_are
from drafting.drawing.lists.papers import papers
from drafting.drawing.sheet.sheet import Sheet, Text
from drafting.drawing.views.loose_pin import Small
from drafting.undisturbed import undisturbed

_NEARER = 3
"""So often words come nearer for others that cannot."""


def compose(job: Job) -> Sheet:
    """Compose the sheet of a job, with those that follow it."""
    with undisturbed():
        return _sheets(*_chosen(Dresser(job)))


def _chosen(dresser: Dresser) -> tuple[Page, Dresser]:
    """Give the first page that the views have room on, and who dressed them.

    Where the placing is not sure of a page the inspector is asked. One on which it finds something
    gives way to a leaner or smaller one of its paper that is clean, be the bore as small as on a
    sheet that was named, then to one of a larger paper. Hoses give way before anything else does.
    """
    job = dresser.job
    choice = papers(job.sheet, job.units)
    full = dresser.hoses_shorter()
    lean = full[-1].leaner(choice[0].is_small)[1:]
    rule = Rule(job, dresser.seen, choice[0])
    wrong_ones: list[tuple[int, Page, Dresser]] = []
    for paper in choice:
        rule = Rule(job, dresser.seen, paper, rule)
        touching: list[tuple[int, Page, Dresser]] = []
        smaller = ((m, one) for m in rule.main(LEAST_NAMED) if touching for one in full)
        for main, one in chain(_ways(rule, full, lean), smaller):
            page = laid_out(one, rule, main)
            if page is None:
                continue
            wrong = _wrong(page, one) if page.clashes else 0
            if not wrong:
                return _untangled(page, one, rule, main)
            touching.append((wrong, page, one))
        wrong_ones += touching
    if wrong_ones:
        return _finished(*min(wrong_ones, key=lambda found: found[0])[1:])
    return _finished(*_on_named(rule, (*full, *lean)))


def _finished(page: Page, dresser: Dresser) -> tuple[Page, Dresser]:
    """Give a page that is settled, with what the room that is left over allows.

    Where the placing is not sure, the inspector is to find no more than before.
    """
    larger = with_larger_end(page, dresser)
    settled, other = with_settled_words(larger, dresser)
    unsure = settled is not larger and settled.clashes
    if unsure and _wrong(settled, other) > _wrong(larger, dresser):
        return larger, dresser
    return settled, other


def _untangled(page: Page, one: Dresser, rule: Rule, main: Scaled) -> tuple[Page, Dresser]:
    """Finish a page; words that stand badly go to another view that has them about as well.

    Views may move for it, none gets smaller.
    """
    best, dresser = _finished(page, one)
    for name in best.tangled:
        for other in dresser.moved(name):
            found = laid_out(other, rule, main)
            if found is None or found.clashes or found.scales != page.scales:
                continue
            found, other = _finished(found, other)
            if len(found.tangled) < len(best.tangled):
                best, dresser = found, other
                break
    return best, dresser


def _on_named(rule: Rule, both: Sequence[Dresser]) -> tuple[Page, Dresser]:
    """Give a page of a sheet that was named and is small for its views.

    All of them at a scale that shows the bore; some on other pages, rather another view than the
    bore a little too small; the bore as small as it may be.
    """
    fits = list(rule.main(least=LEAST_NAMED))
    whole = {main.scale for main in fits if not main.breaks}
    read = [Scaled(s, {}) for s in rule.series if rule.bore(s) >= LEAST_NAMED and s not in whole]
    small = [Scaled(s, {}) for s in rule.series if rule.bore(s) < LEAST_NAMED]
    least = {id(one): one for one in (both[0], both[-1])}.values()
    some = [*read, *fits]
    good = [main for main in some if rule.bore(main.scale) >= LEAST_BORE]
    low = [main for main in some if main not in good]
    ways = (
        (list(product(some, least)), ()),
        *((list(product(good, least)), alone) for alone in ONE_APART),
        *((list(product(low, least)), alone) for alone in ONE_APART),
        *((list(product(some, least)), alone) for alone in MORE_APART),
        *((list(product(small, both[-1:])), alone) for alone in ((), *ONE_APART, *MORE_APART)),
    )
    found: list[tuple[int, Page, Dresser]] = []
    for tries, alone in ways:
        for main, one in _closer(rule, tries, alone):
            page = laid_out(one, rule, main, alone)
            if page is None:
                continue
            wrong = _wrong(page, one) if page.clashes else 0
            if not wrong:
                return page, one
            found.append((wrong, page, one))
    if found:
        return min(found, key=lambda one: one[0])[1:]
    last = both[-1]
    largest = next(rule.main(least=0.0), Scaled(rule.series[-1], {}))
    return squeezed(last, rule, largest), last


def _ways(
    rule: Rule, full: Sequence[Dresser], lean: Sequence[Dresser]
) -> Iterator[tuple[Scaled, Dresser]]:
    """Give the scales of a paper, best first: words where they stand best, nearer, then fewer.

    Of those that came nearer some leave room that others lack: it is shared out once more, then
    above the extended view as high as it is, where that is more than was counted. Last, where some
    of the fewest came as near as they can, others come nearer for them.
    """
    for main in rule.main():
        tight: Scaled | None = None
        for one in full:
            yield main, one
            tight = tightened(one, rule, main)
            if tight:
                yield tight, one
                again = tightened(one, rule, tight)
                if again and again != tight:
                    yield again, one
                high = open_high(one, rule, main.scale)
                if high > rule.least_open_high(main.scale):
                    above = tightened(one, rule, again or tight, open_high=high)
                    if above and above not in (tight, again):
                        yield above, one
        yield from ((tight or main, one) for one in lean)
        last = (*full, *lean)[-1]
        for _ in range(_NEARER):
            tight = tight and tightened(last, rule, tight, firm=True)
            if tight:
                yield tight, last


def _closer(
    rule: Rule, ways: Sequence[tuple[Scaled, Dresser]], alone: tuple[ViewName, ...]
) -> Iterator[tuple[Scaled, Dresser]]:
    """Give ways, each with words where they stand best, then nearer to the views that are left.

    Nearer words are no reason for a small bore: rather than that, a view goes to another page.
    """
    for main, dresser in ways:
        if not has_bare_room(dresser, rule, main, alone):
            continue
        yield main, dresser
        near = alone or rule.bore(main.scale) >= LEAST_BORE
        tight = tightened(dresser, rule, main, alone) if near else None
        if tight:
            yield tight, dresser


def compose_over(job: Job, notes: Sequence[str]) -> Sheet:
    """Compose one page of a cylinder laid over another, with ``notes`` above its title block."""
    with undisturbed():
        page, dresser = _chosen(Dresser(job))
        return _drawing(page, dresser, replace(dresser.job, ports=()), notes)[0]


def _wrong(page: Page, dresser: Dresser) -> int:
    """Count what the inspector finds on a page."""
    return len(inspect_page(_drawing(page, dresser, dresser.job, ())[0], dresser.job))


def _drawing(
    page: Page, dresser: Dresser, job: Job, notes: Sequence[str]
) -> tuple[Sheet, tuple[Small, ...]]:
    """Give the drawing page, and the pins that found no room on it."""
    border = bordered(job, page.paper, page.scale, page.style, notes)
    views, pins = with_insets(page, dresser.job, dresser.seen, (border.column,))
    size = (page.paper.name, page.paper.width, page.paper.height)
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    meta = dict(job.meta)
    sheet = Sheet(*size, units, views, border.marks, border.texts, meta, model_units=job.units)
    return sheet, pins


def _sheets(page: Page, dresser: Dresser) -> Sheet:
    """Give the drawing page with the others behind it, each with its number and how many."""
    job, paper = dresser.job, page.paper
    spared = (*dresser.spared, *(("top view",) if "top" in page.left_out else ()))
    behind = data_pages(job, paper, dresser.shown.left_out, spared)
    beside = own_pages(dresser, page)
    further = where_views_are(page.alone, 2 + len(behind), beside)
    notes = page_notes(job, page.is_broken, paper.is_small, len(behind), further)
    first, pins = _drawing(page, dresser, job, notes)
    sheets = (first, *behind, *own_pages(dresser, page, pins))
    head, *more = (
        replace(s, texts=tuple(_counted(t, f"{n} / {len(sheets)}") for t in s.texts))
        for n, s in enumerate(sheets, 1)
    )
    return replace(head, following=tuple(more))


def _counted(text: Text, count: str) -> Text:
    return replace(text, text=count) if text.name == "sheet" else text
