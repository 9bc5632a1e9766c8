"""Ports' own sizes: which thread, how wide, how high, which way they point.

What differs between port standards lies in their tables; what differs between seats lies in the
shell.
"""

from __future__ import annotations

from typing import Literal

from drafting.errors import Fault
from drafting.records import dataclass
from drafting.settle.clock import hour, seen_from_base, seen_from_rod, typed_in_degrees, viewpoint
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shell import Shell
from drafting.settle.shop_sizes import neat_up
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
