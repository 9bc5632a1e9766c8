"""Which end the oil drives: single acting, displacement rams, breathers, cushion screws."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.calc.flow import extend_volume, retract_volume, rod_volume
from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.settle.clock import hour, seen_from_rod, viewpoint
from drafting.settle.ledger import COMMON, Ledger, Rule
from drafting.settle.shell import Shell
from drafting.settle.shop_sizes import neat
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout
from drafting.shape.frame import X, add, along, clock_direction, scale
from drafting.shape.pieces import Piece, cylinder
from drafting.values import Value

MM3_PER_L = 1e6
BREATHER, CUSHION_SCREW = "breather", "cushion_screw"
WIDE, PASSAGE = 12.0, 0.4
"""A breather's diameter (mm), to the next shop size, and its passage's share of that; as drawn
only."""


@dataclass(frozen=True, slots=True)
class Action:
    """What the oil does: ``word`` double, push or pull; a displacement ram has no sealed piston.

    ``breather`` is the diameter (mm) of one, where one is drawn.
    """

    word: str
    displacement: bool
    spring: bool
    cushions: str
    breather: float

    @property
    def vented(self) -> str | None:
        """Give the end that only breathes, if any."""
        if self.displacement:
            return None
        return {"push": "rod", "pull": "base"}.get(self.word)

    def oil(self, bore: float, rod: float, stroke: float) -> tuple[float, float]:
        """Give the oil in litres that a full stroke out and a full stroke in take."""
        if self.displacement:
            return rod_volume(rod, stroke) / MM3_PER_L, 0.0
        out = 0.0 if self.word == "pull" else extend_volume(bore, stroke) / MM3_PER_L
        back = 0.0 if self.word == "push" else retract_volume(bore, rod, stroke) / MM3_PER_L
        return out, back

    def fittings(self, shell: Shell, s: Stations, ports: Sequence[Port]) -> list[tuple[str, Piece]]:
        """Give breather and cushion screws, each with the part it sits on."""
        return [found for knob in self._knobs(ports) for found in _pieces(shell, s, knob)]

    def enter(self, book: Ledger, ports: Sequence[Port]) -> None:
        """Enter the size of a breather and the hours of cushion screws: nobody types them."""
        knobs = self._knobs(ports)
        if any(knob.word == BREATHER for knob in knobs):
            book.enter(f"cylinder.{BREATHER}", Rule(self.breather, "builder's choice"))
        screws = [knob for knob in knobs if knob.word == CUSHION_SCREW]
        if not screws:
            return
        side = viewpoint(book)
        hours = {knob.end: hour(seen_from_rod(knob.clock, side)) for knob in screws}
        said = ", ".join(f"{at} {end}" for end, at in hours.items())
        if len({*hours.values()}) == 1:
            said = next(iter(hours.values()))
        why = "on a side free of ports" if all(k.free for k in screws) else "builder's choice"
        name = f"cylinder.{CUSHION_SCREW}"
        book.values[name] = Value(name, said, "", None, "derived", why, COMMON)

    def callouts(self, shell: Shell, s: Stations, ports: Sequence[Port]) -> list[Callout]:
        """Say what breather and cushion screws are, equal ones once, farthest from the base."""
        found: dict[str, list[_Knob]] = {}
        for knob in self._knobs(ports):
            found.setdefault(knob.word, []).append(knob)
        return [_callout(shell, s, same[-1], len(same)) for same in found.values()]

    def _knobs(self, ports: Sequence[Port]) -> list[_Knob]:
        knobs = []
        taken = {end: [p.clock for p in ports if p.end == end] for end in ("base", "rod")}
        if self.vented and not taken[self.vented]:
            clock = _free_clock(taken[self.vented])
            taken[self.vented].append(clock)
            knobs.append(_Knob(BREATHER, self.vented, clock, self.breather / 2, 10.0, True))
        for end in ("base", "rod"):
            if self.cushions in (end, "both"):
                clock = _free_clock(taken[end])
                free = _is_free(clock, taken[end])
                knobs.append(_Knob(CUSHION_SCREW, end, clock, 5.0, 5.0, free=free))
        return knobs


@dataclass(frozen=True, slots=True)
class _Knob:
    """A small round thing on the outside of an end, at a clock (degrees); mm.

    One that is ``open`` has a passage to the bore; one that is ``free`` is clear of all ports.
    """

    word: str
    end: str
    clock: float
    radius: float
    high: float
    open: bool = False
    free: bool = True


def settle_action(book: Ledger) -> Action:
    """Settle what the oil does."""
    word = book.word("cylinder.action", "double")
    displacement = book.word("cylinder.piston", "sealed") == "displacement"
    spring = book.word("cylinder.return", "load") == "spring"
    if spring and not book.spec.has("cylinder.spring_space"):
        book.find(
            "spring-space",
            "warning",
            "cylinder.return",
            "a return spring takes length when it is packed; none was counted because spring_space "
            "is not typed",
        )
    cushions = book.word("cylinder.cushions", "none")
    return Action(word, displacement, spring, cushions, neat(WIDE, book.spec.units))


def _free_clock(taken: Sequence[float]) -> float:
    """Give the first quarter turn from what is there that is clear of everything there."""
    turns = [(t + 90.0 * k) % 360.0 for t in taken[:1] for k in (1, 3, 2)] or [0.0]
    return next((c for c in turns if _is_free(c, taken)), turns[0])


def _is_free(clock: float, taken: Sequence[float]) -> bool:
    return all(_apart(clock, other) >= 45.0 for other in taken)


def _apart(a: float, b: float) -> float:
    return abs((a - b + 180.0) % 360.0 - 180.0)


def _pieces(shell: Shell, s: Stations, knob: _Knob) -> Iterator[tuple[str, Piece]]:
    """Give what stands on the outside, and the passage through it."""
    name, hole = f"cylinder.{knob.word}", PASSAGE * knob.radius
    seat = shell.seat(s, knob.end, 2 * knob.radius, hole if knob.open else knob.radius)
    frame = along(clock_direction(knob.clock), (seat.x, 0.0, 0.0), X)
    top = seat.surface + knob.high
    yield seat.part, Piece(name, cylinder(knob.radius, seat.surface - 2.0, top), frame)
    if knob.open:
        yield seat.part, Piece(name, cylinder(hole, seat.inside, top + 1.0), frame, cut=True)


def _callout(shell: Shell, s: Stations, knob: _Knob, count: int) -> Callout:
    seat = shell.seat(s, knob.end, 2 * knob.radius, knob.radius)
    out = clock_direction(knob.clock)
    tip = add((seat.x, 0.0, 0.0), scale(out, seat.surface + knob.high))
    words = knob.word.replace("_", " ").upper()
    return Callout(
        f"cylinder.{knob.word}", tip, out, (f"{count}x {words}" if count > 1 else words,)
    )
