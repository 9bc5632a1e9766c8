"""Linear dimensions by their lines and texts, wherever those stand.

Paper millimetres from the view's origin.
"""

from __future__ import annotations

from typing import Any

from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.ways import Label, Ways, linear_ways
from drafting.drawing.sheet.explode import Base, label_width
from drafting.drawing.sheet.sheet import Dimension, Linear
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style
from drafting.settle.wishes import Length

PER_SHIFT = 0.02
BESIDE = 1.0
"""What it costs a text to stand aside by a mm, and not between its arrows."""
_UPRIGHT, _PER_UPRIGHT = 14.0, 0.5
"""What a long text (paper mm) costs that stands upright beside its size."""


def linears(
    wish: Length,
    label: Label,
    ground: Ground,
    ends: tuple[Any, Any],
    angle: float,
    lines: Any,
    on: Any,
    texts: Any,
    outside: bool,
    costs: Any,
    half: bool = False,
) -> Ways:
    """Give dimensions on paper: from and to (``ends``) and a point of each line (k, 2 each).

    Way i takes line ``on[i]`` and has its text at ``texts[i]``.
    """
    base = Base(angle)

    def model(rows: Any, i: int) -> Point2:
        x, y = rows[i].tolist()
        return ground.model((x, y))

    def make(i: int) -> Dimension:
        return Linear(
            wish.name,
            model(ends[0], on[i]),
            model(ends[1], on[i]),
            angle,
            model(lines, on[i]),
            model(texts, i),
            label.texts,
            label.size,
            outside,
            label.reference,
            label.flag,
            half,
        )

    levels, places = base.flat(lines.T)[1], base.flat(texts.T)
    return linear_ways(label, ground.style, base, ends, levels, on, places, outside, costs, make)


def upright_cost(label: Label, style: Style) -> float:
    """Give what a label costs that stands upright."""
    return _PER_UPRIGHT * max(0.0, label_width(label.texts, label.flag, style) - _UPRIGHT)
