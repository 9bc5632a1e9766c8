"""Enlarged details: a thread too small on paper is shown again, larger, with its own sizes.

A narrow circle with a letter marks the place on the parent view; the sizes of the feature move to
the detail (ISO 128-3, memory). A detail is made only where room is left and where circle and letter
touch nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import cos, hypot, pi, radians, sin

import numpy as np

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.lists.papers import Paper, scales
from drafting.drawing.sheet.clash import in_quads, quads, quads_meet, segments, text_quad
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box, clip, contains, points
from drafting.drawing.sheet.paper import on_paper
from drafting.drawing.sheet.sheet import Mark, Text, View
from drafting.drawing.sheet.strokes import Arc, Point2, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import Seen
from drafting.drawing.views.loose_pin import Small
from drafting.records import dataclass
from drafting.settle.wishes import Callout, Length, Thread, Wish

_READ = 8.0
"""A thread of this diameter on paper (mm) is read without a detail."""
_GOOD = 12.0
_LONGEST = 90.0
_RIM = 0.15
"""What a window shows beyond the feature, in thread diameters."""
_SHANK = 0.6
"""What a window shows of the shank behind the thread, in thread diameters."""
_HIGHEST = 1.5
"""Half of a window is no higher than this, in thread diameters: else more than the end is in it."""
_AROUND = 3.0
_ANGLES = (45.0, 135.0, -45.0, -135.0, 90.0, -90.0, 20.0, 160.0, -20.0, -160.0)


@dataclass(frozen=True, slots=True)
class Detail:
    """A window on a parent view, and what is to be placed for it."""

    letter: str
    parent: str
    window: Box
    small: Small


def wanted_details(job: Job, seen: Seen, scale: Fraction, paper: Paper) -> Iterator[Detail]:
    """Give a detail of each thread on the rod's end that cannot be read at the sheet's scale."""
    side = next(p for p in seen.pictures if p.name == "side")
    letters = iter("ABCDEFGH")
    for thread in (s for s in job.symbols if isinstance(s, Thread) and s.owner == "rod"):
        if Fraction(thread.major) * scale >= _READ or not thread.name.startswith("rod_mount."):
            continue
        window = _window(thread, side)
        choices = tuple(
            c for c in seen.choices if c.picture is side and _lies_in(c.wish, side, window)
        )
        series = sorted(s for s in scales("auto", paper) if s > scale)
        good = [
            s
            for s in series
            if s * Fraction(thread.major) >= _GOOD
            and s * Fraction(window[2] - window[0]) < _LONGEST
        ]
        if not choices or not good or window[3] > _HIGHEST * thread.major:
            continue
        letter = next(letters)
        picture = replace(
            side,
            name="small",
            title=f"DETAIL {letter}",
            strokes=tuple(_clipped(side.strokes, window)),
            window=window,
        )
        name = f"detail_{letter.lower()}"
        moved_here = tuple(replace(c, picture=picture) for c in choices)
        yield Detail(letter, "side", window, Small(name, job, picture, moved_here, tuple(good[:2])))


def _window(thread: Thread, side: Picture) -> Box:
    """Frame a thread with a little of what it stands on."""
    ends = sorted(side.look.flat(p)[0] for p in (thread.start, thread.end))
    d = thread.major
    free_right = side.look.flat(thread.start)[0] >= side.look.flat(thread.end)[0]
    back, front = _SHANK * d, _RIM * d
    x0, x1 = (ends[0] - back, ends[1] + front) if free_right else (ends[0] - front, ends[1] + back)
    near = side.segments[
        (side.segments[:, :, 0] >= x0).any(1) & (side.segments[:, :, 0] <= x1).any(1)
    ]
    half = max(float(np.abs(near[:, :, 1]).max()) if len(near) else d / 2, d / 2) + _RIM * d
    return (x0, -half, x1, half)


def _lies_in(wish: Wish, side: Picture, window: Box) -> bool:
    """Tell whether all that a size stands on lies in a window."""
    if isinstance(wish, Length):
        at = [side.look.flat(p) for p in (wish.a, wish.b)]
    else:
        at = [side.look.flat(wish.tip if isinstance(wish, Callout) else wish.centre)]
    return all(contains(window, p) for p in at)


def _clipped(strokes: Sequence[Stroke], window: Box) -> Iterator[Stroke]:
    return (replace(s, curve=c) for s in strokes for c in clip(s.curve, window))


def marked(parent: View, detail: Detail, style: Style) -> View | None:
    """Give the parent with circle and letter, without the sizes that moved; None without room."""
    names = {c.wish.name for c in detail.small.choices}
    kept = tuple(d for d in parent.dimensions if d.name not in names)
    x0, y0, x1, y1 = detail.window
    middle = (x0 + x1) / 2
    if parent.whole:
        middle = parent.whole.breaks.drawn(middle)
    centre = (middle, (y0 + y1) / 2)
    radius = hypot(x1 - x0, y1 - y0) / 2
    ring = Arc(centre, radius, 0.0, 2 * pi)
    bare = replace(parent, dimensions=kept, at=(0.0, 0.0))
    there = on_paper(bare, style)
    words = quads(
        [text_quad(t, 0.5) for d in there.dimensions for t in d.texts]
        + [text_quad(t, 0.5) for t in there.texts]
    )
    lines = segments(
        [s for d in there.dimensions for s in d.segments]
        + [s for m in there.marks for s in pairwise(points(m.curve, 0.05))]
    )
    circle = [_times(p, parent.scale) for p in points(ring, 0.02 / parent.scale)]
    round_it = segments(list(pairwise(circle)))
    if len(in_quads(words, round_it)[0]):
        return None
    for angle in _ANGLES:
        letter = _letter(detail.letter, centre, radius, angle, parent.scale, style)
        own = quads([text_quad(letter, 0.8)])
        if not len(in_quads(own, lines)[0]) and not len(quads_meet(own, words)[0]):
            at = _times(letter.at, 1 / parent.scale)
            return replace(
                parent,
                dimensions=kept,
                marks=(*parent.marks, Mark(ring, "break", detail.small.name)),
                texts=(*parent.texts, replace(letter, at=at)),
            )
    return None


def _letter(
    letter: str, centre: Point2, radius: float, angle: float, k: float, style: Style
) -> Text:
    """Write a detail's letter outside its circle, in a direction (degrees), on paper."""
    high, turn = style.heading, radians(angle)
    reach = radius * k + _AROUND + width(letter, high, True) / 2
    x, y = centre[0] * k + reach * cos(turn), centre[1] * k + reach * sin(turn) - high / 2
    return Text((x, y), letter, high, "middle", bold=True, name="detail")


def _times(p: Point2, k: float) -> Point2:
    return (p[0] * k, p[1] * k)
