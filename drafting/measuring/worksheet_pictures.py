"""The pictures of the worksheet: the model's own parts, with letters in the place of sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf
from typing import Any

import numpy as np

from drafting.drawing.dimension.assign import Choice, assign
from drafting.drawing.dimension.dial import clear_of
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import measure
from drafting.drawing.dimension.picture import Picture, ViewName, explains, without_hidden
from drafting.drawing.dimension.place import place
from drafting.drawing.dimension.table import Item
from drafting.drawing.dimension.ways import Label
from drafting.drawing.project.project import project
from drafting.drawing.sheet.clash import segments, text_quad
from drafting.drawing.sheet.on_paper import Box, box, clip, hull, union
from drafting.drawing.sheet.sheet import Mark, Text, View
from drafting.drawing.sheet.strokes import FROM_BASE, FROM_ROD, SIDE, TOP, Line, Look, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import marks_of
from drafting.measuring.letters import both_sheets
from drafting.measuring.worksheet_sample import lettered
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.settle.to_read import OnWorksheet
from drafting.settle.wishes import Callout, Wish
from drafting.shape.pieces import Part

SHRINK = 0.86
TRIES = 12
LETTERED = 16.0
"""What letters, titles and lines take at the least beside the outline (mm)."""
LARGEST = 0.7
"""Close-ups are not drawn larger than this: the letters are what is read."""
TITLE = 2.5
_SIDE_HOURS = ((0.0, 1.0, "12"), (1.0, 0.0, "3"), (0.0, -1.0, "6"), (-1.0, 0.0, "9"))


@dataclass(frozen=True, slots=True)
class Panel:
    """One picture, ready to be set down: a view at the origin and the room it needs (mm)."""

    view: View
    box: Box

    def at(self, x: float, y: float) -> View:
        """Give the view with its lower left corner at a place on the paper."""
        return replace(self.view, at=(x - self.box[0], y - self.box[1]))


@dataclass(frozen=True, slots=True)
class Pictures:
    """Whole cylinder closed and open, and close-ups of both ends, each with its width to fill."""

    cylinder: Cylinder
    job: Job
    whole: Picture
    opened: Picture
    wishes: tuple[tuple[str, Wish], ...]

    def overall(self, wide: float, high: float) -> tuple[Panel, Panel]:
        """Give the closed and the open cylinder at one scale, for a room of this size each."""
        style = Style()
        names = ("cylinder.", "base_port.position", "rod_port.position", "body_mount.from_closed")
        mine = [(t, w) for t, w in self.wishes if w.name.startswith(names)]
        found = [
            [c for c in _chosen(mine, [p]) if c[1].wish.pose == p.pose]
            for p in (self.whole, self.opened)
        ]
        scale = min(_first_try(p, wide, high) for p in (self.whole, self.opened))
        for _ in range(TRIES):
            panels = [
                self._panel(p, here, scale, style)
                for p, here in zip((self.whole, self.opened), found, strict=True)
            ]
            if all(_fits(p.box, wide, high) for p in panels):
                break
            scale *= SHRINK
        return panels[0], panels[1]

    def end(self, end: str, wide: float, high: float) -> tuple[Panel, ...]:
        """Give the close-ups of one end that show its letters; each in a room of this size."""
        style, table = Style(), f"{end}_mount."
        mine = [(t, w) for t, w in self.wishes if w.name.startswith(table)]
        mine = [(t, w) for t, w in mine if "from_closed" not in w.name]
        looks = self._looks(end)
        chosen = _chosen(mine, looks)
        out = []
        for picture in looks:
            here = [c for c in chosen if c[1].picture is picture]
            if not here:
                continue
            scale = _first_try(picture, wide, high)
            for _ in range(TRIES):
                panel = self._panel(picture, here, scale, style)
                if _fits(panel.box, wide, high):
                    break
                scale *= SHRINK
            out.append(panel)
        return tuple(out)

    def _looks(self, end: str) -> list[Picture]:
        c = self.cylinder
        span = _span(c, end)
        base = end == "body"
        word = "BASE END" if base else "ROD END"
        views: tuple[tuple[ViewName, str, Look, tuple[float, float]], ...] = (
            ("side", f"{word}, FROM THE SIDE", SIDE, span),
            ("top", f"{word}, FROM ABOVE", TOP, span),
            ("end", f"SEEN FROM THE {word}", FROM_BASE if base else FROM_ROD, (-inf, inf)),
        )
        if not _sheet(c, end).around:
            views = views[:2]
        return [
            Picture(name, title, look, "retracted", _cut(self._strokes(look, end, name), at))
            for name, title, look, at in views
        ]

    def _strokes(self, look: Look, end: str, name: ViewName) -> tuple[Stroke, ...]:
        parts: tuple[Part, ...] = self.cylinder.parts
        if name == "end" and _sheet(self.cylinder, end).around:
            parts = self.cylinder.owned("body" if end == "body" else "rod")
        found = project(parts, look)
        return without_hidden(found, frozenset({f"{end}_mount"} if name != "end" else ()))

    def _panel(
        self, picture: Picture, chosen: Sequence[tuple[str, Choice]], scale: float, style: Style
    ) -> Panel:
        job = self.job
        if picture.name == "end":  # the other end's axes are not in sight
            owner = "body" if picture.look is FROM_BASE else "rod"
            job = replace(job, symbols=tuple(s for s in job.symbols if s.owner == owner))
        marks = marks_of(picture, job, scale, style)
        if picture.pose == "retracted" and picture is not self.whole and picture.name != "end":
            marks = _within(marks, picture.box, style.centre_overrun / scale)
        hours = _hours(picture, scale, style) if picture.name == "end" else ()
        edge = [picture.segments.reshape(-1, 2) * scale]
        edge += [np.array(text_quad(t), float) for t in hours]
        ground = Ground(picture, scale, style, _centres(marks, scale), np.concatenate(edge))
        items = [Item(choice, Label((text,), "", measure(choice.wish))) for text, choice in chosen]
        placed = place(items, ground)
        hours = clear_of(placed.dimensions, hours, scale, style)
        reach = [[v * scale for v in box(m.curve)] for m in marks]
        boxes: list[Box] = [(r[0], r[1], r[2], r[3]) for r in reach]
        boxes += [hull(text_quad(t)) for t in hours]
        if placed.box:
            boxes.append(placed.box)
        whole = union(boxes)
        middle = (whole[0] + whole[2]) / 2
        title = Text((middle, whole[1] - 2.0 - TITLE), picture.title, TITLE, "middle", bold=True)
        texts = tuple(replace(t, at=(t.at[0] / scale, t.at[1] / scale)) for t in (*hours, title))
        view = View(
            picture.title, picture.title, (0.0, 0.0), scale, marks, placed.dimensions, (), texts
        )
        return Panel(view, union([whole, hull(text_quad(title))]))


def pictures(c: Cylinder, job: Job) -> Pictures:
    """Look at the cylinder of the worksheet."""
    closed = explains(project(c.parts, SIDE), c.parts)
    opened = project(c.at(c.lengths.stroke), SIDE)
    return Pictures(
        c,
        job,
        Picture("side", "CLOSED", SIDE, "retracted", closed),
        Picture(
            "extended",
            "OPEN",
            SIDE,
            "extended",
            tuple(s for s in opened if s.visible),
            c.lengths.stroke,
        ),
        lettered(c),
    )


def _chosen(mine: Sequence[tuple[str, Wish]], looks: Sequence[Picture]) -> list[tuple[str, Choice]]:
    """Give each wish its picture; words on a leader are the letters."""
    out = []
    for text, wish in mine:
        worded = replace(wish, lines=(text,)) if isinstance(wish, Callout) else wish
        out += [(text, choice) for choice in assign([worded], looks)]
    return out


def _span(c: Cylinder, end: str) -> tuple[float, float]:
    """Give from where to where along the axis a close-up shows the cylinder."""
    s = c.stations
    beyond = 0.75 * s.bore
    if end == "rod":
        return (s.rod_end - beyond, inf)
    return _sheet(c, end).close_up or (-inf, s.closed_end + beyond)


def _sheet(c: Cylinder, end: str) -> OnWorksheet:
    base, rod = both_sheets(c.mounts["body"], c.mounts["rod"])
    return base if end == "body" else rod


def _cut(strokes: Sequence[Stroke], span: tuple[float, float]) -> tuple[Stroke, ...]:
    far = 1e4
    window = (max(span[0], -far), -far, min(span[1], far), far)
    return tuple(replace(s, curve=c) for s in strokes for c in clip(s.curve, window))


def _within(marks: Sequence[Mark], around: Box, over: float) -> tuple[Mark, ...]:
    """Cut centre lines to what the close-up shows."""
    x0, y0, x1, y1 = around
    window = (x0 - over, y0 - over, x1 + over, y1 + over)
    return tuple(replace(m, curve=c) for m in marks for c in clip(m.curve, window))


def _centres(marks: Sequence[Mark], scale: float) -> Any:
    lines = [m.curve for m in marks if m.role == "centre" and isinstance(m.curve, Line)]
    return segments(
        [((a[0] * scale, a[1] * scale), (b[0] * scale, b[1] * scale))
         for a, b in ((line.a, line.b) for line in lines)]
    )  # fmt: skip


def _hours(picture: Picture, scale: float, style: Style) -> tuple[Text, ...]:
    """Write the hours round an end view, as seen from the rod end: from the base 3 lies left."""
    x0, y0, x1, y1 = (v * scale for v in picture.box)
    over, high = style.centre_overrun + 1.5, style.small_text
    flip = -1.0 if picture.look is FROM_BASE else 1.0
    out = []
    for x, y, word in _SIDE_HOURS:
        px = flip * x * ((x1 if flip * x > 0 else -x0) + over + 1.5) if x else 0.0
        py = y1 + over if y > 0 else y0 - over - high if y < 0 else -high / 2
        out.append(Text((px, py), word, high, "middle", name="clock"))
    return tuple(out)


def _first_try(picture: Picture, wide: float, high: float) -> float:
    """Give the largest scale that could fit."""
    x0, y0, x1, y1 = picture.box
    return min(LARGEST, (wide - LETTERED) / (x1 - x0), (high - LETTERED) / (y1 - y0))


def _fits(around: Box, wide: float, high: float) -> bool:
    return around[2] - around[0] <= wide and around[3] - around[1] <= high
