"""A port in a welded boss: where it is, how it is built, what it says.

What differs between port standards lies in their tables; nothing here asks which one it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees, sqrt

from drafting.model.frame import Vec, add, along, clock_direction, scale
from drafting.model.ledger import Ledger, Rule
from drafting.model.neat import neat_up
from drafting.model.pieces import Piece, cylinder, stepped
from drafting.model.tube_parts import Stations
from drafting.model.wishes import Callout, CentreLine, Length, Thread
from drafting.standards.ports import PortThread, PortWordError, parse_port

WIDEST = 0.9
"""A boss is at the most this part of the barrel's outside (the spec format's own limit)."""


@dataclass(frozen=True, slots=True)
class Port:
    """A port, axis radial at ``clock`` degrees (seen from the rod end), centre at world x."""

    table: str
    end: str
    thread: PortThread
    clock: float
    x: float
    boss: float
    height: float
    passage: float
    face: float
    barrel: float
    bore: float
    plugged: bool

    @property
    def direction(self) -> Vec:
        """Give the outward direction of the port."""
        return clock_direction(self.clock)

    @property
    def tip(self) -> Vec:
        """Give the centre of the port's face."""
        return add((self.x, 0.0, 0.0), scale(self.direction, self.face))

    @property
    def half_angle(self) -> float:
        """Give half of the angle (degrees) that the boss takes on the barrel."""
        return degrees(asin(min(self.boss / self.barrel, 1.0)))

    def pieces(self) -> tuple[Piece, ...]:
        """Give boss and drilled, threaded opening (thread as a cylinder at its major diameter)."""
        frame = along(self.direction, (self.x, 0.0, 0.0), (1.0, 0.0, 0.0))
        foot = _surface(self.barrel / 2, self.boss / 2) - 1.0
        inside = max(_surface(self.bore / 2, self.passage / 2) - 1.0, 0.0)
        major = self.thread.major_mm / 2
        bottom = max(self.face - self.depth, inside + 0.5)
        opening = stepped(
            (inside, self.passage / 2),
            (bottom, self.passage / 2),
            (bottom, major),
            (self.face + 1.0, major),
        )
        return (
            Piece(f"{self.table}.boss", cylinder(self.boss / 2, foot, self.face), frame),
            Piece(f"{self.table}.thread", opening, frame, cut=True),
        )

    @property
    def depth(self) -> float:
        """Give the drawn depth of thread: the table's, else as deep as the thread is wide."""
        return self.thread.thread_depth_mm or 0.75 * self.thread.major_mm

    def wishes(self, words: str) -> tuple[Callout | Length, ...]:
        """Give the callout and the distance from the body datum."""
        lines = (
            (*self.thread.callout, words)
            if not self.plugged
            else (
                *self.thread.callout,
                words,
                "PLUGGED",
            )
        )
        return (
            Callout(f"{self.table}.thread", self.tip, self.direction, lines),
            Length(f"{self.table}.position", (0.0, 0.0, 0.0), self.tip, (1.0, 0.0, 0.0), rank=3),
        )

    def symbols(self) -> tuple[CentreLine | Thread, ...]:
        """Give the port's axis."""
        inner = add((self.x, 0.0, 0.0), scale(self.direction, self.bore / 2))
        return (CentreLine(f"{self.table}.thread", inner, self.tip),)


def _surface(radius: float, beside: float) -> float:
    """Height of a round surface at a distance beside its crown."""
    return sqrt(max(radius**2 - beside**2, 0.0))


@dataclass(frozen=True, slots=True)
class PortSizes:
    """A port's own sizes, before the stack tells where it lies."""

    table: str
    end: str
    thread: PortThread
    clock: float
    boss: float
    height: float
    passage: float
    plugged: bool


def settle_port_sizes(
    book: Ledger, table: str, end: str, barrel: float, bore: float, clock: float
) -> PortSizes | None:
    """Settle thread, boss and height of a port, or enter a fault and give None."""
    typed = book.given(f"{table}.thread", interface=True)
    if typed is None:
        return None
    try:
        thread = parse_port(str(typed.value))
    except PortWordError as wrong:
        book.fault(wrong.code, f"{table}.thread", wrong.message)
        return None
    spot = thread.spotface_dia_mm
    least = spot or thread.major_mm
    if least > WIDEST * barrel:
        book.fault(
            "port-too-wide",
            f"{table}.thread",
            f"{thread.echo}: its {'spotface' if spot else 'thread'} of {book.say(least)} is wider "
            f"than 0.9 of the barrel's outside ({book.say(WIDEST * barrel)}); a smaller port fits",
        )
        return None
    boss = (
        Rule(neat_up(spot, book.spec.units), "boss as wide as the spotface", thread.source)
        if spot
        else Rule(neat_up(1.4 * thread.major_mm, book.spec.units), "boss 1.4 of the thread")
    )
    if boss.value > WIDEST * barrel:
        boss = Rule(WIDEST * barrel, "0.9 of the barrel's outside, the widest boss")
    book.enter(f"{table}.boss", boss)
    wall = (barrel - bore) / 2
    need = thread.drill_depth_mm or thread.thread_depth_mm or 0.75 * thread.major_mm
    height = book.size(
        f"{table}.height",
        Rule(
            max(neat_up(need - wall, book.spec.units), neat_up(3.0, book.spec.units)),
            "wall and boss together take the tap drill's depth",
            thread.source,
        ),
    )
    passage = min(0.6 * thread.major_mm, 0.5 * bore)
    return PortSizes(
        table, end, thread, clock, boss.value, height, passage, book.flag(f"{table}.plugged")
    )


def place_port(book: Ledger, sizes: PortSizes, s: Stations) -> Port | None:
    """Place a port on the closed stack: typed, or where the piston never covers it."""
    half = sizes.boss / 2
    if sizes.end == "base":
        free = s.oil_side + s.piston_relief / 2
        rule = Rule(max(free, s.closed_end + half), "over the piston's relief when retracted")
    else:
        free = s.gland_inner
        rule = Rule(min(free, s.barrel_end - half), "at the gland's inner face")
    x = book.size(f"{sizes.table}.position", rule, interface=True)
    if not s.closed_end < x < s.gland_face:
        book.fault(
            "port-off-barrel",
            f"{sizes.table}.position",
            f"{book.say(x)} from the body datum is not on the barrel, which reaches from "
            f"{s.closed_end:g} to {book.say(s.gland_face)}",
        )
        return None
    return Port(
        sizes.table,
        sizes.end,
        sizes.thread,
        sizes.clock,
        x,
        sizes.boss,
        sizes.height,
        sizes.passage,
        s.barrel_outside / 2 + sizes.height,
        s.barrel_outside,
        s.bore,
        sizes.plugged,
    )
