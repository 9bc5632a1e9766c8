"""What a construction is: the body's parts round the bore, and where a port can sit on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar, Protocol

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.tube_sizes import TubeSizes
from drafting.settle.wishes import Symbol, Wish
from drafting.shape.pieces import Part, Piece

Span = tuple[float, float]
"""From and to along X (mm)."""


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a port of one end sits.

    ``surface`` is the distance of the seat from the axis; a ``flat`` seat needs no boss.
    ``inside`` is the distance at which its drilling ends. ``x`` is the place when none was typed;
    from ``lo`` to ``hi`` a boss or spotface stays on its part, so that rounding keeps to that.
    ``part`` is the part that carries it: barrel, gland, cap or head.
    """

    part: str

    surface: float
    flat: bool
    inside: float
    x: float
    lo: float
    hi: float
    why: str


class Shell(Protocol):
    """A construction. Sizes in mm; stations are those of the closed stack."""

    word: ClassVar[str]
    flat_seats: ClassVar[bool]

    @property
    def gland_outside(self) -> float:
        """Give the diameter of what shows of the gland."""
        ...

    @classmethod
    def settle(cls, book: Ledger, tube: TubeSizes) -> Shell:
        """Settle the construction's own sizes."""
        ...

    @property
    def host_diameter(self) -> float:
        """Give what a mount on the closed end sits on."""
        ...

    @property
    def skirt(self) -> float:
        """Give how much of the barrel a gland goes over, as a share of the gland's length."""
        ...

    @property
    def widest(self) -> float:
        """Give the largest outside of the bare body, across."""
        ...

    @property
    def widest_port(self) -> float:
        """Give the widest spotface or boss that a seat takes."""
        ...

    @property
    def wall(self) -> float:
        """Give the metal that a port finds below its seat."""
        ...

    def gives(self, gives: Sequence[Give], need: float, units: str) -> list[Give]:
        """Give the axial sizes with the construction's own preferences.

        ``need`` is the room in mm that the widest port takes along the axis.
        """
        ...

    def projection(self, gland: Give, units: str) -> Rule:
        """Give how much of the gland shows beyond the barrel."""
        ...

    def seat(
        self, s: Stations, end: str, boss: float, passage: float, taken: Span | None = None
    ) -> Seat:
        """Give the seat of a port at the base or the rod end, for a boss this wide.

        ``taken`` is from where to where (world x) the body's mount is in its way.
        """
        ...

    def lies(self, end: str, boss: float, sizes: Mapping[str, float]) -> float:
        """Give how far from the closed end a port's usual place is, for the sizes of the stack."""
        ...

    def seat_at(self, s: Stations, seat: Seat, x: float) -> Seat:
        """Give the seat that a port at world x really has, for the one of its end."""
        ...

    def judge_clock(self, book: Ledger, field: str, clock: float) -> None:
        """Enter a fault when a port cannot point that way."""
        ...

    def parts(
        self, s: Stations, welded: Sequence[Piece], ports: Sequence[tuple[str, Piece]]
    ) -> tuple[Part, ...]:
        """Give the body's parts.

        ``welded`` are pieces of the body mount, ``ports`` pieces of ports with the part
        that carries them.
        """
        ...

    def wishes(self, s: Stations) -> tuple[Wish, ...]:
        """Give the construction's own dimensions."""
        ...

    def symbols(self, s: Stations) -> tuple[Symbol, ...]:
        """Give the construction's own centre lines and threads."""
        ...
