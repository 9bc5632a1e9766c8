"""One view at a scale with all that is its own: marks, placed dimensions, hours, titles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import pi
from typing import Any

import numpy as np

from drafting.drawing.dimension.asked import is_spare, is_too_small
from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.dial import clear_of, dial_of, struck_through
from drafting.drawing.dimension.ground import Ground, Rim
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import measure, texts
from drafting.drawing.dimension.owners import group_of
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.dimension.place import place
from drafting.drawing.dimension.table import Item, Placed
from drafting.drawing.dimension.ways import Label
from drafting.drawing.dimension.yielding import yielded
from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.clash import segments, text_quad
from drafting.drawing.sheet.on_paper import Box, box, hull, points, union
from drafting.drawing.sheet.sheet import Mark, Text, View, Whole
from drafting.drawing.sheet.strokes import Arc, Line, Point2
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.broken import (
    break_lines,
    broken_hatches,
    broken_marks,
    broken_picture,
    broken_wish,
)
from drafting.drawing.views.looks import (
    Seen,
    clear_picture,
    hatches_of,
    marks_of_clear,
    phantom_lines,
)
from drafting.records import dataclass
from drafting.settle.wishes import Length

VIEW_TITLE = "view title"
"""The name of the text below a view."""
_TITLE_AWAY = 3.0
"""Free paper (mm) between a view and its title."""
_BESIDE_WORDS = 4.0
"""Free paper (mm) at both ends of words that stand on their dimension line."""
_SPRING = "cylinder.spring_space"
_CHORD = 0.1
"""Error (mm) of the chords of centre circles."""


@dataclass(frozen=True, slots=True)
class Dressed:
    """One view at a scale: marks (view mm), dimensions, own texts (paper, from its origin).

    A view with ``breaks`` shows ``marks`` of its ``picture`` broken; ``true`` are all of them.
    ``parts`` are the boxes of its outlines, of each dimension and text (paper mm); ``box`` is
    round all of them.
    """

    picture: Picture
    marks: tuple[Mark, ...]
    placed: Placed
    texts: tuple[Text, ...]
    parts: tuple[Box, ...]
    box: Box
    true: tuple[Mark, ...] = ()
    breaks: Breaks | None = None


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What the dimensions of a view stand on."""

    picture: Picture
    scale: float
    style: Style
    breaks: Breaks | None
    marks: tuple[Mark, ...]

    def __hash__(self) -> int:
        """Give the same for equal ones, without looking at every mark."""
        return hash((self.picture, self.scale, self.style, self.breaks, len(self.marks)))


@dataclass(frozen=True, slots=True)
class _Wanted:
    """All that decides where the dimensions of a view stand."""

    items: tuple[Item, ...]
    within: Box | None
    drawn: _Drawn
    after: Placed | None = None


def dressed_view(
    job: Job,
    seen: Seen,
    whole: Picture,
    scale: float,
    style: Style,
    breaks: Breaks | None = None,
    title: str = "",
    within: Box | None = None,
    after: Placed | None = None,
) -> Dressed:
    """Place the dimensions of one view, and a ``title`` below it.

    The page has no room for words or title beyond ``within`` (paper mm from the view's origin).
    ``after`` something was placed, only what stands badly finds other places.
    """
    if within and title:
        within = (within[0], within[1] + _TITLE_AWAY + style.text, *within[2:])
    clear = clear_picture(whole, job, scale, style)
    true = marks_of_clear(clear, job, scale, style)
    marks = (*broken_marks(true, breaks), *break_lines(whole, breaks, scale)) if breaks else true
    picture = broken_picture(clear, breaks) if breaks else clear
    flags = job.flags
    items = tuple(
        _item(replace(c, picture=picture), job, flags.get(c.wish.name, ""), scale, breaks)
        for c in seen.choices
        if c.picture is whole and not is_too_small(c.wish, job, scale)
    )
    drawn = _Drawn(picture, scale, style, breaks, marks)
    placed, dial = _placed(_Wanted(items, within, drawn, after))
    reach = [tuple(v * scale for v in box(m.curve)) for m in marks]
    boxes: list[Box] = [(r[0], r[1], r[2], r[3]) for r in reach]
    parts = [union(boxes), *(hull(text_quad(t)) for t in dial), *placed.boxes]
    titles = _title(picture, title, union(parts), scale, style)
    parts += [hull(text_quad(t)) for t in titles]
    return Dressed(whole, marks, placed, (*dial, *titles), tuple(parts), union(parts), true, breaks)


def _item(choice: Choice, job: Job, flag: str, scale: float, breaks: Breaks | None) -> Item:
    """Give a wish with what is printed on it, true where it is drawn broken."""
    wish = choice.wish
    drawn = broken_wish(wish, breaks) if breaks else wish
    label = Label(
        texts(wish, job, measure(drawn) * scale - _BESIDE_WORDS),
        flag,
        measure(wish),
        isinstance(wish, Length) and wish.reference,
    )
    return Item(replace(choice, wish=drawn), label, is_spare(wish.name, job))


@lru_cache(maxsize=64)
def _placed(wanted: _Wanted) -> tuple[Placed, tuple[Text, ...]]:
    """Place the dimensions of a view, and the hours round it.

    Kept for some eight sheets: where nothing that decides has changed, nothing is placed anew.
    """
    ground, dial = _ground(wanted.drawn)
    items, after, within = wanted.items, wanted.after, wanted.within
    placed = yielded(items, ground, after, within) if after else place(items, ground, within)
    room = np.concatenate([c for c in (ground.phantoms, ground.circles) if c is not None])
    return placed, clear_of(placed.dimensions, dial, ground.scale, ground.style, room)


@lru_cache(maxsize=16)
def _ground(view: _Drawn) -> tuple[Ground, tuple[Text, ...]]:
    """Give what the ways of a view stand on, and the hours that may stand round it.

    Kept for some three sheets, with all that is found on it.
    """
    picture, marks, scale, style = view.picture, view.marks, view.scale, view.style
    centres, circles = (_centres(marks, scale, lines) for lines in (True, False))
    edge = [picture.segments.reshape(-1, 2) * scale]
    drawn = np.concatenate([*edge, circles.reshape(-1, 2)])
    dial = dial_of(drawn, style) if picture.name == "end" else ()
    edge += [np.array(text_quad(t), float) for t in dial]
    phantoms, gaps = phantom_lines(marks, scale), _gaps(view.breaks, scale)
    rims, hours = tuple(_rims(marks)), struck_through(dial)
    around = np.concatenate(edge)
    springs = _springs(marks, scale)
    ground = Ground(
        picture, scale, style, centres, around, phantoms, gaps, rims, hours, circles, springs
    )
    return ground, dial


def _springs(marks: Sequence[Mark], scale: float) -> tuple[float, ...]:
    """Give the middle (x) of a spring on paper, if one is drawn."""
    x = [v for m in marks if m.name == _SPRING for v in (box(m.curve)[0], box(m.curve)[2])]
    return ((min(x) + max(x)) / 2 * scale,) if x else ()


def _centres(marks: Sequence[Mark], scale: float, lines: bool) -> Any:
    """Give the centre lines among marks, or the centre circles, on paper (n, 2, 2)."""
    curves = (m.curve for m in marks if m.role == "centre" and isinstance(m.curve, Line) is lines)
    return segments([c for curve in curves for c in pairwise(points(curve, _CHORD))]) * scale


def _rims(marks: Sequence[Mark]) -> Iterator[Rim]:
    """Give the full circles among outlines and hidden edges."""
    for m in marks:
        c = m.curve
        if m.role in ("outline", "hidden") and isinstance(c, Arc) and c.a1 - c.a0 > 2 * pi - 1e-6:
            yield group_of(m.name), c.centre, c.radius


def _gaps(breaks: Breaks | None, scale: float) -> tuple[tuple[float, float], ...]:
    return tuple((a * scale, b * scale) for a, b in breaks.gaps) if breaks else ()


def _title(
    picture: Picture, words: str, whole: Box, scale: float, style: Style
) -> tuple[Text, ...]:
    """Write a title below a view, in the middle of its outline."""
    if not words:
        return ()
    middle = scale * (picture.box[0] + picture.box[2]) / 2
    at = (middle, whole[1] - _TITLE_AWAY - style.text)
    return (Text(at, words, style.text, "middle", bold=True, name=VIEW_TITLE),)


def as_view(v: Dressed, name: str, at: Point2, scale: float) -> View:
    """Give the view of a sheet; faces in section are hatched only now."""
    words = tuple(_in_view(t, scale) for t in v.texts)
    hatches = hatches_of(v.picture, scale)
    return View(
        name,
        v.picture.title,
        at,
        scale,
        v.marks,
        v.placed.dimensions,
        broken_hatches(hatches, v.breaks) if v.breaks else hatches,
        words,
        whole=Whole(v.breaks, v.true, hatches) if v.breaks else None,
    )


def _in_view(text: Text, scale: float) -> Text:
    place: Point2 = (text.at[0] / scale, text.at[1] / scale)
    return Text(place, text.text, text.height, text.anchor, text.turn, text.bold, text.name)
