"""The scale by arithmetic, before anything is dressed: outlines and what their sizes will take.

Paper millimetres. The retracted views stand in the upper field, the extended one in the lower left
at a scale of its own. Views are broken where no scale shows the bore well enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import product
from math import inf

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.lists.border import COLUMN, block_width, column_box, column_high
from drafting.drawing.lists.papers import Paper, scales
from drafting.drawing.lists.title_block import HEIGHT
from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import (
    ASIDE,
    GAIN,
    MOST_CUTS,
    SLENDER,
    STOUT,
    Plain,
    breaks_for,
    plain_runs,
    slenderness,
)
from drafting.drawing.views.looks import Seen, marks_of
from drafting.records import dataclass

LEAST_BORE = 7.9
"""The bore on paper (mm) below which views are broken, or a larger sheet is taken: 8, which
2 1/2 in at 1:8 counts as."""
LEAST_NAMED = 7.0
"""The same on a sheet that was named: rather than smaller, views have pages of their own."""
LEAST_BESIDE = 5.0
"""The same of the extended view there: rather than smaller, it has a page of its own."""
GOOD_BORE, GOOD_SLENDER = 12.0, 16.0
"""Below this a break is preferred that makes the scale so much larger (``GAIN``), and of a slender
cylinder, whose proportions nobody reads off a sheet."""
LEAST_OPEN = 3.0
"""The bore on paper (mm) that will do in the extended view, which shows lengths above all."""
SIZES = 70.0
"""What sizes and white space take beside and between the outlines, across and down."""
SIZES_SMALL = 46.0
"""The same on a small sheet that was named."""
OPEN_WIDE, OPEN_HIGH = 16.0, 46.0
"""What sizes, centre lines and title take round the outline of the extended view."""
OPEN_LEAST = 8.0
"""The same across where its sizes stand within the outline: centre lines alone pass it."""
_HAIR = 6.0
"""So much (mm) sizes that stand well may take less than ``SIZES``."""
AIR = 4.0
"""Free paper between the frame and the views (mm)."""
_OPEN_HAIR = 20.0
"""The same of ``OPEN_HIGH``: what room is left is seen when the view is dressed."""
_WHITE = 3.0
"""So much of the white space above a high column (mm) the views may have."""


@dataclass(frozen=True, slots=True)
class Scaled:
    """A scale with the breaks of the views that stand at it.

    ``rooms`` (paper mm from a view's origin) are what words have to keep within.
    """

    scale: Fraction
    breaks: Mapping[ViewName, Breaks]
    rooms: Mapping[ViewName, Box] | None = None


def spare_top(seen: Seen) -> bool:
    """Tell whether a top view may be left out: no size stands there, and no view beside it."""
    return not any(c.picture.name == "top" for c in seen.choices) and not any(
        p.name == "pin" for p in seen.pictures
    )


class Rule:
    """The arithmetic of one job on one paper."""

    def __init__(self, job: Job, seen: Seen, paper: Paper, other: Rule | None = None) -> None:
        """Take what does not hang on the paper from an ``other`` rule of the same job, if any."""
        self.job, self.paper, self.seen = job, paper, seen
        self.pictures: dict[ViewName, Picture] = {p.name: p for p in seen.pictures}
        self.series = scales(job.scale, paper)
        self.plain: Plain | None = other.plain if other else self._plain()
        self.slender = slenderness(seen.pictures) > SLENDER
        self.spare_top = spare_top(seen)
        self.column = column_high(job, 4 if self.plain else 3)
        self.split = max(COLUMN, self.column - _WHITE)
        self.beside_column = paper.frame[2] - block_width(paper) - paper.frame[0] - 2 * AIR

    def fields(
        self, open_high: float = 0.0, low: bool = False, tall: bool = False
    ) -> tuple[Box, Box]:
        """Give the upper field and that of the extended view, which is ``open_high`` if need be.

        Where the views need it, the fields part as ``low`` as column and extended view allow, or
        above an extended view that is ``tall``.
        """
        x0, y0, x1, y1 = self.paper.frame
        left, right = x0 + AIR, x1 - AIR
        if self.paper.is_small:
            foot = column_box(self.job, self.paper)[3]
            split = foot + open_high + AIR
            return (left, split, right, y1 - AIR), (left, foot, right, split)
        split = y0 + self.split
        if low:
            split = y0 + min(self.split, max(self.column, open_high + AIR) + AIR)
        if tall:
            split = y0 + max(self.split, open_high + 2 * AIR)
        wide = block_width(self.paper)
        return (left, split, right, y1 - AIR), (left, y0 + AIR, x1 - wide - AIR, split)

    def stepped(self, open_high: float) -> tuple[Box, Box, Box]:
        """Give both fields, the upper one down to the extended view, and the column in it."""
        x0, y0, x1, y1 = self.paper.frame
        edge, foot = x1 - block_width(self.paper) - AIR, y0 + AIR + open_high
        column = (edge, y0, x1, y0 + min(self.column + AIR, self.split))
        return (x0 + AIR, foot + AIR, x1 - AIR, y1 - AIR), (x0 + AIR, y0 + AIR, edge, foot), column

    def parted(self, open_high: float) -> Iterator[tuple[Box, Box, Box | None]]:
        """Give both fields in all ways, the calmest first, and what stands in the upper one.

        Last the upper field surrounds the column that stands in its corner.
        """
        for low, tall in ((False, False), (True, False), (False, True)):
            yield (*self.fields(open_high, low, tall), None)
        if not self.paper.is_small:
            yield self.stepped(open_high)

    def step(self, open_high: float) -> float:
        """Give how much lower views may hang that end left of the column, above an extended one."""
        if self.paper.is_small:
            return 0.0
        return max(0.0, self.fields(open_high, low=True)[0][1] - self.stepped(open_high)[0][1])

    def main(self, least: float = LEAST_BORE) -> Iterator[Scaled]:
        """Give the scales of the retracted views, the best first."""
        whole = [s for s in self.series if self.bore(s) >= least and self._fits(s, None)]
        broken = [b for b in self._broken() if self.bore(b.scale) >= LEAST_BORE]
        if whole:
            good = GOOD_SLENDER if self.slender else GOOD_BORE
            enough = GAIN * whole[0] if self.bore(whole[0]) < good else inf
            yield from (b for b in broken if b.scale >= enough)
            yield from (Scaled(s, {}) for s in whole)
            broken = [b for b in broken if b.scale < enough and self.slender]
        yield from broken

    def may_break(self, main: Scaled) -> bool:
        """Tell whether side and top view are long and plain enough to be broken."""
        may = self.slender or bool(main.breaks)
        return may and self.plain is not None and self.bore(main.scale) >= LEAST_BORE

    def shorter(self, main: Scaled, over: float) -> Scaled | None:
        """Break side and top view so that they take ``over`` paper mm less."""
        if self.plain is None or not self.may_break(main):
            return None
        long, k = self._size("side")[0], float(main.scale)
        saved = main.breaks["side"].saved if "side" in main.breaks else 0.0
        breaks = self._through(long, k, (long - saved) * k - over - 1.0)
        if not breaks:
            return None
        return Scaled(main.scale, {"side": breaks, "top": breaks}, main.rooms)

    def opened(self, main: Fraction, field: Box) -> Iterator[Scaled]:
        """Give the scales of the extended view beside a main one, the best first.

        Whole ones whose bore is as small as no other view's come after broken ones.
        """
        smaller = sorted({s for s in scales("auto", self.paper) if s <= main} | {main})[::-1]
        whole = [s for s in smaller if self._open_fits(s, field)]
        good = [s for s in whole if s in smaller[:2] and self.bore(s) >= LEAST_BORE]
        yield from (Scaled(s, {}) for s in good)
        near, third = smaller[:2], [s for s in smaller[2:3] if s not in whole]
        # Of two short stretches none may have room for a long text, of one long one it has.
        for some, cuts in ((near, (2, 1)), (near, (MOST_CUTS,)), (third, (2, 1))):
            for s, n in product(some, cuts):
                high = self._size("extended")[1] * float(s) + OPEN_HIGH
                # Rather than a scale smaller, sizes take no more than centre lines do.
                nearer = OPEN_LEAST - OPEN_WIDE if n == MOST_CUTS else 0.0
                broken = self.open_broken(s, field, nearer, n)
                if broken and high <= field[3] - field[1]:
                    yield broken
        yield from (Scaled(s, {}) for s in whole if s not in good)

    def open_broken(
        self, scale: Fraction, field: Box, over: float = 0.0, cuts: int = 2
    ) -> Scaled | None:
        """Break the extended view so that its outline leaves ``over`` mm more to its sizes.

        With one of the ``cuts`` the longest of its plain stretches is broken alone.
        """
        if self.plain is None:
            return None
        runs = self.plain.extended[:cuts]
        room = field[2] - field[0] - OPEN_WIDE - over
        breaks = breaks_for(runs, self.plain.length, float(scale), room, ASIDE)
        return Scaled(scale, {"extended": breaks}) if breaks else None

    def least_open_high(self, main: Fraction) -> float:
        """Give about how high (paper mm) the extended view is at the scale below a main one."""
        smaller = max((s for s in scales("auto", self.paper) if s < main), default=main)
        return self._size("extended")[1] * float(smaller) + OPEN_HIGH

    def bore(self, scale: Fraction) -> float:
        """Give the bore on paper (mm)."""
        return float(scale) * self.job.bore

    def _size(self, name: ViewName) -> tuple[float, float]:
        if name not in self.pictures:
            return 0.0, 0.0
        x0, y0, x1, y1 = self.pictures[name].box
        return x1 - x0, y1 - y0

    def top_has_room(self, main: Scaled) -> bool:
        """Tell whether a top view that is spare has room for itself at a scale."""
        saved = main.breaks["side"].saved if "side" in main.breaks else None
        return self._fits(main.scale, saved, with_top=True)

    def _fits(self, scale: Fraction, saved: float | None, with_top: bool = False) -> bool:
        k, (wide, high) = float(scale), self._room()
        side, top, end, pin = (self._size(n) for n in ("side", "top", "end", "pin"))
        if self.spare_top and not with_top:
            top = (0.0, 0.0)
        long = max(side[0] + end[0], top[0] + pin[0]) - (saved or 0.0)
        tall = max(side[1], end[1]) + max(top[1], pin[1])
        sizes = SIZES_SMALL if self.paper.is_small else SIZES
        sizes -= _HAIR
        return long * k + sizes <= wide and tall * k + sizes <= high

    def _room(self) -> tuple[float, float]:
        x0, y0, x1, y1 = self.paper.frame
        if not self.paper.is_small:
            return x1 - x0, y1 - y0 - self.split
        return x1 - x0, y1 - y0 - HEIGHT - OPEN_HIGH / 2

    def _open_fits(self, scale: Fraction, field: Box) -> bool:
        k, (wide, high) = float(scale), self._size("extended")
        if self.bore(scale) < LEAST_OPEN:
            return False
        low = self.paper.is_small or high * k + OPEN_HIGH - _OPEN_HAIR <= field[3] - field[1]
        return low and wide * k + OPEN_WIDE <= field[2] - field[0]

    def _plain(self) -> Plain | None:
        if self.job.breaks == "none" or slenderness(self.seen.pictures) <= STOUT:
            return None
        marks = {p.name: marks_of(p, self.job, 1.0, Style()) for p in self.seen.pictures}
        return plain_runs(self.seen.pictures, marks, self.job.wishes)

    def _through(self, long: float, k: float, room: float) -> Breaks | None:
        """Break side and top view, once where that is enough."""
        runs = self.plain.retracted if self.plain else ()
        ways = (breaks_for(runs[:n], long, k, room) for n in range(1, len(runs) + 1))
        return next(filter(None, ways), None)

    def _broken(self) -> list[Scaled]:
        """Break side and top view so that they fill the width beside the end view."""
        if self.plain is None:
            return []
        wide, _ = self._room()
        side, end = self._size("side")[0], self._size("end")[0]
        out = []
        for s in self.series:
            room = wide - SIZES - end * float(s)
            breaks = self._through(side, float(s), room)
            if breaks and self._fits(s, breaks.saved):
                out.append(Scaled(s, {"side": breaks, "top": breaks}))
        return out
