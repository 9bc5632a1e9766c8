"""What all pin mounts share: pin, finished hole, bushing, and the eye round them."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat, neat_up
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.wishes import CentreLine, Diameter, Length, Radius, Wish
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, along
from drafting.shape.pieces import Part, Piece, cylinder

SMALL = 0.02
"""Sizes closer than this (mm) are the same."""
ROOT = 2.0
"""How far (mm) a mount and what carries it run into each other, so that they are one metal."""
ACROSS = Frame(ORIGIN, X, Z, Y)
"""Outlines in the X-Z plane, swept along Y."""


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

    @property
    def through(self) -> str:
        """Say what goes through the eye itself."""
        return "bushing in" if self.bushing else "hole through"

    @property
    def in_metal(self) -> str:
        """Give the field, without its table, of the hole in the eye itself."""
        return "bushing" if self.bushing else "hole"

    def pieces(self, right: float, left: float) -> tuple[Piece, ...]:
        """Give the cut through an eye that reaches from y = -right to y = left."""
        cut = cylinder(self.bore / 2, -right - 1.0, left + 1.0)
        name = "bushing" if self.bushing else "hole"
        return (Piece(f"{self.table}.{name}", cut, along(Y), cut=True),)

    def parts(
        self, host: Host, spans: tuple[tuple[float, float], ...], cuts: tuple[Piece, ...] = ()
    ) -> tuple[Part, ...]:
        """Give the bushings, one for each span (y0, y1), with further ``cuts`` through them."""
        if not self.bushing:
            return ()
        found: list[Part] = []
        for k, (y0, y1) in enumerate(spans):
            body = cylinder(self.bushing / 2, y0, y1)
            hole = cylinder(self.hole / 2, y0 - 1.0, y1 + 1.0)
            pieces = (
                Piece(f"{self.table}.bushing", body, along(Y)),
                Piece(f"{self.table}.hole", hole, along(Y), cut=True),
                *cuts,
            )
            found.append(Part(f"{host.label} bushing{f' {k + 1}' if k else ''}", host.end, pieces))
        return tuple(found)

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


def settle_pin_hole(book: Ledger, host: Host, bushed: float = 0.0) -> PinHole:
    """Settle pin, hole and bushing; one that none was typed for is ``bushed`` holes thick."""
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
    if bushed and not bushing:
        usual = Rule(neat_up(bushed * drawn, host.units), f"{bushed:g} of the hole")
        bushing = book.size(f"{t}.bushing", usual)
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

    def wishes(self, host: Host, face: float, half: float) -> tuple[Wish, ...]:
        """Give it to the edge of a face ``half`` from the axis, where it was typed."""
        if not self.typed:
            return ()
        return (Length(f"{host.table}.offset", ORIGIN, (face, 0.0, half), X, rank=3),)


def settled_offset(host: Host, s: Stations) -> float:
    """Give the settled distance from the datum of a mount to where the cylinder begins."""
    return s.closed_end if host.end == "body" else s.rod_datum - s.rod_end


def root(table: str, face: float, room: float, web: float, y: float = 0.0, tag: str = "") -> Piece:
    """Give the round root, hidden in both, by which a mount and its host are one metal.

    It runs through the mount's face at x = ``face``. ``room`` is the radius (mm) that mount and
    host leave for it round y, ``web`` the solid metal before the face.
    """
    shape = cylinder(0.9 * room, face - min(ROOT, web / 2), face + ROOT)
    return Piece(f"{table}.root{tag}", shape, Frame((0.0, y, 0.0)))


def settle_outside(book: Ledger, host: Host, hole: PinHole, what: str) -> float:
    """Settle the eye's size round the pin; 1.8 times the bore through it, common practice."""
    t = host.table
    nose = book.number(f"{t}.nose")
    outside = book.size(
        f"{t}.outside",
        lambda: (
            Rule(2 * nose, "twice the nose radius")
            if nose is not None
            else Rule(neat_up(1.8 * hole.bore, host.units), f"1.8 of the {hole.through} the {what}")
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


@dataclass(frozen=True, slots=True)
class Nose:
    """An eye's swing radius past the pin, and its height (mm), which may be told by the radius."""

    table: str
    radius: float
    outside: float
    show_outside: bool

    def wishes(self) -> tuple[Wish, ...]:
        """Give the radius, which the machine must clear, and the height where it was typed."""
        t, r, half = self.table, self.radius, self.outside / 2
        wishes: list[Wish] = [Radius(f"{t}.nose", ORIGIN, Y, (-r, 0.0, 0.0), r)]
        if self.show_outside:
            wishes.append(Length(f"{t}.outside", (0.0, 0.0, -half), (0.0, 0.0, half), Z, rank=3))
        return tuple(wishes)


def settle_nose(book: Ledger, host: Host, outside: float) -> Nose:
    """Settle the swing radius past the pin: half of outside, a round nose."""
    t = host.table
    radius = book.size(f"{t}.nose", Rule(outside / 2, "half of outside: a round nose"))
    flat = radius > outside / 2 + SMALL
    nose, tall = (book.spec.has(f"{t}.{n}") for n in ("nose", "outside"))
    return Nose(t, radius, outside, flat or (tall and not nose))
