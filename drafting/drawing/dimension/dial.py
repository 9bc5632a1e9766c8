"""The hours round an end view, at the ends of its centre lines, clear of its dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import copysign
from typing import Any

import numpy as np

from drafting.drawing.dimension.costs import solid, text_quads
from drafting.drawing.sheet.clash import (
    Segment,
    in_quads,
    quads,
    quads_meet,
    segments,
    text_quad,
)
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Dimension, Text
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style

_DIAL = 1.2
_DIAL_STEP, _NEAR, _DIAL_STEPS = 2.0, 4, 60
"""An hour moves so far (paper mm) at once, stays in line so many times, and moves so often."""
_ASIDE = 1.0
"""Between an hour and its centre line (paper mm) where it stands beside the end of that."""
_BESIDE = np.array([(-3.0, 0.0), (3.0, 0.0), (3.0, 0.0), (-3.0, 0.0)])
"""Nearer beside words an hour is read with them (``8 HOLES 12``): what its corners keep free."""


def clear_of(
    dimensions: Sequence[Dimension],
    dial: Sequence[Text],
    scale: float,
    style: Style,
    room: Any = None,
) -> tuple[Text, ...]:
    """Move hours on their centre lines until no dimension or phantom touches them.

    One that would come far from its view stands beside its line's end where that is free.
    """
    if not dial:
        return ()
    drawn = [explode(d, (0.0, 0.0), scale, style) for d in dimensions]
    lines = segments([s for d in drawn for s in (*solid(d), *d.extensions)])
    if room is not None:
        lines = np.concatenate([lines, room])
    words = quads([q for d in drawn for q in text_quads(d)])
    out = []
    for hour in dial:
        for place in _places(hour):
            moved = replace(hour, at=place)
            box = quads([text_quad(moved, 0.5)])
            beside = box + _BESIDE
            if not len(in_quads(box, lines)[0]) and not len(quads_meet(beside, words)[0]):
                break
        out.append(moved)
    return tuple(out)


def _places(hour: Text) -> Iterator[Point2]:
    """Give where an hour may stand, the best first: in line, beside its line's end, far in line."""
    (x, y), level = hour.at, hour.text in ("3", "9")
    out = (copysign(1.0, x), 0.0) if level else (0.0, copysign(1.0, y))
    wide = hour.height / 2 if level else width(hour.text, hour.height) / 2
    off = wide + _ASIDE
    near, far = range(_NEAR), range(_NEAR, _DIAL_STEPS)
    sides = [(n, aside) for n in (-1, *near) for aside in (off, -off)]
    for n, aside in (*((n, 0.0) for n in near), *sides, *((n, 0.0) for n in far)):
        step = _DIAL_STEP * n
        yield (x + out[0] * step + aside * (not level), y + out[1] * step + aside * level)


def struck_through(dial: Sequence[Text]) -> tuple[Segment, ...]:
    """Give a line through each hour, for words to keep off: so it stays where its line ends."""
    corners = (text_quad(hour, 0.5) for hour in dial)
    air = _BESIDE[2][0]
    return tuple(((a[0] - air, a[1]), (b[0] + air, b[1])) for a, _, b, _ in corners)


def dial_of(drawn: Any, style: Style) -> tuple[Text, ...]:
    """Write the hours at the ends of the centre lines of an end view, clear of what is drawn.

    That are points (n, 2) of its outlines and of its centre circles, in paper mm.
    """
    (x0, y0), (x1, y1) = drawn.min(0).tolist(), drawn.max(0).tolist()
    over, high = style.centre_overrun + _DIAL, style.small_text
    half = width("12", high) / 2
    return (
        Text((0.0, y1 + over), "12", high, "middle", name="clock"),
        Text((x1 + over + half, -high / 2), "3", high, "middle", name="clock"),
        Text((0.0, y0 - over - high), "6", high, "middle", name="clock"),
        Text((x0 - over - half, -high / 2), "9", high, "middle", name="clock"),
    )
