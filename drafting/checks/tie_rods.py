"""Tie rods: what they bear, and whether they keep the barrel on its seat."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from drafting.calc import tierod
from drafting.calc.force import annulus_area, cap_area
from drafting.checks.bands import ON_JOINT, ON_YIELD
from drafting.checks.check import LoadCase
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.question import At, Input, Question, sized, strong, unknown, unsaid
from drafting.checks.steels import steel
from drafting.checks.stress import area_of, inside, over

JOINT = "bolted joint theory"
TIE_RODS = 4
PRELOAD = "cylinder.tie_rod_preload"


def preload_of(n: CylinderNumbers) -> Input:
    """Give the preload of one tie rod: typed, else from just closed to three quarters of the yield.

    That of the best usual rod, whatever steel it is: nobody said what it was tightened to.
    """
    typed = n.sizes.get(PRELOAD)
    if typed is not None:
        return sized(typed, "N")
    p = max((x.value for x in (n.highest_pressure, n.proof_pressure) if x), default=0.0)
    least = p * cap_area(n.bore.value) / TIE_RODS
    most = 2.0 * least
    if n.tie_rod is not None:
        best = steel("", "tie rod", None).strength[1]
        most = max(0.75 * best * area_of(n.tie_rod), 1.05 * least)
    return Input(PRELOAD, least, most, unit="N")


def _share(n: CylinderNumbers, at: At) -> float:
    assert n.tie_rod is not None
    rods = tierod.bar_stiffness(TIE_RODS * area_of(n.tie_rod), n.tie_rod_length)
    section = annulus_area(at[n.barrel_outside.name], at[n.bore.name])
    return tierod.load_share(rods, tierod.bar_stiffness(section, n.tie_rod_length))


def stands(n: CylinderNumbers, at: At) -> bool:
    """Tell whether there is a barrel between the tie rods at all."""
    return at[n.barrel_outside.name] > at[n.bore.name]


def parting(n: CylinderNumbers, at: At, case: LoadCase) -> float:
    """Give the force that drives cap and head apart, N: the greater of both ends'."""
    bore = at[n.bore.name]
    head = case.rod_side * annulus_area(bore, n.rod.value) + case.gland
    return max(case.base * cap_area(bore), head)


def left_between(n: CylinderNumbers, at: At, case: LoadCase) -> float:
    """Give the force that still presses the barrel between its ends, N."""
    end = parting(n, at, case)
    return tierod.barrel_force(TIE_RODS * at[PRELOAD], _share(n, at), end)


def tie_rods(n: CylinderNumbers) -> Iterator[Question]:
    """Give the questions on the tie rods, and on the barrel between their ends."""
    metal = strong(n.steels["tie_rod"])
    t = n.tie_rod
    if t is None:
        yield Question(
            "tie-rods",
            "Tie rods on yield",
            ON_YIELD,
            (unsaid("cylinder.tie_rod"), metal),
            lambda at, case: over(1.0, inside(case)),
            JOINT,
        )
        return
    preload, area = preload_of(n), TIE_RODS * area_of(t)
    inputs = (sized(n.bore), sized(n.barrel_outside), preload)

    def end(at: At, case: LoadCase) -> float:
        return parting(n, at, case)

    def pulled(at: At, case: LoadCase) -> float:
        return tierod.rod_force(TIE_RODS * at[PRELOAD], _share(n, at), end(at, case))

    def on_yield(at: At, case: LoadCase) -> float:
        if not inside(case):
            return inf
        return over(at[metal.field] * area, pulled(at, case)) if stands(n, at) else 0.0

    def on_opening(at: At, case: LoadCase) -> float:
        if not end(at, case):
            return inf
        if not stands(n, at):
            return 0.0
        return tierod.separating_force(TIE_RODS * at[PRELOAD], _share(n, at)) / end(at, case)

    yield Question(
        "tie-rods",
        "Tie rods on yield",
        ON_YIELD,
        (*inputs, metal),
        on_yield,
        f"{JOINT}; {n.steels['tie_rod'].name}, {n.steels['tie_rod'].source}",
        lambda at, case: f"{pulled(at, case) / TIE_RODS:.0f} N in each",
    )
    typed = n.sizes.get(PRELOAD)
    tight = sized(typed, "N") if typed else unknown(PRELOAD, preload.low, "N")
    yield Question(
        "tie-rod-joint",
        "Barrel stays on its seat",
        ON_JOINT,
        (*inputs[:2], tight),
        on_opening,
        f"{JOINT}; the barrel's own shortening under pressure not counted",
    )
