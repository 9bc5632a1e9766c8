"""The machine's worksheet: what to measure on the machine that the cylinder goes into.

First the pictures, then a box for each reading, dials for where ports may point, a panel for each
hose end, and how the machine file is written from it.
"""

from __future__ import annotations

from dataclasses import replace

from drafting.drawing.sheet.sheet import Sheet, Text, View
from drafting.measuring.machine_letters import machine_letters
from drafting.measuring.machine_pictures import along, distances, side
from drafting.measuring.worksheet_boxes import (
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

CAUTIONS = (
    "Block what moves, mechanically, before you reach between ears: neither oil nor a closed valve "
    "holds it.",
    "Lock out every source, release what is stored, prove zero with a gauge.",
    "Move the machine by hand or by its own means to both ends of its travel, never by prying on "
    "the cylinder.",
)
BEFORE = (
    "Pin to pin: over the outer edges of both holes, then take off half of each; or from edge to "
    "the same edge, as read where the holes are alike. A centre guessed by eye is 1/8 in (3 mm) "
    "off at best.",
    "Ears of a worn machine stand farther apart under load: measure with the pins out.",
    "Both ends even when they look alike: 1 is the base, 2 the rod. Take whichever fits: ears, or "
    "one lug.",
    "Write every reading twice, as read, without rounding.",
)
FILE = (
    """title = "Baler door"
units = "in"

[distance]
closest = "26 1/2"  # A
farthest = "42 7/8"  # B
hard_closest = 26  # C
hard_farthest = "43 1/2"  # D""",
    """[base_ears]
gap = "3 1/16"  # G1
ear = 0.5  # E1
pin = 1.25  # P1
hole = 1.266  # H1
behind = 1.75  # K1
around = 2  # R1""",
    """[rod_ears]
lug = 1.5  # L2
pin = 1.25  # P2

[supply]
pressure = "2500 psi"
flow = "11 gal/min"

[hoses]
base = "3/4-16 37 flare"
base_free = 2

Then: drafting fit SPEC FILE""",
)
_HOSE = (
    "Thread, if known:",
    "Over its thread (male), or inside (female):",
    "Pitch: threads per inch, or mm:",
    "Seat angle, or flat with an O-ring:",
    "Free straight out, beyond it:",
)
_MORE = (
    "Pressure there is, relief setting:",
    "Flow there is:",
    "Can a gun reach the grease fittings?",
    "Are the two pins in line, or crossed?",
    "Nearest part to the barrel, and how near:",
)


def machine_sheets(units: Units = "both", paper: str = "A4") -> tuple[Sheet, ...]:
    """Give the pages: pictures, then what is written in."""
    pages = [_pictures(paper), *_boxes(units, paper)]
    return finished(pages, paper, units, "the machine")


def _at(view: View, x: float, y: float) -> View:
    return replace(view, at=(x, y))


def _pictures(paper: str) -> Page:
    page = Page.new(paper, "What to measure on the machine: where the cylinder goes")
    middle = page.wide / 2
    page.views.append(_at(distances(), middle - 58.0, page.top - 46.0))
    for end, word in ((1, "BASE END"), (2, "ROD END")):
        y = page.top - 118.0 - (end - 1) * 72.0
        page.views.append(_at(side(end, word), MARGIN + 28.0, y))
        page.views.append(_at(along(end, word), middle + 14.0, y))
    return page


def _boxes(units: Units, paper: str) -> list[Page]:
    page = Page.new(paper, "Readings, and what is seen")
    page.top = page.put(
        blanks(MARGIN, page.top, page.room, ("Machine:", "Cylinder at:", "By, date:"))
    )
    half = page.room / 2
    page.texts.append(heading("First of all", MARGIN, page.top))
    page.texts.append(heading("How to measure", MARGIN + half, page.top))
    left = paragraphs(CAUTIONS, MARGIN, page.top - 3.5, half - 4.0, SMALL)
    right = paragraphs(BEFORE, MARGIN + half, page.top - 3.5, half, SMALL)
    page.texts += (*left.texts, *right.texts)
    page.top = min(left.bottom, right.bottom) - 4.0
    page.top = page.put(table_head(MARGIN, page.top, page.room, units))
    for letter in machine_letters():
        page.top = page.put(table_row(letter, MARGIN, page.top, page.room))
    assert page.top > MARGIN + ROW
    last = Page.new(paper, "Ports, hoses, and the machine file")
    words = "Tick every hour that a port may face, looking from the ROD end, 12 up"
    last.texts.append(Text((MARGIN, last.top - PLAIN), words, PLAIN, bold=True))
    y = last.top - PLAIN - 25.0
    for n, title in enumerate(("Base port may face", "Rod port may face", "Grease reached from")):
        last.put(dial(MARGIN + (n + 0.5) * last.room / 3, y, 13.0, title))
    top, part = y - 22.0, half - 2.0
    lows = [
        last.put(thread_panel(MARGIN + n * (part + 4.0), top, part, title, _HOSE))
        for n, title in enumerate(("Hose end at the base port", "Hose end at the rod port"))
    ]
    low = last.put(thread_panel(MARGIN, min(lows) - 4.0, last.room, "Seen and known", _MORE))
    last.texts.append(heading("From this sheet to the machine file", MARGIN, low - 6.0))
    last.put(columns(FILE, MARGIN, low - 10.0, last.room))
    return [page, last]
