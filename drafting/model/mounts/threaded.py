"""A mount screwed onto the rod: the thread that holds it, a jam nut, and how far it backs off.

    mount's face   jam nut    shoulder
---------|          | |--------+
  offset |<-------->|n|  rod
datum ---+ - - - - -+-+- - - - -
     |<--- thread_length ----->|
"""

from __future__ import annotations

from drafting.model.mounts.flats import Flats, settle_flats
from drafting.model.mounts.rod_thread import settle_thread, thread_depth, thread_sections
from drafting.records import dataclass
from drafting.settle.carried import Fillet, RodThread, length, welded
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stations import Stations
from drafting.settle.wishes import ADJUST, Callout, Wish
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z
from drafting.shape.pieces import Part, Piece, Prism, cylinder, hexagon, stepped
from drafting.standards.threads import ScrewThread

FIELDS = ("thread", "thread_length", "adjustment", "jam_nut", "flats")
"""What a threaded-on mount takes at the rod end, beside its own fields."""

ALONG = Frame(ORIGIN, Y, Z, X)
"""Outlines in the Y-Z plane, swept along X."""


@dataclass(frozen=True, slots=True)
class Hold:
    """The rod's thread (mm from its shoulder), the jam nut (0: none), the adjustment."""

    table: str
    thread: ScrewThread
    length: float
    nut: float
    adjustment: float
    flats: Flats | None
    note: str

    @property
    def inside(self) -> float:
        """Give how far the thread stands in the mount, screwed home (mm)."""
        return self.length - self.nut

    def rod_pieces(self, host: Host, s: Stations, offset: float) -> tuple[Piece, ...]:
        """Give thread and flats of the rod; ``offset`` is the mount's face."""
        shoulder = offset + self.nut
        start, chamfer = shoulder - self.length, thread_depth(self.thread)
        shape = stepped(
            (start, self.thread.minor_mm / 2),
            (start + chamfer, self.thread.major_mm / 2),
            (shoulder + 2.0, self.thread.major_mm / 2),
        )
        flats = self.flats.pieces(host, s, shoulder) if self.flats else ()
        return (Piece(f"{self.table}.thread", shape), *flats)

    @property
    def hub_radius(self) -> float:
        """Give the radius of the metal round the thread: 0.8 of the thread."""
        return 0.8 * self.thread.major_mm

    def hub(self, offset: float, start: float) -> tuple[Piece, ...]:
        """Give the round hub from ``start`` to the mount's face, where there is room for one."""
        if offset - start < 2.0:
            return ()
        return (Piece(f"{self.table}.hub", cylinder(self.hub_radius, start, offset)),)

    def hole(self, offset: float, bottom: float) -> Piece:
        """Give the tapped hole of the mount, from its face to ``bottom`` at the deepest."""
        end = max(offset - self.inside - 2 * self.thread.pitch_mm, bottom)
        shape = cylinder(self.thread.major_mm / 2, end, offset + 1.0)
        return Piece(f"{self.table}.thread", shape, cut=True)

    def parts(self, host: Host, offset: float) -> tuple[Part, ...]:
        """Give the jam nut between the mount's face and the rod's shoulder, where there is one."""
        if not self.nut:
            return ()
        nut = Prism(hexagon(neat_up(1.5 * self.thread.major_mm, "mm")), offset, offset + self.nut)
        hole = cylinder(self.thread.major_mm / 2, offset - 1.0, offset + self.nut + 1.0)
        name = f"{self.table}.jam_nut"
        pieces = (Piece(name, nut, ALONG), Piece(f"{name}_thread", hole, cut=True))
        return (Part(f"{host.label} jam nut", host.end, pieces, hatched=False),)

    def wishes(self, host: Host, s: Stations, offset: float) -> tuple[Wish, ...]:
        """Give the thread's words where the mount meets nut or shoulder, and the flats."""
        r = self.hub_radius
        tip, sides = (offset, 0.0, r), ((offset, r, 0.0), (offset, -r, 0.0), (offset, 0.0, -r))
        lines = (self.thread.name, "SCREWED HOME", *(("JAM NUT",) if self.nut else ()))
        words = Callout(f"{self.table}.thread", tip, Z, lines, others=sides)
        flats = self.flats.wishes(host, s, offset + self.nut) if self.flats else ()
        return (words, *flats)

    def too_thick(self, width: float) -> bool:
        """Tell whether the thread would break out of the sides of an eye or ring of ``width``."""
        return self.thread.major_mm > width - 0.02

    def least_offset(self, past_pin: float, half: float, width: float) -> float:
        """Give the least distance from the pin centre to the mount's face (mm).

        The thread ends ``past_pin`` from the pin centre; one too thick for the eye or ring of
        ``width`` lies wholly in the hub beyond its outside, ``half`` from the pin centre.
        """
        return max(half, (half if self.too_thick(width) else past_pin) + self.inside)

    def fits(self, book: Ledger, room: float, width: float, what: str) -> None:
        """Refuse a thread longer than the hub (``room``) that is too thick for what lies before.

        ``width`` is the eye's or ring's, both in mm.
        """
        if self.inside > room + 0.02 and self.too_thick(width):
            book.fault(
                "thread-through-side",
                f"{self.table}.thread",
                f"a thread of {book.say(self.thread.major_mm)}, {book.say(self.inside)} deep, "
                f"reaches into the {what} of {book.say(width)} and would break out of its sides; a "
                "larger offset or a shorter thread would do",
            )

    def judge(self, book: Ledger) -> None:
        """Enter the length range that the adjustment gives."""
        if not self.adjustment:
            return
        ranges = []
        for word in ("retracted", "extended"):
            home = float(book.values[f"cylinder.{word}"].value)
            longest = home + self.adjustment
            book.compute(f"cylinder.{word}_longest", longest, f"{word} plus the adjustment")
            ranges.append(f"{word} {book.say(home)} to {book.say(longest)}")
        book.find(
            "adjustable",
            "note",
            f"{self.table}.adjustment",
            f"{'; '.join(ranges)}: backing off changes the mounting length, never the stroke",
        )


def held_on(host: Host, hold: Hold | None) -> tuple[Fillet | RodThread, ...]:
    """Give what holds a pin mount to the cylinder: its thread on the rod, or its weld.

    On the square cap of tie rods it is one piece with the cap, or bolted to it.
    """
    if hold is not None:
        engaged, lost = length(f"{hold.table}.thread_length"), hold.nut + hold.adjustment
        return thread_sections(hold.thread, hold.table, engaged, not lost, less=lost)
    return () if host.square else (welded(host.table),)


def settle_hold(book: Ledger, host: Host) -> Hold | None:
    """Settle the thread that holds a mount on the rod; None for a mount that is welded on."""
    t = host.table
    if host.end == "body":
        return None
    if not book.spec.has(f"{t}.thread"):
        _refuse_orphans(book, t)
        return None
    thread = settle_thread(book, host)
    if thread is None:
        return None
    nut = neat_up(0.55 * thread.major_mm, host.units) if book.flag(f"{t}.jam_nut") else 0.0
    if nut:
        rule = Rule(nut, "a jam nut 0.55 of the thread thick", "ISO 4035 proportions, from memory")
        book.enter(f"{t}.jam_nut_thickness", rule)
    adjustment = book.number(f"{t}.adjustment") or 0.0
    needed = neat_up(1.25 * thread.major_mm + nut + adjustment, host.units)
    length = book.size(
        f"{t}.thread_length", Rule(needed, "1.25 of the thread engaged when backed off fully")
    )
    least = length - nut - adjustment
    book.compute(f"{t}.engagement", least, "thread length less jam nut and adjustment")
    if least <= 0:
        book.fault(
            "no-engagement",
            f"{t}.thread_length",
            f"{book.say(length)} of thread less the jam nut ({book.say(nut)}) and the adjustment "
            f"({book.say(adjustment)}) holds nothing; {book.say(needed)} would do",
        )
    elif least < thread.major_mm:
        book.find(
            "short-engagement",
            "warning",
            f"{t}.thread_length",
            f"backed off fully, {book.say(least)} of thread holds the mount, less than one thread "
            f"diameter ({book.say(thread.major_mm)}): check it",
            "common practice",
        )
    note = ADJUST if adjustment else ""
    return Hold(t, thread, length, nut, adjustment, settle_flats(book, host), note)


def _refuse_orphans(book: Ledger, table: str) -> None:
    for field in FIELDS[1:]:
        if book.spec.has(f"{table}.{field}"):
            book.fault(
                "no-thread",
                f"{table}.{field}",
                f"{field} belongs to a mount that is screwed onto the rod, but no thread is typed; "
                f"type thread, or leave {field} out for a welded mount",
            )
