"""Every check of a cylinder in the order of the report."""

from __future__ import annotations

from dataclasses import replace

from drafting.checks.buckling import buckling
from drafting.checks.check import Check, Decides, Verdict
from drafting.checks.hydraulics import hydraulics
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.strength import strength

PEOPLE = "people are lifted or carried: a licensed engineer and the local code decide"
_PEOPLE = Decides("duty.lifts_people", None, "", "is", PEOPLE)
_PRESSURE = Decides("cylinder.working_pressure", None, "MPa", "is", "no pressure is typed")
UNSEEN = "an old cylinder: nobody measured its {}"
OLD = {
    "welded": (("cylinder.barrel_outside", "cylinder.wall"), ("cylinder.base_weld",
               "cylinder.base_groove")),
    "tie rod": (("cylinder.barrel_outside", "cylinder.wall"),),
}  # fmt: skip
"""What of an old cylinder must have been seen before anything holds; either field will do."""


def all_checks(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give all checks.

    None holds where people are lifted, where no pressure is typed, nor on an old cylinder whose
    wall and welds nobody measured; those that fail still do.
    """
    deciding: list[Decides] = [_PEOPLE] if n.duty.lifts_people else []
    if n.highest_pressure is None:
        deciding.append(_PRESSURE)
    if n.old:
        for either in OLD[n.construction]:
            if not any(f in n.sizes and n.sizes[f].firm for f in either):
                what = either[0].partition(".")[2].replace("_", " ")
                deciding.append(Decides(either[0], None, "mm", "is", UNSEEN.format(what)))
    checks = (*hydraulics(n), *buckling(n), *strength(n))
    if not deciding:
        return checks
    return tuple(_taken_back(c, tuple(deciding)) for c in checks)


def _taken_back(c: Check, deciding: tuple[Decides, ...]) -> Check:
    """Give a check without its ``holds``, and what decides it besides its own."""
    if c.verdict in (None, "fails"):
        return c
    verdict: Verdict = "depends" if c.verdict == "holds" else c.verdict
    return replace(c, verdict=verdict, depends_on=(*c.depends_on, *deciding))
