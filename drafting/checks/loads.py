"""The forces that the cylinder itself can make, which all its parts must carry."""

from __future__ import annotations

from drafting.calc.force import pull_force, push_force, ram_force
from drafting.checks.numbers import CylinderNumbers, Number


def push_at(n: CylinderNumbers, pressure: float) -> float:
    """Push at a pressure without back pressure, N; zero when it cannot push."""
    if n.action == "pull":
        return 0.0
    if n.piston == "displacement":
        return ram_force(n.rod.value, pressure)
    return push_force(n.bore.value, n.rod.value, pressure)


def pull_at(n: CylinderNumbers, pressure: float) -> float:
    """Pull at a pressure without back pressure, N; zero when it cannot pull."""
    if n.action == "push" or n.piston == "displacement":
        return 0.0
    return pull_force(n.bore.value, n.rod.value, pressure)


def greatest(n: CylinderNumbers) -> Number | None:
    """Give the greatest force at the highest pressure, N, or None when no pressure is known."""
    highest = n.highest_pressure
    if highest is None:
        return None
    force = max(push_at(n, highest.value), pull_at(n, highest.value))
    firm = highest.firm and n.bore.firm and n.rod.firm
    return Number("greatest force", force, "computed" if firm else "derived", highest.name)


def greatest_pull(n: CylinderNumbers) -> float:
    """Give the greatest tension in the rod outside the gland, N: the pull at the highest pressure.

    Zero when no pressure is known.
    """
    highest = n.highest_pressure
    return pull_at(n, highest.value) if highest is not None else 0.0
