"""What the checks need to know of a cylinder: plain numbers, each with its origin.

Units: mm, N, MPa, kg, l/s, degrees. None means that nobody said it and no rule gives it.
"""

from __future__ import annotations

from dataclasses import field
from typing import Literal

from drafting.records import dataclass

Firmness = Literal[
    "given", "measured", "builder", "computed", "table", "derived", "open", "assumed"
]


@dataclass(frozen=True, slots=True)
class Number:
    """A number that knows where it comes from.

    ``given`` was typed, ``computed`` follows from given ones alone. ``table`` and ``derived`` sizes
    are sizes to draw with, ``assumed`` is a material or rule of the trade that nobody confirmed:
    no verdict rests on these three.
    """

    name: str
    value: float
    origin: Firmness = "given"
    why: str = ""

    @property
    def firm(self) -> bool:
        """Tell whether a verdict may rest on it."""
        return self.origin in ("given", "measured", "builder", "computed")


@dataclass(frozen=True, slots=True)
class Material:
    """A metal: yield and tensile strength in MPa, with the row that says so."""

    name: str
    strength: Number
    tensile: Number | None = None
    source: str = ""


Axis = Literal["y", "z", "skew", "ball"]
"""How a pin lies: along Y (square to 12 o'clock), along Z, at another angle, or a ball."""


@dataclass(frozen=True, slots=True)
class EndMount:
    """A mount with what meets its pin.

    ``axis`` is None for a mount without a pivot (flange, foot, thread, plain, none). ``held`` is
    True only when the person says that the mount is held so that it cannot turn where its pin does
    not let it. ``width`` is the eye's, tube's or ring's; for a clevis over the ears, with ``gap``
    between them; for a trunnion over the pins, with ``shoulders`` between them.
    ``thread`` is (major diameter, pitch), metric unless ``unified``.
    """

    end: Literal["body", "rod"]
    mount: str
    axis: Axis | None = None
    held: bool = False
    pin: Number | None = None
    hole: Number | None = None
    width: Number | None = None
    gap: Number | None = None
    nose: Number | None = None
    outside: Number | None = None
    shoulders: Number | None = None
    thread: tuple[Number, Number] | None = None
    unified: bool = False
    weld_leg: Number | None = None
    weld_run: Number | None = None
    bearing_rating: Number | None = None

    @property
    def field(self) -> str:
        """Give the name of the mount's table in the spec."""
        return f"{self.end}_mount"


@dataclass(frozen=True, slots=True)
class TieRods:
    """Tie rods: how many, thread (major diameter, pitch), length and preload of each (N)."""

    count: Number
    diameter: Number
    pitch: Number
    length: Number
    unified: bool = False
    preload: Number | None = None


@dataclass(frozen=True, slots=True)
class Gland:
    """How the gland is held; for a threaded one the thread in the barrel (sizes in mm)."""

    held_by: str = ""
    diameter: Number | None = None
    pitch: Number | None = None
    engaged: Number | None = None


@dataclass(frozen=True, slots=True)
class BaseWeld:
    """The weld between barrel and base cap: a fillet's leg or a groove's depth (mm)."""

    kind: Literal["fillet", "groove"]
    size: Number


@dataclass(frozen=True, slots=True)
class Duty:
    """What the machine asks. ``angle`` is the stroke above the horizontal in degrees."""

    pressure: Number | None = None
    flow: Number | None = None
    push: Number | None = None
    pull: Number | None = None
    mass: Number | None = None
    return_pressure: Number | None = None
    safety_factor: Number | None = None
    orientation: str = ""
    angle: Number | None = None
    load_guided: bool | None = None
    lifts_people: bool = False


@dataclass(frozen=True, slots=True)
class CylinderNumbers:
    """One cylinder as the checks see it.

    ``body_pivot``, ``gland_face`` and ``rod_pivot`` are places along the axis at the retracted
    position. ``tube_share`` is how much of a longer stroke lengthens the barrel between body pivot
    and gland: 1 for a mount that keeps its distance to the base, 0 for one at the gland, 0.5 in the
    middle. ``port_bores`` are the clear bores of the ports, by end. ``said`` are the dotted names
    that the spec's writer typed.
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
    barrel_material: Material
    rod_material: Material
    pin_material: Material
    mount_material: Material
    tube_share: float = 1.0
    retracted: Number | None = None
    construction: str = "welded"
    action: str = "double"
    piston: str = "sealed"
    working_pressure: Number | None = None
    relief_pressure: Number | None = None
    proof_pressure: Number | None = None
    base_thickness: Number | None = None
    gland: Gland = Gland()
    base_weld: BaseWeld | None = None
    tie_rods: TieRods | None = None
    port_bores: dict[str, Number] = field(default_factory=dict)
    duty: Duty = Duty()
    said: frozenset[str] = frozenset()

    @property
    def highest_pressure(self) -> Number | None:
        """Give the greater of working and relief pressure, None when neither is known."""
        known = [p for p in (self.working_pressure, self.relief_pressure) if p is not None]
        return max(known, key=lambda p: p.value) if known else None

    @property
    def mounts(self) -> tuple[EndMount, EndMount]:
        """Give both mounts, body first."""
        return self.body, self.rod_end
