"""Bolt holes of a flange: on a circle or at a rectangular pitch, in a plate that must hold them.

Seen from the rod end: 12 o'clock is +Z, 3 o'clock is +Y.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, radians, sin

from drafting.model.mounts.words import settle_word, typed_pair
from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up
from drafting.settle.wishes import CentreCircle, CentreLine, Diameter, Length, Symbol, Wish
from drafting.shape.frame import Frame, X, Y, Z
from drafting.shape.pieces import Outline, Piece, box, circle, cylinder

EDGE = 1.5
"""Hole centre to the plate's edge, in holes: common practice for a derived plate."""


@dataclass(frozen=True, slots=True)
class Bolts:
    """Holes with their centres at ``points`` (y, z), and the sizes that place them (mm)."""

    table: str
    hole: float
    points: tuple[tuple[float, float], ...]
    circle: float | None
    pitch: tuple[float, float] | None

    def pieces(self, x0: float, x1: float) -> tuple[Piece, ...]:
        """Give the cuts through a plate from x0 to x1."""
        return tuple(
            Piece(
                f"{self.table}.bolts.hole{k + 1}",
                cylinder(self.hole / 2, x0 - 1.0, x1 + 1.0),
                Frame((0.0, y, z)),
                cut=True,
            )
            for k, (y, z) in enumerate(self.points)
        )

    def wishes(self, x: float) -> tuple[Wish, ...]:
        """Give hole and place of the holes, seen on the face at x."""
        t = f"{self.table}.bolts"
        first, *others = ((x, y, z) for y, z in self.points)
        words = f"{len(self.points)} HOLES"
        holes = Diameter(f"{t}.hole", first, X, self.hole, words, others=tuple(others))
        wishes: list[Wish] = [holes]
        if self.circle:
            centre = (x, 0.0, 0.0)
            wishes.append(Diameter(f"{t}.circle", centre, X, self.circle, "BOLT CIRCLE", False))
        if self.pitch:
            a, b = self.pitch[0] / 2, self.pitch[1] / 2
            wishes += [
                Length(f"{t}.pitch.y", (x, -a, b), (x, a, b), Y, rank=2),
                Length(f"{t}.pitch.z", (x, a, -b), (x, a, b), Z, rank=2),
            ]
        return tuple(wishes)

    def symbols(self, host: Host, x0: float, x1: float) -> tuple[Symbol, ...]:
        """Give the centre line of each hole, and the circle that holes lie on."""
        name, ringed = f"{self.table}.bolts.hole", self.circle is not None
        lines = (CentreLine(name, (x0, y, z), (x1, y, z), host.end, ringed) for y, z in self.points)
        if not ringed:
            return tuple(lines)
        centre, first = (x0, 0.0, 0.0), (x0, *self.points[0])
        count, radius = len(self.points), self.hole / 2
        circle = f"{self.table}.bolts.circle"
        return (*lines, CentreCircle(circle, centre, X, first, count, radius, host.end))


@dataclass(frozen=True, slots=True)
class Plate:
    """A round plate of diameter ``y`` == ``z``, or a rectangular one ``y`` by ``z`` (mm)."""

    table: str
    y: float
    z: float
    is_round: bool

    def outline(self) -> Outline:
        """Give the outline in the Y-Z plane."""
        a, b = self.y / 2, self.z / 2
        return circle(a) if self.is_round else box(-a, a, -b, b)

    def margin(self, y: float, z: float) -> float:
        """Give the distance from a point of the plate to its edge, below 0 outside."""
        if self.is_round:
            return self.y / 2 - hypot(y, z)
        return min(self.y / 2 - abs(y), self.z / 2 - abs(z))

    def wishes(self, x: float) -> tuple[Wish, ...]:
        """Give the size of the plate, seen on the face at x."""
        if self.is_round:
            centre = (x, 0.0, 0.0)
            return (Diameter(f"{self.table}.plate", centre, X, self.y, "PLATE", hole=False),)
        a, b = self.y / 2, self.z / 2
        return (
            Length(f"{self.table}.plate.y", (x, -a, b), (x, a, b), Y, rank=3),
            Length(f"{self.table}.plate.z", (x, a, -b), (x, a, b), Z, rank=3),
        )


def settle_bolted_plate(book: Ledger, host: Host) -> tuple[Plate, Bolts]:
    """Settle plate and bolts together; either gives the other where it was not typed."""
    typed = _typed_plate(book, host)
    bolts = _typed_bolts(book, host) or _usual_bolts(book, host, typed)
    plate = typed or _usual_plate(book, host, bolts)
    _judge(book, host, plate, bolts)
    return plate, bolts


def _typed_plate(book: Ledger, host: Host) -> Plate | None:
    name = f"{host.table}.plate"
    pair = typed_pair(book, name, ("y", "z"))
    if pair:
        return Plate(host.table, *pair, False)
    across = None if not book.spec.has(name) else book.number(name)
    return None if across is None else Plate(host.table, across, across, True)


def _typed_bolts(book: Ledger, host: Host) -> Bolts | None:
    t = f"{host.table}.bolts"
    if not book.spec.has(f"{t}.hole"):
        return None
    hole = book.number(f"{t}.hole", interface=True) or 0.0
    count = int(book.number(f"{t}.count", interface=True) or 0)
    pitch = typed_pair(book, f"{t}.pitch", ("y", "z"))
    across = book.number(f"{t}.circle", interface=True)
    if pitch is None and not book.spec.has(f"{t}.pitch"):
        if not count or not across:  # the file is refused for it already
            return None
        return _on_circle(book, host, count, hole, across or 0.0)
    if pitch is None or 0.0 in pitch:
        book.fault(
            "bolts-and-pitch",
            f"{t}.pitch",
            "a flange's pitch has two sizes above 0, [along Y, along Z]; a number alone is the "
            "circle's: circle = 6.5",
        )
        pitch = pitch or (hole, hole)
    if count != 4:
        book.fault(
            "bolts-and-pitch",
            f"{t}.count",
            f"a pitch along Y and along Z places 4 bolts, not {count}; type circle for others",
        )
    if book.spec.has(f"{t}.first_hole"):
        book.fault(
            "bolts-and-pitch",
            f"{t}.first_hole",
            "first_hole belongs to a bolt circle; holes at a pitch need none",
        )
    return _at_pitch(host, hole, pitch)


def _on_circle(book: Ledger, host: Host, count: int, hole: float, across: float) -> Bolts:
    t = f"{host.table}.bolts"
    first = settle_word(book, f"{t}.first_hole", "astride", "holes lie on both sides of 12 o'clock")
    start = 0.0 if first == "on" else 180.0 / max(count, 1)
    angles = [radians(start + 360.0 * k / count) for k in range(count)]
    points = tuple((across / 2 * sin(a), across / 2 * cos(a)) for a in angles)
    return Bolts(host.table, hole, points, across, None)


def _at_pitch(host: Host, hole: float, pitch: tuple[float, float]) -> Bolts:
    a, b = pitch[0] / 2, pitch[1] / 2
    return Bolts(host.table, hole, ((a, b), (a, -b), (-a, -b), (-a, b)), None, pitch)


def _usual_bolts(book: Ledger, host: Host, plate: Plate | None) -> Bolts:
    """Give four bolts clear of the host, well inside the plate where one was typed."""
    t = f"{host.table}.bolts"
    hole = neat_up(max(0.13 * host.bore, 9.0), host.units)
    book.enter(f"{t}.hole", Rule(hole, "0.13 of the bore, at least 9 mm"), interface=True)
    book.enter(f"{t}.count", Rule(4, "four bolts"), interface=True, unit="")
    if plate is not None and not plate.is_round:
        pitch = (plate.y - 2 * EDGE * hole, plate.z - 2 * EDGE * hole)
        for end, mm in zip(("y", "z"), pitch, strict=True):
            rule = Rule(mm, "the plate less 1.5 holes at each edge")
            book.enter(f"{t}.pitch.{end}", rule, interface=True)
        return _at_pitch(host, hole, pitch)
    if plate is None and host.square:
        pitch = (
            neat_up(host.diameter + 3.5 * hole, host.units),
            neat_up(0.7 * host.diameter, host.units),
        )
        for end, mm in zip(("y", "z"), pitch, strict=True):
            book.enter(f"{t}.pitch.{end}", Rule(mm, "beside the square"), interface=True)
        return _at_pitch(host, hole, pitch)
    rule = (
        Rule(plate.y - 2 * EDGE * hole, "the plate less 1.5 holes at each edge")
        if plate
        else Rule(
            neat_up(host.diameter + 3.5 * hole, host.units), "clear of what the plate sits on"
        )
    )
    book.enter(f"{t}.circle", rule, interface=True)
    return _on_circle(book, host, 4, hole, rule.value)


def _usual_plate(book: Ledger, host: Host, bolts: Bolts) -> Plate:
    t, why = f"{host.table}.plate", "the bolts plus 1.5 holes to each edge"
    edge = 2 * EDGE * bolts.hole
    if bolts.pitch is None:
        rule = Rule(neat_up((bolts.circle or 0.0) + edge, host.units), why)
        book.enter(t, rule)
        return Plate(host.table, rule.value, rule.value, True)
    y, z = (neat_up(p + edge, host.units) for p in bolts.pitch)
    book.enter(f"{t}.y", Rule(y, why))
    book.enter(f"{t}.z", Rule(z, why))
    return Plate(host.table, y, z, False)


def _judge(book: Ledger, host: Host, plate: Plate, bolts: Bolts) -> None:
    t, r = f"{host.table}.bolts", bolts.hole / 2
    edge = min(plate.margin(y, z) for y, z in bolts.points) - r
    beside = max if host.square else hypot
    inner = min(beside(abs(y), abs(z)) for y, z in bolts.points) - r - host.diameter / 2
    steps = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise((*bolts.points, bolts.points[0]))]
    what = "rod" if host.end == "rod" else "head or cap" if host.square else "barrel"
    if edge < 0:
        book.fault(
            "hole-off-plate",
            t if book.spec.has(t) else f"{host.table}.plate",
            f"the bolt holes stand {book.say(-edge)} over the edge of the plate; a larger plate or "
            "a smaller circle or pitch would do",
        )
    elif edge < r:
        book.find(
            "hole-near-edge",
            "warning",
            t,
            f"{book.say(edge)} of plate is left beside the bolt holes, less than half a hole",
            "common practice",
        )
    if inner < 0:
        book.fault(
            "hole-under-host",
            t if book.spec.has(t) else f"{host.table}.plate",
            f"the bolt holes run {book.say(-inner)} into the {what}, {book.say(host.diameter)} "
            "across; a larger circle, pitch or plate would do",
        )
    elif inner < r:
        book.find(
            "no-room-for-bolts",
            "warning",
            t,
            f"{book.say(inner)} from the bolt holes to the {what} is less than half a hole: heads "
            "and wrenches may not pass",
            "common practice",
        )
    if len(bolts.points) > 1 and min(steps) < bolts.hole:
        book.fault(
            "holes-overlap",
            t,
            f"bolt holes of {book.say(bolts.hole)} lie {book.say(min(steps))} from centre to "
            "centre; fewer holes or a larger circle would do",
        )
