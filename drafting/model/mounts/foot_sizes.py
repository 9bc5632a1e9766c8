"""The sizes of a foot: plate, bolts, seat height, and what follows from them."""

from __future__ import annotations

from dataclasses import replace

from drafting.model.mounts.words import typed_pair
from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up, neat_within
from drafting.settle.stations import Stations


@dataclass(frozen=True, slots=True)
class FootSizes:
    """In mm: a plate ``along`` X by ``across``; holes at ``pitch`` (along X, across).

    ``count`` is 2 (one row of holes) or 4; ``web`` is the half width left between the holes. Of two
    feet under the ``ends`` of a tie-rod body the pitch along X is 0 until the stack is closed.
    """

    along: float
    across: float
    thickness: float
    seat_height: float
    count: int
    hole: float
    pitch: tuple[float, float]
    ends: bool = False

    @property
    def two(self) -> bool:
        """Tell whether there are two feet, each with one row of holes."""
        return self.ends or (self.count == 4 and self.pitch[0] >= self.along)

    @property
    def web(self) -> float:
        """Give the half width between the holes that heads and wrenches leave free."""
        return self.pitch[1] / 2 - self.hole

    def holes(self) -> tuple[tuple[float, float], ...]:
        """Give the centres (x, y) of the holes, the datum row at x = 0."""
        rows = (0.0,) if self.count == 2 else (0.0, self.pitch[0])
        return tuple((x, side * self.pitch[1] / 2) for x in rows for side in (1.0, -1.0))

    def plates(self) -> tuple[tuple[float, float], ...]:
        """Give each plate's ends in x."""
        a = self.along / 2
        if self.two:
            return ((-a, a), (self.pitch[0] - a, self.pitch[0] + a))
        middle = 0.0 if self.count == 2 else self.pitch[0] / 2
        return ((middle - a, middle + a),)


def settle_foot_sizes(book: Ledger, host: Host) -> FootSizes:
    """Settle the sizes; refuse holes off the plate or under the barrel, and a seat inside it."""
    t, units, d = host.table, host.units, host.diameter
    count, hole, pitch = _bolts(book, host)
    plate = typed_pair(book, f"{t}.plate", ("x", "across"))
    if plate is None:
        if book.spec.has(f"{t}.plate"):
            book.fault(
                "foot-plate",
                f"{t}.plate",
                "a foot's plate has two sizes, [along X, across]; it is not round",
            )
        plate = _usual_plate(book, host, count, hole, pitch)
    thickness = book.size(
        f"{t}.thickness",
        Rule(neat_up(max(0.2 * host.bore, 8.0), units), "0.2 of the bore, at least 8 mm"),
    )
    seat = book.size(
        f"{t}.seat_height",
        Rule(neat_up(d / 2 + thickness, units), "the barrel clears the plate"),
        interface=True,
    )
    if seat < d / 2:
        book.fault(
            "seat-in-barrel",
            f"{t}.seat_height",
            f"{book.say(seat)} from the centre line to the seat is less than half of the barrel's "
            f"outside ({book.say(d / 2)}): the barrel would stand in the machine",
        )
    elif thickness > seat - d / 4:
        book.fault(
            "plate-in-barrel",
            f"{t}.thickness",
            f"a plate of {book.say(thickness)} on a seat {book.say(seat)} from the centre line "
            "would lie in the barrel; seat_height is from the centre line to the seat",
        )
    ends = host.square and count == 4 and not pitch[0]
    sizes = FootSizes(plate[0], plate[1], thickness, seat, count, hole, pitch, ends)
    _judge(book, host, sizes)
    return sizes


def under_head(book: Ledger, host: Host, sizes: FootSizes, s: Stations) -> FootSizes:
    """Place the second foot under the middle of the head, where it was left to that, or flush."""
    if not sizes.ends:
        return sizes
    half = sizes.along / 2
    x = min((s.gland_inner + s.barrel_end) / 2, s.barrel_end - half)
    lo, hi = min(s.gland_inner + half, x), s.barrel_end - half
    apart = neat_within(x, lo, hi, host.units)
    rule = Rule(apart, "feet under the middle of cap and head")
    book.enter(f"{host.table}.bolts.pitch.x", rule, interface=True)
    return replace(sizes, pitch=(apart, sizes.pitch[1]))


def _bolts(book: Ledger, host: Host) -> tuple[int, float, tuple[float, float]]:
    t = f"{host.table}.bolts"
    pitch = typed_pair(book, f"{t}.pitch", ("x", "across")) or _across(book, f"{t}.pitch")
    if pitch is None:
        if book.spec.has(f"{t}.circle"):
            book.fault(
                "bolts-and-pitch",
                f"{t}.circle",
                "a foot's bolts lie at a pitch = [along X, across]",
            )
        return _usual_bolts(book, host)
    hole = book.number(f"{t}.hole", interface=True) or 0.0
    count = int(book.number(f"{t}.count", interface=True) or 0)
    if count not in (2, 4):
        book.fault(
            "bolts-and-pitch",
            f"{t}.count",
            f"a foot has one row of 2 bolts or two rows, 4 bolts in all, not {count}",
        )
    if pitch[1] == 0.0 or (count == 4 and pitch[0] == 0.0):
        book.fault(
            "bolts-and-pitch",
            f"{t}.pitch",
            "two bolts stand in one place; one row of two bolts is count = 2 with the pitch across "
            "alone, two rows have a pitch = [along X, across]",
        )
    if book.spec.has(f"{t}.first_hole"):
        book.fault("bolts-and-pitch", f"{t}.first_hole", "first_hole belongs to a bolt circle")
    return (2 if count == 2 else 4), hole, pitch


def _across(book: Ledger, name: str) -> tuple[float, float] | None:
    """Give the pitch of one row, typed as a number."""
    found = book.spec.get(name)
    if found is None or not isinstance(found.value, float):
        return None
    book.enter_typed(found, f"{name}.across", found.value, True)
    return 0.0, found.value


def _usual_bolts(book: Ledger, host: Host) -> tuple[int, float, tuple[float, float]]:
    """Give two feet where the first lies at the base, else one: a stroke apart on a barrel.

    A square cap and a square head have one each; how far apart, the closed stack tells.
    """
    t, units = f"{host.table}.bolts", host.units
    hole = neat_up(max(0.13 * host.bore, 9.0), units)
    across = neat_up(host.diameter + 2.5 * hole, units)
    stroke = book.values.get("cylinder.stroke")
    two = stroke is not None and book.spec.word(f"{host.table}.position") in (None, "base")
    two = two and book.spec.number(f"{host.table}.position") is None
    book.enter(f"{t}.hole", Rule(hole, "0.13 of the bore, at least 9 mm"), interface=True)
    book.enter(f"{t}.pitch.across", Rule(across, "heads clear of the barrel"), interface=True)
    if not two or stroke is None:
        book.enter(f"{t}.count", Rule(2, "one row of two bolts"), interface=True, unit="")
        return 2, hole, (0.0, across)
    book.enter(f"{t}.count", Rule(4, "two feet, two bolts each"), interface=True, unit="")
    if host.square:
        return 4, hole, (0.0, across)
    apart = float(stroke.value)
    rule = Rule(apart, "feet a stroke apart: the barrel is always longer")
    book.enter(f"{t}.pitch.x", rule, interface=True)
    return 4, hole, (apart, across)


def _usual_plate(
    book: Ledger, host: Host, count: int, hole: float, pitch: tuple[float, float]
) -> tuple[float, float]:
    t, units = f"{host.table}.plate", host.units
    short = neat_up(max(3 * hole, 0.5 * host.bore), units)
    both = neat_up(pitch[0] + 3 * hole, units)
    whole = count == 4 and pitch[0] > 0 and both <= 1.5 * host.diameter
    along = both if whole else short
    wide = "both rows of holes and 1.5 holes to each edge"
    why = wide if whole else "half of the bore, at least three holes"
    across = neat_up(pitch[1] + 3 * hole, units)
    book.enter(f"{t}.x", Rule(along, why))
    book.enter(f"{t}.across", Rule(across, "the holes and 1.5 holes to each edge"))
    return along, across


def _judge(book: Ledger, host: Host, f: FootSizes) -> None:
    t, r = f"{host.table}.bolts", f.hole / 2
    field = t if book.spec.has(t) else f"{host.table}.plate"
    inner = 0.0 if f.two or f.count == 2 else f.pitch[0] / 2
    edge = min(f.along / 2 - inner, (f.across - f.pitch[1]) / 2) - r
    if f.count == 2 and f.pitch[0] >= f.along:
        book.fault(
            "bolts-and-pitch",
            f"{t}.count",
            f"a pitch of {book.say(f.pitch[0])} along X is longer than the plate "
            f"({book.say(f.along)}): two feet with two bolts each are count = 4",
        )
    elif f.count == 2 and f.pitch[0]:
        book.find(
            "not-used",
            "note",
            f"{t}.pitch",
            f"one row of two bolts has no pitch along X; {book.say(f.pitch[0])} is not used",
        )
    if edge < 0:
        book.fault(
            "hole-off-plate",
            field,
            f"the bolt holes stand {book.say(-edge)} over the edge of the plate of "
            f"{book.say(f.along)} by {book.say(f.across)}; two feet need a pitch along X not "
            "shorter than the plate",
        )
    elif edge < r:
        book.find(
            "hole-near-edge",
            "warning",
            t,
            f"{book.say(edge)} of plate is left beside the bolt holes, less than half a hole",
            "common practice",
        )
    beside = f.pitch[1] / 2 - r - host.diameter / 2
    if f.web < 0.1 * host.diameter:
        book.fault(
            "hole-under-host",
            field,
            f"bolt holes {book.say(f.pitch[1])} apart leave no room for the foot's web between "
            "them; a larger pitch across would do",
        )
    elif beside < 0:
        book.find(
            "no-room-for-bolts",
            "warning",
            t,
            f"the bolt holes lie {book.say(-beside)} under the barrel's outside: heads and "
            "wrenches may not pass",
            "common practice",
        )
