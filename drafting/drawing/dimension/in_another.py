"""Words led into a round of another fitting than theirs: there they are read as that one's."""

from __future__ import annotations

from math import dist
from typing import TypeGuard

from drafting.drawing.dimension.owners import group_of, is_fitting, is_port
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.strokes import Arc, Point2
from drafting.settle.wishes import Callout, Wish
from drafting.shape.frame import Vec


def in_another(own: str, at: Point2, picture: Picture) -> bool:
    """Tell whether a point stands within what is seen of another fitting, or of a bolt hole."""
    return any(
        isinstance(s.curve, Arc)
        and (is_fitting(s.piece) or ".bolts" in s.piece)
        and group_of(s.piece) != own
        and dist(s.curve.centre, at) < s.curve.radius
        for s in picture.visible
    )


def behind_another(name: str, tip: Vec, picture: Picture) -> bool:
    """Tell whether of a fitting nothing is seen, and another one where words would be led to it."""
    own = group_of(name)
    return own not in picture.groups and in_another(own, picture.look.flat(tip), picture)


def nowhere_else(wish: Wish, picture: Picture) -> TypeGuard[Callout]:
    """Tell whether words are of ports alone that are behind another fitting, each of them."""
    if not isinstance(wish, Callout) or not is_port(wish.name):
        return False
    each = ((wish.name, wish.tip), *wish.alike)
    return all(behind_another(name, tip, picture) for name, tip in each)
