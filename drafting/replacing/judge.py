"""All rules put to two cylinders: rows, jobs, and one verdict on the whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import product
from typing import Literal

from drafting.records import dataclass
from drafting.replacing.known import Subject
from drafting.replacing.rule import WORST_FIRST, Answer, Job, Known, Row, Rule, Said, Sides
from drafting.replacing.table import RULES

Whole = Literal["fits", "fits with work", "does not fit", "not known"]


@dataclass(frozen=True, slots=True)
class Comparison:
    """What came out. ``unsaid`` are fields that are known of neither: they decide nothing."""

    original: Subject
    candidate: Subject
    machine: Known
    rows: tuple[Row, ...]

    @property
    def verdict(self) -> Whole:
        """Give the verdict on the whole."""
        found = whole(self.rows)
        return "not known" if self.in_part and found != "does not fit" else found

    @property
    def in_part(self) -> str:
        """Say which of the two is not whole and what of it is missing; empty where both are."""
        said = (f"{s.name} is compared as far as it was read; still open: {s.missing}"
                for s in (self.original, self.candidate) if s.missing)  # fmt: skip
        return "; ".join(said)

    @property
    def jobs(self) -> tuple[Job, ...]:
        """Give the jobs, each once, in the order of the rules."""
        return jobs_of(self.rows)


def jobs_of(rows: Iterable[Row]) -> tuple[Job, ...]:
    """Give the jobs of some rows, each once."""
    return tuple(dict.fromkeys(j for r in rows for j in r.answer.jobs))


def whole(rows: Sequence[Row]) -> Whole:
    """Give the one verdict: the worst that decides; what neither side says decides nothing."""
    found = {r.verdict for r in rows}
    if "does not fit" in found:
        return "does not fit"
    if any(r.verdict == "not known" and r.rule.decides and not r.unsaid for r in rows):
        return "not known"
    return "fits with work" if found & {"works with", "changes"} else "fits"


def compare(
    original: Subject,
    candidate: Subject,
    machine: Known | None = None,
    rules: Sequence[Rule] = RULES,
) -> Comparison:
    """Judge a candidate in place of an original, in a machine as far as that is known."""
    known: Known = machine or {}
    sides = Sides(original.values, candidate.values, known, original.units)
    found = (row_for(r, original, sides, candidate.plus_minus, candidate.drawn) for r in rules)
    rows = [row for row in found if row is not None]
    return Comparison(original, candidate, known, tuple(rows))


NONE: Mapping[str, float] = {}


def row_for(
    rule: Rule,
    original: Subject,
    sides: Sides,
    also: Mapping[str, float] = NONE,
    drawn: Mapping[str, float] = NONE,
) -> Row | None:
    """Put one rule to two cylinders; None where the question does not arise.

    ``also`` are the limits of what was measured of the candidate, ``drawn`` its sizes by rule.
    """
    answer = rule.judge(sides)
    if answer is None:
        return None
    old = _shown(answer.old, rule, sides.old, original.drawn)
    new = _shown(answer.new, rule, sides.new, drawn)
    unsaid = answer.verdict == "not known" and not any(
        f in side for f in (rule.field,) for side in (sides.old, sides.new)
    )
    row = Row(rule, old, new, answer, unsaid=unsaid and answer.old is None and answer.new is None)
    limits = {f: original.plus_minus[f] for f in rule.reads if f in original.plus_minus}
    if not limits and rule.field not in also:
        return row
    return _as_measured(row, sides, limits, also.get(rule.field, 0.0))


def _shown(said: Said | None, rule: Rule, known: Known, drawn: Mapping[str, float]) -> Said | None:
    return said if said is not None else known.get(rule.field, drawn.get(rule.field))


MOST_CORNERS = 3
"""Measured fields of one rule that are moved to their limits; more do not occur."""


def _as_measured(row: Row, sides: Sides, limits: Mapping[str, float], also: float) -> Row:
    """Give the row with what the readings leave open: same within them, or the worst of them."""
    rule, gap = row.rule, row.difference
    spread = limits.get(rule.field, 0.0) + also
    if gap is not None and 0.0 < abs(gap) <= spread and row.new is not None:
        alike = rule.judge(
            Sides({**sides.old, rule.field: row.new}, sides.new, sides.machine, sides.units)
        )
        if alike is not None and alike.verdict == "same":
            why = f"same within what you could measure, +-{sides.say(spread)}"
            return Row(rule, row.old, row.new, Answer("same", why), within=True)
    moved = list(limits.items())[:MOST_CORNERS]
    worst = row.answer
    for signs in product((-1.0, 1.0), repeat=len(moved)):
        at = {
            f: float(sides.old[f]) + s * u
            for s, (f, u) in zip(signs, moved, strict=True)
            if isinstance(sides.old.get(f), float)
        }
        there = rule.judge(Sides({**sides.old, **at}, sides.new, sides.machine, sides.units))
        if there and WORST_FIRST.index(there.verdict) < WORST_FIRST.index(worst.verdict):
            worst = there
    if worst is row.answer or row.verdict == "same":
        return row
    why = f"{worst.why}; so at the limit of what you could measure".lstrip("; ")
    answer = Answer(worst.verdict, why, worst.do, worst.jobs, worst.old, worst.new, worst.far)
    return Row(rule, row.old, row.new, answer)
