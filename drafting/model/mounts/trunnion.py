"""Trunnion: two round pins at the barrel's sides; their centre line is the datum.

          width
|<-------------------->|
    shoulders
   |<-------------->|
   +----+------+----+
+--|    |      |    |--+
|  |    |barrel|    |  | pin
+--|    |      |    |--+
   +----+------+----+

On a square head or cap the shoulders may be its own sides: then the pins stand on those, without
bosses.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar

from drafting.model.mounts.along_barrel import (
    EDGE,
    Place,
    beside_ports,
    settle_place,
    stack_need,
    with_ports,
)
from drafting.model.mounts.grease import HOLE, grease_fitting
from drafting.model.mounts.pinned import ROOT, SMALL
from drafting.records import dataclass
from drafting.settle.carried import Carried, Stubs, Sum, length, welded
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing, Turns
from drafting.settle.shop_sizes import neat, neat_up
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import CentreLine, Diameter, Length, Wish
from drafting.shape.frame import Y, along, clock_direction, scale
from drafting.shape.pieces import Part, Piece, cylinder

SIDES = (("_left", 1.0), ("_right", -1.0))
"""+Y is left."""
WELD = 0.55
"""Centre line to the barrel's ends at the least, in bosses: half of one and room for its weld."""


@dataclass(frozen=True, slots=True)
class Trunnion(Mount):
    """Pins along Y over ``width``, bosses of diameter ``outside`` over ``shoulders`` (mm).

    ``outside`` is 0 where the pins stand straight on a square's sides.
    """

    place: Place
    pin: float
    width: float
    shoulders: float
    outside: float
    grease: bool

    word: ClassVar[str] = "trunnion"
    also: ClassVar[str] = "trunnions"
    ends: ClassVar[tuple[End, ...]] = ("body",)
    fields: ClassVar[tuple[str, ...]] = (
        "position",
        "pin",
        "width",
        "shoulders",
        "outside",
        "grease",
    )
    example: ClassVar[Mapping[str, object]] = {
        "position": "middle",
        "pin": 1.5,
        "shoulders": 5,
        "width": 8,
    }
    turns: ClassVar[Turns] = "pin"
    datum: ClassVar[str] = "trunnion"
    sheet_words: ClassVar[Mapping[str, str]] = {
        "width": "Over the pins",
        "outside": "Boss Ø",
    }
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the trunnion's centre line",
        (
            ToRead(
                "P",
                "pin",
                "a trunnion pin",
                "pin",
                "caliper",
                "At its root, where no bearing ran, twice, a quarter turn apart.",
            ),
            ToRead("W", "width", "over both pins, end to end", "size", "tape"),
            ToRead("G", "shoulders", "across the shoulders", "size", "caliper"),
            ToRead(
                "L",
                "position",
                "closed end of the barrel to the pins' centre line",
                "place",
                "tape",
                "To the pin's near edge, and add half of the pin.",
            ),
            ToRead("Z", "outside", "the boss round a pin", "size", "caliper", "", False),
        ),
        {"position": "middle", "pin": 40.0, "shoulders": 120.0, "width": 190.0, "outside": 60.0},
        ("P",),
        around=True,
        close_up=(-128.0, 128.0),
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Trunnion:
        """Settle pins and bosses; the bosses must stand out of the barrel, the pins out of them."""
        t, units = host.table, host.units
        pin = book.size(
            f"{t}.pin",
            Rule(neat(0.5 * host.bore, units), "half of the bore"),
            interface=True,
        )
        shoulders = book.size(
            f"{t}.shoulders",
            Rule(
                neat_up(host.diameter + 0.25 * host.bore, units),
                "barrel or square and an eighth of the bore each side",
            ),
            interface=True,
        )
        width = book.size(
            f"{t}.width",
            Rule(neat_up(shoulders + 2 * pin, units), "shoulders and two pins as long as thick"),
            interface=True,
        )
        bare = host.square and abs(shoulders - host.diameter) <= SMALL
        if not bare and shoulders <= host.diameter + SMALL:
            least = "they are measured across both bosses"
            if host.square:
                least += ", or across the square itself where there are none"
            book.fault(
                "shoulders-in-barrel",
                f"{t}.shoulders",
                f"shoulders of {book.say(shoulders)} lie within the barrel's outside of "
                f"{book.say(host.diameter)}; {least}",
            )
        boss = neat_up(1.5 * pin, units)
        outside = 0.0 if bare else book.size(f"{t}.outside", Rule(boss, "a boss of 1.5 of the pin"))
        if bare and book.spec.has(f"{t}.outside"):
            book.find(
                "not-used",
                "note",
                f"{t}.outside",
                "pins that stand on the square's own sides have no bosses round them",
            )
        if width <= shoulders + SMALL:
            book.fault(
                "no-pins",
                f"{t}.width",
                f"{book.say(width)} over the pins leaves none beyond the shoulders of "
                f"{book.say(shoulders)}",
            )
        elif width - shoulders < pin:
            book.find(
                "short-pins",
                "warning",
                f"{t}.width",
                f"each pin is {book.say((width - shoulders) / 2)} long, less than half of its "
                f"diameter of {book.say(pin)}: check width and shoulders",
                "common practice",
            )
        if not bare and outside < pin + SMALL:
            book.fault(
                "no-shoulder",
                f"{t}.outside",
                f"a boss of {book.say(outside)} is no thicker than its pin of {book.say(pin)}",
            )
        grease = book.flag(f"{t}.grease")
        if grease and pin < 2 * HOLE:
            book.fault(
                "no-room-for-grease",
                f"{t}.grease",
                f"a fitting's hole of {book.say(HOLE)} is too large for a pin of {book.say(pin)}",
            )
        reach = neat_up(WELD * (outside or boss), units)
        place = settle_place(book, host, "middle", "halfway along the barrel", reach, reach)
        mount = cls(place, pin, width, shoulders, outside, grease)
        return replace(mount, place=replace(place, past=beside_ports(place, host, mount)))

    def tightened(self) -> Trunnion:
        """Give it at its end, whatever port is there."""
        return replace(self, place=replace(self.place, tight=True))

    @property
    def radius(self) -> float:
        """Give the radius of a boss, of a pin where there are none."""
        return (self.outside or self.pin) / 2

    def needs(self, host: Host, least: Mapping[str, float]) -> Mapping[str, float]:
        """Give the length of a square cap or head that bosses and their weld stand on whole.

        Beside them ports at their hours have room.
        """
        found = self.place.on_end(-self.radius, self.radius, least) if host.square else None
        if found is None:
            return {}
        end, start, stop = found
        weld = self.place.ahead - self.radius
        return stack_need(end, with_ports(host, self, end, start, stop + weld), least)

    def taken(self, host: Host, clock: float, across: float) -> tuple[float, float] | None:
        """Give the reach of the bosses, which the port's foot passes above or below, or not."""
        _, beside, above = map(abs, clock_direction(clock))
        passes = (above * host.diameter - beside * across) / 2 >= self.radius
        return None if passes else (-self.place.behind, self.place.ahead)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the centre line back to the closed end, below 0."""
        return -self.place.from_closed_end(sizes)

    def carried(self, host: Host) -> Carried:
        """Give the two pins; their bosses on the barrel are not judged beyond their weld."""
        t = host.table
        long = Sum(((0.5, f"{t}.width"), (-0.5, f"{t}.shoulders")))
        return Carried(
            (Stubs(length(f"{t}.pin"), long), *(() if host.square else (welded(t),))),
            not_judged=("the barrel under a trunnion's bosses: it bends there, ask the builder",),
            tube_share=self.place.share,
        )

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the place; the bosses must lie on the barrel."""
        self.place.enter(book, s)
        self.place.stays_on(book, s, "trunnion's bosses")
        if host.square:
            self._judge_ends(book, s)
        if self.grease:
            book.find(
                "grease-room",
                "note",
                f"{host.table}.grease",
                "the grease fittings stand out of the pins' end faces: bearings need a way to them",
            )

    def _judge_ends(self, book: Ledger, s: Stations) -> None:
        """Enter a finding where bosses or pins begin on cap or head and reach over the tube."""
        r, what = self.radius, "bosses" if self.outside else "pins"
        for part, field, inner, other in (
            ("cap", "base_thickness", s.oil_side, "rod"),
            ("head", "gland_length", -s.gland_inner, "base"),
        ):
            past, on = r - inner, r + inner  # measured from the centre line, towards the tube
            if past <= EDGE or on <= EDGE:
                continue
            name = f"{self.place.table}.position"
            mend = f"{book.say(on)} nearer to the {other} end they would have a block of their own"
            if inner >= 0.0:
                name = f"cylinder.{field}"
                longer = book.say(float(book.values[name].value) + past)
                mend = f"a {field} of {longer} would carry them"
            book.find(
                f"past-{part}",
                "warning",
                name,
                f"the trunnion's {what} reach {book.say(past)} past the {part} over the tube, "
                f"where nothing carries them; {mend}",
            )

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give bosses, pins, and the fittings in their ends."""
        t, w, sh = host.table, self.width / 2, self.shoulders / 2
        foot = max(host.diameter**2 - self.outside**2, 0.0) ** 0.5 / 2 - 1.0
        pieces: list[Piece] = []
        for tag, side in SIDES:
            frame = along(scale(Y, side))
            if self.outside:
                boss = cylinder(self.outside / 2, max(foot, 0.0), sh)
                pieces.append(Piece(f"{t}.shoulders{tag}", boss, frame))
            pieces.append(Piece(f"{t}.pin{tag}", cylinder(self.pin / 2, sh - ROOT, w), frame))
        parts: list[Part] = []
        for tag, side in SIDES if self.grease else ():
            at = along(scale(Y, side), (0.0, side * w, 0.0))
            cut, fitting = grease_fitting(host, at, w - sh, w - sh, tag)
            pieces.append(cut)
            parts.append(fitting)
        face = (0.0, sh, 0.0)
        wishes: tuple[Wish, ...] = (
            Diameter(f"{t}.pin", (0.0, w, 0.0), Y, self.pin, "TRUNNION PIN", hole=False),
            Length(f"{t}.shoulders", (0.0, -sh, 0.0), face, Y, rank=2, note="OVER SHOULDERS"),
            Length(f"{t}.width", (0.0, -w, 0.0), (0.0, w, 0.0), Y, rank=3, note="OVER PINS"),
            self.place.wish(s),
        )
        if self.outside:
            wishes += (
                Diameter(f"{t}.outside", face, Y, self.outside, "TRUNNION BOSS", hole=False),
            )
        axis = CentreLine(f"{t}.pin", (0.0, -w, 0.0), (0.0, w, 0.0), host.end)
        return MountDrawing(tuple(pieces), wishes, (axis,), tuple(parts))
