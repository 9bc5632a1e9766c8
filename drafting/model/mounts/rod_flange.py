"""Flange on the rod: a bolted plate; its outer face is the datum."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from drafting.model.mounts.along_barrel import EDGE
from drafting.model.mounts.flange_plate import PLATE, FlangePlate, facing, settle_flange_plate
from drafting.model.mounts.pinned import root
from drafting.model.mounts.read import FLANGE
from drafting.model.mounts.words import settle_word
from drafting.records import dataclass
from drafting.settle.carried import Carried, welded
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet
from drafting.settle.wishes import Length, Wish
from drafting.shape.frame import ORIGIN, X


@dataclass(frozen=True, slots=True)
class RodFlange(Mount):
    """A plate on the rod's end; ``offset`` (mm) is its outer face to the rod's end."""

    plate: FlangePlate
    offset: float

    word: ClassVar[str] = "flange"
    also: ClassVar[str] = "flanged plate"
    ends: ClassVar[tuple[End, ...]] = ("rod",)
    fields: ClassVar[tuple[str, ...]] = ("plate", "thickness", "seat", "bolts", "offset")
    example: ClassVar[Mapping[str, object]] = {
        "plate": 5,
        "thickness": 0.75,
        "seat": "rod side",
        "bolts": {"count": 6, "hole": 0.531, "circle": 3.75, "first_hole": "on"},
    }
    not_sized: ClassVar[str] = "a flange on the rod comes on top of the length: size it as plain"
    datum: ClassVar[str] = "flange face"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the flange's face",
        FLANGE,
        {
            "plate": (120.0, 100.0),
            "thickness": 20.0,
            "bolts.count": 4,
            "bolts.hole": 11.0,
            "bolts.pitch": (95.0, 75.0),
        },
        around=True,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> RodFlange:
        """Settle the plate; the rod must reach it."""
        t = host.table
        seat = settle_word(book, f"{t}.seat", "rod side", "the outer face bears on the machine")
        plate = settle_flange_plate(book, host, seat)
        offset = book.size(f"{t}.offset", Rule(plate.thickness, "the rod stands against the plate"))
        if offset > plate.thickness + EDGE:
            book.fault(
                "flange-off-rod",
                f"{t}.offset",
                f"the rod would end {book.say(offset)} from the flange's outer face, beyond its "
                f"thickness of {book.say(plate.thickness)}: the two would not touch",
            )
        return cls(plate, offset)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the outer face to the rod's end."""
        return self.offset

    def carried(self, host: Host) -> Carried:
        """Give bolts and weld; the plate's bending and prying are not judged."""
        pulled: Literal["push", "pull"] = "pull" if self.plate.seat == "rod side" else "push"
        return Carried((self.plate.bolted(pulled), welded(host.table)), not_judged=(PLATE,))

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give plate and holes."""
        thick = self.plate.thickness
        wishes: list[Wish] = [*self.plate.wishes(0.0, facing(host, self.plate.seat))]
        pieces = self.plate.pieces(0.0)
        if abs(self.offset - thick) < EDGE:
            pieces = (*pieces, root(host.table, thick, host.diameter / 2, thick))
        else:
            end = (self.offset, 0.0, 0.0)
            wishes.append(Length(f"{host.table}.offset", ORIGIN, end, X, rank=3))
        return MountDrawing(
            pieces,
            tuple(wishes),
            self.plate.symbols(host, 0.0),
        )
