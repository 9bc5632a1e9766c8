"""Whether the parts carry what the load cases make of them. Static figures; fatigue is not covered.

Each part is held against the worst of all cases, not only the duty: a cylinder that meets a stop
does its utmost, and a load that falls does more.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from drafting.calc.force import rod_area
from drafting.calc.tube import bar_stress
from drafting.checks.bands import ON_YIELD
from drafting.checks.barrel import barrel
from drafting.checks.check import Check, LoadCase, told
from drafting.checks.judging import judge
from drafting.checks.loads import PROOF, in_use, load_cases
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.question import Question, sized, strong
from drafting.checks.sections import force, questions
from drafting.checks.stress import over


def strength(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give every strength check that the load cases bring about."""
    asked = n.duty.safety_factor.value if n.duty.safety_factor else None
    found = [judge(q, cases, asked) for q, cases in strength_questions(n)]
    return (*(k for k in found if k is not None), *_gland_force(n))


def strength_questions(n: CylinderNumbers) -> Iterator[tuple[Question, tuple[LoadCase, ...]]]:
    """Give every question of strength with the load cases that it is held against."""
    cases = load_cases(n)
    use = in_use(cases)
    proof = tuple(c for c in cases if c.code == PROOF)
    yield from ((q, proof if test else use) for q, test in barrel(n))
    yield from ((q, use) for q in (_rod(n), *_mounts(n)))


def _mounts(n: CylinderNumbers) -> Iterator[Question]:
    for m in n.mounts:
        for section in m.sections:
            yield from questions(section, n, m)


def _rod(n: CylinderNumbers) -> Question:
    metal = strong(n.steels["rod"])
    return Question(
        "rod-along",
        "Rod on yield, greatest force along it",
        ON_YIELD,
        (sized(n.rod), metal),
        lambda at, c: over(at[metal.field], bar_stress(force(c), rod_area(at[n.rod.name]))),
        f"force over section; {n.steels['rod'].name}, {n.steels['rod'].source}",
        lambda at, c: "the column is judged apart",
    )


def _gland_force(n: CylinderNumbers) -> Iterator[Check]:
    if n.piston == "displacement":
        return
    ring = rod_area(n.bore.value) - rod_area(n.rod.value)
    pushed = [(c.rod_side * ring + c.gland, c) for c in in_use(load_cases(n))]
    sure = [(f, c) for f, c in pushed if not c.decided_by]
    most, case = max(sure, key=lambda e: e[0], default=(-inf, None))
    if case is None or most <= 0.0:
        return
    note = f"{case.name}; it must be held by: {n.gland or 'nobody said what'}"
    name = "Greatest force that drives the gland out"
    yield told("gland-force", name, most, "N", "force balance of the gland", note)
