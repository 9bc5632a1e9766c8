"""Ports in their place: where each sits on the closed stack, what is said of it.

Shapes are built in ``shapes.py``.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drafting.model.ports.sizes import PortSizes
from drafting.records import dataclass
from drafting.settle.clock import both_readings
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shell import Shell, Span
from drafting.settle.shop_sizes import neat_within
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout, CentreLine, Length, Symbol, Wish
from drafting.shape.frame import ORIGIN, Vec, add, clock_direction, scale
from drafting.standards.ports import PortThread


@dataclass(frozen=True, slots=True)
class Port:
    """A port in its place: centre at world x, face at ``face`` from the axis.

    ``part`` carries it (barrel, gland, cap or head). ``surface`` is the seat's distance from the
    axis, ``inside`` where its drilling ends. ``outlet`` is the world x of the outlet's face when it
    runs along the barrel.
    """

    sizes: PortSizes
    part: str
    x: float
    surface: float
    flat: bool
    inside: float
    face: float
    outlet: float

    @property
    def table(self) -> str:
        """Give the spec table."""
        return self.sizes.table

    @property
    def end(self) -> str:
        """Give the end: base or rod."""
        return self.sizes.end

    @property
    def thread(self) -> PortThread:
        """Give the thread."""
        return self.sizes.thread

    @property
    def clock(self) -> float:
        """Give the clock angle in degrees, seen from the rod end."""
        return self.sizes.clock

    @property
    def in_degrees(self) -> bool:
        """Tell whether the clock was typed in degrees."""
        return self.sizes.in_degrees

    @property
    def direction(self) -> Vec:
        """Give the direction from the axis to the port."""
        return clock_direction(self.sizes.clock)

    @property
    def normal(self) -> Vec:
        """Give the direction that the opening faces."""
        if self.sizes.facing == "out":
            return self.direction
        return (1.0 if self.sizes.facing == "rod" else -1.0, 0.0, 0.0)

    @property
    def tip(self) -> Vec:
        """Give the centre of the opening's face."""
        x = self.x if self.sizes.facing == "out" else self.outlet
        return add((x, 0.0, 0.0), scale(self.direction, self.face))

    def wishes(self) -> tuple[Wish, ...]:
        """Give callout, distance from the body datum, and how far it stands out of its seat.

        Of a tube along the barrel that is its axis.
        """
        lines = [*self.thread.callout, both_readings(self.clock, self.sizes.in_degrees)]
        if self.sizes.plugged:
            lines.append("PLUGGED")
        x = (1.0, 0.0, 0.0)
        foot = add((self.x, 0.0, 0.0), scale(self.direction, self.face))
        wishes: list[Wish] = [
            Callout(f"{self.table}.thread", self.tip, self.normal, tuple(lines)),
            Length(f"{self.table}.position", ORIGIN, foot, x, rank=4, toward=self.direction),
        ]
        along = self.sizes.facing != "out"
        if self.face > self.surface:
            at = self.outlet if along else self.x + self.sizes.boss / 2
            seat, top = (
                add((at, 0.0, 0.0), scale(self.direction, r)) for r in (self.surface, self.face)
            )
            out = self.direction
            wishes.append(Length(f"{self.table}.height", seat, top, out, rank=2, toward=out))
        if along:
            wishes.append(
                Length(
                    f"{self.table}.outlet_position",
                    ORIGIN,
                    self.tip,
                    x,
                    rank=4,
                    note="OUTLET",
                    toward=self.direction,
                )
            )
        return tuple(wishes)

    def symbols(self) -> tuple[Symbol, ...]:
        """Give the port's axis."""
        foot = add((self.x, 0.0, 0.0), scale(self.direction, self.inside))
        top = add((self.x, 0.0, 0.0), scale(self.direction, self.face))
        lines: tuple[Symbol, ...] = (CentreLine(f"{self.table}.thread", foot, top),)
        if self.sizes.facing != "out":
            lines += (CentreLine(f"{self.table}.outlet", top, self.tip),)
        return lines


def place_ports(
    book: Ledger,
    shell: Shell,
    sizes: Sequence[PortSizes],
    s: Stations,
    taken: Callable[[float, float], Span | None],
) -> tuple[Port, ...]:
    """Place every port on the closed stack: typed, or where the piston never covers it.

    ``taken`` tells from where to where the body's mount is in the way of a port of that clock and
    width.
    """
    ports = []
    for p in sizes:
        seat = shell.seat(s, p.end, p.boss, p.passage, taken(p.clock, p.across))
        rule = Rule(neat_within(seat.x, seat.lo, seat.hi, book.spec.units), seat.why)
        x = book.size(f"{p.table}.position", rule, interface=True)
        if not s.closed_end < x < s.gland_face:
            book.fault(
                "port-off-barrel",
                f"{p.table}.position",
                f"{book.place(f'{p.table}.position', x)} from the body datum is not on the "
                "cylinder, which reaches from "
                f"{book.say(s.closed_end)} to {book.say(s.gland_face)}",
            )
            continue
        outlet = x
        if p.facing != "out":
            reach = 1.5 * p.boss * (1 if p.facing == "rod" else -1)
            rule = Rule(x + reach, "1.5 of its width beyond the port")
            outlet = book.size(f"{p.table}.outlet_position", rule, interface=True)
            if (outlet - x) * reach <= 0 or abs(outlet - x) < p.boss / 2:
                book.fault(
                    "outlet-behind-port",
                    f"{p.table}.outlet_position",
                    f"an outlet facing the {p.facing} end lies at least {book.say(p.boss / 2)} "
                    f"beyond its port at {book.place(f'{p.table}.position', x)}, not at "
                    f"{book.place(f'{p.table}.outlet_position', outlet)}",
                )
        seat = shell.seat_at(s, seat, x)
        face = seat.surface + p.height
        ports.append(Port(p, seat.part, x, seat.surface, seat.flat, seat.inside, face, outlet))
    return tuple(ports)
