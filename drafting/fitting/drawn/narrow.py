"""The narrowest gaps that can be seen in the plane of the arm, each as an enlarged detail.

A gap that the room found in space is looked for between the strokes of that piece and the edges of
that solid, at that place of the travel. Where both are alike, it is dimensioned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, degrees, hypot, pi

import numpy as np

from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box, clip, points
from drafting.drawing.sheet.sheet import Linear, Mark, View
from drafting.drawing.sheet.strokes import Arc, Poly
from drafting.drawing.sheet.style import Style
from drafting.fitting.clearance import AT_THE_PIN, Clearance
from drafting.fitting.drawn.scene import Scene, cylinder_marks
from drafting.fitting.drawn.silhouette import at_place
from drafting.fitting.machine import Point
from drafting.fitting.travel import place
from drafting.records import dataclass
from drafting.told.short import size

ALIKE = 0.3
"""Millimetres between the gap in space and that in the plane which are one gap."""
WIDE = 42.0
"""A detail's window on paper, mm."""
GAP = 8.0
"""How long a gap should be on paper, mm, to be read."""
STEPS = (20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1)
INCH_STEPS = (16.0, 8.0, 4.0, 2.0, 1.0, 0.5, 0.25, 0.125)
MOST = 2
SEEN, TIMES = 12.0, 3.0
"""Gaps of more mm, and more times what is asked, are not narrow."""
RING = 6.0
"""Radius of the ring about a gap on the whole picture, paper mm."""


@dataclass(frozen=True, slots=True)
class Narrow:
    """A gap in the plane: between two points (mm of the machine), of which clearance."""

    of: Clearance
    a: Point
    b: Point


def narrow(s: Scene) -> tuple[Narrow, ...]:
    """Give the narrowest gaps that lie in the plane, each part of the machine once."""
    found: list[Narrow] = []
    for c in s.fit.room.clearances if s.fit.room else ():
        told = {n.of.solid.partition("#")[0] for n in found}
        bare = c.solid.partition("#")[0]
        if c.clash or c.piece.startswith(AT_THE_PIN) or bare in told:
            continue
        if c.gap > max(SEEN, TIMES * c.asked):
            continue
        seen = _seen(s, c)
        if seen is not None:
            found.append(seen)
        if len(found) == MOST:
            break
    return tuple(found)


def _seen(s: Scene, c: Clearance) -> Narrow | None:
    f = s.fit
    assert f.room is not None
    p = place(f.machine.way, c.at)
    own = [points(m.curve, 0.02) for m in cylinder_marks(f, p, "outline") if m.name == c.piece]
    other = [
        at_place(e, f.machine, f.room.seat.start, c.at) for e in s.edges if _alike(e.solid, c.solid)
    ]
    best: tuple[float, Point, Point] | None = None
    for one in own:
        for two in other:
            for swap in (False, True):
                tips, track = (two, one) if swap else (one, two)
                near = _nearest(tips, track)
                if near is not None and (best is None or near[0] < best[0]):
                    best = near
    if best is None or abs(best[0] - c.gap) > ALIKE:
        return None
    return Narrow(c, best[1], best[2])


def _alike(a: str, b: str) -> bool:
    """Tell whether two solids have one name: an edge that both show is drawn once."""
    return a.partition("#")[0] == b.partition("#")[0]


def _nearest(tips: Sequence[Point], track: Sequence[Point]) -> tuple[float, Point, Point] | None:
    """Give the nearest of some points to a track of straight pieces, with both points."""
    if len(track) < 2:
        return None
    t = np.asarray(tips, float)
    line = np.asarray(track, float)
    a, d = line[:-1], np.diff(line, axis=0)
    size_ = np.maximum((d**2).sum(1), 1e-12)
    share = np.clip(((t[:, None] - a[None]) * d[None]).sum(2) / size_, 0.0, 1.0)
    foot = a[None] + share[..., None] * d[None]
    gaps = np.hypot(*(t[:, None] - foot).transpose(2, 0, 1))
    i, j = np.unravel_index(int(gaps.argmin()), gaps.shape)
    p, q = t[i], foot[i, j]
    return float(gaps[i, j]), (float(p[0]), float(p[1])), (float(q[0]), float(q[1]))


def detail(s: Scene, n: Narrow, letter: str, at: Point) -> View:
    """Give the detail of a gap about the paper point ``at``, in a round window."""
    f, units = s.fit, s.fit.machine.units
    assert f.room is not None
    gap = max(hypot(n.a[0] - n.b[0], n.a[1] - n.b[1]), 0.01)
    steps = INCH_STEPS if units == "in" else STEPS
    k = next((x for x in steps if x * gap <= GAP), steps[-1])
    half = WIDE / 2 / k
    mid = ((n.a[0] + n.b[0]) / 2, (n.a[1] + n.b[1]) / 2)
    window = (mid[0] - half, mid[1] - half, mid[0] + half, mid[1] + half)
    p = place(f.machine.way, n.of.at)
    marks = [*cylinder_marks(f, p, "outline")]
    for e in s.edges:
        track = at_place(e, f.machine, f.room.seat.start, n.of.at)
        marks.append(Mark(Poly(track), "thread", f"machine {e.solid}"))
    seen = [m for mark in marks for m in _round(mark, window, mid, half)]
    seen.append(Mark(Arc(mid, half, 0.0, 2 * pi), "dimension", "detail"))
    here = (at[0] - mid[0] * k, at[1] - mid[1] * k)
    return View(f"detail {letter}", f"{letter} {k:g}:1", here, k, tuple(seen), (_gap(n, k, units),))


def _round(mark: Mark, window: Box, mid: Point, half: float) -> Iterator[Mark]:
    """Cut a mark to a round window."""
    for part in clip(mark.curve, window):
        run: list[Point] = []
        track = points(part, half / 400)
        fine = [q for a, b in pairwise(track) for q in _parted(a, b, half / 40)]
        for q in [*fine, *track[-1:]]:
            if hypot(q[0] - mid[0], q[1] - mid[1]) <= half:
                run.append(q)
                continue
            if len(run) > 1:
                yield Mark(Poly(tuple(run)), mark.role, mark.name)
            run = []
        if len(run) > 1:
            yield Mark(Poly(tuple(run)), mark.role, mark.name)


def _parted(a: Point, b: Point, step: float) -> Iterator[Point]:
    n = max(1, int(hypot(b[0] - a[0], b[1] - a[1]) / step))
    for i in range(n):
        yield a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n


def _gap(n: Narrow, k: float, units: str) -> Linear:
    """Give the gap's dimension: its line lies in the gap, its text beside it."""
    angle = (degrees(atan2(n.b[1] - n.a[1], n.b[0] - n.a[0])) + 90.0) % 180.0 - 90.0
    run = hypot(n.b[0] - n.a[0], n.b[1] - n.a[1])
    u = ((n.b[0] - n.a[0]) / run, (n.b[1] - n.a[1]) / run) if run else (1.0, 0.0)
    if u[0] < 0 or (abs(u[0]) < 1e-9 and u[1] < 0):
        u = (-u[0], -u[1])
    v = (-u[1], u[0])
    mid = ((n.a[0] + n.b[0]) / 2, (n.a[1] + n.b[1]) / 2)
    label = size(n.of.gap, units)
    out = run / 2 + (4.0 + width(label, Style().text) / 2) / k
    text = (mid[0] + u[0] * out + v[0] / k, mid[1] + u[1] * out + v[1] / k)
    return Linear(f"gap {n.of.piece}", n.a, n.b, angle, mid, text, (label,), n.of.gap, outside=True)


def ring(s: Scene, n: Narrow, letter: str) -> tuple[Mark, ...]:
    """Give the ring that shows on the whole picture where a detail is."""
    mid = ((n.a[0] + n.b[0]) / 2, (n.a[1] + n.b[1]) / 2)
    return (Mark(Arc(mid, RING / s.k, 0.0, 2 * pi), "dimension", f"detail {letter}"),)


def ring_word(n: Narrow, letter: str) -> tuple[Point, tuple[str, ...], float]:
    """Give the letter of a detail, the middle of its ring and its radius, paper mm."""
    mid = ((n.a[0] + n.b[0]) / 2, (n.a[1] + n.b[1]) / 2)
    return mid, (letter,), RING


def scale_words(k: float) -> str:
    """Write a scale."""
    return f"{k:g}:1" if k >= 1 else f"1:{1 / k:g}"
