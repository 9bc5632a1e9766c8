"""What is known of one cylinder: what was typed, measured, answered, or follows from these alone.

A size that was drawn by rule is drawn, not known: no verdict rests on it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.checks.check import Check
from drafting.checks.of_cylinder import judge
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.replacing.rule import Known, Said
from drafting.settle.clock import seen_from_rod
from drafting.shape.mass import dry_mass
from drafting.spec.given import Spec

FIRM = ("given", "measured", "builder", "computed")
UNSAID = {
    "cylinder.construction": "welded",
    "cylinder.action": "double",
    "cylinder.piston": "sealed",
    "cylinder.cushions": "none",
}
"""What the format says of a word that is left out."""

BEHIND = ("trunnion", "flange", "foot")
"""Mounts that the barrel reaches past."""
WORST = ("fails", "not known", "depends", "holds")


@dataclass(frozen=True, slots=True)
class Subject:
    """One of the two cylinders. ``plus_minus`` (mm) are limits of what was measured.

    ``drawn`` are the sizes that a rule gave, to be shown and never judged. ``missing`` says what of
    it nobody read yet: it is compared as far as it goes, and never fits.
    """

    name: str
    title: str
    units: str
    values: Known
    plus_minus: Mapping[str, float]
    drawn: Mapping[str, float]
    missing: str = ""


def subject(c: Cylinder) -> Subject:
    """Give what is known of a settled cylinder."""
    values: dict[str, Said] = dict(UNSAID)
    for name, given in c.spec.givens.items():
        if isinstance(given.value, tuple):
            values[name] = " ".join(f"{v:g}" if isinstance(v, float) else v for v in given.value)
        else:
            values[name] = given.value
    drawn: dict[str, float] = {}
    plus_minus: dict[str, float] = {}
    for v in c.values:
        if v.origin in FIRM:
            values[v.name] = v.value
        else:
            values.pop(v.name, None)
            if isinstance(v.value, float):
                drawn[v.name] = v.value
        if v.plus_minus:
            plus_minus[v.name] = v.plus_minus
    _measured_together(values, plus_minus)
    values["mass"] = dry_mass(c.parts)
    if c.mounts["body"] in BEHIND:
        values["body.behind"] = max(-c.stations.closed_end, 0.0)
    checks = judge(c).checks
    _strength(values, checks)
    for check in checks:
        if check.code == "column-full" and check.factor_from is not None and check.asked:
            values["column"] = check.factor_from
            values["column.asked"] = check.asked
    return Subject(c.name, c.spec.word("title") or "", c.spec.units, values, plus_minus, drawn)


def _strength(values: dict[str, Said], checks: Sequence[Check]) -> None:
    """Give the worst of its own checks at its rating, and the names of those that fail.

    Column and pins have rules of their own: the pin is the machine's.
    """
    own = [c for c in checks if not c.code.startswith("column") and "-pin-" not in c.code]
    verdicts = {check.verdict for check in own}
    values |= {"strength": next((v for v in WORST if v in verdicts), "not judged")}
    weak = [check.name for check in own if check.verdict == "fails"]
    if weak:
        values["strength.weak"] = "; ".join(dict.fromkeys(weak))


def in_part(spec: Spec, missing: str) -> Subject:
    """Give what is known of a cylinder that is not whole: what its spec says, and no guess."""
    values: dict[str, Said] = dict(UNSAID)
    origins = {o.field: o for o in spec.origins}
    for name, given in spec.givens.items():
        told = origins.get(name)
        if not isinstance(given.value, tuple) and not (told and told.kind == "open"):
            values[name] = given.value
    seen_from = spec.word("cylinder.clock_seen_from") or "rod"
    for table in ("base_port", "rod_port"):
        clock = values.get(f"{table}.clock")
        if isinstance(clock, float):
            values[f"{table}.clock_from_rod"] = seen_from_rod(clock, seen_from)
    plus_minus = {n: o.plus_minus for n, o in origins.items() if n in values and o.plus_minus}
    closed, opened, stroke = (f"cylinder.{n}" for n in ("retracted", "extended", "stroke"))
    for name, one, other, sign in ((stroke, opened, closed, -1.0), (opened, closed, stroke, 1.0)):
        a, b = values.get(one), values.get(other)
        if name not in values and isinstance(a, float) and isinstance(b, float):
            values[name] = a + sign * b
    _measured_together(values, plus_minus)
    name = spec.word("number") or spec.stem
    return Subject(name, spec.word("title") or "", spec.units, values, plus_minus, {}, missing)


def _measured_together(values: Mapping[str, Said], plus_minus: dict[str, float]) -> None:
    """Give the one of stroke, retracted and extended that follows the limits of the other two."""
    lengths = [f"cylinder.{n}" for n in ("stroke", "retracted", "extended")]
    read = [plus_minus[n] for n in lengths if n in plus_minus]
    if read:
        for name in lengths:
            plus_minus.setdefault(name, sum(u * u for u in read) ** 0.5)
