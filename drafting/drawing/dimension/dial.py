"""The hours round an end view, at the ends of its centre lines, clear of its dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import copysign
from typing import Any

import numpy as np

from drafting.drawing.dimension.costs import solid, text_quads
from drafting.drawing.dimension.picture import Picture
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
from drafting.drawing.sheet.style import Style

_DIAL = 1.2
_DIAL_STEP, _DIAL_STEPS = 2.0, 60


def clear_of(
    dimensions: Sequence[Dimension],
    dial: Sequence[Text],
    scale: float,
    style: Style,
    room: Any = None,
) -> tuple[Text, ...]:
    """Move hours outwards on their centre lines until no dimension or phantom touches them."""
    if not dial:
        return ()
    drawn = [explode(d, (0.0, 0.0), scale, style) for d in dimensions]
    lines = segments([s for d in drawn for s in (*solid(d), *d.extensions)])
    if room is not None:
        lines = np.concatenate([lines, room])
    words = quads([q for d in drawn for q in text_quads(d)])
    out = []
    for hour in dial:
        level = hour.text in ("3", "9")
        x = copysign(1.0, hour.at[0]) if level else 0.0
        y = 0.0 if level else copysign(1.0, hour.at[1])
        for step in range(_DIAL_STEPS):
            place = (hour.at[0] + _DIAL_STEP * step * x, hour.at[1] + _DIAL_STEP * step * y)
            moved = replace(hour, at=place)
            box = quads([text_quad(moved, 0.5)])
            if not len(in_quads(box, lines)[0]) and not len(quads_meet(box, words)[0]):
                break
        out.append(moved)
    return tuple(out)


def struck_through(dial: Sequence[Text]) -> tuple[Segment, ...]:
    """Give a line through each hour, for words to keep off: so it stays where its line ends."""
    corners = (text_quad(hour, 0.5) for hour in dial)
    return tuple((quad[0], quad[2]) for quad in corners)


def dial_of(picture: Picture, scale: float, style: Style) -> tuple[Text, ...]:
    """Write the hours at the ends of the end view's centre lines."""
    x0, y0, x1, y1 = (v * scale for v in picture.box)
    over, high = style.centre_overrun + _DIAL, style.small_text
    half = width("12", high) / 2
    return (
        Text((0.0, y1 + over), "12", high, "middle", name="clock"),
        Text((x1 + over + half, -high / 2), "3", high, "middle", name="clock"),
        Text((0.0, y0 - over - high), "6", high, "middle", name="clock"),
        Text((x0 - over - half, -high / 2), "9", high, "middle", name="clock"),
    )
