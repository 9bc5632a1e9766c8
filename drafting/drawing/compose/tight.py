"""How near to its view each word has to stand, for the views to fit a page at a scale.

Views that were dressed as they like best may need more room than the page has, though their
outlines do not. What is too much is taken from where words stand out farthest. Paper millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drafting.drawing.dimension.picture import ViewName
from drafting.drawing.sheet.on_paper import Box

_LEAST = {0: 9.0, 1: 14.5}
"""What stays across and down: centre lines beside a view, one strip with its text above it."""
_HALVINGS = 9
"""How often the room between the least and the most is halved: to a fifth of a millimetre."""
_FEWER = 6
"""How often what is left beside a view is halved: to about a millimetre."""
_FILLED = 0.1
"""Words that leave no more (mm) of their room than this fill it."""
_SHARES = 4
"""Two views beside or above each other have two sides each."""

Grown = dict[tuple[ViewName, int], float]
"""How far words stand out of a view on each side: 0 left, 1 below, 2 right, 3 above."""
_ABOVE = 3


def rooms(
    bare: Mapping[ViewName, Box],
    dressed: Mapping[ViewName, Box],
    most: tuple[float, float],
    around: Callable[[Mapping[ViewName, Box]], Box],
    had: Mapping[ViewName, Box] | None = None,
    again: bool = False,
) -> dict[ViewName, Box] | None:
    """Give the box of each view that its words stand within, for all to fit ``most`` (wide, high).

    The mappings hold boxes round the views' origins; ``around`` gives the box round views in their
    places. Words that fill the room that they ``had``, or more, come no nearer: others have to.
    None where that cannot be. Where words are near ``again``, they may stand above a view as far
    out as beside it.
    """
    grown = {(n, k): abs(dressed[n][k] - bare[n][k]) for n in bare for k in range(4)}
    asked = {(n, k): abs(had[n][k] - bare[n][k]) for n, k in grown} if had else {}
    full = {side for side, room in asked.items() if grown[side] >= room - _FILLED}
    limits: Grown = {}
    for axis in (0, 1):

        def free(some: Grown, axis: int = axis) -> float:
            box = around({n: _box(bare[n], n, {**grown, **some}) for n in bare})
            return most[axis] - (box[axis + 2] - box[axis])

        mine = {side: g for side, g in grown.items() if side[1] % 2 == axis}
        may = {side: g for side, g in mine.items() if side not in full}
        found = _limits(may, _LEAST[axis], free) if may else None
        if found is None:
            return None
        limits.update({**mine, **(_above(mine, found, free) if again else found)})
    return {n: _box(bare[n], n, limits) for n in bare}


def _box(bare: Box, name: ViewName, grown: Grown) -> Box:
    left, below, right, above = (grown[name, k] for k in range(4))
    return (bare[0] - left, bare[1] - below, bare[2] + right, bare[3] + above)


def _limits(grown: Grown, least: float, free: Callable[[Grown], float]) -> Grown | None:
    """Give how far words may stand out: farther where all fit, else the largest are cut alike.

    What need not be cut keeps what it had. ``free`` tells how much of the page is left over.
    """
    if (spare := free(grown)) >= 0.0:
        return {side: g + spare / _SHARES for side, g in grown.items()}
    low, high = least, max(grown.values())
    if high <= least or free(_cut(grown, low)) < 0.0:
        return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if free(_cut(grown, middle)) >= 0.0 else (low, middle)
    limits = _cut(grown, low)
    for side in sorted(grown, key=lambda side: -grown[side]):
        whole = {**limits, side: grown[side]}
        if free(whole) >= 0.0:
            limits = whole
    return limits


def _above(grown: Grown, limits: Grown, free: Callable[[Grown], float]) -> Grown:
    """Give limits that let words stand above a view as far out as those of one beside it do.

    What is in the way below may go there.
    """
    stand = {side: min(g, grown[side]) for side, g in limits.items()}
    left, most = free(stand), max(limits.values())
    more: Grown = {}
    for side in (side for side in limits if side[1] == _ABOVE):
        low, high = limits[side], most
        for _ in range(_FEWER):
            middle = (low + high) / 2
            low, high = (low, middle) if free({**stand, side: middle}) < left else (middle, high)
        more[side] = low
    return {**limits, **more}


def _cut(grown: Grown, level: float) -> Grown:
    return {side: min(g, level) for side, g in grown.items()}
