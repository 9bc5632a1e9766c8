"""What a view covers on paper: its top and bottom at each station, whether words stand on it."""

from __future__ import annotations

from typing import Any

import numpy as np

from drafting.arrays import folded

_STEP = 1.0
_SAMPLES = 5
_SLACK = 0.3
"""Words may overlap the outline by so little (paper mm)."""


class Silhouette:
    """Top and bottom of strokes (n, 2, 2) at stations one millimetre apart."""

    def __init__(self, strokes: Any) -> None:
        x = strokes[:, :, 0]
        self.start = float(x.min())
        count = int((float(x.max()) - self.start) / _STEP) + 2
        at = self.start + _STEP * np.arange(count)[:, None]
        (left, low), (right, high) = (folded(f, strokes).T for f in (np.minimum, np.maximum))
        over = (left - _STEP <= at) & (at <= right + _STEP)
        self.top = np.where(over, high, -np.inf).max(1)
        self.bottom = np.where(over, low, np.inf).min(1)

    def covers(self, x0: Any, x1: Any, y0: Any, y1: Any) -> Any:
        """Tell for boxes (n each) whether some of what lies in them is covered."""
        share = np.linspace(0.0, 1.0, _SAMPLES)
        x = x0[:, None] + (x1 - x0)[:, None] * share
        k = np.rint((x - self.start) / _STEP).astype(int)
        within = (k >= 0) & (k < len(self.top))
        k = np.clip(k, 0, len(self.top) - 1)
        high = y0[:, None] < self.top[k] - _SLACK
        low = y1[:, None] > self.bottom[k] + _SLACK
        return folded(np.logical_or, within & high & low)
