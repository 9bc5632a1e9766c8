"""Breathers and cushion screws: small rounds on an end, at an hour that nothing else takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from drafting.model.ports.action import Action
from drafting.model.ports.port import Port
from drafting.model.ports.shapes import port_pieces
from drafting.records import dataclass
from drafting.settle.clock import hour, seen_from_rod, viewpoint
from drafting.settle.ledger import COMMON, Ledger, Rule
from drafting.settle.shell import Seat, Shell
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout
from drafting.shape.contact import meet
from drafting.shape.frame import Vec, X, add, along, clock_direction, cross, scale
from drafting.shape.pieces import Piece, cylinder
from drafting.values import Value

BREATHER, CUSHION_SCREW = "breather", "cushion_screw"
PASSAGE = 0.4
"""A breather's passage as a share of its diameter; as drawn only."""
SCREW = (5.0, 5.0)
"""Radius and height of a cushion screw's head (mm); as drawn only."""
WAY = 4.0
"""What is kept free over a knob for hand and tool, in its radii; as drawn only."""
_TOUCH = 0.5
"""Overlaps up to this (mm) are nothing."""
_QUARTERS, _EIGHTHS = (90.0, 270.0, 180.0), (45.0, 315.0, 135.0, 225.0)


@dataclass(frozen=True, slots=True)
class Knob:
    """A small round thing on the outside of an end, at a clock (degrees, seen from the rod end).

    ``radius`` and ``high`` in mm. One that is not ``free`` stands where a port or the mount is, as
    it would at any other hour.
    """

    word: str
    end: str
    clock: float
    radius: float
    high: float
    seat: Seat
    free: bool = True

    @property
    def out(self) -> Vec:
        """Give the direction from the axis to it."""
        return clock_direction(self.clock)

    @property
    def tip(self) -> Vec:
        """Give the middle of its top."""
        up = scale(self.out, self.seat.surface + self.high)
        return add((self.seat.x, 0.0, 0.0), up)

    def pieces(self) -> Iterator[Piece]:
        """Give what stands on the outside, and a breather's passage to the bore."""
        name, top = f"cylinder.{self.word}", self.seat.surface + self.high
        yield self._round(name, self.radius, self.seat.surface - 2.0, top)
        if self.word == BREATHER:
            yield self._round(name, PASSAGE * self.radius, self.seat.inside, top + 1.0, cut=True)

    def hits(self, others: Iterable[Piece]) -> bool:
        """Tell whether something stands in its place, or in the way of a hand."""
        start = self.seat.surface
        end = start + self.high + WAY * self.radius
        way = self._round("way", self.radius, start, end)
        axes = (X, self.out, cross(X, self.out))
        return any(meet(way, other, axes, _TOUCH) for other in others)

    def _round(self, name: str, radius: float, lo: float, hi: float, cut: bool = False) -> Piece:
        frame = along(self.out, (self.seat.x, 0.0, 0.0), X)
        return Piece(name, cylinder(radius, lo, hi), frame, cut)


def place_knobs(
    book: Ledger,
    action: Action,
    shell: Shell,
    s: Stations,
    ports: Sequence[Port],
    mount: Iterable[Piece],
) -> tuple[Knob, ...]:
    """Find every breather and cushion screw an hour free of ports and of the body's ``mount``.

    Enters a breather's size and the screws' hours, which nobody types, and what has no free hour.
    """
    solid = [p for p in chain(mount, *map(port_pieces, ports)) if not p.cut]
    taken = {end: [p.clock for p in ports if p.end == end] for end in ("base", "rod")}
    knobs: list[Knob] = []
    for word, end in _wanted(action, taken):
        radius, high = (action.breather / 2, 10.0) if word == BREATHER else SCREW
        seat = shell.seat(s, end, 2 * radius, PASSAGE * radius)
        hours = _hours(taken[end], shell.flat_seats)
        tries = [Knob(word, end, at, radius, high, seat) for at in hours]
        free = (k for k in tries if _is_apart(k.clock, taken[end]) and not k.hits(solid))
        knobs.append(next(free, replace(tries[0], free=False)))
        taken[end].append(knobs[-1].clock)
    _enter(book, action, knobs)
    return tuple(knobs)


def callouts(knobs: Sequence[Knob], side: str) -> list[Callout]:
    """Say what breather and cushion screws are and at which hour, seen from that ``side``.

    Equal ones are said once, at the one farthest from the base; their hours of each end where these
    differ. One without a free hour is the builder's to place.
    """
    found: dict[tuple[str, bool], list[Knob]] = {}
    for knob in knobs:
        found.setdefault((knob.word, knob.free), []).append(knob)
    return [_callout(same, side) for same in found.values()]


def _callout(same: Sequence[Knob], side: str) -> Callout:
    last, count = same[-1], len(same)
    words = f"{count}x " * (count > 1) + last.word.replace("_", " ").upper()
    hours = _hours_of(same, side)
    said = ", ".join(hours).replace(" deg", "°").upper()
    lines: tuple[str, ...] = (words, said if last.free else "PLACE BY BUILDER")
    if last.free and len(hours) == 1:
        lines = (f"{words}, {said}",)
    name = f"cylinder.{last.word}"
    alike = tuple((name, k.tip) for k in same[:-1])
    return Callout(name, last.tip, last.out, lines, alike=alike)


def _hours_of(same: Iterable[Knob], side: str, of: str = "") -> tuple[str, ...]:
    """Say the hours of like knobs: one that they share, else each behind its end."""
    hours = {k.end: hour(seen_from_rod(k.clock, side)) for k in same}
    if len({*hours.values()}) == 1:
        return tuple({*hours.values()})
    return tuple(f"{end}{of} {at}" for end, at in hours.items())


def _wanted(action: Action, taken: Mapping[str, Sequence[float]]) -> Iterator[tuple[str, str]]:
    """Give what there is of them, each with its end."""
    if action.vented and not taken[action.vented]:
        yield BREATHER, action.vented
    yield from ((CUSHION_SCREW, end) for end in taken if action.cushions in (end, "both"))


def _hours(taken: Sequence[float], flat: bool) -> list[float]:
    """Give the hours to try: a quarter turn from what is there; off the quarters on a round."""
    first = [] if taken else [0.0]
    start = taken[0] if taken else 0.0
    turns = _QUARTERS if flat else (*_QUARTERS, *_EIGHTHS)
    return [*first, *((start + turn) % 360.0 for turn in turns)]


def _is_apart(clock: float, taken: Sequence[float]) -> bool:
    return all(_apart(clock, other) >= 45.0 for other in taken)


def _apart(a: float, b: float) -> float:
    return abs((a - b + 180.0) % 360.0 - 180.0)


def _enter(book: Ledger, action: Action, knobs: Sequence[Knob]) -> None:
    if any(knob.word == BREATHER for knob in knobs):
        book.enter(f"cylinder.{BREATHER}", Rule(action.breather, "builder's choice"))
    side = viewpoint(book)
    hours = {k: hour(seen_from_rod(k.clock, side)) for k in knobs}
    for knob in (k for k in knobs if not k.free):
        field = "cushions" if knob.word == CUSHION_SCREW else "action"
        book.find(
            "no-free-hour",
            "warning",
            f"cylinder.{field}",
            f"no side of the {knob.end} end is free of ports and mount for its "
            f"{knob.word.replace('_', ' ')}; it is drawn at {hours[knob]}: the builder finds it a "
            "place",
        )
    screws = [k for k in knobs if k.word == CUSHION_SCREW]
    if screws:
        said = ", ".join(_hours_of(screws, side, " end"))
        free = all(k.free for k in screws)
        why = "on a side free of ports and mount" if free else "builder's choice"
        name = f"cylinder.{CUSHION_SCREW}"
        book.values[name] = Value(name, said, "", None, "derived", why, COMMON)
