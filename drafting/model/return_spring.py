"""The return spring: where the rod is out it stands between the piston and the end that breathes.

Who pushes packs it against the gland; who pulls stretches it behind the piston. The coil is the
builder's: as drawn it fills what is free round the rod.
"""

from __future__ import annotations

from drafting.model.ports.action import Action
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout, Length, Spring, Wish
from drafting.shape.frame import X, Z

_NAME = "cylinder.spring_space"
_LEAST = 1e-6


def spring_of(action: Action, s: Stations, stroke: float) -> Spring | None:
    """Give the spring where the rod is out by ``stroke`` (mm); None where no room was counted."""
    if action.word == "pull":
        start, end, packed = s.oil_side, s.piston_back + stroke, s.piston_back - s.oil_side
    else:
        start, end = s.piston_front + stroke + s.stop_tube, s.gland_inner
        packed = end - start
    if not action.spring or packed < _LEAST:
        return None
    return Spring(_NAME, (start, 0.0, 0.0), (end, 0.0, 0.0), s.rod / 2, s.bore / 2)


def spring_wish(action: Action, spring: Spring) -> Wish:
    """Say the spring: by the length of its room where that is packed, else by its name."""
    x0, x1, r = spring.start[0], spring.end[0], spring.outer
    if action.word == "pull":
        middle = ((x0 + x1) / 2, 0.0, (spring.inner + spring.outer) / 2)
        return Callout(_NAME, middle, Z, ("SPRING",), "extended")
    ends = ((x0, 0.0, r), (x1, 0.0, r))
    return Length(_NAME, *ends, X, rank=3, note="SPRING", pose="extended")
