"""Welded: one weldment of tube, base cap, body mount and bosses; the gland held in its end."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import cos, inf, pi, sin
from typing import ClassVar

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shell import Seat, Span
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stack import Give, visible_barrel
from drafting.settle.stations import CLEAR, PISTON_RELIEF, Stations, barrel_pieces, gland_part
from drafting.settle.tube_sizes import TubeSizes
from drafting.settle.wishes import Length, Symbol, Wish
from drafting.shape.frame import X, along
from drafting.shape.pieces import Part, Piece, crown, cylinder, extent

INSIDE = ("snap ring", "wire ring")
"""Glands that lie wholly inside the barrel unless their projection is typed."""
BOLTS = 8
BOLT = 0.1
"""A bolt of the gland, in bores, where the collar has room for its head."""
LEAST_BOLT = 6.0
"""The smallest bolt that is drawn (mm)."""
HEAD = 1.5
"""A bolt's head, in bolts: ISO 4762, 18 mm for M12, 30 for M20, but 10 for M6 (from memory)."""
SKIRT = 0.25
"""What of its length a cap gland has over the barrel beside a mount at its end; as drawn only."""
LEAST_SKIRT = 5.0
"""What of a cap gland (mm) goes over the barrel at the least; as drawn only."""


@dataclass(frozen=True, slots=True)
class Welded:
    """A welded body; ``bolt`` is the bolt diameter of a bolted gland, 0 for the others."""

    gland: str
    barrel_outside: float
    gland_outside: float
    bolt: float
    bore: float

    word: ClassVar[str] = "welded"
    flat_seats: ClassVar[bool] = False

    @classmethod
    def settle(cls, book: Ledger, tube: TubeSizes) -> Welded:
        """Settle how the gland is held, and its collar."""
        gland = book.word("cylinder.gland", "threaded")
        outside, units = tube.barrel_outside, book.spec.units
        bolt = 0.0
        rule = Rule(outside, "as large as the barrel")
        if gland == "bolted":
            bolt = max(neat_up(BOLT * tube.bore, units), LEAST_BOLT)
            rule = Rule(
                neat_up(outside + 4 * bolt, units), "barrel with room for a circle of bolts"
            )
        elif gland == "cap":
            rule = Rule(
                neat_up(outside + (outside - tube.bore), units), "a cap one barrel wall thick"
            )
        collar = book.size("cylinder.gland_outside", rule)
        if collar < tube.bore:
            book.fault(
                "gland-inside-bore",
                "cylinder.gland_outside",
                f"{book.say(collar)} is less than the bore of {book.say(tube.bore)}; "
                "it is the collar beyond the barrel",
            )
        if gland == "bolted":
            bolt = _with_room(book, bolt, outside, collar)
        return cls(gland, outside, collar, bolt, tube.bore)

    @property
    def host_diameter(self) -> float:
        """Give the barrel's outside."""
        return self.barrel_outside

    @property
    def skirt(self) -> float:
        """Give what of the barrel a mount at its end leaves to a cap."""
        return SKIRT if self.gland == "cap" else 0.0

    @property
    def widest(self) -> float:
        """Give the larger of barrel and collar."""
        return max(self.barrel_outside, self.gland_outside)

    @property
    def widest_port(self) -> float:
        """Give 0.9 of the barrel's outside, the spec format's own limit."""
        return 0.9 * self.barrel_outside

    @property
    def wall(self) -> float:
        """Give the barrel's wall."""
        return (self.barrel_outside - self.bore) / 2

    def gives(self, gives: Sequence[Give], need: float, units: str) -> list[Give]:
        """Keep the preferred sizes; bosses sit on the tube."""
        return list(gives)

    def projection(self, gland: Give, units: str) -> Rule:
        """Give how much of the gland shows beyond the barrel."""
        if self.gland in INSIDE:
            return Rule(0.0, f"a {self.gland} gland lies inside the barrel")
        quarter, most = neat_up(0.25 * gland.value, units), gland.floor / 2
        if most < quarter:
            return Rule(most, "half of the least that the gland may give way to")
        return Rule(quarter, "a quarter of the gland shows beyond the barrel")

    def seat(
        self, s: Stations, end: str, boss: float, passage: float, taken: Span | None = None
    ) -> Seat:
        """Give a round seat: over the piston's relief, or at the gland's inner face.

        It is off a mount that is in the way as far as the relieved piston leaves the port open.
        """
        half, open_to = boss / 2 + CLEAR, s.piston_relief
        lo, hi = s.closed_end + boss / 2, inf
        if end == "base":
            x = max(s.oil_side + s.piston_relief / 2, lo)
            why = "over the piston's relief when retracted"
            if taken and taken[0] < x + half and x < taken[1] + half <= s.oil_side + open_to:
                x = lo = taken[1] + half
        else:
            hi = s.barrel_end - self._held - boss / 2
            x, why = min(s.gland_inner, hi), "at the gland's inner face"
            if taken and taken[1] > x - half and x > taken[0] - half >= s.gland_inner - open_to:
                x = hi = taken[0] - half
        inside = max(crown(s.bore / 2, passage / 2) - 1.0, 0.0)
        return Seat("barrel", s.barrel_outside / 2, False, inside, x, lo, hi, why)

    def lies(self, end: str, boss: float, sizes: Mapping[str, float]) -> float:
        """Give how far from the closed end ``seat`` has its place."""
        if end == "base":
            relief = PISTON_RELIEF * sizes["cylinder.piston_length"]
            return max(sizes["cylinder.base_thickness"] + relief / 2, boss / 2)
        inside = sizes["cylinder.gland_length"] - sizes["cylinder.gland_projection"]
        return visible_barrel(sizes) - max(inside, self._held + boss / 2)

    @property
    def _held(self) -> float:
        """Give what of the barrel's end a ring of bolts or a cap takes from bosses."""
        return {"bolted": 2 * self.bolt, "cap": LEAST_SKIRT + 1.0}.get(self.gland, 0.0)

    def seat_at(self, s: Stations, seat: Seat, x: float) -> Seat:
        """Give the gland's own seat where it shows; its drilling stays clear of the rod."""
        if x <= s.barrel_end:
            return seat
        inside = (s.rod + s.bore) / 4
        return replace(seat, part="gland", surface=s.gland_outside / 2, inside=inside)

    def judge_clock(self, book: Ledger, field: str, clock: float) -> None:
        """Any clock will do on a round barrel."""

    def parts(
        self, s: Stations, welded: Sequence[Piece], ports: Sequence[tuple[str, Piece]]
    ) -> tuple[Part, ...]:
        """Give the weldment, the gland, and what holds it."""
        on = {name: [p for part, p in ports if part == name] for name in ("barrel", "gland")}
        barrel = [*barrel_pieces(s), *welded, *on["barrel"]]
        gland = gland_part(s)
        gland = replace(gland, pieces=(*gland.pieces, *on["gland"]))
        ring: list[Part] = []
        if self.gland == "bolted":
            barrel.append(
                Piece(
                    "cylinder.gland_ring",
                    cylinder(self.gland_outside / 2, s.barrel_end - 2 * self.bolt, s.barrel_end),
                )
            )
            ring.append(self._bolts(s))
        elif self.gland == "cap" and s.gland_face > s.barrel_end:
            beside = [extent(p, X)[1] for p in (*welded, *on["barrel"]) if not p.cut]
            room = s.barrel_end - max(beside, default=s.gland_inner) - CLEAR
            skirt = max(min((s.gland_face - s.gland_inner) / 2, room), LEAST_SKIRT)
            ring.append(
                Part(
                    "gland cap",
                    "body",
                    (
                        Piece(
                            "cylinder.gland_cap",
                            cylinder(self.gland_outside / 2, s.barrel_end - skirt, s.barrel_end),
                        ),
                        Piece(
                            "cylinder.gland_cap_thread",
                            cylinder(
                                self.barrel_outside / 2,
                                s.barrel_end - skirt - 1.0,
                                s.barrel_end + 1.0,
                            ),
                            cut=True,
                        ),
                    ),
                )
            )
        return (Part("barrel", "body", tuple(barrel)), gland, *ring)

    def _bolts(self, s: Stations) -> Part:
        """Heads of the bolts on the gland's face."""
        circle = (self.barrel_outside + self.gland_outside) / 4
        head = cylinder(HEAD / 2 * self.bolt, s.gland_face, s.gland_face + self.bolt)
        pieces = []
        for k in range(BOLTS):
            a = 2 * pi * (k + 0.5) / BOLTS
            frame = replace(along(X), origin=(0.0, circle * sin(a), circle * cos(a)))
            pieces.append(Piece("cylinder.gland_bolt", head, frame))
        return Part("gland bolts", "body", tuple(pieces), hatched=False)

    def wishes(self, s: Stations) -> tuple[Wish, ...]:
        """Give how long the body is, from the closed end over the gland."""
        half = (s.gland_outside if s.gland_face > s.barrel_end else s.barrel_outside) / 2
        base = (s.closed_end, 0.0, s.barrel_outside / 2)
        front = (max(s.gland_face, s.barrel_end), 0.0, half)
        return (Length("cylinder.body_length", base, front, X, rank=6, reference=True),)

    def symbols(self, s: Stations) -> tuple[Symbol, ...]:
        """Give none beyond the cylinder's own."""
        return ()


def _with_room(book: Ledger, bolt: float, outside: float, collar: float) -> float:
    """Give the bolt whose head has room between a barrel and the collar's edge; told if none."""
    ring = (collar - outside) / 2
    if ring < HEAD * LEAST_BOLT:
        book.find(
            "gland-bolts-overhang",
            "warning",
            "cylinder.gland_outside",
            f"{book.say(collar)} leaves {book.say(ring)} beside a barrel of {book.say(outside)}: "
            f"the head of a {book.say(LEAST_BOLT)} bolt takes {book.say(HEAD * LEAST_BOLT)}; "
            f"{book.say(outside + 2 * HEAD * LEAST_BOLT)} or more would do, or a gland that is "
            "not bolted",
            "common practice",
        )
        return LEAST_BOLT
    return min(bolt, ring / HEAD)
