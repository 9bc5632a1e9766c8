"""What both flanges share: a bolted plate, its thickness, and the face that bears on the machine.

The plate's datum face and the face that bears need not be the same one: both are dimensioned.
"""

from __future__ import annotations

from typing import Literal

from drafting.model.mounts.bolts import Bolts, Plate, settle_bolted_plate
from drafting.model.mounts.threaded import ALONG
from drafting.records import dataclass
from drafting.settle.carried import MountBolts
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up
from drafting.settle.wishes import Callout, Length, Symbol, Wish
from drafting.shape.frame import Vec, X, scale
from drafting.shape.pieces import Piece, Prism

PLATE = "bending and prying of a flange's plate: its bolts are taken as pulled straight"


@dataclass(frozen=True, slots=True)
class FlangePlate:
    """Plate, bolts, thickness (mm); ``seat`` is the bearing face, ``base side`` or ``rod side``."""

    table: str
    plate: Plate
    bolts: Bolts
    thickness: float
    seat: str

    def pieces(self, x0: float) -> tuple[Piece, ...]:
        """Give the plate from x0 on, and the holes in it."""
        x1 = x0 + self.thickness
        plate = Prism(self.plate.outline(), x0, x1)
        return (Piece(f"{self.table}.plate", plate, ALONG), *self.bolts.pieces(x0, x1))

    def wishes(self, x0: float, bearing: Vec) -> tuple[Wish, ...]:
        """Give the plate's sizes; ``bearing`` is the direction in which the seat faces."""
        x1 = x0 + self.thickness
        seat = x0 if bearing[0] < 0 else x1
        t, top = self.table, (0.0, self.plate.z / 2)
        y, z = 0.94 * self.plate.y / 2, 0.94 * self.plate.z / 2
        edge, *edges = ((seat, *p) for p in ((0.0, z), (0.0, -z), (y, 0.0), (-y, 0.0)))
        words = (f"BEARING FACE, {self.seat.upper()}",)
        return (
            *self.plate.wishes(seat),
            *self.bolts.wishes(seat),
            Length(f"{t}.thickness", (x0, *top), (x1, *top), X, rank=2),
            Callout(f"{t}.seat", edge, bearing, words, others=tuple(edges)),
        )

    def bolted(self, pulled_by: Literal["push", "pull"]) -> MountBolts:
        """Give the bolts, drawn off the seat by a push or a pull."""
        return MountBolts(len(self.bolts.points), f"{self.table}.bolts.hole", pulled_by)

    def symbols(self, host: Host, x0: float) -> tuple[Symbol, ...]:
        """Give the centre lines of the holes, and of their circle."""
        return self.bolts.symbols(host, x0, x0 + self.thickness)


def settle_flange_plate(book: Ledger, host: Host, seat: str) -> FlangePlate:
    """Settle plate, bolts and thickness for a bearing face that is settled already."""
    plate, bolts = settle_bolted_plate(book, host)
    thick = neat_up(max(0.25 * host.bore, 10.0), host.units)
    thickness = book.size(
        f"{host.table}.thickness", Rule(thick, "0.25 of the bore, at least 10 mm")
    )
    return FlangePlate(host.table, plate, bolts, thickness, seat)


def facing(host: Host, seat: str) -> Vec:
    """Give the direction in the mount's frame in which a bearing face looks."""
    to_rod = X if host.end == "body" else scale(X, -1.0)
    return to_rod if seat == "rod side" else scale(to_rod, -1.0)
