"""What all pin mounts share: pin, finished hole, bushing, and the eye round them."""

from __future__ import annotations

from dataclasses import dataclass

from drafting.model.frame import ORIGIN, Y, along
from drafting.model.ledger import Ledger, Rule
from drafting.model.mounts.base import Host
from drafting.model.neat import neat, neat_up
from drafting.model.pieces import Part, Piece, cylinder
from drafting.model.stack import Give
from drafting.model.tube_parts import Stations
from drafting.model.wishes import CentreLine, Diameter, Wish

SMALL = 0.02
"""Sizes closer than this (mm) are the same."""


@dataclass(frozen=True, slots=True)
class PinHole:
    """Pin, finished hole and bushing (0 when none is fitted), in mm."""

    table: str
    pin: float
    hole: float
    bushing: float
    hole_typed: bool

    @property
    def bore(self) -> float:
        """Give the diameter cut into the eye itself."""
        return self.bushing or self.hole

    def pieces(self, right: float, left: float) -> tuple[Piece, ...]:
        """Give the cut through an eye that reaches from y = -right to y = left."""
        cut = cylinder(self.bore / 2, -right - 1.0, left + 1.0)
        name = "bushing" if self.bushing else "hole"
        return (Piece(f"{self.table}.{name}", cut, along(Y), cut=True),)

    def parts(self, host: Host, spans: tuple[tuple[float, float], ...]) -> tuple[Part, ...]:
        """Give the bushings, one for each span (y0, y1)."""
        if not self.bushing:
            return ()
        pieces: list[Piece] = []
        for k, (y0, y1) in enumerate(spans):
            tag = f"{self.table}.bushing{k or ''}"
            pieces.append(Piece(tag, cylinder(self.bushing / 2, y0, y1), along(Y)))
        hole = cylinder(self.hole / 2, spans[0][0] - 1.0, spans[-1][1] + 1.0)
        pieces.append(Piece(f"{self.table}.hole", hole, along(Y), cut=True))
        return (Part(f"{host.end} bushing", host.end, tuple(pieces)),)

    def wishes(self) -> tuple[Wish, ...]:
        """Give the hole's diameter, with the pin it is for."""
        name = f"{self.table}.hole" if self.hole_typed else f"{self.table}.pin"
        note = "" if self.hole_typed else "PIN"
        sizes: list[Wish] = [Diameter(name, ORIGIN, Y, self.hole, note=note)]
        if self.bushing:
            sizes.append(
                Diameter(f"{self.table}.bushing", ORIGIN, Y, self.bushing, note="BUSHING OD")
            )
        return tuple(sizes)

    def axis(self, right: float, left: float, owner: str) -> CentreLine:
        """Give the pin's centre line."""
        return CentreLine(
            f"{self.table}.pin",
            (0.0, -right, 0.0),
            (0.0, left, 0.0),
            "body" if owner == "body" else "rod",
        )


def settle_pin_hole(book: Ledger, host: Host) -> PinHole:
    """Settle pin, hole and bushing."""
    t = host.table
    hole = book.number(f"{t}.hole", interface=True)
    pin = book.size(
        f"{t}.pin",
        lambda: (
            Rule(hole, "as large as the hole")
            if hole is not None
            else Rule(neat(host.rod, host.units), "a pin as thick as the rod")
        ),
        interface=hole is None,
    )
    drawn = book.size(
        f"{t}.hole",
        Rule(pin, "drawn at the pin's diameter; the fit is for the builder to state"),
        interface=True,
    )
    bushing = book.number(f"{t}.bushing") or 0.0
    if bushing and bushing <= drawn + SMALL:
        book.fault(
            "bushing-too-thin",
            f"{t}.bushing",
            f"a bushing of {book.say(bushing)} outside has no wall round a hole "
            f"of {book.say(drawn)}; give the bushing's outside diameter, larger than the hole",
        )
    return PinHole(t, pin, drawn, bushing, hole is not None)


@dataclass(frozen=True, slots=True)
class Offset:
    """Pin centre to the face where the cylinder begins (mm), and how far it gives way."""

    value: float
    floor: float
    typed: bool
    why: str

    def give(self, host: Host, word: str) -> Give:
        """Give it as a size of the axial stack."""
        label = f"{'base' if host.end == 'body' else 'rod'} end {word}"
        name = f"{host.table}.offset"
        return Give(name, label, self.value, self.floor, self.typed, self.why)


def settled_offset(host: Host, s: Stations) -> float:
    """Give the settled offset of a pin mount."""
    return s.closed_end if host.end == "body" else s.rod_datum - s.rod_end


def settle_outside(book: Ledger, host: Host, hole: PinHole, what: str) -> float:
    """Settle the eye's size round the pin; 2 times the bore, common practice."""
    t = host.table
    nose = book.number(f"{t}.nose")
    outside = book.size(
        f"{t}.outside",
        lambda: (
            Rule(2 * nose, "twice the nose radius")
            if nose is not None
            else Rule(neat_up(1.8 * hole.bore, host.units), f"1.8 of the bore through the {what}")
        ),
    )
    if outside <= hole.bore + SMALL:
        book.fault(
            "no-metal-round-pin",
            f"{t}.outside",
            f"{book.say(outside)} round a bore of {book.say(hole.bore)} leaves no metal; "
            "outside is the size of the eye round the pin",
        )
    elif outside < 1.25 * hole.bore:
        book.find(
            "thin-eye",
            "warning",
            f"{t}.outside",
            f"the {what} leaves {book.say((outside - hole.bore) / 2)} round the pin, less than "
            "1/8 of the bore each side: check outside and hole",
            "common practice",
        )
    if nose is not None and nose < outside / 2 - SMALL:
        book.fault(
            "nose-inside-eye",
            f"{t}.nose",
            f"a swing radius of {book.say(nose)} is less than half of outside "
            f"({book.say(outside / 2)}); the eye would lie beyond its own nose",
        )
    return outside
