"""Whether the mounts let the cylinder swing as the machine makes it swing."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.fitting.machine import Machine
from drafting.fitting.row import GEOMETRY, Row
from drafting.fitting.subject import Subject
from drafting.fitting.travel import swing

STRAIGHT = 0.05
"""Degrees that the cylinder may swing and still count as going straight: play takes them."""
WORDS = {"body": "base", "rod": "rod"}


def following(s: Subject, m: Machine) -> Iterator[Row]:
    """Refuse mounts that cannot follow: they would bend the rod."""
    for mount, turn in zip(s.mounts, swing(m.way), strict=True):
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
    if len(pins) > 1 and max(swing(m.way)) > STRAIGHT:
        why = (
            "the two pins are turned against each other: only one of them can lie square to the "
            "plane of the travel, the other end binds and bends the rod"
        )
        yield Row("lengths", "mounts.turned", "pins turned", "does not fit", "deg", None, None,
                  None, "pins alike at both ends, or a ball at one", why, GEOMETRY)  # fmt: skip
