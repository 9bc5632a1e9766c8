"""What a picture keeps once it is known which sizes and words stand on it.

Hidden edges are drawn where something that stands there is of them, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.owners import group_of
from drafting.drawing.dimension.picture import NUT_ROOM, Picture, without_hidden
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.views.mouths import clear_strokes
from drafting.settle.wishes import Diameter

_KEPT = 64
_MOUNTS = frozenset({"body_mount", "rod_mount"})
_RECESSES = "cylinder.nut_recess"
_NO_EDGE = ".bolts.circle"


def cleared(
    picture: Picture,
    choices: Sequence[Choice],
    turned: frozenset[str],
    behind: frozenset[str] = frozenset(),
) -> Picture:
    """Leave out hidden strokes that explain nothing in the end view, as all of a ``turned`` mount.

    In other views only ports may be so that are ``behind`` others, where nothing is said of them.
    Of a half section the mouths are cleared.
    """
    if picture.section:
        return _mouths_cleared(picture, picture.section.above)
    here = [c.wish for c in choices if c.picture is picture]
    if picture.name != "end":
        gone = behind - {group_of(w.name) for w in here}
        kept = (s for s in picture.strokes if s.visible or group_of(s.piece) not in gone)
        return replace(picture, strokes=tuple(kept)) if gone else picture
    groups = {w.name.partition(".")[0] for w in here} & _MOUNTS - turned
    if any(w.name == _RECESSES for w in here):
        groups.add(NUT_ROOM)
    rims = {
        (picture.look.flat(w.centre), w.diameter / 2)
        for w in here
        if isinstance(w, Diameter) and not w.name.endswith(_NO_EDGE)
    }
    return _explained(picture, frozenset(groups), frozenset(rims))


@lru_cache(maxsize=_KEPT)
def _mouths_cleared(picture: Picture, edge: float | None) -> Picture:
    return replace(picture, strokes=clear_strokes(picture.strokes, edge))


@lru_cache(maxsize=_KEPT)
def _explained(
    picture: Picture, groups: frozenset[str], rims: frozenset[tuple[Point2, float]]
) -> Picture:
    return replace(picture, strokes=without_hidden(picture.strokes, groups, rims))
