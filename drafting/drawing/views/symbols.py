"""Drawing conventions of one view: centre lines with their overrun, threads by ISO 6410-1.

Marks come out in view millimetres; overruns are paper millimetres, so the scale must be known.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import dist, hypot, radians
from typing import Literal

import numpy as np

from drafting.arrays import Floats
from drafting.drawing.dimension.owners import group_of, is_port
from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Arc, Line, Point2, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.centre_circle import circle_marks
from drafting.drawing.views.spring import spring_marks
from drafting.records import dataclass
from drafting.settle.wishes import CentreCircle, CentreLine, Spring, Symbol, Thread
from drafting.shape.frame import Vec, X, add, cross, dot, scale, sub

_POINT = 1e-6
_SAME = 0.01
_NOTHING = (0.0, 0.0, 0.0)
_ON = 0.05
_ARM = 4.0
"""Half of a centre mark (paper mm) where no circle is seen."""
_THREAD_TURN = (radians(100.0), radians(370.0))
"""Three quarters of a circle, open at the upper right (ISO 6410-1 leaves the place free, W2)."""
_THREAD_GAP = 0.7
"""Least paper (mm) between crest and root, and at least two wide lines (ISO 6410-1, W1)."""
_LEAST_READ = 0.23
"""A thread whose gap would take more than this part of its diameter is left to its words."""


@dataclass(frozen=True, slots=True)
class SymbolLines:
    """Marks to add, and the outline strokes that they stand for."""

    marks: tuple[Mark, ...]
    replaced: frozenset[Stroke] = frozenset()


def symbol_marks(
    symbols: Iterable[Symbol], picture: Picture, paper_scale: float, style: Style
) -> SymbolLines:
    """Give the marks of all symbols in a picture."""
    lines: list[Mark] = []
    threads: list[Mark] = []
    replaced: set[Stroke] = set()
    gap = max(_THREAD_GAP, 2 * style.wide) / paper_scale
    for symbol in symbols:
        if not picture.shows(symbol.name) or _cut_away(symbol, picture):
            continue
        if _port_unseen(symbol, picture) or _hole_unseen(symbol, picture):
            continue
        shift = picture.shift if symbol.owner == "rod" else 0.0
        if isinstance(symbol, CentreLine):
            lines += _centre(symbol, picture, shift, style.centre_overrun / paper_scale)
        elif isinstance(symbol, CentreCircle):
            threads += circle_marks(symbol, picture, shift, style.centre_overrun / paper_scale)
        elif isinstance(symbol, Spring):
            threads += spring_marks(symbol, picture, paper_scale)
        else:
            drawn = _thread(symbol, picture, shift, gap)
            threads += drawn.marks
            replaced |= drawn.replaced
    if picture.name == "end":
        lines += _cross(
            _middle(picture), _half(picture), style.centre_overrun / paper_scale, "axis"
        )
    return SymbolLines((*_united(lines), *threads), frozenset(replaced))


def _cut_away(symbol: Symbol, picture: Picture) -> bool:
    """Tell whether a section has taken away all that a symbol belongs to."""
    table, _, field = symbol.name.partition(".")
    return bool(picture.section and field and table not in picture.tables)


def _port_unseen(symbol: Symbol, picture: Picture) -> bool:
    """Tell whether a centre line belongs to a port of which nothing is drawn: a bare tick.

    That of an outlet belongs to its tube.
    """
    table, _, field = symbol.name.partition(".")
    if not isinstance(symbol, CentreLine) or not is_port(table):
        return False
    if table in picture.tables:
        tube = f"{table}.tube"
        return field == "outlet" and not any(s.visible and s.piece == tube for s in picture.strokes)
    return picture.name != "side" or not _own_ends(picture, table).size


def _hole_unseen(symbol: Symbol, picture: Picture) -> bool:
    """Tell whether a bolt hole along the axis lies beside the plane of a half section.

    Nothing of it is seen there, and its centre line would run over what lies behind.
    """
    cut = picture.section
    if cut is None or not isinstance(symbol, CentreLine) or symbol.owner == "rod":
        return False
    along = symbol.name.endswith(".bolts.hole") and cross(sub(symbol.b, symbol.a), X) == _NOTHING
    laid_open = abs(dot(symbol.a, cut.look.toward_eye) - cut.depth) < _SAME
    above = cut.above is None or dot(symbol.a, cut.look.up) > cut.above
    return along and above and not laid_open


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
        if picture.section and not radius:
            return _lower_arm(a, picture, over, line.name)
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
    if is_port(line.name) and picture.section is None:
        a, b = _beside_own(a, b, picture, group_of(line.name))
    ends = Line((a[0] - u[0], a[1] - u[1]), (b[0] + u[0], b[1] + u[1]))
    return [Mark(ends, "centre", line.name)]


def _beside_own(a: Point2, b: Point2, picture: Picture, own: str) -> tuple[Point2, Point2]:
    """Give the stretch of a port's axis beside what is seen of it: the rest runs over the barrel.

    There nothing explains it, and a short line looks like an edge.
    """
    d = dist(a, b)
    u = ((b[0] - a[0]) / d, (b[1] - a[1]) / d)
    along = _own_ends(picture, own) @ np.array(u) - (a[0] * u[0] + a[1] * u[1])
    lo, hi = float(along.min()), float(along.max())
    return (a[0] + lo * u[0], a[1] + lo * u[1]), (a[0] + hi * u[0], a[1] + hi * u[1])


def _own_ends(picture: Picture, own: str) -> Floats:
    """Give the ends (n, 2) of what is seen of a port, else of what is drawn hidden."""
    if own in picture.tables:
        return np.asarray(picture.owners.segments(own)).reshape(-1, 2)
    hidden = [picture.chords_of(s) for s in picture.strokes if group_of(s.piece) == own]
    return np.concatenate([np.zeros((0, 2, 2)), *hidden]).reshape(-1, 2)


def _lower_arm(p: Point2, picture: Picture, over: float, name: str) -> list[Mark]:
    """Mark the centre of a circle of which a half section leaves the lower half."""
    reach = max((r for c, r, _ in picture.rings if dist(p, c) < _ON), default=0.0)
    return [Mark(Line((p[0], p[1] - reach - over), p), "centre", name)] if reach else []


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


def _thread(thread: Thread, picture: Picture, shift: float, least: float) -> SymbolLines:
    """Draw a thread; ``least`` is the gap between crest and root (view mm) that can be read."""
    look = picture.look
    start, end = flat(look, thread.start, shift), flat(look, thread.end, shift)
    if least > _LEAST_READ * thread.major:
        return SymbolLines(())
    if dist(start, end) < _POINT:
        return _end_on(thread, picture, start, least)
    axis = sub(thread.end, thread.start)
    if abs(dot(axis, look.toward_eye)) > _POINT:
        return SymbolLines(())
    across = _unit(cross(axis, look.toward_eye))
    if thread.internal:
        return _inside(thread, picture, shift, across, least)
    return _outside(thread, picture, shift, across, least)


def _root(thread: Thread, least: float) -> float:
    """Give the radius of the root, at least ``least`` from the crest."""
    if thread.internal:
        return max(thread.major / 2, thread.minor / 2 + least)
    return min(thread.minor / 2, thread.major / 2 - least)


def _end_on(thread: Thread, picture: Picture, centre: Point2, least: float) -> SymbolLines:
    if not picture.has_circle(centre, thread.major / 2):
        return SymbolLines(())
    if not thread.internal:
        root = _root(thread, least)
        return SymbolLines((Mark(Arc(centre, root, *_THREAD_TURN), "thread", thread.name),))
    rims = frozenset(
        s
        for s in picture.visible
        if isinstance(s.curve, Arc)
        and dist(s.curve.centre, centre) < _ON
        and abs(s.curve.radius - thread.major / 2) < _ON
    )
    whole = all(s.curve.a1 - s.curve.a0 > 6.28 for s in rims if isinstance(s.curve, Arc))
    if not whole:
        return SymbolLines(())
    marks = [Mark(Arc(centre, _root(thread, least), *_THREAD_TURN), "thread", thread.name)]
    if not picture.has_circle(centre, thread.minor / 2):
        crest = Arc(centre, thread.minor / 2, 0.0, radians(360.0))
        marks.append(Mark(crest, "outline", thread.name))
    return SymbolLines(tuple(marks), rims)


def _outside(
    thread: Thread, picture: Picture, shift: float, across: Vec, least: float
) -> SymbolLines:
    """Draw roots narrow and the end of the full thread wide, where the thread is seen."""
    middle = scale(add(thread.start, thread.end), 0.5)
    crest = flat(picture.look, add(middle, scale(across, thread.major / 2)), shift)
    if not picture.on_stroke(crest):
        return SymbolLines(())
    root = _root(thread, least)
    marks = [_along(thread, k * root, "thread", across, picture, shift) for k in (1.0, -1.0)]
    rim = (_beside(thread.end, across, k * thread.major / 2, picture, shift) for k in (1.0, -1.0))
    marks.append(Mark(Line(*rim), "outline", thread.name))
    return SymbolLines(tuple(marks))


def _inside(
    thread: Thread, picture: Picture, shift: float, across: Vec, least: float
) -> SymbolLines:
    """Draw the root narrow beside a crest in section, all dashed where the thread is hidden."""
    middle = scale(add(thread.start, thread.end), 0.5)
    root = _root(thread, least)
    marks: list[Mark] = []
    for k in (1.0, -1.0):
        crest, bottom = k * thread.minor / 2, k * root
        if picture.section and picture.on_stroke(
            flat(picture.look, add(middle, scale(across, crest)), shift)
        ):
            marks.append(_along(thread, bottom, "thread", across, picture, shift))
            rim = (_beside(thread.end, across, r, picture, shift) for r in (crest, bottom))
            marks.append(Mark(Line(*rim), "outline", thread.name))
        elif not is_port(thread.name) and picture.on_hidden(
            flat(picture.look, add(middle, scale(across, k * thread.major / 2)), shift)
        ):
            marks.append(_along(thread, crest, "hidden", across, picture, shift))
    return SymbolLines(tuple(marks))


def _along(
    thread: Thread,
    radius: float,
    role: Literal["thread", "hidden"],
    across: Vec,
    picture: Picture,
    shift: float,
) -> Mark:
    ends = (_beside(p, across, radius, picture, shift) for p in (thread.start, thread.end))
    return Mark(Line(*ends), role, thread.name)


def _beside(p: Vec, across: Vec, k: float, picture: Picture, shift: float) -> Point2:
    return flat(picture.look, add(p, scale(across, k)), shift)


def _unit(v: Vec) -> Vec:
    return scale(v, dot(v, v) ** -0.5)
