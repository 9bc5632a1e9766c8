"""One sheet with its views: where they stand, and the lists round them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import product

from drafting.drawing.compose.arrange import BETWEEN, Arranged, arrange
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.lists.border import Border, Furniture, bordered, furnish
from drafting.drawing.lists.columns import Listing
from drafting.drawing.lists.papers import Paper, centring_room
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.style import Style, style_for
from drafting.drawing.views.view import Dressed
from drafting.records import dataclass

INSIDE = 4.0
"""Free paper between the frame and the views (mm)."""
_PAST = 2.5
"""So much farther inside, views are clear of a centring mark (mm)."""
_APARTS = (30.0, 24.0, 19.0, 15.0, 12.0, BETWEEN)


@dataclass(frozen=True, slots=True)
class Blank:
    """A sheet before anything stands on it; ``lists`` are what the sheet before had over."""

    job: Job
    paper: Paper
    scale: Fraction
    style: Style
    border: Border
    number: int
    lists: tuple[Listing, ...] | None

    @property
    def firm(self) -> tuple[Box, ...]:
        """Give what stands where it is: title block, check bar, centring marks."""
        return (self.border.block, self.border.bar, *centring_room(self.paper))

    def furnished(self, boxes: Sequence[Box]) -> Furniture:
        """Set the lists round boxes."""
        border, lists, number = self.border, self.lists, self.number
        return furnish(self.job, self.paper, self.style, border, boxes, lists, number)


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet with its views and lists."""

    blank: Blank
    views: tuple[Dressed, ...]
    arranged: Arranged
    furniture: Furniture

    @property
    def boxes(self) -> list[Box]:
        """Give the boxes of the views on the paper."""
        return list(self.arranged.boxes.values())


def blank(
    job: Job,
    paper: Paper,
    scale: Fraction,
    number: int = 1,
    lists: tuple[Listing, ...] | None = None,
) -> Blank:
    """Give an empty sheet, the first or a later one."""
    style = style_for(paper.name)
    border = bordered(job, paper, scale, style, number)
    return Blank(job, paper, scale, style, border, number, lists)


def laid_out(sheet: Blank, views: tuple[Dressed, ...]) -> Page | None:
    """Put views on a sheet so that as much as can be of the lists has room; None without room."""
    x0, y0, x1, y1 = sheet.paper.frame
    boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
    best: Page | None = None
    for apart in _APARTS:
        raw = arrange(boxes, sheet.job.projection, sheet.job.clock_from, apart)
        free = x1 - x0 - 2 * INSIDE - raw.box[2]
        low = y1 - y0 - 2 * INSIDE + raw.box[1]
        if free < 0 or low < 0:
            continue
        for aside, down in product((free / 2, min(free, _PAST), 0.0), (0.0, min(low, _PAST))):
            there = raw.moved(x0 + INSIDE + aside, y1 - INSIDE - down)
            found = _placed(sheet, views, there)
            if found and (best is None or found.furniture.left_over < best.furniture.left_over):
                best = found
                if not found.furniture.left_over:
                    return _lowered(found)
    return _lowered(best) if best else None


def over(sheet: Blank, boxes: Mapping[ViewName, Box]) -> tuple[float, float]:
    """Give how much wider and higher than a sheet (mm) the views are, as near as they may stand."""
    x0, y0, x1, y1 = sheet.paper.frame
    raw = arrange(boxes, sheet.job.projection, sheet.job.clock_from, BETWEEN)
    return raw.box[2] - (x1 - x0 - 2 * INSIDE), -raw.box[1] - (y1 - y0 - 2 * INSIDE)


def shifted(page: Page, dx: float, dy: float) -> Page | None:
    """Move all views of a page; None where they have no room or an entry of the lists loses its."""
    found = _placed(page.blank, page.views, page.arranged.moved(dx, dy))
    return found if found and found.furniture.left_over <= page.furniture.left_over else None


def squeezed(sheet: Blank, views: tuple[Dressed, ...]) -> Page:
    """Put views on a sheet that has no room for them; the inspector will say what does not fit."""
    boxes: dict[ViewName, Box] = {v.picture.name: v.box for v in views}
    x0, _, _, y1 = sheet.paper.frame
    raw = arrange(boxes, sheet.job.projection, sheet.job.clock_from, BETWEEN)
    arranged = raw.moved(x0 + INSIDE, y1 - INSIDE)
    return Page(sheet, views, arranged, sheet.furnished(list(arranged.boxes.values())))


def _placed(sheet: Blank, views: tuple[Dressed, ...], arranged: Arranged) -> Page | None:
    there = list(arranged.boxes.values())
    if any(
        v[0] < b[2] and b[0] < v[2] and v[1] < b[3] and b[1] < v[3]
        for v in there
        for b in sheet.firm
    ):
        return None
    return Page(sheet, views, arranged, sheet.furnished(there))


def _lowered(page: Page) -> Page:
    """Bring the views into the middle of the room that the lists leave, where nothing is lost."""
    bottom = min(b[1] for b in page.boxes)
    for part in (0.5, 0.3):
        down = part * (bottom - page.furniture.top - INSIDE)
        if down < 1.0:
            break
        lower = shifted(page, 0.0, -down)
        if lower:
            return lower
    return page
