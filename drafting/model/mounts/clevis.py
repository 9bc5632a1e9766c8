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
from dataclasses import dataclass
from math import hypot
from typing import ClassVar

from drafting.model.frame import ORIGIN, Frame, X, Y, Z
from drafting.model.ledger import Ledger, Rule
from drafting.model.mounts.base import Drawn, End, Host, Mount
from drafting.model.mounts.pinned import (
    SMALL,
    Offset,
    PinHole,
    settle_outside,
    settle_pin_hole,
    settled_offset,
)
from drafting.model.neat import neat_up
from drafting.model.pieces import Arc2, Line2, Outline, Piece, Prism, box, tongue
from drafting.model.stack import Give
from drafting.model.tube_parts import Stations
from drafting.model.wishes import Length, Radius, Wish

ACROSS = Frame(ORIGIN, X, Z, Y)
"""Outlines in the X-Z plane, swept along Y."""


@dataclass(frozen=True, slots=True)
class Clevis(Mount):
    """Two ears, y from gap/2 to width/2 on each side, joined by a web behind the throat."""

    hole: PinHole
    gap: float
    width: float
    outside: float
    nose: float
    throat: float
    throat_typed: bool
    offset: Offset

    word: ClassVar[str] = "clevis"
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
    example: ClassVar[Mapping[str, object]] = {"pin": 1.0, "hole": 1.016, "gap": 1.06, "width": 2.5}

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Clevis:
        """Settle ears, slot and web; refuse what leaves no ear or no web."""
        t, units = host.table, host.units
        hole = settle_pin_hole(book, host)
        outside = settle_outside(book, host, hole, "ear")
        nose = book.number(f"{t}.nose") or outside / 2
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
        typed_throat = book.number(f"{t}.throat")
        throat = cls._throat(book, host, outside, typed_throat, typed_offset)
        if typed_throat is not None and typed_throat < hole.hole / 2 + SMALL:
            book.fault(
                "pin-in-web",
                f"{t}.throat",
                f"{book.say(typed_throat)} from the pin centre to the slot bottom is less than "
                f"half of the hole ({book.say(hole.hole / 2)})",
            )
        lands = width <= host.diameter
        floor = throat + (0.0 if lands else neat_up(0.2 * outside, units))
        offset = (
            Offset(typed_offset, typed_offset, True, "")
            if typed_offset is not None
            else Offset(
                throat + neat_up(0.35 * outside, units),
                floor,
                False,
                "throat plus a web of 0.35 of outside",
            )
        )
        if typed_offset is not None and typed_offset < throat - SMALL:
            book.fault(
                "throat-past-face",
                f"{t}.throat",
                f"the slot would be {book.say(throat)} deep, the face lies "
                f"{book.say(typed_offset)} from the pin: throat can be offset at the most",
            )
        return cls(hole, gap, width, outside, nose, throat, typed_throat is not None, offset)

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
        book.enter(f"{host.table}.throat", rule)
        return rule.value

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset."""
        return sizes[f"{self.hole.table}.offset"]

    def draw(self, host: Host, s: Stations) -> Drawn:
        """Give two ears, the web behind them, and the hole."""
        t, offset = host.table, settled_offset(host, s)
        half = self.outside / 2
        inside = hypot(self.width / 2, half) <= host.diameter / 2
        reach = offset + 2.0 if inside else offset
        ear = ear_outline(half, self.nose, reach)
        pieces = [
            Piece(f"{t}.ear", Prism(ear, self.gap / 2, self.width / 2), ACROSS),
            Piece(f"{t}.ear", Prism(ear, -self.width / 2, -self.gap / 2), ACROSS),
        ]
        web = offset - self.throat
        if web > SMALL:
            shape = Prism(box(self.throat, reach, -half, half), -self.width / 2, self.width / 2)
            pieces.append(Piece(f"{t}.web", shape, ACROSS))
        pieces += self.hole.pieces(self.width / 2, self.width / 2)
        return Drawn(
            tuple(pieces),
            (*self.hole.wishes(), *self._wishes(t)),
            (self.hole.axis(self.width / 2, self.width / 2, host.end),),
            self.hole.parts(
                host, ((-self.width / 2, -self.gap / 2), (self.gap / 2, self.width / 2))
            ),
            embed=0.0 if inside else min(2.0, web / 2),
        )

    def _wishes(self, t: str) -> tuple[Wish, ...]:
        g, w = self.gap / 2, self.width / 2
        return (
            Length(f"{t}.gap", (0.0, -g, 0.0), (0.0, g, 0.0), Y, rank=2),
            Length(f"{t}.width", (0.0, -w, 0.0), (0.0, w, 0.0), Y, rank=3),
            Length(f"{t}.throat", ORIGIN, (self.throat, g, 0.0), X, rank=2),
            Radius(f"{t}.nose", ORIGIN, Y, (-self.nose, 0.0, 0.0), self.nose),
        )


def ear_outline(half: float, nose: float, reach: float) -> Outline:
    """Give an ear of half height ``half``, swing radius ``nose`` >= half, root at ``reach``."""
    if nose <= half + SMALL:
        return tongue(half, reach)
    from math import asin, pi

    a = asin(half / nose)
    x = -((nose**2 - half**2) ** 0.5)
    return (
        Arc2((0.0, 0.0), nose, pi - a, pi + a),
        Line2((x, -half), (reach, -half)),
        Line2((reach, -half), (reach, half)),
        Line2((reach, half), (x, half)),
    )
