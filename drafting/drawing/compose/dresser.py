"""Views dressed for a scale, each made once: to place dimensions is most of the work of a sheet."""

from __future__ import annotations

from copy import copy
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.dimension.asked import asked
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at
from drafting.drawing.views.view import Dressed, dressed_view

SINGLE = frozenset({"cylinder.barrel_outside", "cylinder.rod", "cylinder.bore"})
"""Sizes whose second unit is left out first where views have no room; the data sheet has both."""


class Dresser:
    """Gives the views of a job at a scale with all that is theirs."""

    def __init__(self, job: Job) -> None:
        self.shown = asked(job)
        self.job = replace(job, wishes=self.shown.wishes)
        self.seen = look_at(self.job)
        self.pictures: dict[ViewName, Picture] = {p.name: p for p in self.seen.pictures}
        self.made: dict[object, Dressed] = {}

    def view(
        self,
        name: ViewName,
        scale: Fraction,
        style: Style,
        breaks: Breaks | None = None,
        title: str = "",
    ) -> Dressed:
        """Dress a view, with a ``title`` below it."""
        key = (name, scale, style, breaks, title)
        if key not in self.made:
            picture = self.pictures[name]
            self.made[key] = dressed_view(
                self.job, self.seen, picture, float(scale), style, breaks, title
            )
        return self.made[key]

    def both(self) -> tuple[Dresser, ...]:
        """Give this one, and one that leaves out what a sheet does without first."""
        if " " not in self.job.dimensions:
            return (self,)
        lean = copy(self)
        lean.job, lean.made = replace(self.job, single=SINGLE), {}
        return self, lean

    def has_sizes(self, name: ViewName) -> bool:
        """Tell whether a view carries a size or words of its own."""
        return any(c.picture.name == name for c in self.seen.choices)
