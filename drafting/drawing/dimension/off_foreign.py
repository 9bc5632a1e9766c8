"""Keep extension lines off parts that the size does not belong to: there it would be misread."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.owners import Owners
from drafting.drawing.dimension.picture import flat
from drafting.drawing.dimension.ways import Ways
from drafting.drawing.sheet.strokes import Point2
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec

_MISREAD = 130.0
_OVER = 8.0
"""What a leader costs that runs over another part."""
_PAST_ALL = 60.0
"""An extension line that runs so far (paper mm) along its view passes the other parts."""
_IN_LINE = 0.05
"""So far (paper mm) an extension line may lie beside the end that it is for."""


def owners_of(ground: Ground) -> Owners:
    """Give the outlines of a view on paper, part by part."""
    return ground.picture.owners.scaled(ground.scale)


def off_foreign(ways: Ways, wish: Wish, ground: Ground, owners: Owners) -> Ways:
    """Make ways dear whose extension lines or leaders cross or pass the outlines of other parts.

    In the end view all parts lie behind each other.
    """
    if not len(ways.costs) or ground.picture.name == "end":
        return ways
    look = ground.picture.look
    crossed = np.zeros(len(ways.lines))
    if isinstance(wish, Length):
        cost = _MISREAD
        thin = np.flatnonzero(ways.thin)
        ends = [ground.paper(flat(look, p)) for p in (wish.a, wish.b)]
        for rows, begun in _begun(ways.lines[thin], ends, ground.style.gap):
            own = ways.lines[thin[rows]]
            hits = owners.hits(wish.name, ends, own) | owners.hits(wish.name, begun, own)
            crossed[thin[rows]] = hits.sum(1)
        crossed[thin] += _within_view(ways.lines[thin], ground) > _PAST_ALL
    else:
        cost = _OVER
        place: Vec = wish.tip if isinstance(wish, Callout) else wish.centre
        crossed += owners.hits(wish.name, [ground.paper(flat(look, place))], ways.lines).sum(1)
    return replace(ways, costs=ways.costs + cost * crossed[ways.line_of].sum(1))


def _within_view(lines: Any, ground: Ground) -> Any:
    """Give how far (paper mm) lines run within the box of their view's outlines."""
    x0, y0, x1, y1 = (v * ground.scale for v in ground.picture.box)
    low = np.maximum(lines.min(1), (x0, y0))
    high = np.minimum(lines.max(1), (x1, y1))
    inside = (high >= low - _IN_LINE).all(1)
    return np.hypot(*np.maximum(high - low, 0.0).T) * inside


def _begun(
    lines: Any, ends: Sequence[Point2], gap: float
) -> Iterator[tuple[Any, Sequence[Point2]]]:
    """Give the extension lines of each side, and where they begin: there the size is read."""
    way = lines[:, 1] - lines[:, 0]
    way = (way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]).round(6)
    for out in np.unique(way[np.isfinite(way).all(1)], axis=0):
        rows = np.flatnonzero((way == out).all(1))
        begins = lines[rows, 0] - gap * out
        aside = np.array((-out[1], out[0]))
        found = []
        for end in ends:
            off = np.abs((begins - end) @ aside)
            k = int(off.argmin())
            x, y = begins[k].tolist()
            found.append((x, y) if off[k] < _IN_LINE else end)
        yield rows, found
