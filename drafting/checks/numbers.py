"""What the checks need to know of a cylinder: plain numbers, each with its origin.

Units: mm, N, MPa, kg, l/s, degrees. None means that nobody said it and no rule gives it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from drafting.checks.steels import Steel
from drafting.records import dataclass
from drafting.settle.carried import Section

Firmness = Literal[
    "given", "measured", "builder", "computed", "table", "derived", "open", "assumed"
]


@dataclass(frozen=True, slots=True)
class Number:
    """A number that knows where it comes from.

    ``given`` was typed, ``measured`` read off an old part, ``builder`` answered, ``computed``
    follows from these alone. ``table`` and ``derived`` sizes are sizes to draw with, ``open`` is a
    best guess, ``assumed`` a rule of the trade: no verdict rests on these four.
    """

    name: str
    value: float
    origin: Firmness = "given"
    why: str = ""

    @property
    def firm(self) -> bool:
        """Tell whether a verdict may rest on it."""
        return self.origin in ("given", "measured", "builder", "computed")


Axis = Literal["y", "z", "skew", "ball"]
"""How a pin lies: along Y (square to 12 o'clock), along Z, at another angle, or a ball."""


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread by the field that holds its word; major diameter and pitch in mm."""

    field: str
    major: float
    pitch: float
    metric: bool


ON_THE_BODY = "on the body"
"""Where a mount is that stands along the body."""


@dataclass(frozen=True, slots=True)
class EndMount:
    """A mount: how it turns, whether it is held, the sections that carry its force.

    ``axis`` is None for an end that does not turn. ``held`` is True or False only when the person
    says whether it is held so that it cannot turn where no pin lets it. ``bolts`` is their steel.
    ``elsewhere``: a mount of the body that is not at its base end.
    """

    end: Literal["body", "rod"]
    axis: Axis | None = None
    held: bool | None = None
    sections: tuple[Section, ...] = ()
    not_judged: tuple[str, ...] = ()
    bolts: Steel | None = None
    bolt_thread: Thread | None = None
    elsewhere: bool = False

    @property
    def where(self) -> str:
        """Say where it is: ``at the base end``."""
        if self.elsewhere:
            return ON_THE_BODY
        return f"at the {'base' if self.end == 'body' else 'rod'} end"

    @property
    def field(self) -> str:
        """Give the name of the mount's table in the spec."""
        return f"{self.end}_mount"


@dataclass(frozen=True, slots=True)
class Duty:
    """What the machine asks. ``angle`` is the stroke above the horizontal in degrees."""

    pressure: Number | None = None
    flow: Number | None = None
    push: Number | None = None
    pull: Number | None = None
    seconds_out: Number | None = None
    seconds_in: Number | None = None
    mass: Number | None = None
    return_pressure: Number | None = None
    safety_factor: Number | None = None
    orientation: str = ""
    angle: Number | None = None
    friction: Number | None = None
    acceleration: Number | None = None
    stopping_distance: Number | None = None
    rod_side: str = ""
    load_guided: bool | None = None
    lifts_people: bool = False


@dataclass(frozen=True, slots=True)
class CylinderNumbers:
    """One cylinder as the checks see it.

    ``body_pivot``, ``gland_face`` and ``rod_pivot`` are places along the axis at the retracted
    position; the gland face lies ``rod_reach`` behind the rod's pivot, which is made of the fields
    named there. ``tube_share`` is how much of a longer stroke lengthens the barrel between body
    pivot and gland: 1 for a mount that keeps its distance to the base, 0 for one at the gland, 0.5
    in the middle. ``sizes`` are all sizes by field, ``steels`` the metals by part. ``port_bores``
    are the clear bores of the ports, by end. ``said`` are the dotted names that the spec's writer
    typed. ``spring`` tells that a spring brings the rod back, ``old`` that it was measured off a
    cylinder in use.
    """

    bore: Number
    rod: Number
    stroke: Number
    barrel_outside: Number
    body_pivot: Number
    gland_face: Number
    rod_pivot: Number
    body: EndMount
    rod_end: EndMount
    steels: Mapping[str, Steel]
    sizes: Mapping[str, Number] = field(default_factory=dict)
    rod_reach: tuple[str, ...] = ()
    tube_share: float = 1.0
    construction: str = "welded"
    action: str = "double"
    spring: bool = False
    piston: str = "sealed"
    working_pressure: Number | None = None
    relief_pressure: Number | None = None
    proof_pressure: Number | None = None
    gland: str = ""
    gland_thread: Thread | None = None
    tie_rod: Thread | None = None
    tie_rod_length: float = 0.0
    port_bores: Mapping[str, Number] = field(default_factory=dict)
    port_ratings: Mapping[str, Number] = field(default_factory=dict)
    duty: Duty = Duty()
    said: frozenset[str] = frozenset()
    old: bool = False

    @property
    def highest_pressure(self) -> Number | None:
        """Give the greatest of working, relief and duty pressure, None without any."""
        all_three = (self.working_pressure, self.relief_pressure, self.duty.pressure)
        known = [p for p in all_three if p is not None]
        return max(known, key=lambda p: p.value) if known else None

    @property
    def mounts(self) -> tuple[EndMount, EndMount]:
        """Give both mounts, body first."""
        return self.body, self.rod_end

    @property
    def both_sides(self) -> bool:
        """Tell whether oil stands on both sides of a sealed piston."""
        return self.action == "double" and self.piston == "sealed"
