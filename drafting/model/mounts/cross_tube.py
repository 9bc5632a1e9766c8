r"""Cross tube: a tube across the end, the pin through it.

    width
|<--------->|          ---.
+-----------+         /    \  outside
|-----------| pin    |  o   |
+-----------+         \    /
      |  |            `-.-'
      face      datum -->|  |<-- offset to the face
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.grease import grease_fitting
from drafting.model.mounts.pinned import (
    SMALL,
    Offset,
    PinHole,
    root,
    settle_outside,
    settle_pin_hole,
    settled_offset,
)
from drafting.model.mounts.read import AT_PIN, EYE, NO_WASHERS, OUTSIDE, PIN, PIN_EDGES, SIDES
from drafting.model.mounts.sides import EYE_FIELDS, settle_sides, side_wishes, which_follows
from drafting.records import dataclass
from drafting.settle.carried import Carried, length, round_hole, single_eye, welded
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing, PinWay, Turns
from drafting.settle.shop_sizes import neat
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Diameter
from drafting.shape.frame import ORIGIN, Y, Z, along
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder

SADDLE = 0.7
"""Half height of what joins tube and face, in radii of the tube: a tube that only touched the face
along a line would be no one metal with it."""


@dataclass(frozen=True, slots=True)
class CrossTube(Mount):
    """A cross tube with its hole along Y, reaching from -right to +left (world +Y is left)."""

    hole: PinHole
    left: float
    right: float
    outside: float
    grease: bool
    offset: Offset
    follows: str

    word: ClassVar[str] = "cross tube"
    also: ClassVar[str] = "tube"
    ends: ClassVar[tuple[End, ...]] = ("body", "rod")
    fields: ClassVar[tuple[str, ...]] = EYE_FIELDS
    check_fields: ClassVar[tuple[str, ...]] = ("ear", "bearing_rating")
    example: ClassVar[Mapping[str, object]] = {"pin": 1.0, "hole": 1.016, "width": 1.5}
    turns: ClassVar[Turns] = "pin"
    datum: ClassVar[str] = "pin"
    sheet_words: ClassVar[Mapping[str, str]] = {"width": "Tube length", "outside": "Tube OD"}
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        AT_PIN,
        (
            *PIN,
            ToRead("W", "width", "length of the tube", "size", "caliper", NO_WASHERS),
            *SIDES,
            OUTSIDE,
        ),
        {**EYE, "width": 100.0},
        PIN_EDGES,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> CrossTube:
        """Settle the tube; its wall and its length must leave metal."""
        t = host.table
        hole = settle_pin_hole(book, host)
        outside = settle_outside(book, host, hole, "tube")
        nose = book.number(f"{t}.nose")
        if nose is not None and abs(nose - outside / 2) > SMALL:
            book.fault(
                "round-nose",
                f"{t}.nose",
                f"a cross tube is round: its nose is half of outside, {book.say(outside / 2)}; "
                "leave nose out or change outside",
            )
        usual = Rule(neat(0.8 * host.bore, host.units), "a tube as long as 0.8 of the bore")
        left, right = settle_sides(book, host, "tube", usual)
        follows = which_follows(book, host)
        typed = book.number(f"{t}.offset")
        if typed is not None and typed < hole.bore / 2:
            book.fault(
                "hole-in-face",
                f"{t}.offset",
                f"{book.say(typed)} from the pin centre to the face is less than half of the bore "
                f"({book.say(hole.bore / 2)}): the pin would run through the face",
            )
        against = outside / 2
        offset = Offset(
            against if typed is None else typed,
            against if typed is None else typed,
            typed is not None,
            "the tube lies against the face (half of outside)",
        )
        return cls(hole, left, right, outside, book.flag(f"{t}.grease"), offset, follows)

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset."""
        return sizes[f"{self.hole.table}.offset"]

    def pin_way(self) -> PinWay:
        """Give the tube."""
        return PinWay(self.hole.pin, self.right, self.left, False)

    def carried(self, host: Host) -> Carried:
        """Give pin, tube, and the weld that holds it."""
        t = self.hole.table
        pin = single_eye(t, "width", bool(self.hole.bushing))
        half = length(f"{t}.outside", 0.5)
        eye = round_hole(t, self.hole.in_metal, half, length(f"{t}.width"))
        return Carried((pin, eye, welded(t)))

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give tube, the saddle that joins it to the face, the hole, bushing and fitting."""
        t, offset, half = host.table, settled_offset(host, s), self.outside / 2
        right, left = (min(side, host.diameter / 2) for side in (self.right, self.left))
        saddle, tall = box(0.0, offset, -right, left), SADDLE * half
        held = root(t, offset, min(tall, right, left), offset - self.hole.bore / 2)
        drill: tuple[Piece, ...] = ()
        parts: tuple[Part, ...] = ()
        if self.grease:
            top = along(Z, (0.0, 0.0, half))
            cut, fitting = grease_fitting(host, top, half, half - self.hole.hole / 2)
            drill, parts = (cut,), (fitting,)
        pieces = (
            Piece(f"{t}.tube", cylinder(half, -self.right, self.left), along(Y)),
            Piece(f"{t}.saddle", Prism(saddle, -tall, tall)),
            held,
            *self.hole.pieces(self.right, self.left),
            *drill,
        )
        return MountDrawing(
            pieces,
            (
                *self.hole.wishes(),
                *side_wishes(t, self.left, self.right, self.follows),
                Diameter(f"{t}.outside", ORIGIN, Y, self.outside, hole=False),
                *self.offset.wishes(host, offset, host.diameter / 2),
            ),
            (self.hole.axis(self.right, self.left, host.end),),
            (*self.hole.parts(host, ((-self.right, self.left),), drill), *parts),
        )
