"""The column at each length of the travel, at the force asked and at all that pressure can do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.checks.bands import ON_COLUMN
from drafting.checks.buckling import METHOD, PLANES, against, column
from drafting.checks.check import Check, LoadCase
from drafting.checks.loads import push_at
from drafting.checks.numbers import CylinderNumbers, Number
from drafting.fitting.forces import Position, pressure
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Machine
from drafting.fitting.row import Row, Verdict
from drafting.fitting.subject import Subject
from drafting.fitting.travel import extremes, hard_span
from drafting.replacing.rule import Job
from drafting.told.short import factor, limit

SMALL = 1.0
"""Pushes (N) of less than that are none."""


def with_columns(s: Subject, ps: tuple[Position, ...]) -> tuple[Position, ...]:
    """Add the factor against buckling at the greatest push of each place, weakest metal."""
    return tuple(replace(q, column=_factor(s, q)) for q in ps)


def _factor(s: Subject, q: Position) -> float | None:
    if q.most_push <= SMALL:
        return None
    return held(s, q.place.length) / q.most_push


def held(s: Subject, length: float) -> float:
    """Give the push that the column carries at a length between the datums, N; 0: a mechanism."""
    out = min(max(length - s.closed, 0.0), s.numbers.stroke.value)
    return min(column(s.numbers, plane, out).load for plane in PLANES)


def columns(s: Subject, m: Machine, ps: tuple[Position, ...]) -> Iterator[Row]:
    """Judge the column at the force asked, and at full pressure as far out as it can really go."""
    pushed = [q for q in ps if q.column is not None]
    if pushed:
        worst = min(pushed, key=lambda q: q.column or 0.0)
        check = _check(s, worst.place.length, worst.most_push, "duty")
        if check is not None:
            yield _row(m, check, "column.asked", "at the force asked", worst.place.at)
    p = pressure(s, m)
    if m.supply.relief is not None:
        p = max(p or 0.0, m.supply.relief)
    full = push_at(s.numbers, p) if p else 0.0
    if not p or not full:
        return
    _, far = extremes(m.way, *hard_span(m.way))
    length = min(s.open, far.length)
    check = _check(s, length, full, "full")
    if check is not None:
        row = _row(m, check, "column.full", "at full pressure", far.at)
        yield _relieved(s, m, row, p, full, held(s, length), ps)


def _check(s: Subject, length: float, push: float, which: str) -> Check | None:
    out = min(max(length - s.closed, 0.0), s.numbers.stroke.value)
    n: CylinderNumbers = s.numbers
    moved = replace(n, stroke=Number(n.stroke.name, out, n.stroke.origin, n.stroke.why))
    what = "greatest push" if which == "duty" else "full pressure"
    return against(moved, which, what, [LoadCase(which, what, push)])


VERDICTS: dict[str, Verdict] = {
    "holds": "fits", "depends": "not known", "fails": "does not fit", "not known": "not known",
}  # fmt: skip


def _row(m: Machine, c: Check, field: str, words: str, at: float) -> Row:
    verdict = VERDICTS[c.verdict or "not known"]
    decides = ", ".join(dict.fromkeys(d.field for d in c.depends_on[:3]))
    do = f"type {decides}, then run check" if verdict == "not known" and decides else ""
    if verdict == "does not fit":
        do = "a thicker rod, a lower pressure, or pins nearer to each other"
    low, asked = c.factor_from, c.asked
    left = None if low is None or asked is None else low - asked
    span = "" if low is None or c.factor_to is None else f"{factor(low)} to {factor(c.factor_to)}"
    why = f"{span} found, {asked:g} asked, at {say_at(m, at)}" if asked else "not known"
    return Row("column", field, words, verdict, "", asked, low, left, do, why, METHOD, at)


def _relieved(
    s: Subject,
    m: Machine,
    row: Row,
    p: float,
    full: float,
    carries: float,
    ps: tuple[Position, ...],
) -> Row:
    """Give the row with a relief setting as a job, where one does it and leaves force enough."""
    if row.verdict == "fits" or not carries:
        return row
    n = s.numbers
    asked = ON_COLUMN.asked(n.duty.safety_factor.value if n.duty.safety_factor else None)
    lower = p * carries / asked / full
    need = max((q.most_push for q in ps), default=0.0)
    if lower >= p or push_at(n, lower) < need * 1.1 or need <= SMALL:
        return row
    setting = limit(lower, "MPa", m.units, down=True)
    text = (
        f"relief: {setting} at the base port keeps the factor {asked:g} against buckling with the "
        "weakest usual rod, as far out as it can go; the force asked is still there. This "
        "circuit's own valve is the place: a main relief is felt by every other circuit"
    )
    return replace(row, verdict="fits with work", do="", jobs=(Job(f"relief {setting}", text),))
