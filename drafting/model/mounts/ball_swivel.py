r"""Ball swivel: a ball with the pin through it, held in a ring.

   ball_width
|<----------->|
   width
  |<----->|
  |#######|            .-'''-.
.-|       |-.         /  .-.  \  outside
| |       | |  pin   |  ( o )  |___
'-|       |-'         \  '-'  / ___|
  |#######|            '-...-'
"""

from __future__ import annotations

from collections.abc import Mapping
from math import asin, atan2, degrees, floor, hypot
from typing import ClassVar

from drafting.model.mounts.grease import grease_fitting
from drafting.model.mounts.lug import eye_outline, eye_root
from drafting.model.mounts.pinned import (
    ACROSS,
    SMALL,
    Offset,
    PinHole,
    root,
    settle_pin_hole,
    settled_offset,
)
from drafting.model.mounts.read import AT_PIN, OUTSIDE, PIN, PIN_EDGES
from drafting.model.mounts.threaded import FIELDS, Hold, held_on, settle_hold
from drafting.records import dataclass
from drafting.settle.carried import Carried, Taken, length, round_hole, single_eye
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing, PinWay, Turns
from drafting.settle.shop_sizes import neat, neat_up
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Callout, Diameter, Length, Wish
from drafting.shape.frame import ORIGIN, Y, Z, along
from drafting.shape.pieces import Ball, Part, Piece, Prism, Turned, cylinder
from drafting.standards.table import Row, lookup, table

LAND = 0.08
"""Flat left on the ball's face all round the hole, in holes: as drawn only, common practice."""


@dataclass(frozen=True, slots=True)
class BallSwivel(Mount):
    """A ring of ``width`` and a ball of ``ball_width`` across its faces, both central (mm)."""

    hole: PinHole
    width: float
    ball_width: float
    ball: float
    outside: float
    tilt: float
    grease: bool
    offset: Offset
    hold: Hold | None

    word: ClassVar[str] = "ball swivel"
    also: ClassVar[str] = "ball spherical spherical-bearing spherical-eye swivel swivel-eye"
    ends: ClassVar[tuple[End, ...]] = ("body", "rod")
    fields: ClassVar[tuple[str, ...]] = (
        "pin",
        "hole",
        "width",
        "ball_width",
        "outside",
        "offset",
        "grease",
    )
    rod_fields: ClassVar[tuple[str, ...]] = FIELDS
    check_fields: ClassVar[tuple[str, ...]] = ("ear", "bearing_rating", "bearing_outside")
    example: ClassVar[Mapping[str, object]] = {
        "pin": 1.25,
        "hole": 1.25,
        "width": 0.937,
        "ball_width": 1.093,
    }
    turns: ClassVar[Turns] = "ball"
    datum: ClassVar[str] = "pin"
    sheet_words: ClassVar[Mapping[str, str]] = {"width": "Ring width"}
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        AT_PIN,
        (
            *PIN,
            ToRead("K", "ball_width", "across the ball's faces", "size", "caliper"),
            ToRead("W", "width", "width of the ring", "size", "caliper"),
            OUTSIDE,
        ),
        {"pin": 40.0, "hole": 40.0, "outside": 92.0},
        PIN_EDGES,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> BallSwivel:
        """Settle ball and ring; the ring must hold the ball, and the ball stand out of it."""
        t = host.table
        hole = settle_pin_hole(book, host)
        row = _bearing(hole.hole)
        ball_width = book.size(
            f"{t}.ball_width",
            _tabled(row, "B_mm") or Rule(neat_up(0.75 * hole.hole, host.units), "0.75 of the hole"),
            interface=True,
        )
        width = book.size(
            f"{t}.width",
            _tabled(row, "C_mm", ball_width)
            or Rule(neat(0.82 * ball_width, host.units), "0.82 of the ball's width"),
            interface=True,
        )
        ball = hypot(ball_width, (1 + 2 * LAND) * hole.hole)
        book.compute(
            f"{t}.ball", ball, "a land of 0.08 of the hole on the ball's faces; as drawn only"
        )
        cls._judge_widths(book, t, width, ball_width, ball)
        outside = book.size(
            f"{t}.outside",
            Rule(neat_up(1.4 * ball, host.units), "a ring of 0.2 of the ball all round it"),
        )
        if outside <= ball + SMALL:
            book.fault(
                "ring-inside-ball",
                f"{t}.outside",
                f"{book.say(outside)} round a ball of {book.say(ball)} leaves no ring; outside is "
                "the outside diameter of the ring",
            )
        tilt = _tilt(width, ball_width, outside)
        why = "the ring's rim meets a lug that stands against the ball's face"
        listed = row.number("tilt_deg_conservative") if row else None
        if listed is not None and listed < tilt:
            tilt, why = listed, f"the bearing's own, {row.where if row else ''}"
        book.compute(f"{t}.tilt", tilt, why, "deg")
        hold = settle_hold(book, host)
        offset = cls._offset(book, host, ball, outside, width, hold)
        return cls(
            hole,
            width,
            ball_width,
            ball,
            outside,
            tilt,
            book.flag(f"{t}.grease"),
            offset,
            hold,
        )

    @staticmethod
    def _judge_widths(book: Ledger, t: str, width: float, ball_width: float, ball: float) -> None:
        told = (
            f"the ring is {book.say(width)} wide, the ball {book.say(ball_width)} across its "
            "faces; width is the ring's, ball_width is what enters the machine's lugs"
        )
        if width > 0.9 * ball:
            book.fault("ring-hides-ball", f"{t}.width", f"{told}: so wide a ring takes in no ball")
        elif width > ball_width - SMALL:
            book.find(
                "ring-wider-than-ball",
                "warning",
                f"{t}.width",
                f"{told}: with no play beside the ring the swivel cannot tilt; mixed up?",
                "common practice",
            )
        elif width < 0.4 * ball_width:
            book.find(
                "narrow-ring",
                "warning",
                f"{t}.width",
                f"{told}: a ring this narrow hardly holds the ball",
                "common practice",
            )

    @staticmethod
    def _offset(
        book: Ledger, host: Host, ball: float, outside: float, width: float, hold: Hold | None
    ) -> Offset:
        least = outside / 2
        why = "the ring lies against the face (half of outside)"
        if hold:
            least = max(least, ball / 2 + SMALL + hold.inside)
            why = "ball and thread in the ring or its hub"
        name = f"{host.table}.offset"
        typed = book.number(name)
        if typed is None:
            if hold:
                least = hold.least_offset(ball / 2 + SMALL, outside / 2, width)
            wanted = least if hold is None else least + 0.1 * outside
            return Offset(neat_up(wanted, host.units), least, False, why)
        if typed < least - SMALL:
            book.fault(
                "ring-in-face",
                name,
                f"{book.say(typed)} from the pin centre to the face is too short; the least is "
                f"{book.say(least)}: {why}",
            )
        return Offset(typed, typed, True, "")

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the offset."""
        return (self.offset.give(host, self.word),)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the offset, and the jam nut behind it."""
        return sizes[f"{self.hole.table}.offset"] + (self.hold.nut if self.hold else 0.0)

    def pin_way(self) -> PinWay:
        """Give the ball."""
        return PinWay(self.hole.pin, self.ball_width / 2, self.ball_width / 2, False)

    def carried(self, host: Host) -> Carried:
        """Give pin, ring round the bearing, the bearing itself, and what holds the ring."""
        t = self.hole.table
        half = length(f"{t}.outside", 0.5)
        ring = round_hole(t, "bearing_outside", half, length(f"{t}.width"))
        row = _bearing(self.hole.hole)
        outside = _tabled(row, "D_mm")
        return Carried(
            (
                single_eye(t, "ball_width", True),
                ring,
                *held_on(host, self.hold),
            ),
            taken=(Taken(f"{t}.bearing_outside", outside.value, outside.why),) if outside else (),
        )

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the length range of a screwed-on ring; its thread must lie in metal."""
        if self.hold:
            self.hold.judge(book)
            face = settled_offset(host, s) - self.hold.nut
            self.hold.fits(book, face - self.outside / 2, self.width, "ring")

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the ring with its hollow, the ball in it, and the thread that holds the ring."""
        t, face, half = host.table, settled_offset(host, s), self.outside / 2
        over = self.width / 2 + min(0.5, (self.ball - self.width) / 4)
        hollow = Turned((Ball(-over, over, 0.0, self.ball / 2),))
        cuts = [Piece(f"{t}.hollow", hollow, along(Y), cut=True)]
        parts = [self._ball(host)]
        if self.grease:
            top = along(Z, (0.0, 0.0, half))
            cut, fitting = grease_fitting(host, top, half, half - self.ball / 2)
            cuts.append(cut)
            parts.append(fitting)
        symbols = (self.hole.axis(self.ball_width / 2, self.ball_width / 2, host.end),)
        if self.hold is None:
            tall = eye_root(half, half, host.diameter)
            room = min(tall, self.width / 2, host.diameter / 2)
            held = root(t, face, room, face - self.ball / 2)
            pieces = (self._ring(t, face, tall), held, *cuts)
            wishes = (*self._wishes(t), *self.offset.wishes(host, face, host.diameter / 2))
            return MountDrawing(pieces, wishes, symbols, tuple(parts))
        face -= self.hold.nut
        hub = self.hold.hub(face, half)
        tall = eye_root(half, half, 2 * self.hold.hub_radius if hub else 2 * half)
        hole = self.hold.hole(face, self.ball / 2 + SMALL)
        ring = Part(f"{host.label} ring", host.end, (self._ring(t, face, tall), *hub, *cuts, hole))
        return MountDrawing(
            self.hold.rod_pieces(host, s, face),
            (
                *self._wishes(t),
                *self.offset.wishes(host, face, self.hold.hub_radius if hub else half),
                *self.hold.wishes(host, s, face),
            ),
            symbols,
            (ring, *parts, *self.hold.parts(host, face)),
            note=self.hold.note,
        )

    def _ring(self, t: str, reach: float, tall: float) -> Piece:
        half = self.outside / 2
        outline = eye_outline(half, half, reach, tall)
        return Piece(f"{t}.ring", Prism(outline, -self.width / 2, self.width / 2), ACROSS)

    def _ball(self, host: Host) -> Part:
        half = self.ball_width / 2
        sphere = Turned((Ball(-half, half, 0.0, self.ball / 2),))
        hole = cylinder(self.hole.hole / 2, -half - 1.0, half + 1.0)
        pieces = (
            Piece(f"{host.table}.ball", sphere, along(Y)),
            Piece(f"{host.table}.hole", hole, along(Y), cut=True),
        )
        return Part(f"{host.label} ball", host.end, pieces, hatched=False)

    def _wishes(self, t: str) -> tuple[Wish, ...]:
        w, b, half = self.width / 2, self.ball_width / 2, self.outside / 2
        edge = self.hole.hole / 2
        angle = f"{floor(self.tilt + 1e-9)}"  # a limit is not rounded up
        tilt = "BALL HAS NO ROOM TO TILT" if angle == "0" else f"BALL TILTS ({angle}°) EACH WAY"
        return (
            *self.hole.wishes(),
            Length(f"{t}.width", (0.0, -w, half), (0.0, w, half), Y, rank=2, note="RING"),
            Length(f"{t}.ball_width", (0.0, -b, 0.0), (0.0, b, 0.0), Y, rank=3, note="BALL"),
            Diameter(f"{t}.outside", ORIGIN, Y, self.outside, hole=False),
            Callout(f"{t}.tilt", (0.0, b, edge), Y, (tilt,), others=((0.0, -b, edge),)),
        )


def _bearing(hole: float) -> Row | None:
    return next(iter(lookup(table("spherical_bearing").rows, "d", hole)), None)


def _tabled(row: Row | None, column: str, below: float | None = None) -> Rule | None:
    """Give a size of the bearing's row, when it is smaller than ``below``."""
    value = row.number(column) if row else None
    if row is None or value is None or (below is not None and value >= below):
        return None
    return Rule(value, f"the bearing of this hole, {row.where}", row.source, "table")


def _tilt(width: float, ball_width: float, outside: float) -> float:
    """Give the angle (degrees) at which the ring's rim meets a flat lug beside the ball.

    The rim, ``outside`` across at ``width`` / 2, turns until it lies ``ball_width`` / 2 out.
    """
    if ball_width <= width:
        return 0.0
    rim = hypot(width, outside)
    return degrees(asin(min(ball_width / rim, 1.0)) - atan2(width, outside))
