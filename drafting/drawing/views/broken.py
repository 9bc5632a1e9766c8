"""Long views broken for a smaller sheet or a larger scale: where, how much, and what it looks like.

A break runs through plain barrel or plain rod alone: where nothing begins, ends or bends in any of
the views that share it, and where no size ends. Side and top view share theirs, so that they stay
aligned. One is enough where one long stretch gives all that has to go.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from drafting.drawing.dimension.picture import Picture, ViewName
from drafting.drawing.sheet.breaks import FAR, Breaks, Cut
from drafting.drawing.sheet.on_paper import box, clip_line
from drafting.drawing.sheet.paper import cut_hatch
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Hatch, Line, Poly
from drafting.records import dataclass
from drafting.settle.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import Vec

GAP = 3.0
"""Free paper (mm) where metal is left out."""
STUB = 9.0
"""Least plain metal on paper (mm) between a break and whatever is next to it."""
LONG = 1.0
"""What is drawn of a broken stretch is so many times as long as high, so that it is no disc: not
more, as that would cost a step of scale."""
ASIDE = 1 / 3
"""Where a break stands in what is left of its stretch, for words to have room on one side."""
LEAST_SAVED = 15.0
"""A break saves at least so much paper (mm), else it is not worth its lines."""
MOST_SAVED = 0.85
"""The largest part of a view's length that may be left out."""
SLENDER, STOUT = 14.0, 10.0
"""Cylinders shorter than that, measured open against their height, are broken for a larger scale
alone, and stout ones keep true proportions."""
MOST_CUTS = 3
"""So many breaks a view has at most."""
GAIN = 1.9
"""On the same sheet a break must make the scale so much larger."""
_OVER = 2.5
"""How far (paper mm) break lines run past the outline; common practice."""
_KINK, _KINK_HIGH = 1.1, 4.0
_LEVEL = 1e-6


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a view that nothing begins or ends in: true x from, to, and how high it is."""

    lo: float
    hi: float
    high: float

    @property
    def long(self) -> float:
        """Give its length."""
        return self.hi - self.lo

    def spare(self, scale: float) -> float:
        """Give how much of it may be left out."""
        return self.long - max((2 * STUB + GAP) / scale, LONG * self.high)


@dataclass(frozen=True, slots=True)
class Plain:
    """Where the long views may be broken (true x from, to), the longest stretches first.

    ``retracted`` are those that side and top view share; ``length`` is that of the extended view.
    """

    retracted: tuple[Run, ...]
    extended: tuple[Run, ...]
    length: float


def plain_runs(
    pictures: Sequence[Picture], marks: Mapping[ViewName, Sequence[Mark]], wishes: Iterable[Wish]
) -> Plain:
    """Find the longest plain stretches; ``marks`` is all that the views draw."""
    ends = [e for w in wishes for e in _ends(w)]
    closed = [(x, x) for pose, x in ends if pose == "retracted"]
    closed += [b for name in ("side", "top") for b in _busy(marks[name])]
    opened = [*_busy(marks["extended"]), *((x, x) for pose, x in ends if pose == "extended")]
    views = {p.name: p for p in pictures}
    boxes = {name: p.box for name, p in views.items()}
    start, last = boxes["extended"][0], boxes["extended"][2]
    shut = _longest(closed, start, min(boxes["side"][2], boxes["top"][2]))
    return Plain(
        tuple(Run(*run, _high(views["side"], run)) for run in shut),
        tuple(Run(*run, _high(views["extended"], run)) for run in _longest(opened, start, last)),
        last - start,
    )


def _high(picture: Picture, run: tuple[float, float]) -> float:
    """Give how high a view is in the middle of a stretch."""
    levels = _levels(picture, sum(run) / 2)
    return max(levels) - min(levels) if levels else 0.0


def _ends(wish: Wish) -> list[tuple[str, float]]:
    """Give the places along the axis that a wish points at."""
    match wish:
        case Length(a=a, b=b, direction=d):
            return [(wish.pose, p[0]) for p in (a, b)] if abs(d[0]) > _LEVEL else []
        case Diameter():
            return [(wish.pose, p[0]) for p in (wish.centre, *wish.others)]
        case Radius():
            return [(wish.pose, wish.centre[0])]
        case Callout():
            tips = (wish.tip, *wish.others, *(tip for _, tip in wish.alike))
            return [(wish.pose, p[0]) for p in tips]


def _busy(marks: Iterable[Mark]) -> Iterable[tuple[float, float]]:
    """Give what a break must keep clear of: ends of level lines, all of any other curve."""
    for mark in marks:
        curve = mark.curve
        if isinstance(curve, Line) and abs(curve.a[1] - curve.b[1]) < _LEVEL:
            yield curve.a[0], curve.a[0]
            yield curve.b[0], curve.b[0]
        else:
            x0, _, x1, _ = box(curve)
            yield x0, x1


def _longest(
    busy: Iterable[tuple[float, float]], lo: float, hi: float
) -> tuple[tuple[float, float], ...]:
    """Give the longest stretches between two places that nothing busy lies in."""
    found, at = [], lo
    for a, b in (*sorted(busy), (hi, hi)):
        found.append((at, min(a, hi)))
        at = max(at, b)
    long = sorted(found, key=lambda run: run[0] - run[1])[:MOST_CUTS]
    return tuple(run for run in long if run[1] > run[0])


def slenderness(pictures: Sequence[Picture]) -> float:
    """Tell how many times as long as high the extended view is."""
    x0, y0, x1, y1 = next(p.box for p in pictures if p.name == "extended")
    return (x1 - x0) / (y1 - y0)


def breaks_for(
    runs: Sequence[Run], length: float, scale: float, room: float, at: float = 0.5
) -> Breaks | None:
    """Break a view of a ``length`` so that it takes ``room`` paper mm; None where that cannot be.

    What must go is shared out between the plain ``runs``, from the left, as they have it. ``at``
    is the part of what is left of a stretch that stands left of its break.
    """
    need = length - room / scale
    if need <= 0.0 or need > MOST_SAVED * length:
        return None
    least = LEAST_SAVED / scale
    room_of = {run: spare for run in runs if (spare := run.spare(scale)) >= least}
    need = max(need, least)
    if need > sum(room_of.values()):
        return None
    shares = {run: need * spare / sum(room_of.values()) for run, spare in room_of.items()}
    small = [run for run, share in shares.items() if share < least]
    if small and len(shares) > 1:
        rest = max(shares, key=lambda run: room_of[run])
        shares = {rest: need}
        if need > room_of[rest]:
            return None
    from_left = sorted(shares, key=lambda run: run.lo)
    return Breaks(tuple(_cut(run, shares[run], scale, at) for run in from_left))


def _cut(run: Run, saved: float, scale: float, at: float) -> Cut:
    gap = GAP / scale
    left = run.long - saved - gap
    lo = run.lo + min(max(left * at, STUB / scale), left - STUB / scale)
    return Cut(lo, lo + saved + gap, gap)


# --- what is shown ------------------------------------------------------------------------------


@lru_cache(maxsize=16)
def broken_picture(picture: Picture, breaks: Breaks) -> Picture:
    """Give a picture with its strokes broken."""
    strokes = tuple(
        s if c is s.curve else replace(s, curve=c)
        for s in picture.strokes
        for c in breaks.shown(s.curve)
    )
    return replace(picture, strokes=strokes)


def broken_marks(marks: Iterable[Mark], breaks: Breaks) -> tuple[Mark, ...]:
    """Give marks broken."""
    return tuple(
        m if c is m.curve else replace(m, curve=c) for m in marks for c in breaks.shown(m.curve)
    )


def broken_hatches(hatches: Iterable[Hatch], breaks: Breaks) -> tuple[Hatch, ...]:
    """Give hatched faces broken, one for each stretch that is left."""
    out = []
    for hatch in hatches:
        for lo, hi, shift in breaks.stretches:
            cut = cut_hatch(hatch, (lo, -FAR, hi, FAR))
            if cut.loops:
                out.append(_moved(cut, shift))
    return tuple(out)


def _moved(hatch: Hatch, left: float) -> Hatch:
    return replace(
        hatch,
        loops=tuple(
            tuple(
                Poly(tuple((x - left, y) for x, y in c.points)) for c in loop if isinstance(c, Poly)
            )
            for loop in hatch.loops
        ),
        lines=tuple(((a[0] - left, a[1]), (b[0] - left, b[1])) for a, b in hatch.lines),
    )


def broken_wish(wish: Wish, breaks: Breaks) -> Wish:
    """Give a wish whose points stand where they are drawn."""

    def at(p: Vec) -> Vec:
        return (breaks.drawn(p[0]), p[1], p[2])

    match wish:
        case Length():
            return replace(wish, a=at(wish.a), b=at(wish.b))
        case Diameter():
            return replace(wish, centre=at(wish.centre), others=tuple(map(at, wish.others)))
        case Radius():
            return replace(wish, centre=at(wish.centre), through=at(wish.through))
        case Callout():
            alike = tuple((name, at(tip)) for name, tip in wish.alike)
            others = tuple(map(at, wish.others))
            return replace(wish, tip=at(wish.tip), others=others, alike=alike)


def break_lines(picture: Picture, breaks: Breaks, scale: float) -> tuple[Mark, ...]:
    """Draw the break lines of a picture that is not broken yet: narrow, straight with a zigzag.

    ISO 128-2 (was 128-24), W1.
    """
    out = []
    for cut, gap in zip(breaks.cuts, breaks.gaps, strict=True):
        levels = _levels(picture, (cut.lo + cut.hi) / 2)
        if levels:
            low, high = min(levels), max(levels)
            out += [Mark(_zigzag(x, low, high, scale), "break", "break") for x in gap]
    return tuple(out)


def _levels(picture: Picture, x: float) -> list[float]:
    """Give where the visible lines of a view pass a place."""
    return [
        s.curve.a[1]
        for s in picture.visible
        if isinstance(s.curve, Line) and clip_line(s.curve.a, s.curve.b, _thin(x))
    ]


def _thin(x: float) -> tuple[float, float, float, float]:
    return (x - 0.01, -FAR, x + 0.01, FAR)


def _zigzag(x: float, low: float, high: float, scale: float) -> Poly:
    aside = _KINK / scale
    middle, half = (low + high) / 2, min(_KINK_HIGH / scale, (high - low) / 2) / 2
    return Poly(
        (
            (x, low - _OVER / scale),
            (x, middle - half),
            (x + aside, middle - half / 3),
            (x - aside, middle + half / 3),
            (x, middle + half),
            (x, high + _OVER / scale),
        )
    )
