"""Areas, forces and the pressure of the circuit, and how shares of the old are said."""

from __future__ import annotations

from drafting.calc.force import annulus_area, cap_area, rod_area
from drafting.records import dataclass
from drafting.replacing.rule import Known, Sides, number, word

FIELDS = (
    "cylinder.bore", "cylinder.rod", "cylinder.action", "cylinder.piston",
)  # fmt: skip
"""What areas are made of."""
PRESSURES = ("duty.pressure", "cylinder.working_pressure")
SUPPLY = ("supply.pressure", "supply.relief", "supply.flow")


@dataclass(frozen=True, slots=True)
class Areas:
    """Areas that the oil drives, mm2; None for a way in which it drives nothing."""

    push: float | None
    pull: float | None


def areas(known: Known) -> Areas | None:
    """Give the driven areas, None while bore or rod is not known."""
    bore, rod = (number(known, f"cylinder.{n}") for n in ("bore", "rod"))
    if bore is None or rod is None or rod >= bore:
        return None
    if word(known, "cylinder.piston") == "displacement":
        return Areas(rod_area(rod), None)
    action = word(known, "cylinder.action", "double")
    return Areas(
        None if action == "pull" else cap_area(bore),
        None if action == "push" else annulus_area(bore, rod),
    )


def circuit(s: Sides) -> float | None:
    """Give the pressure that both are reckoned at, MPa: the supply's, else the old cylinder's."""
    found = number(s.machine, "supply.pressure")
    for name in PRESSURES:
        found = number(s.old, name) if found is None else found
    return found


def flow(s: Sides) -> float | None:
    """Give the flow that both are reckoned at, l/s."""
    found = number(s.machine, "supply.flow")
    return number(s.old, "duty.flow") if found is None else found


def greatest(known: Known, pressure: float | None) -> float | None:
    """Give the greatest force along the rod at a pressure, N."""
    a = areas(known)
    if a is None or pressure is None:
        return None
    return pressure * max(x for x in (a.push, a.pull) if x is not None)


SAME = 0.005
"""Forces, times and volumes that differ by less, as a share, are the same."""


def ways(s: Sides, way: str) -> tuple[float, float] | None:
    """Give the driven areas of both in a way, None where either drives nothing."""
    a, b = (areas(k) for k in (s.old, s.new))
    if a is None or b is None:
        return None
    old, new = getattr(a, way), getattr(b, way)
    return None if old is None or new is None else (old, new)


def percent(ratio: float) -> str:
    """Say by how much a ratio is off 1."""
    return f"{abs(ratio - 1.0) * 100:.0f} %"


def share(ratio: float, which: int) -> str:
    """Say the old one (0) as 100 %, the new one (1) as its share of it."""
    return ("100 %", f"{ratio * 100:.0f} %")[which]
