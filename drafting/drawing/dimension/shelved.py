"""Upright dimension lines that turn level at their end and carry a long text there.

A text along the line would reach far above the view. Paper millimetres from the view's origin.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.ways import Label, Ways, shelf_ways
from drafting.drawing.sheet.explode import label_width
from drafting.drawing.sheet.sheet import Dimension, Linear
from drafting.settle.wishes import Length

_LEAST = 14.0
"""A shorter text (paper mm) stands along its line, but for half ones, whose room is narrow."""
_BEYOND = (3.0, 7.0, 12.0)
_OVER = 0.6
"""What it costs to turn at all, and to turn one step farther out."""
_CLEAR = 3.0
"""Between the outline and a shelf over it."""
_STEM, _PER_STEM = 12.0, 0.05
"""So far (paper mm) a text stands from what it measures as a matter of course; what each mm costs
that it is farther, where the line runs on to it past other parts."""


def shelved(
    wish: Length,
    label: Label,
    ground: Ground,
    lines: tuple[Any, Any, Any],
    turns: tuple[float, float],
    outside: bool,
    costs: Any,
    half: bool = False,
) -> list[Ways]:
    """Give the ways to turn the text of some lines level, above and below, left and right.

    Line j of k runs between two points (``lines[0]``, ``lines[1]``: k, 2 each) at the x
    ``lines[2][j]`` and may turn above the first and below the second of the heights ``turns``; a
    ``half`` one has its arrow at the upper point and turns above it.
    """
    style = ground.style
    room = label_width(label.texts, label.flag, style) + 2 * style.text_gap
    deep = 2 * style.text_gap + (len(label.texts) - 1) * style.text * style.line_pitch
    if room < _LEAST and not half:
        return []
    some = []
    x, (top, bottom) = lines[2], turns
    for side in (1.0, -1.0):
        over, under = ground.reach(x + min(side * room, 0.0), x + max(side * room, 0.0))
        low = np.minimum(bottom, under - _CLEAR) - style.text - deep  # the text is above it
        for n, more in enumerate(_BEYOND):
            cost = costs + _OVER * (n + 1)
            high = np.maximum(top + more, over + _CLEAR + more)
            some.append((high, side, cost + _of_stem(high - top)))
            if not half:
                some.append((low - more, side, cost + _of_stem(bottom - low + more)))
    on = np.repeat(np.arange(len(x)), len(some))
    knees = np.stack([k for k, _, _ in some], 1).ravel()
    sides = np.tile([side for _, side, _ in some], len(x))
    cost = np.stack([c for _, _, c in some], 1).ravel()

    def make(i: int) -> Dimension:
        x, side = float(lines[2][on[i]]), float(sides[i])
        a, b = ((float(p[on[i], 0]), float(p[on[i], 1])) for p in lines[:2])
        text = (x + side * room / 2, float(knees[i]) + style.text_gap)
        return Linear(
            wish.name,
            ground.model(a),
            ground.model(b),
            90.0,
            ground.model((x, a[1])),
            ground.model(text),
            label.texts,
            label.size,
            outside,
            label.reference,
            label.flag,
            half,
            shelf="right" if side > 0.0 else "left",
        )

    return [shelf_ways(label, style, lines, on, knees, sides, outside, cost, make)]


def _of_stem(long: Any) -> Any:
    """Give what lines cost that run on so far past what they measure."""
    return _PER_STEM * np.maximum(long - _STEM, 0.0)
