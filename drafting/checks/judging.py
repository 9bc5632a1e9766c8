"""The verdict on a factor whose inputs are partly ranges, partly sizes that nobody typed.

A factor is a function of its inputs and of a load case. It is taken at every corner of the ranges
and over all cases: the lowest is what is sure to be there, the highest what there can be at best.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from math import floor, inf, isfinite
from typing import Literal

from drafting.checks.bands import Band
from drafting.checks.check import Check, Decides, LoadCase, Verdict
from drafting.checks.numbers import Number
from drafting.checks.steels import Steel
from drafting.records import dataclass

At = Mapping[str, float]
Factor = Callable[[At, LoadCase], float]
STEPS = 26
"""Halvings on a scale of ratios: sizes that would do are known to a part in a million."""
WIDEST, FARTHEST = 30.0, 1e4
"""How far, as a ratio, a size that would do is looked for; a force or a pressure."""


@dataclass(frozen=True, slots=True)
class Input:
    """A number that a factor rests on, by the field to type.

    ``low`` to ``high`` is one number, or a range. ``sure`` tells that it was typed or measured;
    one that is not ``known`` is only where the search for what would do begins. ``word`` is what
    to type for the upper end, where that is no number.
    """

    field: str
    low: float
    high: float
    sure: bool = True
    known: bool = True
    unit: str = "mm"
    word: str = ""

    @property
    def open(self) -> bool:
        """Tell whether it is a range."""
        return self.low != self.high


STRONGEST = 1000.0
"""No steel or pressure above this (MPa) is named as what would do."""


def sized(n: Number, unit: str = "mm") -> Input:
    """Give a size as an input."""
    return Input(n.name, n.value, n.value, n.firm, True, unit)


def unknown(field: str, begin: float, unit: str = "mm") -> Input:
    """Give an input that nobody typed and no rule gives."""
    return Input(field, begin, begin, False, False, unit)


def unsaid(field: str) -> Input:
    """Give a word that nobody typed; no number stands for it."""
    return unknown(field, 1.0, "word")


def strong(s: Steel, which: Literal["strength", "tensile", "welded"] = "strength") -> Input:
    """Give a strength of a steel as an input."""
    low, high = getattr(s, which)
    return Input(s.field, low, high, unit="MPa", word="E355" if which == "welded" else "")


@dataclass(frozen=True, slots=True)
class Question:
    """What is judged: a code and a name, the band, the inputs, the factor, the source, a note."""

    code: str
    name: str
    band: Band
    inputs: tuple[Input, ...]
    factor: Factor
    source: str
    note: Callable[[At, LoadCase], str] = lambda at, case: ""


def judge(q: Question, cases: Sequence[LoadCase], asked: float | None) -> Check | None:
    """Give the check of a question; None where no case loads it. ``asked`` is the typed factor."""
    middle = {i.field: i.low for i in q.inputs}
    loading = [c for c in cases if isfinite(q.factor(middle, c))]
    if not loading:
        return None
    sure = [c for c in loading if not c.decided_by]
    worst = _worst(q, loading, middle)
    found = [_least(q, at, loading) for at in corners(q.inputs)]
    best = [_least(q, at, sure) for at in corners(q.inputs)] if sure else found
    low = min(found)
    high = max((f for f in best if isfinite(f)), default=low)
    weak = min(corners(q.inputs), key=lambda at: _least(q, at, loading))
    missing = [i for i in q.inputs if not i.known]
    loose = [i for i in q.inputs if i.known and not i.sure]
    least, wanted = q.band.floor(asked), q.band.asked(asked)
    deciding: tuple[Decides, ...] = ()
    if missing:
        verdict: Verdict = "not known"
        deciding = tuple(_size(q, i, loading, wanted) for i in (*missing, *loose))
    elif loose or low < wanted:
        failing = not loose and bool(sure) and high < least
        verdict = "fails" if failing else "depends"
        deciding = tuple(_deciders(q, loading, worst, loose, low, asked))
        if failing:
            deciding = tuple(d for d in deciding if d.would_do is not None)
    else:
        verdict = "holds"
    single = {i.field for i in missing if not i.open}
    known = not single
    return Check(
        q.code,
        q.name,
        low if known else None,
        high if known else None,
        wanted,
        q.band.why(asked),
        verdict,
        q.source,
        q.note(weak, worst) if known else "",
        "",
        deciding,
        worst.name,
    )


def corners(inputs: Sequence[Input]) -> Iterator[dict[str, float]]:
    """Give every choice of ends of the ranges, as values by field."""
    ranges = [(i.low, i.high) if i.open else (i.low,) for i in inputs]
    for values in product(*ranges):
        yield {i.field: v for i, v in zip(inputs, values, strict=True)}


def _least(q: Question, at: At, cases: Sequence[LoadCase]) -> float:
    return min(q.factor(at, c) for c in cases)


def _worst(q: Question, cases: Sequence[LoadCase], at: At) -> LoadCase:
    return min(cases, key=lambda c: q.factor(at, c))


def _deciders(
    q: Question,
    counted: Sequence[LoadCase],
    worst: LoadCase,
    loose: Sequence[Input],
    low: float,
    asked: float | None,
) -> Iterator[Decides]:
    """Give what decides: sizes that nobody typed, then the case, the steel, the factor asked."""
    wanted, least = q.band.asked(asked), q.band.floor(asked)
    yield from (_size(q, i, counted, wanted) for i in loose)
    if low >= wanted:
        return
    if worst.decided_by:
        firm = [c for c in counted if not c.decided_by]
        without = min(_least(q, at, firm) for at in corners(q.inputs)) if firm else inf
        words = f"{worst.name}: {worst.avoided or 'not said'}"
        yield Decides(worst.decided_by, worst.avoided or None, "", "is", words)
        if without >= wanted:
            return
        counted = firm or counted
    ranges = [i for i in q.inputs if i.open and i.known]
    found = [_size(q, i, counted, wanted) for i in ranges]
    enough = [d for d in found if d.would_do is not None]
    yield from enough[:1] if enough else (_together(q, i, counted, wanted) for i in ranges)
    if not loose and not enough:
        low = min(_least(q, at, counted) for at in corners(q.inputs))
        value = floor(low * 100 + 1e-9) / 100
        if q.band.typed and asked is None and value >= least:
            words = f"the factor asked for: {value:g} or less"
            yield Decides("duty.safety_factor", value, "", "at most", words)
        elif not ranges:
            yield from _changes(q, counted, wanted)


def _together(q: Question, i: Input, counted: Sequence[LoadCase], wanted: float) -> Decides:
    """Give what one range would have to be where the others are at their best."""
    inputs = tuple(replace(j, low=j.high) if j.field != i.field else j for j in q.inputs)
    return _size(replace(q, inputs=inputs), i, counted, wanted)


def _changes(q: Question, counted: Sequence[LoadCase], wanted: float) -> Iterator[Decides]:
    """Give the one typed size, force or pressure whose least change would do."""
    sizes = [(i, _size(q, i, counted, wanted)) for i in q.inputs if i.unit in ("mm", "N", "MPa")]
    able = [(i, d) for i, d in sizes if isinstance(d.would_do, float)]
    if able:
        yield min(able, key=lambda e: abs(float(e[1].would_do or 1.0) / e[0].low - 1.0))[1]


def _size(q: Question, i: Input, cases: Sequence[LoadCase], wanted: float) -> Decides:
    """Give what one input would have to be, the others at their weakest."""
    others = [j for j in q.inputs if j.field != i.field]

    def lowest(value: float) -> float:
        return min(_least(q, {**at, i.field: value}, cases) for at in corners(others))

    said = i.field.rpartition(".")[2].replace("_", " ")
    if i.unit == "word":
        return Decides(i.field, None, "", "is", f"{said}: not typed")
    if i.word:
        does = i.word if lowest(i.high) >= wanted else None
        return Decides(i.field, does, "", "is", f"{said}: {i.word}", (i.low, i.high))
    begin = max(i.low, 1e-9)
    rises = lowest(begin * 1.05) >= lowest(begin / 1.05)
    widest = WIDEST if i.unit == "mm" else FARTHEST
    limit = _limit(lowest, begin, wanted, rises, widest)
    if i.unit == "MPa" and limit is not None and limit > STRONGEST:
        limit = None
    sense: Literal["at least", "at most"] = "at least" if rises else "at most"
    taken = (i.low, i.high) if i.known or i.open else None
    if limit is None:
        words = f"{said}: no value of it alone would do"
    else:
        more = "more" if rises else "less"
        words = f"{said} of {limit:.4g} {i.unit}".rstrip() + f" or {more}"
    return Decides(i.field, limit, i.unit, sense, words, taken)


def _limit(
    lowest: Callable[[float], float], begin: float, wanted: float, rises: bool, widest: float
) -> float | None:
    """Give the value nearest the weak side that is enough, rounded to the side that holds."""
    strong_end = begin * widest if rises else begin / widest
    weak_end = begin / widest if rises else begin * widest
    if not lowest(strong_end) >= wanted:
        strong_end = begin * 2 if rises else begin / 2
        if not lowest(strong_end) >= wanted:
            return None
    if lowest(weak_end) >= wanted:
        return weak_end
    for _ in range(STEPS):
        half = (weak_end * strong_end) ** 0.5
        if lowest(half) >= wanted:
            strong_end = half
        else:
            weak_end = half
    return strong_end


def outright(
    code: str, name: str, there: Number, asked: float, unit: str, source: str, note: str = ""
) -> Check:
    """Give a check of something there against something asked for outright, same unit."""
    enough = there.value >= asked
    verdict: Verdict = "depends" if not there.firm else "holds" if enough else "fails"
    words = f"{there.name} of {asked:.4g} {unit} or more"
    span = (there.value, there.value)
    needs = () if verdict == "holds" else (
        Decides(there.name, asked, unit, "at least", words, span),
    )  # fmt: skip
    return Check(code, name, *span, asked, "asked outright", verdict, source, note, unit, needs)
