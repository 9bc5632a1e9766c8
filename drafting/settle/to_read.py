"""What a person reads on a mount with tape and caliper, and how the worksheet shows the mount."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.records import dataclass
from drafting.spec.given import Typed

Kind = Literal["length", "bore", "rod", "pin", "hole", "tube", "thread", "size", "place"]
Tool = Literal["tape", "caliper", "micrometer"]


@dataclass(frozen=True, slots=True)
class ToRead:
    """One thing to read: its letter without the end's number, and the field of the mount it gives.

    ``field`` ends in a number for half of a pair (``plate.0``). ``needed``: the spec is not whole
    without it.
    """

    letter: str
    field: str
    what: str
    kind: Kind
    tool: Tool
    tip: str = ""
    needed: bool = True


@dataclass(frozen=True, slots=True)
class OnWorksheet:
    """How a mount is read: its datum in words, its letters, a sample that shows each of them.

    ``sample`` holds fields in mm for a bore of 80 and a rod of 45. ``edges`` are the letters of the
    round thing whose edges bound a length; a mount without one ends in a face. ``around``: it is
    measured all round the axis too. ``close_up`` is from where to where the worksheet shows it, in
    mm of the sample from the datum along the axis; None shows what lies before the cylinder.
    ``inside_thread``: its thread is read in the hole, over the crests that bound it.
    ``one_row``: two bolts stand in one row across, so that the pitch along it is not there to read.
    """

    datum: str
    letters: tuple[ToRead, ...]
    sample: Mapping[str, Typed]
    edges: tuple[str, ...] = ()
    around: bool = False
    close_up: tuple[float, float] | None = None
    one_row: bool = False
    inside_thread: bool = False

    def reads(self, field: str) -> bool:
        """Tell whether a letter stands for a field, or for a part of it."""
        return any(x.field == field or x.field.startswith(f"{field}.") for x in self.letters)

    def has(self, kind: Kind) -> bool:
        """Tell whether a thing of some kind is read."""
        return any(x.kind == kind for x in self.letters)
