"""Names for the arrays that carry many points, lines or flags at once (numpy).

Rows are picked by ``take`` and ``compress``: three times as fast as by an index in brackets.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Flags = NDArray[np.bool_]
Hits = tuple[Ints, Floats]
"""For points on curves: each one's curve, and the parameter there."""
Pairs = tuple[Ints, Ints]
"""Which of one list goes with which of another."""


def folded(f: Callable[[Any, Any], Any], some: Any) -> Any:
    """Fold the second axis of an array (n, few, ...), column by column.

    As ``f.reduce`` does, which takes ten to forty times as long along rows of two to four.
    """
    return reduce(f, some.swapaxes(0, 1))
