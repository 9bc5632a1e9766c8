"""Keep words near the view: what sticks out far costs scale, or a larger sheet."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.ways import Ways
from drafting.drawing.sheet.on_paper import Box

_ASIDE, _BEYOND = 26.0, 34.0
"""How far (paper mm) words may stick out beside and above or below the outline for nothing."""
_PER_MM = 0.2
_NO_ROOM, _PER_MM_OUT = 100.0, 2.0
"""What it costs to stand where the page has no room, as bad as to touch, and each mm of it."""


def compact(ways: Ways, ground: Ground) -> Ways:
    """Make ways dear by how far their words stick out."""
    if not len(ways.texts):
        return ways
    x0, y0, x1, y1 = (v * ground.scale for v in ground.picture.box)
    (left, low), (right, high) = (folded(f, ways.texts).T for f in (np.minimum, np.maximum))
    aside = np.maximum(right - x1, x0 - left) - _ASIDE
    beyond = np.maximum(high - y1, y0 - low) - _BEYOND
    costs = _PER_MM * (np.maximum(aside, 0.0) + np.maximum(beyond, 0.0))
    return replace(ways, costs=ways.costs + folded(np.maximum, costs[ways.text_of]))


def without_room(ways: Ways, within: Box | None) -> Any:
    """Give what ways (n) cost that have no room on the page: what it has is ``within`` a box."""
    if within is None or not len(ways.texts):
        return np.zeros(len(ways.costs))
    over = np.fmax(
        folded(np.maximum, _over(ways.texts, within)[ways.text_of]),
        folded(np.maximum, _over(ways.lines, within)[ways.line_of]),
    )
    return np.where(over > 0.0, _NO_ROOM + _PER_MM_OUT * over, 0.0)


def _over(shapes: Any, within: Box) -> Any:
    """Give how far (mm) shapes (n, k, 2) stand out of a box; a shape of NaN does not."""
    x0, y0, x1, y1 = within
    (left, low), (right, high) = (folded(f, shapes).T for f in (np.minimum, np.maximum))
    out = np.stack([right - x1, x0 - left, high - y1, y0 - low]).max(0)
    return np.nan_to_num(out, nan=-np.inf)
