"""Whether the mounts let the cylinder swing as the machine makes it swing."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees

from drafting.fitting.machine import Distance, Machine
from drafting.fitting.row import GEOMETRY, Row
from drafting.fitting.subject import Subject
from drafting.fitting.travel import stations

STRAIGHT = 0.05
"""Degrees that the cylinder may swing and still count as going straight: play takes them."""
WORDS = {"body": "base", "rod": "rod"}


def swing(m: Machine) -> tuple[float, float]:
    """Give how far cylinder and arm turn over the travel, degrees: at the base, at the rod pin."""
    if isinstance(m.way, Distance):
        return 0.0, 0.0
    ps = stations(m.way)
    axis = [degrees(atan2(p.unit[1], p.unit[0])) for p in ps]
    turned = [_near(a, axis[0]) for a in axis]
    base = max(turned) - min(turned)
    if hasattr(m.way, "at"):
        rod = [a - p.at for a, p in zip(turned, ps, strict=True)]
        return base, max(rod) - min(rod)
    return base, base


def _near(angle: float, other: float) -> float:
    return other + (angle - other + 180.0) % 360.0 - 180.0


def following(s: Subject, m: Machine) -> Iterator[Row]:
    """Refuse mounts that cannot follow: they would bend the rod."""
    for mount, turn in zip(s.mounts, swing(m), strict=True):
        if turn <= STRAIGHT:
            continue
        end = WORDS[mount.end]
        word = s.cylinder.mounts[mount.end]
        if mount.axis is None:
            why = f"a {word} cannot turn, and here it is to turn {turn:.1f} deg: it bends the rod"
            yield Row("lengths", f"{mount.field}.mount", f"{end} mount", "does not fit", "deg",
                      turn, 0.0, -turn, "a mount with a pin or a ball", why, GEOMETRY)  # fmt: skip
    a, b = (mount.axis for mount in s.mounts)
    pins = {x for x in (a, b) if x in ("y", "z", "skew")}
    if len(pins) > 1 and max(swing(m)) > STRAIGHT:
        why = (
            "the two pins are turned against each other: only one of them can lie square to the "
            "plane of the travel, the other end binds and bends the rod"
        )
        yield Row("lengths", "mounts.turned", "pins turned", "does not fit", "deg", None, None,
                  None, "pins alike at both ends, or a ball at one", why, GEOMETRY)  # fmt: skip
