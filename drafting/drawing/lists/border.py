"""What stands on the sheet beside the views: border, title block, lists, check bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.dimension.job import Job
from drafting.drawing.lists.columns import Column, Listing, Set, flow
from drafting.drawing.lists.papers import Paper, border, scale_text
from drafting.drawing.lists.title_block import WIDTH, title_block
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

UNITS = {
    "in": "inches",
    "mm": "mm",
    "in [mm]": "inches [mm]",
    "mm [in]": "mm [inches]",
}
GUTTER = 4.0
_NARROWEST = 80.0
_BAR_ROOM, _BAR_WIDTH = 13.0, 110.0
_MARK = 7.0
"""Room for a centring mark between the frame and the lists."""
_LARGE = 600.0
"""On wider sheets (mm) the lists are set in larger letters."""
_AIR = 6.0
"""Free paper between the views and the lists."""


@dataclass(frozen=True, slots=True)
class Furniture:
    """All but the views.

    ``rest`` is what the lists have over for the next sheet; ``top`` is their highest point.
    """

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    rest: tuple[Listing, ...]
    top: float

    @property
    def left_over(self) -> int:
        """Give how many entries found no room."""
        return sum(len(entry.rows) for entry in self.rest)

    @property
    def firm_left(self) -> int:
        """Give how many entries found no room but for the reasons of derived sizes."""
        return sum(len(entry.rows) for entry in self.rest if entry.name != "derived")

    @property
    def cautions_left(self) -> bool:
        """Tell whether a caution, or a must-hold size before it, found no room here."""
        return any(entry.name == "cautions" for entry in self.rest)


@dataclass(frozen=True, slots=True)
class Border:
    """What stands on a sheet whatever the views: frame, title block, check bar."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    block: Box
    bar: Box

    def foot(self, left: float, right: float) -> float:
        """Give the height from which the paper between two places is free."""
        tops = [b[3] for b in (self.block, self.bar) if left < b[2] and b[0] < right]
        return max(tops, default=self.block[1])


def bordered(job: Job, paper: Paper, scale: Fraction, style: Style, page: int) -> Border:
    """Set up a sheet. The check bar stands beside the title block, on narrow sheets above it."""
    x0, y0, x1, _ = paper.frame
    fields = block_fields(job, paper, scale)
    block = title_block((x1, y0), fields, job.projection, style, job.logo, short=page > 1)
    y = y0 if x0 + _BAR_WIDTH < block.box[0] else block.box[3]
    marks, texts = border(paper)
    bar_marks, bar_texts = check_bar((x0 + 3.0, y + 3.0))
    return Border(
        (*marks, *block.marks, *bar_marks),
        (*texts, *block.texts, *bar_texts),
        block.box,
        (x0, y, x0 + _BAR_WIDTH, y + _BAR_ROOM),
    )


def furnish(
    job: Job,
    paper: Paper,
    style: Style,
    border: Border,
    views: Sequence[Box],
    lists: Sequence[Listing] | None = None,
    page: int = 1,
) -> Furniture:
    """Set lists round the views, in the lowest band that holds them.

    ``lists`` are what the sheet before had over, for a sheet after the first.
    """
    found = _lowest(lists or (), paper, style, border, views, f"CONTINUED ON SHEET {page + 1}")
    return Furniture(
        (*border.marks, *found.marks),
        (*border.texts, *found.texts),
        found.rest,
        max((m.curve.a[1] for m in found.marks if isinstance(m.curve, Line)), default=0.0),
    )


def lettering(paper: Paper, style: Style) -> float:
    """Give the height of the lists' letters."""
    return style.text if paper.width > _LARGE else style.small_text


def _lowest(
    lists: Sequence[Listing],
    paper: Paper,
    style: Style,
    border: Border,
    views: Sequence[Box],
    rest: str,
) -> Set:
    """Give the lists the lowest top at which they fit, else as much room as the views leave."""
    height = lettering(paper, style)

    def at(top: float, level: bool) -> Set:
        columns = _columns(paper, border, views, top, level, height / style.small_text)
        return flow(lists, columns, height, height * style.line_pitch, rest)

    low, high = paper.frame[1] + _BAR_ROOM, paper.frame[3] - 3.0
    level = not at(high, True).left_over
    best = at(high, level)
    if best.left_over:
        return best
    while high - low > 1.0:
        middle = (low + high) / 2
        found = at(middle, level)
        if found.left_over:
            low = middle
        else:
            high, best = middle, found
    return best


def _columns(
    paper: Paper, border: Border, views: Sequence[Box], top: float, level: bool, k: float
) -> list[Column]:
    """Give columns from the left: beside the title block, then above it; ``level``: equal tops.

    ``k`` widens them for larger letters.
    """
    x0, y0, x1, _ = paper.frame
    free = border.block[0] - x0 - GUTTER
    spans: list[tuple[float, float, float]] = []
    count = int((free + GUTTER) // (_NARROWEST * k + GUTTER))
    if count:
        wide = (free - (count - 1) * GUTTER) / count
        lefts = [x0 + n * (wide + GUTTER) for n in range(count)]
        spans += [(x, wide, max(border.foot(x, x + wide), y0 + _MARK)) for x in lefts]
    above = 2 if k == 1.0 else 1
    part = (WIDTH - (above - 1) * GUTTER) / above
    lefts = [x1 - WIDTH + n * (part + GUTTER) for n in range(above)]
    spans += [(x, part, border.foot(x, x + part) + 3.0) for x in lefts]
    out = []
    for x, wide, bottom in spans:
        roof = min(
            (v[1] - _AIR for v in views if v[0] < x + wide + 3.0 and v[2] > x - 3.0),
            default=paper.frame[3] - 3.0,
        )
        left = x + _MARK if x == x0 else x
        right = x + wide - (_MARK if x + wide > x1 - _MARK else 0.0)
        out.append(Column(left, right - left, min(top, roof), bottom))
    if level:
        lowest = min(c.top for c in out)
        out = [replace(c, top=lowest) for c in out]
    return out


def block_fields(job: Job, paper: Paper, scale: Fraction) -> dict[str, str]:
    """Give what the title block says."""
    words = {
        "scale": scale_text(scale),
        "units": UNITS[job.dimensions],
        "size": paper.name,
        "number": job.name,
    }
    return words | {k: v for k, v in job.meta.items() if v}


def check_bar(at: Point2) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
    """Draw a rule of 100 mm and 4 in, by which a print is checked."""
    x, y = at[0], at[1] + 2.8
    marks = [Mark(Line((x, y), (x + 101.6, y)), "table", "check bar")]
    for k in range(11):
        high = 1.8 if k % 5 else 2.6
        marks.append(Mark(Line((x + 10.0 * k, y), (x + 10.0 * k, y + high)), "table", "check bar"))
    for k in range(9):
        low = 1.2 if k % 2 else 2.2
        marks.append(Mark(Line((x + 12.7 * k, y), (x + 12.7 * k, y - low)), "table", "check bar"))
    words = "Print at 100 %: this rule is 100 mm (above) and 4 in (below) long"
    return tuple(marks), (Text((x, y + 3.4), words, 2.5, name="check bar"),)
