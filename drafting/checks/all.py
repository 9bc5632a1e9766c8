"""Every check of a cylinder in the order of the report."""

from __future__ import annotations

from dataclasses import replace

from drafting.checks.buckling import buckling
from drafting.checks.check import Check, Decides
from drafting.checks.hydraulics import hydraulics
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.strength import strength

PEOPLE = "people are lifted or carried: a licensed engineer and the local code decide"
_PEOPLE = Decides("duty.lifts_people", None, "", "is", PEOPLE)


def all_checks(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give all checks. Where people are lifted none is called good; those that fail still do."""
    checks = (*hydraulics(n), *buckling(n), *strength(n))
    if not n.duty.lifts_people:
        return checks
    return tuple(
        replace(c, verdict="depends", depends_on=(_PEOPLE,)) if c.ok else c for c in checks
    )
