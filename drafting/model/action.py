"""Which end the oil drives: single acting, displacement rams, breathers, cushion screws."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.calc.flow import extend_volume, retract_volume, rod_volume
from drafting.model.frame import X, along, clock_direction
from drafting.model.ledger import Ledger
from drafting.model.pieces import Piece, cylinder
from drafting.model.port import Port
from drafting.model.shells.base import Shell
from drafting.model.tube_parts import Stations

MM3_PER_L = 1e6


@dataclass(frozen=True, slots=True)
class Action:
    """What the oil does: ``word`` double, push or pull; a displacement ram has no sealed piston."""

    word: str
    displacement: bool
    spring: bool
    cushions: str

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
        """Give breather and cushion screws, each with the end it sits on."""
        pieces = []
        if self.vented and not any(p.end == self.vented for p in ports):
            pieces.append(_knob(shell, s, ports, self.vented, "cylinder.breather", 6.0, 10.0))
        for end in ("base", "rod"):
            if self.cushions in (end, "both"):
                pieces.append(_knob(shell, s, ports, end, "cylinder.cushion_screw", 5.0, 5.0))
        return pieces


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
    return Action(word, displacement, spring, book.word("cylinder.cushions", "none"))


def _knob(
    shell: Shell,
    s: Stations,
    ports: Sequence[Port],
    end: str,
    name: str,
    radius: float,
    high: float,
) -> tuple[str, Piece]:
    """A small round thing on the outside, a quarter turn away from the port of that end."""
    taken = next((p.clock for p in ports if p.end == end), 270.0)
    seat = shell.seat(s, end, 2 * radius, radius)
    frame = along(clock_direction((taken + 90.0) % 360.0), (seat.x, 0.0, 0.0), X)
    return end, Piece(name, cylinder(radius, seat.surface - 2.0, seat.surface + high), frame)
