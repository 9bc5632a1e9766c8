"""Which end the oil drives: single acting, displacement rams, cushioned ends."""

from __future__ import annotations

from drafting.calc.flow import extend_volume, retract_volume, rod_volume
from drafting.records import dataclass
from drafting.settle.ledger import Ledger
from drafting.settle.shop_sizes import neat

MM3_PER_L = 1e6
WIDE = 12.0
"""A breather's diameter (mm), to the next shop size; as drawn only."""


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
