"""Pins in their holes, the sleeves between them, and the metal that boring leaves.

The pin is the machine's: its own where a machine is given, else that of the original.
"""

from __future__ import annotations

from drafting.records import dataclass
from drafting.replacing.rule import Known, Sides, number
from drafting.settle.mount import End

SAME, SLACK = 0.05, 0.3
"""Pins (mm) that nobody tells apart; how much looser a hole may be before it is called so."""
RUNNING = 0.2
"""Clearance of a pin in its hole, mm, where nobody typed both; common practice, from memory."""
LEAST_WALL = 1.5
"""Wall of a sleeve or bush, mm, below which it is no sleeve: it cracks or creeps out."""
LEAST_EYE = 0.4
"""Metal round a hole, as a part of it, that must stay after boring; common practice, memory."""


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve or bush, mm: pressed into ``outside``, the pin runs in ``inside``."""

    outside: float
    inside: float

    @property
    def wall(self) -> float:
        """Give its wall."""
        return (self.outside - self.inside) / 2

    @property
    def sound(self) -> bool:
        """Tell whether it is thick enough to be one."""
        return self.wall >= LEAST_WALL - 1e-6


def sleeve(hole: float, pin: float, clearance: float = RUNNING) -> Sleeve:
    """Give the sleeve that fills a hole down to a pin with its running clearance, all mm."""
    return Sleeve(hole, pin + clearance)


def metal_left(
    hole: float, outside: float | None, nose: float | None = None, bushing: float | None = None
) -> float | None:
    """Give the least metal round a hole after boring, mm; None where nobody knows the eye.

    A bushing thinner than it may be is bored through: what is left counts from the hole all the
    same.
    """
    around = [x for x in (outside and outside / 2, nose) if x is not None]
    return min(around) - max(hole, bushing or 0.0) / 2 if around else None


@dataclass(frozen=True, slots=True)
class Pin:
    """What is known of a pin in its hole, mm.

    ``guessed``: nobody read the pin, it is as thick as its hole at the most.
    """

    pin: float
    hole: float | None
    guessed: bool = False

    @property
    def clearance(self) -> float:
        """Give how loose it is."""
        return RUNNING if self.hole is None else max(self.hole - self.pin, 0.0)


def pin_of(known: Known, end: End) -> Pin | None:
    """Give pin and hole of a mount, None where neither is known."""
    pin, hole = (number(known, f"{end}_mount.{n}") for n in ("pin", "hole"))
    if pin is None and hole is None:
        return None
    return Pin(pin if pin is not None else hole or 0.0, hole, pin is None)


def machine_pin(s: Sides, end: End) -> Pin | None:
    """Give the pin that is in the machine, and the hole of its ears where that is known."""
    ears = "base_ears" if end == "body" else "rod_ears"
    own, hole = number(s.machine, f"{ears}.pin"), number(s.machine, f"{ears}.hole")
    old = pin_of(s.old, end)
    if own is None and old is None:
        return None
    if own is not None or old is None:
        return Pin(own or 0.0, hole)
    return Pin(old.pin, hole, old.guessed)
