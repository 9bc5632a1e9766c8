"""The ways of wishes on a ground and what they cost among its strokes, found once for each.

A view is placed again where its words have to keep nearer, or with one wish changed: what is known
of the others is still true.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from drafting.drawing.dimension.compact import compact
from drafting.drawing.dimension.costs import on_paper
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.leader_ways import note_ways, round_ways
from drafting.drawing.dimension.length_ways import length_ways
from drafting.drawing.dimension.off_breaks import off_gaps
from drafting.drawing.dimension.off_foreign import off_foreign
from drafting.drawing.dimension.ways import Label, Ways
from drafting.settle.wishes import Callout, Length, Wish

Said = tuple[Wish, Label]
"""A wish with what is printed on it."""
_MOST = 400
"""What is known of more on one ground is forgotten: who types changes words often."""
Known = tuple[Ways, Any]
"""The ways of a wish, and what each costs with what is drawn (tenths)."""


def known(wanted: Sequence[Said], ground: Ground) -> list[Known]:
    """Give what is known of each, in order; what is new is found, and kept with the ground."""
    if len(ground.found) > _MOST:
        ground.found.clear()
    new = [said for said in dict.fromkeys(wanted) if said not in ground.found]
    if new:
        ways = [(said[0], off_gaps(_ways(*said, ground), ground.gaps)) for said in new]
        found = [compact(w, ground) for w in off_foreign(ways, ground)]
        costs = on_paper(found, ground.strokes, ground.centre_marks, ground.hidden)
        ground.found.update(zip(new, zip(found, costs, strict=True), strict=True))
    return [ground.found[said] for said in wanted]


def _ways(wish: Wish, label: Label, ground: Ground) -> Ways:
    match wish:
        case Length():
            return length_ways(wish, label, ground)
        case Callout():
            return note_ways(wish, label, ground)
        case _:
            return round_ways(wish, label, ground)
