"""The worksheet: a printable page of what to measure on a cylinder with these mounts.

First pictures with letters where tape and caliper go, then a box for each reading, dials to tick,
thread panels and cautions. The letters are the names in the file of readings.
"""

from __future__ import annotations

from collections.abc import Iterable

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Sheet, Text
from drafting.measuring.letters import both_mounts, both_sheets, both_turn, letters
from drafting.measuring.worksheet_boxes import (
    BEFORE,
    CAUTIONS,
    FILE,
    PLAIN,
    ROW,
    SMALL,
    blanks,
    columns,
    dial,
    heading,
    paragraphs,
    table_head,
    table_row,
    thread_panel,
)
from drafting.measuring.worksheet_page import MARGIN, Page, Units, finished
from drafting.measuring.worksheet_pictures import Panel, pictures
from drafting.measuring.worksheet_sample import sample

PANELS = 180.0
"""The height (mm) that dials, panels and the example take at the most."""
_PORT = (
    "Thread, if known:",
    "Inside the thread crests (female):",
    "Pitch by gauge (tpi, mm):",
    "Ten threads over a length of:",
    "Taper (yes, no):",
    "Seat angle:",
    "Adapter (none, out: taken out, in: left in):",
)
_ROD = (
    "Over the crests, or inside them (M2):",
    "Pitch by gauge (tpi, mm):",
    "Ten threads over a length of:",
    "Left hand (yes, no):",
)


def sheets(body: str, rod: str, units: Units = "both", paper: str = "A4") -> tuple[Sheet, ...]:
    """Give the pages of the worksheet."""
    pages = [_pictures(body, rod, paper), *_boxes(body, rod, units, paper)]
    return finished(pages, paper, units, f"{body} / {rod}")


def _pictures(body: str, rod: str, paper: str) -> Page:
    page = Page.new(paper, f"What to measure: {body} on the body (1), {rod} on the rod (2)")
    base, end_sheet = both_sheets(body, rod)
    words = (
        f"Lengths A and B run from {base.datum} at the base end to {end_sheet.datum} at the rod "
        "end."
    )
    for line in wrapped(words, PLAIN, page.room):
        page.texts.append(Text((MARGIN, page.top - PLAIN), line, PLAIN))
        page.top -= 1.5 * PLAIN
    page.top -= 2.0
    cylinder = sample(body, rod)
    seen = pictures(cylinder, sheet_job(cylinder))
    low = MARGIN + 10.0
    free = page.top - low
    closed, opened = seen.overall(page.room, 0.28 * free)
    for panel in (closed, opened):
        _set(page, [panel])
    cells = page.room / 2 - 3.0
    rest = page.top - low - 6.0
    for end in ("body", "rod"):
        found = seen.end(end, cells, rest / 2)
        if len(found) > 2:
            found = seen.end(end, page.room / 3 - 4.0, rest / 2)
        _set(page, found)
    return page


def _set(page: Page, panels: Iterable[Panel]) -> None:
    """Set panels in a row, spread evenly, and go down by the highest."""
    row = list(panels)
    if not row:
        return
    wide = [p.box[2] - p.box[0] for p in row]
    high = max(p.box[3] - p.box[1] for p in row)
    gap = (page.room - sum(wide)) / (len(row) + 1)
    x = MARGIN + gap
    for panel, w in zip(row, wide, strict=True):
        tall = panel.box[3] - panel.box[1]
        page.views.append(panel.at(x, page.top - high / 2 - tall / 2))
        x += w + gap
    page.top -= high + 3.0


def _boxes(body: str, rod: str, units: Units, paper: str) -> list[Page]:
    low = MARGIN + 10.0
    page = Page.new(paper, "Readings")
    pages = [page]
    asks = ("Cylinder:", "Machine:", "Read by:", "Date:")
    page.top = page.put(blanks(MARGIN, page.top, page.room, asks)) - 2.0
    page.texts.append(heading("First", MARGIN, page.top))
    drawn = paragraphs(CAUTIONS, MARGIN, page.top - 3.5, page.room / 2 - 4.0, SMALL)
    page.texts += drawn.texts
    x = MARGIN + page.room / 2
    page.texts.append(heading("How to measure", x, page.top))
    other = paragraphs(BEFORE, x, page.top - 3.5, page.room / 2, SMALL)
    page.texts += other.texts
    page.top = min(drawn.bottom, other.bottom) - 4.0
    page.top = page.put(table_head(MARGIN, page.top, page.room, units))
    for letter in letters(body, rod):
        if page.top - ROW < low:
            page = Page.new(paper, "Readings (continued)")
            pages.append(page)
            page.top = page.put(table_head(MARGIN, page.top, page.room, units))
        page.top = page.put(table_row(letter, MARGIN, page.top, page.room))
    if page.top - low < PANELS:
        page = Page.new(paper, "Ports, threads, and what is seen")
        pages.append(page)
    else:
        page.top -= 4.0
    _panels(page, body, rod)
    return pages


def _panels(page: Page, body: str, rod: str) -> None:
    words = "Tick the hour that each faces, looking from the ROD end at the rod's face, 12 up"
    page.texts.append(Text((MARGIN, page.top - PLAIN), words, PLAIN, bold=True))
    y = page.top - PLAIN - 25.0
    third = page.room / 3
    titles = ["Base port", "Rod port"]
    base, end = both_mounts(body, rod)
    if both_turn(body, rod):
        titles.append("Rod pin against body pin")
    if "clock" in base.fields:
        titles.append(f"The {body}'s seat")
    for n, title in enumerate(titles):
        page.put(dial(MARGIN + (n + 0.5) * third, y, 13.0, title))
    top = y - 22.0
    half = page.room / 2 - 2.0
    lows = []
    for n, title in enumerate(("Base port", "Rod port")):
        lows.append(page.put(thread_panel(MARGIN + n * (half + 4.0), top, half, title, _PORT)))
    top = min(lows) - 4.0
    asks = ["Marks, name plate, seal sizes:", "The machine's own gaps and ears:"]
    if base.worksheet.reads("bolts") or end.worksheet.reads("bolts"):
        asks.insert(0, "Bolt holes: how many, and is one on 12 o'clock?")
    if "seat" in base.fields:
        asks.insert(0, f"Which face of the {body} bears on the machine?")
    if end.worksheet.has("thread"):
        low = page.put(thread_panel(MARGIN, top, half, "Thread of the rod", _ROD))
        low = min(low, page.put(thread_panel(MARGIN + half + 4.0, top, half, "Seen", asks)))
    else:
        low = page.put(thread_panel(MARGIN, top, page.room, "Seen", asks))
    example = [t.format(body=f'"{body}"', rod=f'"{rod}"') for t in FILE]
    page.texts.append(heading("From this sheet to the file of readings", MARGIN, low - 5.0))
    page.put(columns(example, MARGIN, low - 9.0, page.room))
