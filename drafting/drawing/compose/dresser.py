"""Views dressed for a scale, each made once: to place dimensions is most of the work of a sheet."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.dimension.asked import asked, is_spare
from drafting.drawing.dimension.assign import Choice, elsewhere, which_end
from drafting.drawing.dimension.job import Dimensions, Job
from drafting.drawing.dimension.owners import is_knob
from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at
from drafting.drawing.views.view import VIEW_TITLE, Dressed, dressed_view
from drafting.settle.wishes import Length, Wish
from drafting.shape.pieces import Part

SINGLE = frozenset(
    f"cylinder.{n}" for n in ("barrel_outside", "rod", "bore", "body_length", "over_tie_rods")
)
"""Sizes whose second unit is left out first where views have no room; the data sheet has both."""


class Dresser:
    """Gives the views of a job at a scale with all that is theirs."""

    def __init__(self, job: Job) -> None:
        self.whole, self.shown = job, asked(job)
        self.spared: tuple[str, ...] = ()
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
        within: Box | None = None,
    ) -> Dressed:
        """Dress a view, with a ``title`` below it, both ``within`` a box where they can be."""
        key = (name, scale, style, breaks, title, within)
        if key not in self.made:
            picture = self.pictures[name]
            self.made[key] = dressed_view(
                self.job, self.seen, picture, float(scale), style, breaks, title, within
            )
        return self.made[key]

    def again(self, dressed: Dressed, scale: Fraction, style: Style, room: Box) -> Dressed:
        """Dress a view once more that has its place on a page, with all the ``room`` it has."""
        title = next((t.text for t in dressed.texts if t.name == VIEW_TITLE), "")
        breaks, after = dressed.breaks, dressed.placed
        seen, picture = self.seen, dressed.picture
        return dressed_view(
            self.job, seen, picture, float(scale), style, breaks, title, room, after
        )

    def hoses_shorter(self) -> tuple[Dresser, ...]:
        """Give this one, one that cuts hoses off before they bend, and one without any fittings.

        They are drawn for information, as phantoms: no scale and no paper is due to them.
        """
        cut = tuple(p for p in self.job.phantoms if not _is_bend(p))
        if cut == self.job.phantoms:
            return (self,)
        ways = ((cut, "bends of the hoses"), ((), "fittings and hoses"))
        return (
            self,
            *(
                self._lean(replace(self.job, phantoms=kept), (*self.spared, gone))
                for kept, gone in ways
            ),
        )

    def leaner(self, small: bool) -> tuple[Dresser, ...]:
        """Give this one, and others that leave out more and more of what a sheet does without.

        First the second unit of some sizes, on a ``small`` sheet, which was named, of all; then
        the ports' standards, then what the PORTS table says too. ``spared`` says what is gone for
        page 2.
        """
        out, spared = [self], self.spared
        own: Dimensions = "in" if self.job.dimensions.startswith("in") else "mm"
        if own != self.job.dimensions:
            out.append(self._lean(replace(self.job, single=SINGLE), spared))
            if small:
                spared = (*spared, "second units")
                out.append(self._lean(replace(self.job, dimensions=own), spared))
        brief = replace(out[-1].job, wishes=asked(self.whole, brief=True).wishes)
        if brief.wishes != self.job.wishes:
            # The PORTS table of a larger sheet names them.
            out.append(self._lean(brief, (*spared, "standards of the ports") if small else spared))
        last = out[-1]
        needed = tuple(w for w in last.job.wishes if not is_spare(w.name, self.whole))
        if not small and needed != last.job.wishes:
            out.append(self._lean(replace(last.job, wishes=needed), last.spared))
        return tuple(out)

    def moved(self, name: str) -> tuple[Dresser, ...]:
        """Give others that show words in another view that has them about as well, if any has."""
        own = next(c for c in self.seen.choices if c.wish.name == name)
        return tuple(
            self._with([other if c is own else c for c in self.seen.choices])
            for other in elsewhere(own, self.seen.pictures)
        )

    def picture_of(self, name: str) -> Picture:
        """Give the picture in which a size or words are shown."""
        return next(c.picture for c in self.seen.choices if c.wish.name == name)

    def _with(self, choices: Sequence[Choice]) -> Dresser:
        other = copy(self)
        other.seen, other.made = replace(self.seen, choices=tuple(choices)), {}
        return other

    def _lean(self, job: Job, spared: tuple[str, ...]) -> Dresser:
        lean = copy(self)
        lean.job, lean.spared, lean.made = job, spared, {}
        said = {w.name: w for w in job.wishes}
        choices = [
            replace(c, wish=_as_shown(said[c.wish.name], c.wish))
            for c in self.seen.choices
            if c.wish.name in said
        ]
        lean.seen = replace(self.seen, choices=which_end(choices, job.ends))
        return lean


def _as_shown(said: Wish, shown: Wish) -> Wish:
    """Give what is said now as it was shown: a size where it was found to be seen best.

    A diameter that is shown as a distance stays one, a knob is the one that is seen.
    """
    if type(said) is not type(shown) or is_knob(said.name):
        return shown
    if isinstance(said, Length) and isinstance(shown, Length):
        return replace(said, a=shown.a, b=shown.b, pose=shown.pose)
    return said


def _is_bend(phantom: Part) -> bool:
    """Tell whether a phantom is what a hose takes behind the straight piece at its fitting."""
    return any(".keep_out_bend" in q.name for q in phantom.pieces)
