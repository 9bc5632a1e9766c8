"""Keep extension lines off parts that the size does not belong to: there it would be misread."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.owners import Owners
from drafting.drawing.dimension.picture import flat
from drafting.drawing.dimension.ways import Ways
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec

_MISREAD = 130.0
_OVER = 8.0
"""What a leader costs that runs over another part."""


def owners_of(ground: Ground) -> Owners:
    """Give the outlines of a view on paper, part by part."""
    return ground.picture.owners.scaled(ground.scale)


def off_foreign(ways: Ways, wish: Wish, ground: Ground, owners: Owners) -> Ways:
    """Make ways dear whose extension lines or leaders cross the outline of another part.

    In the end view all parts lie behind each other.
    """
    if not len(ways.costs) or ground.picture.name == "end":
        return ways
    look = ground.picture.look
    if isinstance(wish, Length):
        places: tuple[Vec, ...] = (wish.a, wish.b)
        cost = _MISREAD
        thin = np.flatnonzero(ways.thin)
    else:
        places = (wish.tip if isinstance(wish, Callout) else wish.centre,)
        cost = _OVER
        thin = np.arange(len(ways.lines))
    ends = [ground.paper(flat(look, p)) for p in places]
    crossed = np.zeros(len(ways.lines))
    crossed[thin] = owners.hits(wish.name, ends, ways.lines[thin]).sum(1)
    return replace(ways, costs=ways.costs + cost * crossed[ways.line_of].sum(1))
