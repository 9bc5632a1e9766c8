"""Pin eye: one eye with the pin through it.

   width                     nose      offset
|<------->|                 |<-- o ------->|
|---------|                 .---------.___ |
|   pin   |                (  o  pin   ___ | outside
|---------|                 `---------'    |
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.grease import grease_fitting
from drafting.model.mounts.lug import eye_outline, eye_root
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
from drafting.model.mounts.read import AT_PIN, EYE, NO_WASHERS, NOSE, OUTSIDE, PIN, PIN_EDGES, SIDES
from drafting.model.mounts.sides import EYE_FIELDS, settle_sides, side_wishes, which_follows
from drafting.model.mounts.threaded import FIELDS, Hold, held_on, settle_hold
from drafting.records import dataclass
from drafting.settle.carried import Carried, length, round_hole, single_eye
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing, PinWay, Turns
from drafting.settle.shop_sizes import neat, neat_up
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Wish
from drafting.shape.frame import Z, along
from drafting.shape.pieces import Part, Piece, Prism


@dataclass(frozen=True, slots=True)
class PinEye(Mount):
    """An eye from y = -right to y = left, welded on or screwed onto the rod."""

    hole: PinHole
    left: float
    right: float
    nose: Nose
    grease: bool
    offset: Offset
    hold: Hold | None
    follows: str = "width"

    word: ClassVar[str] = "pin eye"
    also: ClassVar[str] = "eye rod-eye single-eye tang male-clevis"
    ends: ClassVar[tuple[End, ...]] = ("body", "rod")
    fields: ClassVar[tuple[str, ...]] = EYE_FIELDS
    rod_fields: ClassVar[tuple[str, ...]] = FIELDS
    check_fields: ClassVar[tuple[str, ...]] = ("ear", "bearing_rating")
    example: ClassVar[Mapping[str, object]] = {"pin": 1.0, "hole": 1.016, "width": 1.5}
    turns: ClassVar[Turns] = "pin"
    datum: ClassVar[str] = "pin"
    sheet_words: ClassVar[Mapping[str, str]] = {"width": "Eye width"}
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        AT_PIN,
        (
            *PIN,
            ToRead("W", "width", "width of the eye", "size", "caliper", NO_WASHERS),
            *SIDES,
            NOSE,
            OUTSIDE,
        ),
        {**EYE, "width": 46.0, "nose": 40.0},
        PIN_EDGES,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> PinEye:
        """Settle the eye; it must leave metal round the pin and before the face."""
        t = host.table
        hole = settle_pin_hole(book, host)
        outside = settle_outside(book, host, hole, "eye")
        nose = settle_nose(book, host, outside)
        usual = Rule(neat(0.8 * host.rod, host.units), "an eye 0.8 of the rod wide")
        left, right = settle_sides(book, host, "eye", usual)
        hold = settle_hold(book, host)
        least = outside / 2
        if hold is not None:
            least = max(least, hole.bore / 2 + SMALL + hold.inside)
        typed = book.number(f"{t}.offset")
        if typed is not None and typed < least - SMALL:
            what = (
                "half of outside"
                if hold is None
                else "half of outside, or the hole and the thread in the eye"
            )
            book.fault(
                "eye-in-face",
                f"{t}.offset",
                f"{book.say(typed)} from the pin centre to the face is too short; the least is "
                f"{book.say(least)}: {what}",
            )
        if hold is not None:
            past, half = hole.bore / 2 + SMALL, outside / 2
            least = hold.least_offset(past, half, 2 * min(left, right))
        wanted = least if hold is None else least + neat_up(0.1 * outside, host.units)
        why = (
            "the eye lies against the face (half of outside)"
            if hold is None
            else "hole and thread in the eye, and metal between them"
        )
        offset = (
            Offset(typed, typed, True, "")
            if typed is not None
            else Offset(neat_up(wanted, host.units), least, False, why)
        )
        grease = book.flag(f"{t}.grease")
        return cls(hole, left, right, nose, grease, offset, hold, which_follows(book, host))

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset, and the jam nut behind it."""
        return sizes[f"{self.hole.table}.offset"] + (self.hold.nut if self.hold else 0.0)

    def pin_way(self) -> PinWay:
        """Give the eye."""
        return PinWay(self.hole.pin, self.right, self.left, False)

    def carried(self, host: Host) -> Carried:
        """Give pin, eye, and what holds it to the cylinder."""
        t = self.hole.table
        pin = single_eye(t, "width", bool(self.hole.bushing))
        eye = round_hole(t, self.hole.in_metal, length(f"{t}.nose"), length(f"{t}.width"))
        return Carried((pin, eye, *held_on(host, self.hold)))

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the length range of a screwed-on eye; its thread must lie in metal."""
        if self.hold:
            self.hold.judge(book)
            face = settled_offset(host, s) - self.hold.nut
            narrow = 2 * min(self.left, self.right)
            self.hold.fits(book, face - self.nose.outside / 2, narrow, "eye")

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the eye, its hole, bushing and fitting, and the thread that holds it."""
        t, face, half = host.table, settled_offset(host, s), self.nose.outside / 2
        drill: tuple[Piece, ...] = ()
        parts: list[Part] = []
        if self.grease:
            top = along(Z, (0.0, 0.0, half))
            cut, fitting = grease_fitting(host, top, half, half - self.hole.hole / 2)
            drill = (cut,)
            parts.append(fitting)
        parts += self.hole.parts(host, ((-self.right, self.left),), drill)
        cuts = (*self.hole.pieces(self.right, self.left), *drill)
        wishes: tuple[Wish, ...] = (
            *self.hole.wishes(),
            *side_wishes(t, self.left, self.right, self.follows),
            *self.nose.wishes(),
        )
        symbols = (self.hole.axis(self.right, self.left, host.end),)
        if self.hold is None:
            tall = eye_root(half, self.nose.radius, host.diameter)
            room = min(tall, self.left, self.right, host.diameter / 2)
            held = root(t, face, room, face - self.hole.bore / 2)
            pieces = (self._eye(t, face, tall), held, *cuts)
            wishes = (*wishes, *self.offset.wishes(host, face, host.diameter / 2))
            return MountDrawing(pieces, wishes, symbols, tuple(parts))
        face -= self.hold.nut
        hub = self.hold.hub(face, half)
        tall = eye_root(half, self.nose.radius, 2 * self.hold.hub_radius if hub else 2 * half)
        hole = self.hold.hole(face, self.hole.bore / 2 + SMALL)
        own = Part(f"{host.label} pin eye", host.end, (self._eye(t, face, tall), *hub, *cuts, hole))
        return MountDrawing(
            self.hold.rod_pieces(host, s, face),
            (
                *wishes,
                *self.offset.wishes(host, face, self.hold.hub_radius if hub else half),
                *self.hold.wishes(host, s, face),
            ),
            symbols,
            (own, *parts, *self.hold.parts(host, face)),
            note=self.hold.note,
        )

    def _eye(self, t: str, reach: float, tall: float) -> Piece:
        outline = eye_outline(self.nose.outside / 2, self.nose.radius, reach, tall)
        return Piece(f"{t}.eye", Prism(outline, -self.right, self.left), ACROSS)
