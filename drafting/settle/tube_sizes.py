"""Bore, rod, wall and the preferred axial sizes of a welded cylinder."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stack import Give
from drafting.standards.tubes import wall_rule


@dataclass(frozen=True, slots=True)
class TubeSizes:
    """Diameters in mm."""

    bore: float
    rod: float
    barrel_outside: float


FLOORS = {
    "cylinder.base_thickness": 0.25,
    "cylinder.piston_length": 0.5,
    "cylinder.gland_length": 0.6,
    "cylinder.rod_stick_out": 0.1,
}
"""Least axial sizes as parts of the bore, each at least 10 mm: the spec format's own floors."""
FLOOR_MM = 10.0

PREFERRED = {
    "cylinder.rod_stick_out": (0.25, 20.0, "rod stick-out"),
    "cylinder.gland_length": (0.9, 25.0, "gland"),
    "cylinder.piston_length": (0.7, 20.0, "piston"),
    "cylinder.base_thickness": (0.35, 15.0, "base cap"),
}
"""Sizes to draw with, as parts of the bore with a least size in mm; in the order of giving way."""


def settle_tube(book: Ledger) -> TubeSizes:
    """Settle bore, rod, and barrel diameters."""
    bore = book.number("cylinder.bore") or 0.0
    rod = book.number("cylinder.rod") or 0.0
    wall = book.number("cylinder.wall")
    if wall is not None and not book.spec.has("cylinder.barrel_outside"):
        book.compute("cylinder.barrel_outside", bore + 2 * wall, "bore plus two walls")
        outside = bore + 2 * wall
    else:

        def rule() -> Rule:
            found = wall_rule(bore, book.number("cylinder.working_pressure"))
            if found.carries is False:
                book.find(
                    "wall-too-light",
                    "warning",
                    "cylinder.barrel_outside",
                    f"not typed; {found.why}: type the barrel's outside or wall",
                    found.source,
                )
            size = bore + 2 * found.wall_mm
            if found.origin == "derived":  # a tube that no table has
                size = neat_up(size, book.spec.units)
            return Rule(size, found.why, found.source, found.origin)

        outside = book.size("cylinder.barrel_outside", rule)
    return TubeSizes(bore, rod, outside)


def axial_gives(book: Ledger, bore: float) -> list[Give]:
    """Give stick-out, gland, piston and base cap, typed or with a preferred value and a floor."""
    gives = []
    for name, (part, least, label) in PREFERRED.items():
        typed = book.number(name)
        floor = max(FLOORS[name] * bore, FLOOR_MM)
        if typed is not None:
            gives.append(Give(name, label, typed, typed, True))
            continue
        value = max(neat_up(max(part * bore, least), book.spec.units), floor)
        why = f"{part:g} of the bore, at least {least:g} mm"
        if part * bore < least:
            why = f"at least {least:g} mm: {part:g} of the bore is less"
        gives.append(Give(name, label, value, floor, False, why))
    return gives
