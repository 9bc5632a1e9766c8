"""A cushion screw or breather that no long view shows: the rim of its face, dashed, with a cross.

On paper it is a millimetre or two wide: of the dashes of a hidden edge one or two have room on it,
which read as a scratch on what hides it. Its own are as short as makes them four at least, and what
is seen of its sides is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from drafting.drawing.dimension.owners import is_knob
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.on_paper import as_ellipse, box, length
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Arc, EllipseArc, Line, Stroke
from drafting.drawing.views.symbols import SymbolLines

_LONG = 12.0
"""A rim of this length on paper (mm) has room for the dashes of every hidden edge."""
_PERIOD, _LEAST, _SHARE = 1.5, 4, 0.6
"""Dash and gap (paper mm), how many there are at least, and the dash's share."""
_OVER = 1.5
"""How far the arms of the cross reach beyond the rim (paper mm)."""


def hidden_knobs(picture: Picture, scale: float) -> SymbolLines:
    """Give what stands for the hidden knobs of a picture at a scale, and the strokes it is of."""
    own = [s for s in picture.strokes if not s.visible and is_knob(s.piece)]
    marks: list[Mark] = []
    replaced: set[Stroke] = set()
    for s in own:
        if isinstance(s.curve, Arc | EllipseArc):
            x0, _, x1, _ = box(s.curve)
            replaced |= {t for t in own if t.piece == s.piece and x0 <= _middle(t) <= x1}
            marks += (Mark(c, "hidden", s.piece) for c in _dashes(s.curve, scale))
            marks += (Mark(c, "centre", s.piece) for c in _cross(s.curve, _OVER / scale))
    return SymbolLines(tuple(marks), frozenset(replaced))


def _middle(stroke: Stroke) -> float:
    x0, _, x1, _ = box(stroke.curve)
    return (x0 + x1) / 2


def _dashes(rim: Arc | EllipseArc, scale: float) -> Iterator[Arc | EllipseArc]:
    long, e = length(rim) * scale, as_ellipse(rim)
    if long >= _LONG:
        yield rim
        return
    count = max(_LEAST, round(long / _PERIOD))
    step = (e.t1 - e.t0) / count
    for k in range(count):
        start = e.t0 + k * step
        yield EllipseArc(e.centre, e.major, e.minor, start, start + _SHARE * step)


def _cross(rim: Arc | EllipseArc, over: float) -> Iterator[Line]:
    e = as_ellipse(rim)
    (x, y), wide, high = e.centre, *(hypot(e.major[k], e.minor[k]) + over for k in (0, 1))
    yield Line((x - wide, y), (x + wide, y))
    yield Line((x, y - high), (x, y + high))
