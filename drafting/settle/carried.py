"""What a mount carries: the sections in which its force is held, for the checks.

Sizes are named by their fields, so that a check knows which of them were typed and can say which
one to type. A mount declares what is loaded in it; the checks know nothing of mounts.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.records import dataclass
from drafting.values import Origin


@dataclass(frozen=True, slots=True)
class Sum:
    """A length in mm made of fields: parts times fields, added up."""

    terms: tuple[tuple[float, str], ...]

    @property
    def fields(self) -> tuple[str, ...]:
        """Give the fields, in order."""
        return tuple(field for _, field in self.terms)

    def of(self, at: Mapping[str, float]) -> float:
        """Give the length for sizes by field."""
        return sum(part * at[field] for part, field in self.terms)


def length(field: str, part: float = 1.0) -> Sum:
    """Give a part of one field."""
    return Sum(((part, field),))


@dataclass(frozen=True, slots=True)
class LoosePin:
    """A loose pin: two bearers of ``outer`` each, one of ``inner`` between them.

    ``bears`` is the mount's own metal along the pin. Either bearer is the machine's where its field
    is the mount's ``ear``; ``room`` is where the machine's has to go in, None where it is free.
    ``bushing`` tells that the pin runs in a bushing or a bearing, which then carries what its maker
    says: the mount's ``bearing_rating``.
    """

    pin: Sum
    outer: Sum
    inner: Sum
    bears: Sum
    room: Sum | None = None
    bushing: bool = False


@dataclass(frozen=True, slots=True)
class Eye:
    """Metal round a hole: ``hole`` in the metal itself, ``outside`` across it, ``nose`` past it.

    ``hole`` is the bushing's or bearing's outside where there is one. ``nose`` is from the pin's
    centre to the edge; ``thick`` is the metal along the pin.
    """

    hole: Sum
    outside: Sum
    nose: Sum
    thick: Sum


@dataclass(frozen=True, slots=True)
class Stubs:
    """Two round stubs, each with half the force, spread over ``length`` from its root."""

    pin: Sum
    length: Sum


@dataclass(frozen=True, slots=True)
class Fillet:
    """Fillet welds that hold the mount: ``leg``, and ``run`` of all of them together."""

    leg: Sum
    run: Sum


@dataclass(frozen=True, slots=True)
class RodThread:
    """A thread on or in the rod's end; ``field`` holds its word, ``major`` and ``pitch`` in mm.

    ``engaged`` is None where what is screwed on is the machine's; ``less`` mm of it are lost to a
    jam nut and an adjustment. ``seats`` tells that a push passes by the thread, over a shoulder.
    ``inside`` is a thread in the rod.
    """

    field: str
    major: float
    pitch: float
    metric: bool
    engaged: Sum | None = None
    seats: bool = True
    inside: bool = False
    less: float = 0.0


@dataclass(frozen=True, slots=True)
class MountBolts:
    """Bolts of a plate: how many, and the field of their holes' diameter.

    ``pulled_by`` is the force that draws the plate off its seat. With ``height`` the force passes
    beside the seat, at that distance, and the rows stand ``pitch`` apart along it; None there: one
    row.
    """

    count: int
    hole: str
    pulled_by: Literal["push", "pull", "beside"]
    height: Sum | None = None
    pitch: Sum | None = None


Section = LoosePin | Eye | Stubs | Fillet | RodThread | MountBolts


@dataclass(frozen=True, slots=True)
class Taken:
    """A size in mm that only the checks need, taken from a table or a rule when nobody typed it."""

    field: str
    value: float
    why: str
    origin: Origin = "table"


@dataclass(frozen=True, slots=True)
class Carried:
    """What is loaded in a mount, and what of it is not judged, with the reason.

    ``tube_share`` is how much of a longer stroke lengthens the barrel between a body mount's datum
    and the gland.
    """

    sections: tuple[Section, ...]
    not_judged: tuple[str, ...] = ()
    taken: tuple[Taken, ...] = ()
    tube_share: float = 1.0


def single_eye(table: str, inner: str, bushing: bool) -> LoosePin:
    """Give the pin of a single eye between the machine's ears."""
    wide = length(f"{table}.{inner}")
    pin, ear = length(f"{table}.pin"), length(f"{table}.ear")
    return LoosePin(pin, ear, wide, wide, bushing=bushing)


def round_hole(table: str, hole: str, nose: Sum, thick: Sum) -> Eye:
    """Give the metal round the hole whose field is ``hole``."""
    return Eye(length(f"{table}.{hole}"), length(f"{table}.outside"), nose, thick)


def welded(table: str) -> Fillet:
    """Give the weld of a mount that is welded on."""
    return Fillet(length(f"{table}.weld_leg"), length(f"{table}.weld_run"))
