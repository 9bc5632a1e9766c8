"""A candidate as a whole cylinder: sizes grow until the checks ask for no more, then all are run.

What may grow is what a builder chooses for the duty: pin, eye, base cap, barrel. Bore, rod and what
the duty names stand. What the machine or the builder decides (ears, welds, what holds the gland)
stays open: with the best usual ear a pin has all that is asked, with the worst it does not fail.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from drafting.checks.all import all_checks
from drafting.checks.check import Check, LoadCase, failed
from drafting.checks.judging import judge
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.numbers_of import cylinder_numbers
from drafting.checks.question import Input, Question
from drafting.checks.strength import strength_questions
from drafting.checks.would_do import enough
from drafting.errors import Refused
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.records import dataclass
from drafting.settle.shop_sizes import neat_up
from drafting.sizing.axis import lay_axis
from drafting.sizing.candidates import Candidate, stock_outsides, usual_pin, values_of
from drafting.sizing.duty import DutyFile
from drafting.sizing.take import spec_text
from drafting.spec.given import Typed

GROWS = ("pin", "outside", "nose", "width", "base_thickness", "barrel_outside")
"""What may be chosen larger, by the last word of the field; the first that does is taken."""
_EYE = ("outside", "nose", "width")
OUT = ("beyond-room",)
"""Warnings that a duty cannot live with: it named the room."""
ROUNDS = 8
"""So many times sizes may grow; each round settles the cylinder anew."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A candidate that no check fails: the text of its spec, the cylinder, what the checks say."""

    candidate: Candidate
    text: str
    cylinder: Cylinder
    checks: tuple[Check, ...]

    @property
    def column(self) -> float | None:
        """Give the factor against buckling at the duty's push, None when nothing pushes."""
        return next((k.factor_from for k in self.checks if k.code == "column-duty"), None)


@dataclass(frozen=True, slots=True)
class Dropped:
    """A candidate that does the duty by its forces and still is not proposed, and why."""

    candidate: Candidate
    why: str


def settle(duty: DutyFile, c: Candidate) -> Whole | Dropped:
    """Settle a candidate's sizes for a duty and run every check on it."""
    values = values_of(duty, c.pair, c.outside, c.pin, c.port)
    try:
        for _ in range(ROUNDS):
            axis = lay_axis(duty.units, values, duty.retracted, duty.tightest)
            text = spec_text(duty, values, duty.retracted or axis.closed)
            cylinder = load(checked(text.encode(), "the proposal"))
            numbers = cylinder_numbers(cylinder)
            grown = dict(_grown(duty, c, numbers, values))
            if not grown:
                break
            values = _with(values, grown)
    except Refused as refused:
        return Dropped(c, refused.faults[0].message)
    checks = tuple(all_checks(numbers))
    wrong = [f for f in cylinder.findings if f.level == "error" or f.code in OUT]
    bad = [f.message for f in wrong]
    bad += [_why(k) for k in (*failed(checks), *failed(_as_drawn(numbers, duty.safety_factor)))]
    bad += [_why(k) for k in checks if k.code == "column-duty" and (k.ratio or 1.0) < 1.0]
    return Dropped(c, bad[0]) if bad else Whole(c, text, cylinder, checks)


def _with(values: Mapping[str, Typed], grown: Mapping[str, float]) -> dict[str, Typed]:
    """Give the values with larger sizes: first one pin for both ends, its eyes by their rules."""
    pins = [v for f, v in grown.items() if f.endswith(".pin")]
    if not pins:
        return {**values, **grown}
    kept = {f: v for f, v in values.items() if f.rpartition(".")[2] not in _EYE}
    return {f: max(pins) if f.endswith(".pin") else v for f, v in kept.items()}


def _as_drawn(n: CylinderNumbers, asked: float | None) -> Iterator[Check]:
    """Judge once more as if every size were typed as it is drawn, and each range were known.

    What fails then would fail whatever is still to be typed.
    """
    for q, cases in strength_questions(n):
        if all(i.known or i.open for i in q.inputs):
            firm = tuple(replace(i, known=True, sure=True) for i in q.inputs)
            found = judge(replace(q, inputs=firm), cases, asked)
            if found is not None:
                yield found


def _grown(
    duty: DutyFile, c: Candidate, n: CylinderNumbers, values: Mapping[str, Typed]
) -> Iterator[tuple[str, float]]:
    """Give each field that must be larger for some question, with its next size in mm."""
    asked = duty.safety_factor
    for q, cases in strength_questions(n):
        sure = [k for k in cases if not k.decided_by]
        if not sure or any(not i.known and not i.open for i in q.inputs):
            continue
        for field in _may_grow(duty, q):
            least = _least(q, field, sure, asked)
            if least is None:
                continue
            if least > 0.0:
                size = _next(field, least, c, duty.units)
                have = values.get(field)
                if size is not None and (not isinstance(have, float) or size > have + 1e-6):
                    yield field, size
            break


def _least(q: Question, field: str, cases: Sequence[LoadCase], asked: float | None) -> float | None:
    """Give the least a size must be for all that is asked.

    Where an ear that nobody typed decides: for that with the best usual one, and with the worst
    for the least of the band.
    """
    if not any(i.open and not i.known for i in q.inputs):
        return enough(q, field, cases, q.band.asked(asked))
    worst = enough(q, field, cases, q.band.floor(asked))
    found = [
        enough(replace(q, inputs=tuple(_at(i, end) for i in q.inputs)), field, cases,
               q.band.asked(asked))
        for end in (0, 1)
    ]  # fmt: skip
    best = min((x for x in found if x is not None), default=None)
    return None if worst is None or best is None else max(worst, best)


def _at(i: Input, end: int) -> Input:
    """Give an input at one end of its range, where nobody typed it."""
    value = (i.low, i.high)[end]
    return i if i.known else replace(i, low=value, high=value)


def _may_grow(duty: DutyFile, q: Question) -> list[str]:
    words = [(i.field, i.field.rpartition(".")[2]) for i in q.inputs]
    fixed = {"pin"} if duty.pin is not None else set()
    return [f for word in GROWS if word not in fixed for f, own in words if own == word]


def _next(field: str, least: float, c: Candidate, units: str) -> float | None:
    """Give the next size that is made or stocked; None where there is none."""
    word = field.rpartition(".")[2]
    if word == "pin":
        return usual_pin(least, units)
    if word == "barrel_outside":
        return next((d for d in stock_outsides(c.pair.bore) if d >= least - 1e-6), None)
    return neat_up(least, units)


def _why(k: Check) -> str:
    if k.factor_to is None or not k.asked:
        return f"{k.name}: fails"
    return f"{k.name}: {k.factor_to:.2f} at best, {k.asked:g} asked"
