"""Ports: which thread, where it sits, which way it points.

What differs between port standards lies in their tables; what differs between seats lies in the
shell. Shapes are built in ``port_shapes.py``.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from drafting.errors import Fault
from drafting.records import dataclass
from drafting.settle.clock import (
    both_readings,
    hour,
    seen_from_base,
    seen_from_rod,
    typed_in_degrees,
    viewpoint,
)
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shell import Shell, Span
from drafting.settle.shop_sizes import neat_up, neat_within
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout, CentreLine, Length, Symbol, Wish
from drafting.shape.frame import ORIGIN, Vec, add, clock_direction, scale
from drafting.spec.given import Spec
from drafting.standards.ports import PortThread, PortWordError, parse_port

Facing = Literal["out", "base", "rod"]
PASSAGE = 0.6
"""Drilling behind the thread, as a part of its major diameter; as drawn only."""
RIM = 1.1
"""From a flange's bolt centre to the pad's edge, in bolts; as drawn only, common practice."""
BOLT_DEEP = 1.5
"""Depth of a flange's bolt holes, in bolts; common practice."""


@dataclass(frozen=True, slots=True)
class PortSizes:
    """A port's own sizes in mm, before the stack tells where it lies.

    ``clock`` is seen from the rod end, and said ``in_degrees`` if it was typed so. ``boss`` is the
    diameter of the boss or spotface, for a flange the length of its pad along the axis; ``across``
    its width, ``room`` what it takes along the axis.
    """

    table: str
    end: str
    thread: PortThread
    clock: float
    boss: float
    height: float
    passage: float
    facing: Facing
    plugged: bool
    in_degrees: bool = False

    @property
    def across(self) -> float:
        """Give the width across the axis."""
        return pad_of(self.thread)[1] if self.thread.is_flange else self.boss

    @property
    def opening(self) -> float:
        """Give what holes take along the axis: thread or bore, or bolt holes."""
        flange = self.thread.flange
        return flange.long_mm + flange.bolt_mm if flange else self.thread.major_mm

    @property
    def room(self) -> float:
        """Give what the port takes along the axis, with a rim."""
        return self.boss + 4.0


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


def pad_of(thread: PortThread) -> tuple[float, float]:
    """Give length along the axis and width of a flange's pad: bolts with a rim of 0.6 of a bolt."""
    assert thread.flange is not None
    rim = 2 * RIM * thread.flange.bolt_mm
    return thread.flange.long_mm + rim, thread.flange.short_mm + rim


def port_tables(spec: Spec) -> list[tuple[str, str]]:
    """Give each port table of the file with its end, in the order of the format."""
    tables = [(t, e) for t, e in (("base_port", "base"), ("rod_port", "rod")) if spec.has(t)]
    for k in range(spec.count("extra_port")):
        table = f"extra_port[{k + 1}]"
        tables.append((table, spec.word(f"{table}.end") or "base"))
    return tables


def settle_port_sizes(book: Ledger, shell: Shell) -> list[PortSizes]:
    """Settle thread, boss and height of every port; a wrong one enters a fault."""
    side = viewpoint(book)
    settled = []
    for table, end in port_tables(book.spec):
        rule = _usual_clock(book, end)
        clock = seen_from_rod(book.size(f"{table}.clock", rule, interface=True, unit="deg"), side)
        for seen, degrees in (("rod", clock), ("base", seen_from_base(clock))):
            said = hour(degrees, typed_in_degrees(book, f"{table}.clock"))
            why = f"read from the {seen} end: {said}"
            book.compute(f"{table}.clock_from_{seen}", degrees, why, "deg")
        shell.judge_clock(book, f"{table}.clock", clock)
        thread = _thread(book, table, shell)
        if thread is not None:
            settled.append(_sizes(book, shell, table, end, thread, clock))
    return settled


def port_words(spec: Spec) -> list[Fault]:
    """Give the faults of the port threads that no table or reading allows."""
    faults = []
    for table, _ in port_tables(spec):
        name = f"{table}.thread"
        typed = spec.word(name)
        if typed is not None:
            try:
                parse_port(typed)
            except PortWordError as wrong:
                faults.append(spec.fault(wrong.code, name, wrong.message))
    return faults


def _usual_clock(book: Ledger, end: str) -> Rule:
    """Give 12 o'clock; a port of a turned cap turns with it, as the file's clocks are read."""
    turned = book.number("cylinder.cap_turned") or 0.0
    if end == "base" and turned:
        return Rule(turned, f"12 o'clock of a cap turned {turned:g} degrees")
    return Rule(0.0, "12 o'clock")


def _thread(book: Ledger, table: str, shell: Shell) -> PortThread | None:
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
    what = "spotface" if spot else "thread"
    if thread.is_flange:
        least, what = pad_of(thread)[1], "pad"
    if least > shell.widest_port:
        book.fault(
            "port-too-wide",
            f"{table}.thread",
            f"{thread.echo}: its {what} of {book.say(least)} is wider "
            f"than what it sits on takes ({book.say(shell.widest_port)}); a smaller port fits",
        )
        return None
    return thread


def _sizes(
    book: Ledger, shell: Shell, table: str, end: str, thread: PortThread, clock: float
) -> PortSizes:
    units = book.spec.units
    spot = thread.spotface_dia_mm
    boss = (
        Rule(neat_up(spot, units), "as wide as the spotface", thread.source)
        if spot
        else Rule(neat_up(1.4 * thread.major_mm, units), "1.4 of the thread")
    )
    if thread.is_flange:
        boss = Rule(pad_of(thread)[0], "the bolts' pattern with a rim round them")
    elif boss.value > shell.widest_port:
        boss = Rule(shell.widest_port, "the widest that the seat takes")
    facing: Facing = book.word(f"{table}.facing", "out")  # type: ignore[assignment]
    if facing != "out":
        rule = Rule(neat_up(boss.value / 2 + 3.0, units), "the port tube clears the barrel")
    elif shell.flat_seats:
        rule = Rule(0.0, "in the side of the head or cap")
    else:
        need = thread.drill_depth_mm or thread.thread_depth_mm or 0.75 * thread.major_mm
        why = "wall and boss together take the tap drill's depth"
        if thread.flange:
            need = (BOLT_DEEP + 0.5) * thread.flange.bolt_mm
            why = "wall and pad together take bolt holes 1.5 bolts deep"
        least = neat_up(3.0, units)
        rule = Rule(max(neat_up(need - shell.wall, units), least), why, thread.source)
    height = book.size(f"{table}.height", rule)
    if facing != "out" and thread.is_flange:
        book.fault(
            "flange-along-barrel",
            f"{table}.facing",
            "a four-bolt flange sits on a pad and faces out; on a port tube along the barrel it is "
            "not drawn: leave facing out, or take a threaded port",
        )
    if facing != "out" and height < boss.value / 2:
        book.fault(
            "port-tube-in-barrel",
            f"{table}.height",
            f"a port tube of {book.say(boss.value)} along the barrel needs its centre at least "
            f"{book.say(boss.value / 2)} above it",
        )
    if not shell.flat_seats or facing != "out" or height > 0:
        book.enter(f"{table}.boss", boss)
    passage = min(PASSAGE * thread.major_mm, shell.widest_port / 2)
    return PortSizes(
        table,
        end,
        thread,
        clock,
        boss.value,
        height,
        passage,
        facing,
        book.flag(f"{table}.plugged"),
        typed_in_degrees(book, f"{table}.clock"),
    )


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
