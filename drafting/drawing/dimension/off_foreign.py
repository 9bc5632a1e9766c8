"""Keep extension lines off parts that the size does not belong to: there it would be misread."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drafting.drawing.dimension.length_ways import Ground
from drafting.drawing.dimension.owners import Owners
from drafting.drawing.dimension.picture import flat
from drafting.drawing.dimension.ways import Ways
from drafting.drawing.sheet.clash import crossings
from drafting.settle.wishes import Length, Wish

_MISREAD = 60.0


def owners_of(ground: Ground) -> Owners:
    """Give the outlines of a view on paper, part by part."""
    return Owners(
        [(s.piece, ground.picture.chords_of(s) * ground.scale) for s in ground.picture.visible]
    )


def off_foreign(ways: Ways, wish: Wish, ground: Ground, owners: Owners) -> Ways:
    """Make ways dear whose extension lines cross the outline of another part."""
    if not isinstance(wish, Length) or not len(ways.costs):
        return ways
    look = ground.picture.look
    ends = [ground.paper(flat(look, p)) for p in (wish.a, wish.b)]
    thin = np.flatnonzero(ways.thin)
    bad = np.zeros(len(ways.lines), bool)
    for group in owners.foreign(wish.name, ends):
        hit, _ = crossings(ways.lines[thin], owners.segments(group))
        bad[thin[hit]] = True
    return replace(ways, costs=ways.costs + _MISREAD * bad[ways.line_of].any(1))
