"""A placed dimension taken apart into lines, filled arrows and texts, in paper millimetres.

One drawing of a dimension for SVG, PDF, the stored picture of a DXF dimension, and the inspector.

The dimension line is unbroken; the text stands above it and is read from below or from the right
(ISO 129-1); further texts hang below the line. An upright line may turn level at its end and carry
the text there, as on a leader. Where a size comes from is said by framed letters behind the number,
its flag.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import cos, dist, radians, sin
from typing import Any

from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import at_place, unit
from drafting.drawing.sheet.sheet import Dimension, Linear, Note, Round, Text
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

Segment = tuple[Point2, Point2]
Triangle = tuple[Point2, Point2, Point2]
_FLAG_GAP = 1.0
_FLAG_ROOM = 0.6
"""Paper mm between the number and the frame, and between the frame and its letter."""
_OTHER_GAP = 1.6
"""Paper mm before the other unit, which stands in small letters behind the first."""
_PAST_MIDDLE = 3.0
"""How far (paper mm) the line of a half dimension runs past the middle."""


@dataclass(frozen=True, slots=True)
class Exploded:
    """The pieces of one dimension. ``arrows`` are triangles, the tip first."""

    name: str
    lines: tuple[Segment, ...]
    extensions: tuple[Segment, ...]
    arrows: tuple[Triangle, ...]
    texts: tuple[Text, ...]
    flag: tuple[Segment, ...] = ()

    @property
    def segments(self) -> tuple[Segment, ...]:
        """Give all straight strokes."""
        return self.lines + self.extensions + self.flag


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a label: its words, and its middle from the middle and the foot of the label."""

    words: str
    height: float
    along: float
    across: float


@lru_cache(maxsize=1024)
def label_width(texts: tuple[str, ...], flag: str, style: Style) -> float:
    """Measure the room that the printed lines of a dimension need along its line."""
    first, other, rest = in_lines(texts)
    return max(_first_width(first, other, flag, style), *(width(t, style.text) for t in rest), 0.0)


def in_lines(texts: Sequence[str]) -> tuple[str, str, tuple[str, ...]]:
    """Part a label: its first line, the other unit that stands behind it, and further lines."""
    other = next((t for t in texts[1:] if t.startswith("[")), "")
    return texts[0], other, tuple(t for t in texts[1:] if t != other)


def _first_width(first: str, other: str, flag: str, style: Style) -> float:
    wide = width(first, style.text) + (flag_width(flag, style) if flag else 0.0)
    return wide + (_OTHER_GAP + width(other, style.small_text) if other else 0.0)


def flag_width(flag: str, style: Style) -> float:
    """Measure the framed letters behind a size, with the gap before them."""
    return width(flag, style.small_text) + _FLAG_GAP + 2 * _FLAG_ROOM


def label_depth(texts: Sequence[str], style: Style, stacked: bool = False) -> tuple[float, float]:
    """Measure how far the printed lines reach above and below the line they stand on.

    ``stacked`` lines all stand above it.
    """
    pitch, more = style.text * style.line_pitch, len(in_lines(texts)[2])
    if stacked:
        return style.text_gap + style.text + more * pitch, 0.0
    below = style.text_gap + style.text + (more - 1) * pitch if more else 0.0
    return style.text_gap + style.text, below


@lru_cache(maxsize=1024)
def label_pieces(
    texts: tuple[str, ...], flag: str, style: Style, stacked: bool
) -> tuple[tuple[Piece, ...], tuple[float, float, float] | None]:
    """Set the lines of a label, and the left, right and foot of the frame of its flag.

    The other unit stands behind the first line. Further lines hang below the dimension line; those
    of a leader are ``stacked`` above it, equal at the left.
    """
    first, other, rest = in_lines(texts)
    whole = label_width(texts, flag, style)
    own = _first_width(first, other, flag, style)
    pitch = style.text * style.line_pitch
    left, foot = (-whole / 2, len(rest) * pitch) if stacked else (-own / 2, 0.0)
    pieces = [_piece(first, style.text, left, foot)]
    x, frame = left + width(first, style.text), None
    if flag:
        frame = (x + _FLAG_GAP, x + flag_width(flag, style), foot)
        x = frame[1]
    by_words = {other: _piece(other, style.small_text, x + _OTHER_GAP, foot)}
    for k, line in enumerate(rest):
        wide = width(line, style.text)
        if stacked:
            by_words[line] = _piece(line, style.text, left, foot - (k + 1) * pitch)
        else:
            below = -2 * style.text_gap - style.text - k * pitch
            by_words[line] = _piece(line, style.text, -wide / 2, below)
    return (*pieces, *(by_words[t] for t in texts[1:])), frame


def _piece(words: str, high: float, left: float, across: float) -> Piece:
    return Piece(words, high, left + width(words, high) / 2, across)


def explode(dimension: Dimension, at: Point2, scale: float, style: Style) -> Exploded:
    """Draw a dimension of a view that is placed at ``at`` with ``scale``."""
    if isinstance(dimension, Linear):
        return _linear(dimension, at, scale, style)
    return _leader(dimension, at, scale, style)


class Base:
    """The direction of a line of text on paper and its normal, upwards for the reader."""

    def __init__(self, angle: float) -> None:
        self.angle = (angle + 90.0) % 180.0 - 90.0
        if self.angle == -90.0:
            self.angle = 90.0
        quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}
        turn = radians(self.angle)
        self.u = quarter.get(self.angle) or (cos(turn), sin(turn))
        self.v = (-self.u[1], self.u[0])

    def flat(self, p: tuple[Any, Any]) -> tuple[Any, Any]:
        """Give the place along and across the text, of a point or of arrays of them."""
        u, v = self.u, self.v
        return (p[0] * u[0] + p[1] * u[1], p[0] * v[0] + p[1] * v[1])

    def point(self, along: Any, across: Any) -> tuple[Any, Any]:
        """Give the point at a place along and across the text, or arrays of them."""
        u, v = self.u, self.v
        return (along * u[0] + across * v[0], along * u[1] + across * v[1])


def _linear(d: Linear, at: Point2, scale: float, style: Style) -> Exploded:
    base = Base(d.angle)
    a, b = (base.flat(at_place(p, at, scale)) for p in (d.a, d.b))
    if a[0] > b[0]:
        a, b = b, a
    level = base.flat(at_place(d.line_at, at, scale))[1]
    half = label_width(d.texts, d.flag, style) / 2
    shelf: tuple[Segment, ...] = ()
    if d.shelf:
        label, place = Base(0.0), at_place(d.text_at, at, scale)
        knee = (-level, place[1] - style.text_gap)
        out = half + style.text_gap if d.shelf == "right" else -half - style.text_gap
        shelf = ((knee, (place[0] + out, knee[1])),)
        middle, half = knee[1], 0.0
    else:
        label, place = base, base.flat(at_place(d.text_at, at, scale))
        middle = place[0]
    lo, hi = a[0], b[0]
    if d.outside:
        lo, hi = lo - 2 * style.arrow, hi + 2 * style.arrow
    if d.half:
        lo = max(a[0], (a[0] + b[0]) / 2 - _PAST_MIDDLE)
    shown = (b,) if d.half else (a, b)
    if not a[0] <= middle <= b[0]:  # the text stands beside: the line runs on under it
        lo, hi = min(lo, middle - half), max(hi, middle + half)
    inward = -1.0 if d.outside else 1.0
    texts, frame = _label(d, label, place, style)
    return Exploded(
        name=d.name,
        lines=((base.point(lo, level), base.point(hi, level)), *shelf),
        extensions=tuple(
            (base.point(p[0], start), base.point(p[0], end))
            for p in shown
            for start, end in _extension(p[1], level, style)
        ),
        arrows=tuple(
            _arrow(base.point(p[0], level), base.point(way, 0.0), style)
            for p, way in ((a, inward), (b, -inward))
            if p in shown
        ),
        texts=texts,
        flag=frame,
    )


def _extension(start: float, level: float, style: Style) -> list[tuple[float, float]]:
    away = 1.0 if level > start else -1.0
    if abs(level - start) <= style.gap:
        return []
    return [(start + away * style.gap, level + away * style.overrun)]


def _leader(d: Round | Note, at: Point2, scale: float, style: Style) -> Exploded:
    tip, knee = (at_place(p, at, scale) for p in (d.tip, d.knee))
    room = label_width(d.texts, d.flag, style) + 2 * style.text_gap
    side = 1.0 if d.shelf == "right" else -1.0
    end = (knee[0] + side * room, knee[1])
    place = (knee[0] + side * room / 2, knee[1] + style.text_gap)
    texts, frame = _label(d, Base(0.0), place, style)
    direction = unit(tip, knee if dist(tip, knee) > 1e-9 else end)
    return Exploded(
        name=d.name,
        lines=((tip, knee), (knee, end)) if dist(tip, knee) > 1e-9 else ((knee, end),),
        extensions=(),
        arrows=(_arrow(tip, direction, style),),
        texts=texts,
        flag=frame,
    )


def _arrow(tip: Point2, back: Point2, style: Style) -> Triangle:
    """Give a filled arrow whose body lies in the direction ``back`` from its tip."""
    x, y = tip[0] + back[0] * style.arrow, tip[1] + back[1] * style.arrow
    nx, ny = -back[1] * style.arrow_width / 2, back[0] * style.arrow_width / 2
    return (tip, (x + nx, y + ny), (x - nx, y - ny))


def _label(
    d: Dimension, base: Base, place: tuple[float, float], style: Style
) -> tuple[tuple[Text, ...], tuple[Segment, ...]]:
    """Set the lines of a label at its place (along, across)."""
    middle, foot = place
    stacked = not isinstance(d, Linear) or bool(d.shelf)
    pieces, frame = label_pieces(d.texts, d.flag, style, stacked)
    texts = [
        Text(
            base.point(middle + p.along, foot + p.across),
            p.words,
            p.height,
            "middle",
            base.angle,
            name=d.name,
        )
        for p in pieces
    ]
    if frame is None:
        return tuple(texts), ()
    left, right, low = middle + frame[0], middle + frame[1], foot + frame[2]
    letter = ((left + right) / 2, low + (style.text - style.small_text) / 2)
    texts.append(
        Text(base.point(*letter), d.flag, style.small_text, "middle", base.angle, name=d.name)
    )
    high = low + style.text
    corners = [base.point(*c) for c in ((left, low), (right, low), (right, high), (left, high))]
    return tuple(texts), tuple(zip(corners, [*corners[1:], corners[0]], strict=True))
