"""Tie rod: a tube held between a square cap and a square head by four rods with nuts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import ClassVar

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shell import Seat, Span
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stack import Give, lengthened, visible_barrel
from drafting.settle.stations import Stations
from drafting.settle.tube_sizes import TubeSizes
from drafting.settle.wishes import Length, Symbol, Wish
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z
from drafting.shape.pieces import (
    Part,
    Piece,
    Prism,
    Turned,
    box,
    cylinder,
    extent,
    hexagon,
    stepped,
)
from drafting.standards.threads import ThreadWordError, parse_thread

ALONG = Frame(ORIGIN, Y, Z, X)
"""Outlines in the Y-Z plane, swept along X."""
RIM = 2.0
"""What a block round the tube has beyond a trunnion's boss (mm); as drawn only."""
SPARE = 2.0
"""What a tie rod has beyond cap and head, in its diameters: nut and what stands out of it."""
OVER = "OVER TIE RODS"
EDGE = 1.0
"""What is left (mm) between a nut's recess and the edge of the square, where there is room."""
CORNERS = ((1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0))


@dataclass(frozen=True, slots=True)
class TieRod:
    """Head and cap ``square`` across flats; rods of ``rod`` diameter, ``place`` off both axes."""

    square: float
    rod: float
    place: float
    barrel_outside: float
    gland_outside: float

    word: ClassVar[str] = "tie rod"
    flat_seats: ClassVar[bool] = True

    @classmethod
    def settle(cls, book: Ledger, tube: TubeSizes) -> TieRod:
        """Settle rods and square; the rods must clear the tube and stay inside the square."""
        units = book.spec.units
        rod = cls._rod(book, tube)
        clear = (tube.barrel_outside + rod) / 2 + 1.0
        least = 2 * (clear / 2**0.5 + 0.75 * rod)
        square = book.size(
            "cylinder.square",
            Rule(neat_up(max(least, 1.15 * tube.barrel_outside), units), "tie rods clear the tube"),
        )
        if square < least - 0.02:
            book.fault(
                "square-too-small",
                "cylinder.square",
                f"four tie rods of {book.say(rod)} round a tube of "
                f"{book.say(tube.barrel_outside)} need {book.say(least)} across flats",
            )
        near = clear / 2**0.5
        place = max(
            near,
            min((square / 2 - 0.75 * rod + near) / 2, square / 2 - _nut_room(rod) - EDGE),
        )
        collar = book.size(
            "cylinder.gland_outside",
            Rule(neat_up(1.5 * tube.rod, units), "rod bush 1.5 of the rod"),
        )
        if collar <= tube.rod:
            book.fault(
                "gland-inside-rod",
                "cylinder.gland_outside",
                f"{book.say(collar)} leaves no metal round a rod of {book.say(tube.rod)}",
            )
        gland = book.word("cylinder.gland", "tie rod")
        if gland != "tie rod":
            book.fault(
                "gland-of-tie-rod",
                "cylinder.gland",
                f'"{gland}" goes with a welded cylinder; on a tie-rod cylinder the gland is held '
                'by the head: leave gland out, or say construction = "welded"',
            )
        return cls(square, rod, place, tube.barrel_outside, collar)

    @staticmethod
    def _rod(book: Ledger, tube: TubeSizes) -> float:
        typed = book.given("cylinder.tie_rod")
        if typed is not None:
            try:
                return parse_thread(str(typed.value)).major_mm
            except ThreadWordError as wrong:
                book.fault(wrong.code, "cylinder.tie_rod", wrong.message)
        rule = Rule(
            max(neat_up(0.13 * tube.bore, book.spec.units), 6.0), "0.13 of the bore, as drawn only"
        )
        book.enter("cylinder.tie_rod_diameter", rule)
        return rule.value

    @property
    def host_diameter(self) -> float:
        """Give the square's width."""
        return self.square

    @property
    def skirt(self) -> float:
        """Give 0: the head goes over nothing that a mount sits on."""
        return 0.0

    @property
    def widest(self) -> float:
        """Give the square across its corners."""
        return self.square * 2**0.5

    @property
    def widest_port(self) -> float:
        """Give the side's width, the spec format's own limit."""
        return self.square

    @property
    def wall(self) -> float:
        """Give the metal round the tube."""
        return (self.square - self.barrel_outside) / 2

    def gives(self, gives: Sequence[Give], need: float, units: str) -> list[Give]:
        """Make cap and head long enough for their ports, unless they were typed."""
        ends = ("cylinder.base_thickness", "cylinder.gland_length")
        why = "as long as its port needs"
        return [lengthened(g, need, units, why) if g.name in ends else g for g in gives]

    def projection(self, gland: Give, units: str) -> Rule:
        """Give how much of the rod bush shows beyond the head."""
        return Rule(min(neat_up(0.15 * gland.value, units), gland.floor / 3), "rod bush shows")

    def seat(
        self, s: Stations, end: str, boss: float, passage: float, taken: Span | None = None
    ) -> Seat:
        """Give a flat seat in the middle of the cap or the head, of what is free where it fits."""
        at_base = end == "base"
        part, lo, hi = "head", s.gland_inner, s.barrel_end
        if at_base:
            part, lo, hi = "cap", s.closed_end, s.oil_side
        inside = 0.3 * s.bore if at_base else (s.rod + s.bore) / 4
        why = f"in the middle of the {part}"
        if taken is not None and taken[0] < hi and taken[1] > lo:
            a, b = max((lo, taken[0]), (taken[1], hi), key=lambda free: free[1] - free[0])
            if b - a >= boss:
                lo, hi, why = a, b, f"in the middle of what the mount leaves of the {part}"
        middle, half = (lo + hi) / 2, boss / 2
        return Seat(
            part,
            self.square / 2,
            True,
            max(inside - 1.0, 0.0),
            middle,
            min(lo + half, middle),
            max(hi - half, middle),
            why,
        )

    def lies(self, end: str, boss: float, sizes: Mapping[str, float]) -> float:
        """Give how far from the closed end the middle of the cap or the head is."""
        if end == "base":
            return sizes["cylinder.base_thickness"] / 2
        head = sizes["cylinder.gland_length"] - sizes["cylinder.gland_projection"]
        return visible_barrel(sizes) - head / 2

    def seat_at(self, s: Stations, seat: Seat, x: float) -> Seat:
        """Give the same: ports sit in the sides of cap and head only."""
        return seat

    def judge_clock(self, book: Ledger, field: str, clock: float) -> None:
        """A port sits square on one of the four sides."""
        if abs(clock / 90.0 - round(clock / 90.0)) > 1e-6:
            book.fault(
                "clock-off-side",
                field,
                "a tie-rod head has four sides: 12:00, 3:00, 6:00 or 9:00 will do",
            )

    def parts(
        self, s: Stations, welded: Sequence[Piece], ports: Sequence[tuple[str, Piece]]
    ) -> tuple[Part, ...]:
        """Give cap with the body mount, tube, head, tie rods and nuts."""
        half = self.square / 2
        ends = box(-half, half, -half, half)
        cap = [
            Piece("cylinder.cap", Prism(ends, s.closed_end, s.oil_side), ALONG),
            Piece("cylinder.cap_recess", self._recess(s), cut=True),
        ]
        head = [
            Piece("cylinder.head", Prism(ends, s.gland_inner, s.barrel_end), ALONG),
            Piece("cylinder.gland_bore", self._rod_bore(s), cut=True),
        ]
        if s.gland_face > s.barrel_end:
            bush = cylinder(self.gland_outside / 2, s.barrel_end - 2.0, s.gland_face)
            head.append(Piece("cylinder.gland_outside", bush))
        on_cap, on_tube, on_head = self._mounted(s, welded)
        cap += on_cap
        head += on_head
        for part, piece in ports:
            (cap if part == "cap" else head).append(piece)
        tube = (
            Piece(
                "cylinder.barrel_outside", cylinder(s.barrel_outside / 2, s.oil_side, s.gland_inner)
            ),
            Piece(
                "cylinder.bore",
                cylinder(s.bore / 2, s.oil_side - 1.0, s.gland_inner + 1.0),
                cut=True,
            ),
        )
        holes = self._rods(s, 0.0, cut=True)
        spare = SPARE * self.rod
        return (
            Part("cap", "body", (*cap, *holes)),
            Part("tube", "body", tube),
            Part("head", "body", (*head, *holes)),
            *([Part("mount block", "body", (*on_tube, *holes))] if on_tube else []),
            Part("tie rods", "body", (*self._rods(s, spare), *self._nuts(s)), hatched=False),
        )

    def _mounted(
        self, s: Stations, welded: Sequence[Piece]
    ) -> tuple[list[Piece], list[Piece], list[Piece]]:
        """Share a mount's pieces out to cap, a block round the tube, and head.

        Each part gets the mount's own cuts, and room for tube, tie rods and nuts.
        """
        shares: tuple[list[Piece], list[Piece], list[Piece]] = ([], [], [])
        for piece in (p for p in welded if not p.cut):
            lo, hi = extent(piece, X)
            shares[0 if lo < s.oil_side else 2 if hi > s.gland_inner else 1].append(piece)
        if shares[1]:
            # A round boss would touch the block's face in a line: the block goes on beyond it.
            rims = [(extent(p, X), RIM if isinstance(p.shape, Turned) else 0.0) for p in shares[1]]
            start = min(lo - rim for (lo, _), rim in rims)
            end = max(hi + rim for (_, hi), rim in rims)
            half = self.square / 2
            block = Prism(
                box(-half, half, -half, half), max(start, s.oil_side), min(end, s.gland_inner)
            )
            shares[1].insert(0, Piece("cylinder.mount_block", block, ALONG))
        room = cylinder(self.barrel_outside / 2, s.oil_side, s.gland_inner)
        cuts = [p for p in welded if p.cut]
        cuts += [Piece("cylinder.tube_room", room, cut=True), *self._nut_rooms(s)]
        for share in shares:
            share += cuts if share else []
        return shares

    def _nut_rooms(self, s: Stations) -> list[Piece]:
        """Give room for nuts and rod ends where a mount covers them."""
        r, far = _nut_room(self.rod), SPARE * self.rod + 1.0
        spans = ((s.closed_end - far, s.closed_end), (s.barrel_end, s.barrel_end + far))
        return [
            Piece(
                "cylinder.nut_room",
                cylinder(r, x0, x1),
                Frame((0.0, y * self.place, z * self.place)),
                cut=True,
            )
            for x0, x1 in spans
            for y, z in CORNERS
        ]

    def _recess(self, s: Stations) -> Turned:
        """Oil way from the cap's port to the bore."""
        middle = (s.closed_end + s.oil_side) / 2
        return cylinder(0.3 * s.bore, middle, s.oil_side + 1.0)

    def _rod_bore(self, s: Stations) -> Turned:
        """Rod bore, widened behind the gland so that the head's port finds the bore."""
        middle = (s.gland_inner + s.barrel_end) / 2
        wide = (s.rod / 2 + s.bore / 2) / 2
        return stepped(
            (s.gland_inner - 1.0, wide),
            (middle, wide),
            (middle, s.rod / 2),
            (s.gland_face + 1.0, s.rod / 2),
        )

    def _rods(self, s: Stations, spare: float, cut: bool = False) -> list[Piece]:
        x0, x1 = s.closed_end - spare, s.barrel_end + spare
        if cut:
            x0, x1 = x0 - 3.0, x1 + 1.0
        shape = cylinder(self.rod / 2, x0, x1)
        return [
            Piece("cylinder.tie_rod", shape, Frame((0.0, y * self.place, z * self.place)), cut)
            for y, z in CORNERS
        ]

    def _nuts(self, s: Stations) -> list[Piece]:
        nut = hexagon(1.5 * self.rod)
        spans = ((s.closed_end - self.rod, s.closed_end), (s.barrel_end, s.barrel_end + self.rod))
        return [
            Piece(
                "cylinder.nut",
                Prism(nut, x0, x1),
                replace(ALONG, origin=(0.0, y * self.place, z * self.place)),
            )
            for x0, x1 in spans
            for y, z in CORNERS
        ]

    def wishes(self, s: Stations) -> tuple[Wish, ...]:
        """Give the square across flats, and how long the body is: cap and head, tie rods."""
        half, x = self.square / 2, (s.gland_inner + s.barrel_end) / 2
        a, b = (x, 0.0, -half), (x, 0.0, half)
        over = ((s.closed_end, half, half), (s.barrel_end, half, half))
        rods = (
            (s.closed_end - SPARE * self.rod, self.place, self.place),
            (s.barrel_end + SPARE * self.rod, self.place, self.place),
        )
        return (
            Length("cylinder.square", a, b, Z, rank=4, form="square"),
            Length("cylinder.body_length", *over, X, rank=6, reference=True),
            Length("cylinder.over_tie_rods", *rods, X, rank=7, reference=True, note=OVER),
        )

    def symbols(self, s: Stations) -> tuple[Symbol, ...]:
        """Give none beyond the cylinder's own."""
        return ()


def _nut_room(rod: float) -> float:
    """Give the radius of a recess that takes the corners of a nut."""
    return 0.9 * rod + 0.5
