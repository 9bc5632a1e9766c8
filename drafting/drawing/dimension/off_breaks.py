"""Keep letters and leaders off the gaps of a broken view: level lines alone may cross one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.ways import Ways

_AIR = 0.5
"""Free paper (mm) beside a gap."""
_ASTRIDE = 1000.0
_LEVEL = 1e-6


def off_gaps(ways: Ways, gaps: Sequence[tuple[float, float]]) -> Ways:
    """Make ways dear that have a text or a line over a gap (paper x) which is not level."""
    if not gaps or not len(ways.costs):
        return ways
    level = np.abs(ways.lines[:, 0, 1] - ways.lines[:, 1, 1]) < _LEVEL
    line = np.zeros(len(ways.lines), bool)
    text = np.zeros(len(ways.texts), bool)
    for lo, hi in gaps:
        line |= _over(ways.lines, lo, hi) & ~level
        text |= _over(ways.texts, lo, hi)
    bad = _any(line, ways.line_of) | _any(text, ways.text_of)
    return replace(ways, costs=ways.costs + _ASTRIDE * bad)


def _over(things: Any, lo: float, hi: float) -> Any:
    x = things[:, :, 0]
    return (folded(np.minimum, x) < hi + _AIR) & (folded(np.maximum, x) > lo - _AIR)


def _any(flags: Any, of: Any) -> Any:
    return folded(np.logical_or, flags[of])
