"""Clevis: two ears with the pin across them.

   width                      nose      offset
|<------->|                 |<-- o ------->|
|##| gap |##|                .---------+###|
|##|     |##|               (  o  pin  |###| outside
|##+-----+##|                `---------+###|
|###########|  web              throat
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.lug import ear_outline
from drafting.model.mounts.pinned import (
    ACROSS,
    SMALL,
    Nose,
    Offset,
    PinHole,
    root,
    settle_nose,
    settle_outside,
    settle_pin_hole,
    settled_offset,
)
from drafting.model.mounts.read import AT_PIN, EYE, NOSE, OUTSIDE, PIN, PIN_EDGES
from drafting.model.mounts.threaded import FIELDS, Hold, held_on, settle_hold
from drafting.records import dataclass
from drafting.settle.carried import Carried, LoosePin, Sum, length, round_hole
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing, PinWay, Turns
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Length, Wish
from drafting.shape.frame import ORIGIN, X, Y
from drafting.shape.pieces import Part, Piece, Prism, box

BENT = "In front and at the bottom: ears are bent together. The machine's own eye too."


@dataclass(frozen=True, slots=True)
class Clevis(Mount):
    """Two ears, y from gap/2 to width/2 on each side, joined by a web behind the throat.

    Welded on, or (at the rod) screwed on by a thread in the web.
    """

    hole: PinHole
    gap: float
    width: float
    nose: Nose
    throat: float
    offset: Offset
    hold: Hold | None

    word: ClassVar[str] = "clevis"
    also: ClassVar[str] = "fork fork-end yoke double-ear double-ears rod-clevis female-clevis"
    ends: ClassVar[tuple[End, ...]] = ("body", "rod")
    fields: ClassVar[tuple[str, ...]] = (
        "pin",
        "hole",
        "width",
        "gap",
        "throat",
        "nose",
        "outside",
        "offset",
        "bushing",
    )
    rod_fields: ClassVar[tuple[str, ...]] = FIELDS
    check_fields: ClassVar[tuple[str, ...]] = ("ear", "bearing_rating")
    example: ClassVar[Mapping[str, object]] = {"pin": 1.0, "hole": 1.016, "gap": 1.06, "width": 2.5}
    turns: ClassVar[Turns] = "pin"
    datum: ClassVar[str] = "pin"
    sheet_words: ClassVar[Mapping[str, str]] = {
        "width": "Width over ears",
        "outside": "Ear height",
    }
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        AT_PIN,
        (
            *PIN,
            ToRead("G", "gap", "between the ears", "size", "caliper", BENT),
            ToRead("W", "width", "over the ears", "size", "caliper"),
            ToRead(
                "T",
                "throat",
                "pin centre to the bottom of the slot",
                "size",
                "caliper",
                "From the hole's edge, and add half of the hole.",
                False,
            ),
            NOSE,
            OUTSIDE,
        ),
        {**EYE, "gap": 42.0, "width": 90.0, "throat": 46.0, "nose": 40.0},
        PIN_EDGES,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Clevis:
        """Settle ears, slot and web; refuse what leaves no ear or no web."""
        t, units = host.table, host.units
        hole = settle_pin_hole(book, host)
        outside = settle_outside(book, host, hole, "ear")
        nose = settle_nose(book, host, outside)
        width = book.number(f"{t}.width", True)
        gap = book.size(
            f"{t}.gap",
            lambda: (
                Rule(width / 2, "half of the width over the ears")
                if width is not None
                else Rule(neat_up(1.05 * hole.pin, units), "an eye as wide as the pin enters")
            ),
            interface=True,
        )
        width = book.size(
            f"{t}.width",
            lambda: Rule(gap + 2 * neat_up(0.6 * hole.pin, units), "ears 0.6 of the pin thick"),
            interface=True,
        )
        if width <= gap + SMALL:
            book.fault(
                "no-ears",
                f"{t}.gap",
                f"a gap of {book.say(gap)} leaves nothing of {book.say(width)} over the ears; "
                "gap is between the ears, width is over them",
            )
        typed_offset = book.number(f"{t}.offset")
        typed_throat = book.number(f"{t}.throat", interface=True)
        throat = cls._throat(book, host, outside, typed_throat, typed_offset)
        if typed_throat is not None and typed_throat < hole.hole / 2 + SMALL:
            book.fault(
                "pin-in-web",
                f"{t}.throat",
                f"{book.say(typed_throat)} from the pin centre to the slot bottom is less than "
                f"half of the hole ({book.say(hole.hole / 2)})",
            )
        hold = settle_hold(book, host)
        offset = cls._offset(book, host, typed_offset, throat, (width, outside), hold)
        return cls(hole, gap, width, nose, throat, offset, hold)

    @staticmethod
    def _offset(
        book: Ledger,
        host: Host,
        typed: float | None,
        throat: float,
        block: tuple[float, float],
        hold: Hold | None,
    ) -> Offset:
        t, (width, outside) = host.table, block
        inside = hold.inside if hold else 0.0
        if typed is not None and typed < throat + inside - SMALL:
            what = f" and {book.say(inside)} of thread" if hold else ""
            book.fault(
                "throat-past-face",
                f"{t}.throat",
                f"a slot {book.say(throat)} deep{what} is more than the {book.say(typed)} from "
                "pin to face (offset); a smaller throat or a larger offset would do",
            )
        if typed is not None:
            return Offset(typed, typed, True, "")
        if hold:
            if hold.thread.major_mm > min(width, outside) - SMALL:
                book.fault(
                    "thread-through-web",
                    f"{t}.thread",
                    f"a thread of {book.say(hold.thread.major_mm)} does not fit into a web of "
                    f"{book.say(width)} by {book.say(outside)}",
                )
            wanted = neat_up(throat + inside, host.units)
            return Offset(wanted, throat + inside, False, "throat plus the thread in the web")
        least = throat + neat_up(0.1 * outside, host.units)
        wanted = throat + neat_up(0.35 * outside, host.units)
        return Offset(wanted, least, False, "throat plus a web of 0.35 of outside")

    @staticmethod
    def _throat(
        book: Ledger, host: Host, outside: float, typed: float | None, offset: float | None
    ) -> float:
        if typed is not None:
            return typed
        clear = neat_up(outside / 2 + 0.05 * outside, host.units)
        if offset is not None:
            clear = min(clear, offset)
        rule = Rule(clear, "an eye of the same outside turns free in the slot")
        book.enter(f"{host.table}.throat", rule, interface=True)
        return rule.value

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset, and the jam nut behind it."""
        return sizes[f"{self.hole.table}.offset"] + (self.hold.nut if self.hold else 0.0)

    def pin_way(self) -> PinWay:
        """Give the ears."""
        return PinWay(self.hole.pin, self.width / 2, self.width / 2, True)

    def carried(self, host: Host) -> Carried:
        """Give pin, ears, and what holds them to the cylinder."""
        t = self.hole.table
        metal = Sum(((1.0, f"{t}.width"), (-1.0, f"{t}.gap")))
        ear = Sum(((0.5, f"{t}.width"), (-0.5, f"{t}.gap")))
        gap = length(f"{t}.gap")
        bushed = bool(self.hole.bushing)
        pin = LoosePin(length(f"{t}.pin"), ear, length(f"{t}.ear"), metal, gap, bushed)
        eye = round_hole(t, self.hole.in_metal, length(f"{t}.nose"), metal)
        return Carried((pin, eye, *held_on(host, self.hold)))

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the length range of a screwed-on clevis."""
        if self.hold:
            self.hold.judge(book)

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give two ears, the web behind them, the hole, and the thread that holds them."""
        t, face, half = host.table, settled_offset(host, s), self.width / 2
        ears = ((-half, -self.gap / 2), (self.gap / 2, half))
        wishes: tuple[Wish, ...] = (
            *self.hole.wishes(),
            *self._wishes(t),
            *self.nose.wishes(),
        )
        symbols = (self.hole.axis(half, half, host.end),)
        bushings = self.hole.parts(host, ears)
        if self.hold is None:
            pieces = (*self._pieces(t, face), *self._roots(host, face))
            wishes = (*wishes, *self.offset.wishes(host, face, host.diameter / 2))
            return MountDrawing(pieces, wishes, symbols, bushings)
        face -= self.hold.nut
        pieces = (*self._pieces(t, face), self.hold.hole(face, self.throat - 1.0))
        own = Part(f"{host.label} clevis", host.end, pieces)
        return MountDrawing(
            self.hold.rod_pieces(host, s, face),
            (
                *wishes,
                *self.offset.wishes(host, face, self.nose.outside / 2),
                *self.hold.wishes(host, s, face),
            ),
            symbols,
            (own, *bushings, *self.hold.parts(host, face)),
            note=self.hold.note,
        )

    def _pieces(self, t: str, reach: float) -> tuple[Piece, ...]:
        g, w, half = self.gap / 2, self.width / 2, self.nose.outside / 2
        ear = ear_outline(half, self.nose.radius, reach)
        pieces = [
            Piece(f"{t}.ear_left", Prism(ear, g, w), ACROSS),
            Piece(f"{t}.ear_right", Prism(ear, -w, -g), ACROSS),
        ]
        if reach - self.throat > SMALL:
            web = Prism(box(self.throat, reach, -half, half), -w, w)
            pieces.append(Piece(f"{t}.web", web, ACROSS))
        return (*pieces, *self.hole.pieces(w, w))

    def _roots(self, host: Host, face: float) -> tuple[Piece, ...]:
        """Give a root behind each ear; a deep slot may leave nothing between them."""
        thick = (self.width - self.gap) / 4
        y = min((self.width + self.gap) / 4, host.diameter / 2 - thick)
        room = min(thick, self.nose.outside / 2, host.diameter / 4)
        solid = face - self.hole.bore / 2
        return tuple(
            root(host.table, face, room, solid, side * y, tag)
            for tag, side in (("_left", 1.0), ("_right", -1.0))
        )

    def _wishes(self, t: str) -> tuple[Wish, ...]:
        g, w = self.gap / 2, self.width / 2
        return (
            Length(f"{t}.gap", (0.0, -g, 0.0), (0.0, g, 0.0), Y, rank=2),
            Length(f"{t}.width", (0.0, -w, 0.0), (0.0, w, 0.0), Y, rank=3),
            Length(f"{t}.throat", ORIGIN, (self.throat, g, 0.0), X, rank=2),
        )
