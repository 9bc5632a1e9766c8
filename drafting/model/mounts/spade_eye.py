"""Spade eye: a flat bar, straight to the face, with one bushed hole.

 width                     nose      offset
|<--->|                   |<-- o ------->|
|-----|                   .--------------|
| pin |                  (  (o) pin      | outside
|-----|                   `--------------|
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.lug import ear_outline
from drafting.model.mounts.pin_eye import PinEye
from drafting.model.mounts.pinned import (
    ACROSS,
    SMALL,
    Offset,
    root,
    settle_nose,
    settle_outside,
    settle_pin_hole,
    settled_offset,
)
from drafting.model.mounts.read import AT_PIN, EYE, NO_WASHERS, NOSE, OUTSIDE, PIN, PIN_EDGES
from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host, MountDrawing
from drafting.settle.shop_sizes import neat, neat_up
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Length
from drafting.shape.frame import Y
from drafting.shape.pieces import Piece, Prism


@dataclass(frozen=True, slots=True)
class SpadeEye(PinEye):
    """A bar as thick as ``left`` plus ``right``, on the centre line, welded on with its end."""

    word: ClassVar[str] = "spade eye"
    also: ClassVar[str] = "spade spade-end"
    fields: ClassVar[tuple[str, ...]] = (
        "pin", "hole", "bushing", "width", "outside", "nose", "offset",
    )  # fmt: skip
    rod_fields: ClassVar[tuple[str, ...]] = ()
    example: ClassVar[Mapping[str, object]] = {
        "pin": 1.0, "hole": 1.016, "bushing": 1.25, "width": 1.0,
    }  # fmt: skip
    sheet_words: ClassVar[Mapping[str, str]] = {"width": "Bar thickness", "outside": "Bar height"}
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        AT_PIN,
        (
            *PIN,
            ToRead("W", "width", "thickness of the bar", "size", "caliper", NO_WASHERS),
            ToRead("J", "bushing", "outside of the bushing, where its end shows", "size",
                   "caliper", "", False),
            NOSE,
            OUTSIDE,
        ),
        {**EYE, "bushing": 44.0, "width": 32.0, "nose": 40.0},
        PIN_EDGES,
    )  # fmt: skip

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> SpadeEye:
        """Settle bar, hole and bushing; the bar must leave metal before the face."""
        t = host.table
        hole = settle_pin_hole(book, host, bushed=1.25)
        outside = settle_outside(book, host, hole, "bar")
        nose = settle_nose(book, host, outside)
        thick = Rule(neat(0.6 * host.rod, host.units), "a bar 0.6 of the rod thick")
        width = book.size(f"{t}.width", thick, interface=True)
        least = outside / 2
        typed = book.number(f"{t}.offset")
        if typed is not None and typed < least - SMALL:
            book.fault(
                "eye-in-face",
                f"{t}.offset",
                f"{book.say(typed)} from the pin centre to the face is too short; the least is "
                f"{book.say(least)}: half of outside",
            )
        why = "as long before the face as the bar is high"
        usual = Offset(neat_up(outside, host.units), least, False, why)
        offset = usual if typed is None else Offset(typed, typed, True, "")
        return cls(hole, width / 2, width / 2, nose, False, offset, None)

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the bar, its hole and its bushing."""
        t, face, half = host.table, settled_offset(host, s), self.nose.outside / 2
        outline = ear_outline(half, self.nose.radius, face)
        bar = Piece(f"{t}.eye", Prism(outline, -self.right, self.left), ACROSS)
        room = min(half, self.left, host.diameter / 2)
        held = root(t, face, room, face - self.hole.bore / 2)
        wide = Length(f"{t}.width", (0.0, -self.right, 0.0), (0.0, self.left, 0.0), Y, rank=3)
        return MountDrawing(
            (bar, held, *self.hole.pieces(self.right, self.left)),
            (
                *self.hole.wishes(),
                wide,
                *self.nose.wishes(),
                *self.offset.wishes(host, face, host.diameter / 2),
            ),
            (self.hole.axis(self.right, self.left, host.end),),
            self.hole.parts(host, ((-self.right, self.left),)),
        )
