"""The views alone, for a screen: no frame, no tables, the sizes in one unit, letters to be read.

The paper is as large as the views. Their scale is whatever fills a width at which letters can be
read on a screen; what prints is the sheet's affair.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from drafting.drawing.compose.arrange import arrange, moved
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.opened import OPEN_TITLE
from drafting.drawing.compose.scale import Rule, Scaled
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.lists.papers import Paper
from drafting.drawing.sheet.on_paper import Box, union
from drafting.drawing.sheet.sheet import Sheet, View
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import hatches_of, marks_of, pictures_of
from drafting.drawing.views.view import as_view
from drafting.records import dataclass

WIDE, HIGH = 200.0, 205.0
"""What the outlines and most of their sizes have room on (mm). With all that stands beside them
some 250 mm become 700 px, and a letter 10 px high."""
WIDEST_OPEN = 240.0
"""The extended view may be so wide (mm) before it is broken, or drawn smaller."""
AIR = 4.0
_STEPS = 12
"""Scales tried between the largest and its half: a screen asks for no round one."""


@dataclass(frozen=True, slots=True)
class Step:
    """One view that is projected or dressed, or at the end the sheet of all.

    ``outline`` is a view whose lines are other than they were, where it was and without its sizes.
    """

    view: ViewName
    sheet: Sheet | None = None
    outline: View | None = None


def views_alone(job: Job, before: Sheet | None = None) -> Iterator[Step]:
    """Project and dress one view after the other; the last step holds the sheet.

    ``before`` is what was shown before: its views' outlines follow first. Whoever asks may leave
    off between two steps, when a newer job has come.
    """
    was = {v.name: v for v in before.views} if before else {}
    for picture in pictures_of(job):
        old = was.get(picture.name)
        yield Step(picture.name, outline=_outline(picture, job, old) if old else None)
    own: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    dresser = Dresser(replace(job, dimensions=own, scale="auto")).leaner(small=True)[-1]
    family: Literal["iso", "asme"] = "asme" if own == "in" else "iso"
    rule = _Free(dresser, Paper("screen", family, WIDE, HIGH, (0.0, 0.0, 0.0, 0.0), (0, 0)))
    main = rule.best()
    opened = rule.opened_best(main)
    style, side = Style(), job.clock_from.upper()
    titles: dict[ViewName, str] = {"end": f"FROM {side} END", "extended": OPEN_TITLE}
    dressed = {}
    for name in dresser.pictures:
        at = opened if name == "extended" else main
        title = dresser.pictures[name].title if name == "pin" else titles.get(name, "")
        dressed[name] = dresser.view(name, at.scale, style, at.breaks.get(name), title)
        yield Step(name)
    boxes = {n: d.box for n, d in dressed.items()}
    around: dict[ViewName, Box] = {n: b for n, b in boxes.items() if n != "extended"}
    near = arrange(around, job.projection, job.clock_from)
    below = boxes["extended"]
    low = near.box[1] - 2 * AIR - below[3]
    left = near.places["side"][0] + boxes["side"][0] - below[0]
    places = {**near.places, "extended": (left, low)}
    x0, y0, x1, y1 = union([moved(boxes[n], p) for n, p in places.items()])
    views = tuple(
        as_view(
            dressed[n],
            n,
            (x - x0 + AIR, y - y0 + AIR),
            float((opened if n == "extended" else main).scale),
        )
        for n, (x, y) in places.items()
    )
    size = ("screen", x1 - x0 + 2 * AIR, y1 - y0 + 2 * AIR)
    yield Step("side", Sheet(*size, own, views, meta=dict(job.meta), model_units=job.units))


def _outline(picture: Picture, job: Job, old: View) -> View | None:
    """Give the lines of a view where it was; None where they are the same, or it was broken."""
    if old.whole:
        return None
    marks = marks_of(picture, job, old.scale, Style())
    if picture.name == "end":  # which hidden edges explain something is not known before the sizes
        marks = tuple(m for m in marks if m.role != "hidden")
        same = marks == tuple(m for m in old.marks if m.role != "hidden")
    else:
        same = marks == old.marks
    if same:
        return None
    hatches = hatches_of(picture, old.scale)
    return replace(old, marks=marks, hatches=hatches, dimensions=(), texts=())


class _Free(Rule):
    """The rule of scales on a paper without title block, between the round scales too."""

    def __init__(self, dresser: Dresser, paper: Paper) -> None:
        super().__init__(dresser.job, dresser.seen, paper)
        round_ones = self.series
        self.series = tuple(
            s * Fraction(_STEPS * 2 - k, _STEPS * 2) for s in round_ones for k in range(_STEPS)
        )

    def best(self) -> Scaled:
        """Give the largest scale that fits, with breaks where that makes the bore large enough."""
        found = next(self.main(), None) or next(self.main(least=0.0), None)
        return found or Scaled(self.series[-1], {})

    def opened_best(self, main: Scaled) -> Scaled:
        """Give the scale of the extended view: that of the others, or as it fits the width."""
        long = self.pictures["extended"].box[2] - self.pictures["extended"].box[0]
        if long * float(main.scale) <= WIDEST_OPEN:
            return Scaled(main.scale, {})
        broken = self.open_broken(main.scale, (0.0, 0.0, WIDEST_OPEN, HIGH))
        return broken or Scaled(Fraction(WIDEST_OPEN / long).limit_denominator(1000), {})
