"""The loose pin that goes with a mount: diameter, grip, length, and what keeps it in.

   head      grip       hole  end
   +--+----------------.----.--.
   |  |                |    |  |  diameter
   +--+----------------'----'--'
      0 ------------->            places are measured from under the head, or from where the
   |<---------- length ------->|  grip begins when there is none

Keeper plate: a flat slot beyond the grip takes the place of the hole; the plate is bolted to the
machine's ear and holds the pin both ways.
"""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass
from drafting.settle.mount import End, PinWay

Retention = Literal["spring clip", "cotter", "two cotters", "keeper plate"]


@dataclass(frozen=True, slots=True)
class LoosePin:
    """A loose pin, lengths in mm from under the head (else from where the grip begins).

    ``start`` and ``end`` are the pin's own ends, ``holes`` the middles of the cross holes.
    ``slot`` is (from, to, depth) of a keeper plate's slot. ``head`` is (diameter, height).
    """

    end_of: End
    way: PinWay
    supplied: bool
    retention: Retention
    grip: float
    start: float
    end: float
    head: tuple[float, float] | None
    hole: float
    holes: tuple[float, ...]
    slot: tuple[float, float, float] | None

    @property
    def table(self) -> str:
        """Give the spec table."""
        return f"{self.end_of}_pin"

    @property
    def name(self) -> str:
        """Give the part's name."""
        return f"{self.end_of} pin"

    @property
    def diameter(self) -> float:
        """Give the shank's diameter."""
        return self.way.pin

    @property
    def length(self) -> float:
        """Give the whole length, head and all."""
        return self.end - self.start
