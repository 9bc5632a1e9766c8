"""Drawing conventions of one view: centre lines with their overrun, threads by ISO 6410-1.

Marks come out in view millimetres; overruns are paper millimetres, so the scale must be known.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import dist, hypot, radians

from drafting.drawing.centre_circle import circle_marks
from drafting.drawing.picture import Picture, flat
from drafting.drawing.sheet import Mark
from drafting.drawing.strokes import Arc, Line, Point2, Stroke
from drafting.drawing.style import Style
from drafting.model.frame import Vec, X, add, cross, dot, scale, sub
from drafting.model.wishes import CentreCircle, CentreLine, Symbol, Thread

_POINT = 1e-6
_SAME = 0.01
_ON = 0.05
_ARM = 4.0
"""Half of a centre mark (paper mm) where no circle is seen."""
_THREAD_TURN = (radians(100.0), radians(370.0))
"""Three quarters of a circle, open at the upper right (ISO 6410-1 leaves the place free, W2)."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """Marks to add, and the outline strokes that they stand for."""

    marks: tuple[Mark, ...]
    replaced: frozenset[Stroke] = frozenset()


def symbol_marks(
    symbols: Iterable[Symbol], picture: Picture, paper_scale: float, style: Style
) -> Drawn:
    """Give the marks of all symbols in a picture."""
    lines: list[Mark] = []
    threads: list[Mark] = []
    replaced: set[Stroke] = set()
    for symbol in symbols:
        if not picture.shows(symbol.name):
            continue
        shift = picture.shift if symbol.owner == "rod" else 0.0
        if isinstance(symbol, CentreLine):
            lines += _centre(symbol, picture, shift, style.centre_overrun / paper_scale)
        elif isinstance(symbol, CentreCircle):
            threads += circle_marks(symbol, picture, shift, style.centre_overrun / paper_scale)
        else:
            drawn = _thread(symbol, picture, shift)
            threads += drawn.marks
            replaced |= drawn.replaced
    if picture.name == "end":
        lines += _cross(
            _middle(picture), _half(picture), style.centre_overrun / paper_scale, "axis"
        )
    return Drawn((*_united(lines), *threads), frozenset(replaced))


def _middle(picture: Picture) -> Point2:
    return picture.look.flat((0.0, 0.0, 0.0))


def _half(picture: Picture) -> tuple[float, float, float, float]:
    """Give how far the picture reaches from the axis: left, down, right, up."""
    x0, y0, x1, y1 = picture.box
    return (-x0, -y0, x1, y1)


def _centre(line: CentreLine, picture: Picture, shift: float, over: float) -> list[Mark]:
    look = picture.look
    a, b = flat(look, line.a, shift), flat(look, line.b, shift)
    if dist(a, b) < _POINT:
        if line.ringed:
            return []
        if picture.name == "end" and hypot(*a) < _POINT:
            return []
        radius = picture.widest_circle(a)
        if not radius and not picture.on_stroke(a):
            return []
        reach = radius or _ARM / 3.0 * over
        return _cross(a, (reach, reach, reach, reach), over if radius else 0.0, line.name)
    whole = sub(line.b, line.a)
    if abs(abs(dot(whole, X)) - dot(whole, whole) ** 0.5) < _POINT and abs(a[1]) < _SAME:
        x0, x1 = _along_axis(picture)
        lo, hi = min(a[0], b[0]), max(a[0], b[0])
        a, b = (min(lo, x0), a[1]), (max(hi, x1), a[1])
    d = dist(a, b)
    u = ((b[0] - a[0]) / d * over, (b[1] - a[1]) / d * over)
    ends = Line((a[0] - u[0], a[1] - u[1]), (b[0] + u[0], b[1] + u[1]))
    return [Mark(ends, "centre", line.name)]


def _along_axis(picture: Picture) -> tuple[float, float]:
    """Give where the axis enters and leaves the outline."""
    s = picture.segments
    low, high = s[:, :, 1].min(1), s[:, :, 1].max(1)
    on = s[(low <= _SAME) & (high >= -_SAME)]
    return (float(on[:, :, 0].min()), float(on[:, :, 0].max())) if len(on) else (0.0, 0.0)


def _cross(
    p: Point2, reach: tuple[float, float, float, float], over: float, name: str
) -> list[Mark]:
    left, down, right, up = (r + over for r in reach)
    return [
        Mark(Line((p[0] - left, p[1]), (p[0] + right, p[1])), "centre", name),
        Mark(Line((p[0], p[1] - down), (p[0], p[1] + up)), "centre", name),
    ]


def _united(marks: Sequence[Mark]) -> list[Mark]:
    """Join level and upright centre lines that overlap on one track, so that none lies doubly."""
    tracks: dict[tuple[int, float], list[tuple[float, float, str]]] = {}
    out: list[Mark] = []
    for mark in marks:
        line = mark.curve
        assert isinstance(line, Line)
        for axis in (0, 1):
            if abs(line.a[1 - axis] - line.b[1 - axis]) < _POINT:
                lo, hi = sorted((line.a[axis], line.b[axis]))
                key = (axis, round(line.a[1 - axis], 3))
                tracks.setdefault(key, []).append((lo, hi, mark.name))
                break
        else:
            out.append(mark)
    for (axis, level), spans in sorted(tracks.items()):
        joined: list[tuple[float, float, str]] = []
        for lo, hi, name in sorted(spans):
            if joined and lo <= joined[-1][1]:
                last = joined.pop()
                joined.append((last[0], max(last[1], hi), last[2]))
            else:
                joined.append((lo, hi, name))
        for lo, hi, name in joined:
            ends = ((lo, level), (hi, level)) if axis == 0 else ((level, lo), (level, hi))
            out.append(Mark(Line(*ends), "centre", name))
    return out


def _thread(thread: Thread, picture: Picture, shift: float) -> Drawn:
    look = picture.look
    start, end = flat(look, thread.start, shift), flat(look, thread.end, shift)
    if dist(start, end) < _POINT:
        return _end_on(thread, picture, start)
    axis = sub(thread.end, thread.start)
    if abs(dot(axis, look.toward_eye)) > _POINT:
        return Drawn(())
    across = _unit(cross(axis, look.toward_eye))
    if thread.internal:
        return _hidden_root(thread, picture, shift, across)
    return _root(thread, picture, shift, across)


def _end_on(thread: Thread, picture: Picture, centre: Point2) -> Drawn:
    if not picture.has_circle(centre, thread.major / 2):
        return Drawn(())
    root = (thread.major if thread.internal else thread.minor) / 2
    marks = [Mark(Arc(centre, root, *_THREAD_TURN), "thread", thread.name)]
    if not thread.internal:
        return Drawn(tuple(marks))
    rims = frozenset(
        s
        for s in picture.visible
        if isinstance(s.curve, Arc)
        and dist(s.curve.centre, centre) < _ON
        and abs(s.curve.radius - root) < _ON
    )
    whole = all(s.curve.a1 - s.curve.a0 > 6.28 for s in rims if isinstance(s.curve, Arc))
    if not whole:
        return Drawn(())
    if not picture.has_circle(centre, thread.minor / 2):
        crest = Arc(centre, thread.minor / 2, 0.0, radians(360.0))
        marks.append(Mark(crest, "outline", thread.name))
    return Drawn(tuple(marks), rims)


def _root(thread: Thread, picture: Picture, shift: float, across: Vec) -> Drawn:
    """Draw roots narrow and the end of the full thread wide, where the thread is seen."""
    middle = scale(add(thread.start, thread.end), 0.5)
    crest = flat(picture.look, add(middle, scale(across, thread.major / 2)), shift)
    if not picture.on_stroke(crest):
        return Drawn(())
    marks = []
    for k in (thread.minor / 2, -thread.minor / 2):
        ends = (_beside(p, across, k, picture, shift) for p in (thread.start, thread.end))
        marks.append(Mark(Line(*ends), "thread", thread.name))
    rim = (_beside(thread.end, across, k * thread.major / 2, picture, shift) for k in (1.0, -1.0))
    marks.append(Mark(Line(*rim), "outline", thread.name))
    return Drawn(tuple(marks))


def _hidden_root(thread: Thread, picture: Picture, shift: float, across: Vec) -> Drawn:
    if picture.name != "side":
        return Drawn(())
    marks = []
    for k in (thread.minor / 2, -thread.minor / 2):
        ends = (_beside(p, across, k, picture, shift) for p in (thread.start, thread.end))
        marks.append(Mark(Line(*ends), "hidden", thread.name))
    return Drawn(tuple(marks))


def _beside(p: Vec, across: Vec, k: float, picture: Picture, shift: float) -> Point2:
    return flat(picture.look, add(p, scale(across, k)), shift)


def _unit(v: Vec) -> Vec:
    return scale(v, dot(v, v) ** -0.5)
