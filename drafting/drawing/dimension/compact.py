"""Keep words near the view, and of all ways those that may be taken.

What sticks out far costs scale, or a larger sheet.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drafting.arrays import Ints
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.ways import Ways

_ASIDE, _BEYOND = 26.0, 34.0
"""How far (paper mm) words may stick out beside and above or below the outline for nothing."""
_PER_MM = 0.2
_HOPELESS = 40.0
"""Ways that cost so much more than the cheapest, among nothing else, are not looked at.

It is more than to cross the extension line of another size costs. No sample takes one dearer by
more than 17 (measured); they are four in ten of all ways.
"""


def compact(ways: Ways, ground: Ground) -> Ways:
    """Make ways dear by how far their words stick out."""
    if not len(ways.texts):
        return ways
    x0, y0, x1, y1 = (v * ground.scale for v in ground.picture.box)
    x, y = ways.texts[:, :, 0], ways.texts[:, :, 1]
    aside = np.maximum(x.max(1) - x1, x0 - x.min(1)) - _ASIDE
    beyond = np.maximum(y.max(1) - y1, y0 - y.min(1)) - _BEYOND
    out = np.maximum(aside, 0.0) + np.maximum(beyond, 0.0)
    return replace(ways, costs=ways.costs + _PER_MM * out[ways.text_of].max(1))


def hopeful(ways: Ways) -> Ways:
    """Leave out the ways that nobody would take, with the lines and texts of these alone."""
    if not len(ways.costs):
        return ways
    kept = np.flatnonzero(ways.costs <= ways.costs.min() + _HOPELESS)
    make = ways.make
    line, line_of = _used(ways.line_of[kept], len(ways.lines))
    text, text_of = _used(ways.text_of[kept], len(ways.texts))
    return Ways(
        ways.costs[kept],
        ways.lines[line],
        ways.thin[line],
        ways.main[line],
        line_of,
        ways.texts[text],
        text_of,
        lambda i: make(int(kept[i])),
    )


def _used(index: Ints, count: int) -> tuple[Ints, Ints]:
    """Give what of ``count`` things an index uses, and the index into these."""
    used = np.zeros(count, bool)
    used[index] = True
    return np.flatnonzero(used), (np.cumsum(used) - 1)[index]
