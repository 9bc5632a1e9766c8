"""Flange on the barrel: at the base its face away from the rod is the datum, elsewhere the other.

         thickness                 thickness
datum -->|<-->|                       |<-->|<-- datum
         +----+                       +----+
         |    |-----------------------|    |----+
         |    |        barrel         |    |    |=== rod
         |    |-----------------------|    |----+
         +----+                       +----+
         base                    anywhere else
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar, Literal

from drafting.model.mounts.along_barrel import EDGE, Place, settle_place, stack_need, with_ports
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
from drafting.shape.frame import ORIGIN, X, clock_direction, scale
from drafting.shape.pieces import Piece, cylinder


@dataclass(frozen=True, slots=True)
class Flange(Mount):
    """A plate on the barrel; ``offset`` (mm, at the base only) is datum to closed end."""

    place: Place
    plate: FlangePlate
    offset: float

    word: ClassVar[str] = "flange"
    also: ClassVar[str] = "flanged plate"
    ends: ClassVar[tuple[End, ...]] = ("body",)
    fields: ClassVar[tuple[str, ...]] = (
        "position",
        "plate",
        "thickness",
        "seat",
        "bolts",
        "offset",
    )
    example: ClassVar[Mapping[str, object]] = {
        "position": "rod end",
        "plate": [6.5, 6.5],
        "thickness": 1,
        "seat": "rod side",
        "bolts": {"count": 4, "hole": 0.656, "pitch": [5, 5]},
    }
    datum: ClassVar[str] = "flange face"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the flange's face",
        FLANGE,
        {
            "position": "base",
            "plate": (160.0, 130.0),
            "thickness": 25.0,
            "bolts.count": 4,
            "bolts.hole": 14.0,
            "bolts.pitch": (130.0, 100.0),
        },
        around=True,
        close_up=(-128.0, 128.0),
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Flange:
        """Settle place, plate and bearing face."""
        t = host.table
        place = settle_place(book, host, "rod end", "a flange at the rod end", 0.0, 0.0)
        at_base = place.at == "base"
        datum = "base side" if at_base else "rod side"
        seat = settle_word(book, f"{t}.seat", datum, "the face that the lengths are measured to")
        plate = settle_flange_plate(book, host, seat)
        if not at_base:
            if book.spec.has(f"{t}.offset"):
                book.fault(
                    "offset-and-position",
                    f"{t}.offset",
                    f"offset is for a flange at the base, and this one stands {_stands(place)}"
                    f"{'' if book.spec.has(f'{t}.position') else ', the usual place'}; leave "
                    'offset out, or type position = "base"',
                )
            return cls(replace(place, behind=plate.thickness), plate, 0.0)
        offset = book.size(
            f"{t}.offset", Rule(plate.thickness, "the barrel stands against the plate")
        )
        if offset > plate.thickness + EDGE:
            book.fault(
                "flange-off-barrel",
                f"{t}.offset",
                f"the barrel would begin {book.say(offset)} from the flange's outer face, beyond "
                f"its thickness of {book.say(plate.thickness)}: the two would not touch",
            )
        return cls(replace(place, behind=-offset), plate, offset)

    def needs(self, host: Host, least: Mapping[str, float]) -> Mapping[str, float]:
        """Give the length of a square cap or head that has room for its ports beside the plate."""
        found = self.place.on_end(*self._span(), least) if host.square else None
        if found is None:
            return {}
        end, start, stop = found
        long = with_ports(host, self, end, start, stop)
        return stack_need(end, long, least) if long > stop else {}

    def taken(self, host: Host, clock: float, across: float) -> tuple[float, float] | None:
        """Give the plate's faces where it stands out of what it is on."""
        _, y, z = scale(clock_direction(clock), host.diameter / 2)
        return self._span() if self.plate.plate.margin(y, z) > EDGE else None

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the datum face to the closed end."""
        return -self.place.from_closed_end(sizes)

    def carried(self, host: Host) -> Carried:
        """Give bolts and weld; the plate's bending and prying are not judged."""
        pulled: Literal["push", "pull"] = "pull" if self.plate.seat == "base side" else "push"
        weld = () if host.square else (welded(self.place.table),)
        return Carried(
            (self.plate.bolted(pulled), *weld),
            not_judged=(PLATE,),
            tube_share=self.place.share,
        )

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the place; the plate must hold on the barrel."""
        self.place.enter(book, s)
        x0, x1 = self._span()
        if min(x1, s.barrel_end) - max(x0, s.closed_end - EDGE) < 0:
            barrel = s.barrel_end - s.closed_end
            book.fault(
                "off-barrel",
                f"{self.place.table}.position",
                f"the plate would reach from {book.say(x0 - s.closed_end)} to "
                f"{book.say(x1 - s.closed_end)} from the closed end and not touch the barrel, "
                f"which is {book.say(barrel)} long",
            )
        elif not self._at_base and x0 < s.closed_end - EDGE:
            book.find(
                "flange-datum",
                "warning",
                f"{self.place.table}.position",
                "the plate reaches past the closed end, and its face towards the rod is the "
                'datum; with position = "base" its face away from the rod would be',
            )

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give plate and holes; what stands before the barrel's end is bored for the gland."""
        x0, x1 = self._span()
        pieces = [*self.plate.pieces(x0)]
        if x1 > s.barrel_end + EDGE:
            bore = cylinder(s.gland_outside / 2, s.barrel_end, x1 + 1.0)
            pieces.append(Piece(f"{self.place.table}.gland_bore", bore, cut=True))
        wishes: list[Wish] = [*self.plate.wishes(x0, facing(host, self.plate.seat))]
        if not self._at_base:
            wishes.append(self.place.wish(s))
        elif abs(self.offset - self.plate.thickness) > EDGE:
            end = (self.offset, 0.0, 0.0)
            wishes.append(Length(f"{self.place.table}.offset", ORIGIN, end, X, rank=3))
        if abs(s.closed_end - x1) < EDGE:
            room = host.diameter / 2
            pieces.append(root(self.place.table, x1, room, self.plate.thickness))
        return MountDrawing(tuple(pieces), tuple(wishes), self.plate.symbols(host, x0))

    @property
    def _at_base(self) -> bool:
        return self.place.at == "base"

    def _span(self) -> tuple[float, float]:
        """Give the plate's faces in the mount's frame."""
        thick = self.plate.thickness
        return (0.0, thick) if self._at_base else (-thick, 0.0)


def _stands(place: Place) -> str:
    """Say where a flange stands."""
    return (
        "at a distance"
        if isinstance(place.at, float)
        else f"in the {place.at}"
        if place.at == "middle"
        else f"at the {place.at}"
    )
