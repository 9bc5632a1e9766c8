"""Views dressed for one sheet after the other: each made once, and few of them in vain.

To place dimensions is most of the work of a sheet, and a sheet is tried at several sizes and
scales. So views are dressed one at a time, those with few sizes first; for the others stand their
outlines and titles, which take less room than what they will have. Where even that has no room the
rest is left undone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from drafting.drawing.compose.page import Blank, Page, laid_out, over
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.views.looks import look_at
from drafting.drawing.views.view import Dressed, bare_box, dressed_view

Broken = Mapping[ViewName, Breaks]
"""The breaks of each view that has some."""
_WHOLE: Broken = MappingProxyType({})


class Dresser:
    """Gives the views of a job at a scale with all that is theirs.

    ``spare`` names the views with sizes that a sheet can do without.
    """

    def __init__(self, job: Job) -> None:
        self.job, self.seen = job, look_at(job)
        kept = tuple(c for c in self.seen.choices if c.wish.name not in job.spare)
        self.less = replace(self.seen, choices=kept)
        self.spare = {c.picture.name for c in self.seen.choices if c.wish.name in job.spare}
        self.made: dict[object, Dressed] = {}

    def all(self, sheet: Blank) -> tuple[Dressed, ...]:
        """Give all views, whether the sheet has room or not."""
        return tuple(self._view(sheet, p, None, False) for p in self.seen.pictures)

    def laid_out(self, sheet: Blank, lean: bool = False) -> Page | None:
        """Put the views on a sheet, ``lean`` without spare sizes; None without room."""
        views = self.while_room(sheet, lean=lean)
        return laid_out(sheet, views) if views else None

    def while_room(
        self, sheet: Blank, breaks: Broken = _WHOLE, lean: bool = False, any_width: bool = False
    ) -> tuple[Dressed, ...]:
        """Give all views, none as soon as it shows that the sheet has no room for them."""
        found: dict[ViewName, Dressed] = {}
        scale = float(sheet.scale)
        boxes: dict[ViewName, Box] = {
            p.name: bare_box(p, self.job, scale, sheet.style, breaks.get(p.name))
            for p in self.seen.pictures
        }
        for picture in sorted(self.seen.pictures, key=self._work):
            wide, high = over(sheet, boxes)
            if high > 0.0 or (wide > 0.0 and not any_width):
                return ()
            view = self._view(sheet, picture, breaks.get(picture.name), lean)
            found[picture.name], boxes[picture.name] = view, view.box
        return tuple(found[p.name] for p in self.seen.pictures)

    def _work(self, picture: Picture) -> tuple[bool, int]:
        own = sum(c.picture is picture for c in self.seen.choices)
        return (picture.name in self.spare, own)

    def _view(self, sheet: Blank, picture: Picture, breaks: Breaks | None, lean: bool) -> Dressed:
        less = lean and picture.name in self.spare
        key = (picture.name, sheet.scale, sheet.style, breaks, less)
        if key not in self.made:
            seen = self.less if less else self.seen
            self.made[key] = dressed_view(
                self.job, seen, picture, float(sheet.scale), sheet.style, breaks
            )
        return self.made[key]
