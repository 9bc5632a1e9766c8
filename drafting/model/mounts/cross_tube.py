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
from dataclasses import dataclass
from typing import ClassVar

from drafting.model.frame import ORIGIN, X, Y, along
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
from drafting.model.neat import neat
from drafting.model.pieces import Piece, cylinder
from drafting.model.stack import Give
from drafting.model.tube_parts import Stations
from drafting.model.wishes import Diameter, Length, Wish


@dataclass(frozen=True, slots=True)
class CrossTube(Mount):
    """A cross tube with its hole along Y, reaching from -right to +left (world +Y is left)."""

    hole: PinHole
    left: float
    right: float
    outside: float
    offset: Offset

    word: ClassVar[str] = "cross tube"
    ends: ClassVar[tuple[End, ...]] = ("body", "rod")
    fields: ClassVar[tuple[str, ...]] = (
        "pin",
        "hole",
        "width",
        "left",
        "right",
        "outside",
        "nose",
        "offset",
        "bushing",
    )
    example: ClassVar[Mapping[str, object]] = {"pin": 1.0, "hole": 1.016, "width": 1.5}

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
        left, right = settle_sides(book, host, "tube")
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
        return cls(hole, left, right, outside, offset)

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset."""
        return sizes[f"{self.hole.table}.offset"]

    def draw(self, host: Host, s: Stations) -> Drawn:
        """Give tube, the neck that joins it to the face, and the hole."""
        t, offset = host.table, settled_offset(host, s)
        neck = min(0.45 * self.outside, 0.5 * host.diameter, self.left, self.right)
        pieces = (
            Piece(f"{t}.tube", cylinder(self.outside / 2, -self.right, self.left), along(Y)),
            Piece(f"{t}.neck", cylinder(neck, 0.0, offset + 2.0), along(X)),
            *self.hole.pieces(self.right, self.left),
        )
        return Drawn(
            pieces,
            (
                *self.hole.wishes(),
                *side_wishes(t, self.left, self.right),
                Diameter(f"{t}.outside", ORIGIN, Y, self.outside, hole=False),
            ),
            (self.hole.axis(self.right, self.left, host.end),),
            self.hole.parts(host, ((-self.right, self.left),)),
            embed=0.0,
        )


def settle_sides(book: Ledger, host: Host, what: str) -> tuple[float, float]:
    """Settle an eye's reach to +Y (left) and -Y (right) from width, left and right."""
    t = host.table
    left, right = book.number(f"{t}.left", True), book.number(f"{t}.right", True)
    width = book.number(f"{t}.width", True)
    if width is None and left is not None and right is not None:
        width = left + right
        book.compute(f"{t}.width", width, "left plus right")
    elif width is None:
        known = left if left is not None else right
        rule = (
            Rule(2 * known, "twice the side that was typed")
            if known is not None
            else Rule(neat(0.8 * host.bore, host.units), f"{what} as long as 0.8 of the bore")
        )
        book.enter(f"{t}.width", rule, interface=True)
        width = rule.value
    if left is None:
        left = width / 2 if right is None else width - right
    if right is None:
        right = width - left
    if abs(left + right - width) > SMALL or min(left, right) <= 0:
        book.fault(
            "sides-disagree",
            f"{t}.width",
            f"left {book.say(left)} and right {book.say(right)} do not make a {what} "
            f"of {book.say(width)}; "
            "left and right are measured from the centre line and together are the width",
        )
        left = right = width / 2
    return left, right


def side_wishes(table: str, left: float, right: float) -> tuple[Wish, ...]:
    """Give the width, and both sides when the eye is not central."""
    a, b = (0.0, -right, 0.0), (0.0, left, 0.0)
    even = abs(left - right) < SMALL
    width = Length(f"{table}.width", a, b, Y, rank=3, reference=not even)
    if even:
        return (width,)
    return (
        width,
        Length(f"{table}.right", a, ORIGIN, Y, rank=2),
        Length(f"{table}.left", ORIGIN, b, Y, rank=2),
    )
