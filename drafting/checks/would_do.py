"""What decides a verdict, and what typed there would make it hold.

Sizes that nobody typed are named always. One thing alone is changed where that does, the rest at
its weakest: a steel, else a size as drawn; then more together, a lower factor, a typed size. What
is named can be built: no size is changed by more than half or twice, unless nothing else would do,
as what a rule left over may be far from what is there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import floor
from typing import Literal

from drafting.checks.check import Decides, LoadCase
from drafting.checks.question import Input, Question, corners

STEPS = 22
"""Halvings on a scale of ratios: limits are known to a part in a million."""
DRAWN = (1.05, 1.1, 1.25, 1.5, 2.0)
UNSEEN = (*DRAWN, 3.0, 5.0)
FAR = (*UNSEEN, 10.0, 30.0)
FORCES = (10.0, 1e2, 1e3, 1e4)
"""How far what would do is looked for, as ratios: of a size drawn, of one that nobody knows, of a
size drawn where nothing else would do, of a force or a pressure."""
SPARE = 3.0
"""How far the limit of a size that is more than enough is looked for."""
STRONGEST = 1000.0
"""No steel or pressure above this (MPa) is named; no steel above the best usual one."""
FACTOR = "duty.safety_factor"

Cases = Sequence[LoadCase]


def deciders(q: Question, cases: Cases, worst: LoadCase, asked: float | None) -> list[Decides]:
    """Give what decides a question that does not hold; with all of it typed it does.

    First what nobody knows, then the case that may not be, then what has to be other than it is,
    then what was drawn and has to be measured.
    """
    wanted = q.band.asked(asked)
    if any(i.unit == "word" for i in q.inputs):
        words = [_not_typed(i) for i in q.inputs if i.unit == "word"]
        sizes = [_limit_of(q, i, cases, wanted) for i in q.inputs if _free(i)]
        unseen = [_not_typed(i) for i in q.inputs if _free(i)]
        return words + [d if d.would_do else u for d, u in zip(sizes, unseen, strict=True)]
    between: list[Decides] = []
    if worst.decided_by and q.lowest(cases) < wanted:
        said = f"{worst.name}: {worst.avoided or 'not said'}"
        between = [Decides(worst.decided_by, worst.avoided or None, "", "is", said)]
        cases = [c for c in cases if not c.decided_by]
        if not cases:
            return between
    for named, changed, factor in _ways(q, cases, wanted, asked):
        unseen, changed = _in_turn(changed, _unseen(changed), cases, factor)
        if changed.lowest(cases) >= factor:
            drawn = [_limit_of(changed, i, cases, factor) for i in changed.inputs if _free(i)]
            return [*unseen, *between, *named, *drawn]
    return [*between, *(_limit_of(q, i, cases, wanted) for i in q.inputs if _free(i) or i.open)]


def _free(i: Input) -> bool:
    """Tell whether it is a size that nobody typed."""
    return not i.sure and i.unit != "word"


def _in_turn(
    q: Question, inputs: Sequence[Input], cases: Cases, wanted: float, far: bool = False
) -> tuple[list[Decides], Question]:
    """Give what would do of some inputs, one after the other, and the question with all of it.

    One of which no value would do as the others are is looked at again when they are settled.
    """
    found: dict[str, Decides] = {}
    for i in (*inputs, *inputs):
        if i.field not in found or found[i.field].would_do is None:
            q = _but(q, i)
            if i.known and not i.open and q.lowest(cases) >= wanted:
                continue  # as drawn it does
            d = found[i.field] = _limit_of(q, i, cases, wanted, far)
            q = _with(q, d)
    return list(found.values()), q


def _unseen(q: Question) -> list[Input]:
    return [i for i in q.inputs if not i.known]


def _ways(
    q: Question, cases: Cases, wanted: float, asked: float | None
) -> Iterator[tuple[list[Decides], Question, float]]:
    """Give what may be changed, the least first.

    Each is what to name for it, the question with it, and the factor it is then held against.
    """
    ranges = [i for i in q.inputs if i.open and i.known]
    drawn = [i for i in q.inputs if i.known and not i.sure]
    best = _best(q, cases)
    together = [_limit_of(_but(best, i), i, cases, wanted) for i in ranges]
    if any(d.would_do is None for d in together):
        together = [_at_best(i, best) for i in ranges]
    yield [], q, wanted
    yield from (([d], _with(q, d), wanted) for d in _alone(q, ranges, cases, wanted))
    yield from (([d], _with(q, d), wanted) for d in _alone(q, drawn, cases, wanted))
    yield together, best, wanted
    ends: tuple[tuple[list[Decides], Question], ...] = (([], q), (together, best))
    yield from (
        ([*named, d], _with(changed, d), wanted)
        for named, changed in ends
        for d in _alone(changed, drawn, cases, wanted)
    )
    if q.band.typed and asked is None:
        for named, changed in ends:
            low = _in_turn(changed, _unseen(changed), cases, q.band.least)[1].lowest(cases)
            if q.band.least <= low < wanted:
                value = _hundredths(low)
                yield [*named, _asked(value)], changed, value
    typed = [i for i in q.inputs if i.sure and not i.open and i.unit in ("mm", "N", "MPa")]
    for named, changed in ends:
        able = _alone(changed, typed, cases, wanted)
        able.sort(key=lambda d: abs(float(d.would_do or 0.0) / d.taken[0] - 1) if d.taken else 0.0)
        yield from (([*named, d], _with(changed, d), wanted) for d in able[:1])
    yield _all_together(q, cases, wanted, asked)


def _alone(q: Question, inputs: Sequence[Input], cases: Cases, wanted: float) -> list[Decides]:
    """Give those inputs of which one alone would do."""
    found = (_limit_of(q, i, cases, wanted) for i in inputs)
    return [d for d in found if d.would_do is not None]


def hopeless(q: Question, cases: Cases, least: float) -> bool:
    """Tell whether no steel and no size that nobody typed would lift it to the least factor."""
    if any(i.unit == "word" for i in q.inputs):
        return False
    return _grown(q, cases).lowest(cases) < least


def _grown(q: Question, cases: Cases) -> Question:
    """Give the question with all at its best: the ranges, and the sizes that nobody typed."""
    best = _best(q, cases)
    for _ in range(2):
        for i in q.inputs:
            if not i.sure:
                values = [i.low * r for x in _ratios(i, True) for r in (x, 1 / x)]
                tries = [_fixed(best, i, v) for v in (i.low, *values)]
                best = max(tries, key=lambda t: t.lowest(cases))
    return best


def _all_together(
    q: Question, cases: Cases, wanted: float, asked: float | None
) -> tuple[list[Decides], Question, float]:
    """Give what would do only where all that nobody typed is changed, one after the other."""
    best, lower = _grown(q, cases), []
    most = best.lowest(cases)
    if most < wanted and q.band.typed and asked is None:
        wanted = _hundredths(most)
        lower = [_asked(wanted)]
    found, best = _in_turn(best, [i for i in q.inputs if _free(i) or i.open], cases, wanted, True)
    return [*lower, *found], best, wanted


def _best(q: Question, cases: Cases) -> Question:
    """Give the question with every range at its best end."""
    at = max(corners(q.inputs), key=lambda at: q.least(at, cases))
    return replace(q, inputs=tuple(replace(i, low=at[i.field], high=at[i.field]) for i in q.inputs))


def _fixed(q: Question, one: Input, value: float) -> Question:
    changed = replace(one, low=value, high=value)
    return replace(q, inputs=tuple(changed if i.field == one.field else i for i in q.inputs))


def _but(q: Question, one: Input) -> Question:
    """Give the question with one input as it was."""
    return replace(q, inputs=tuple(one if i.field == one.field else i for i in q.inputs))


def _with(q: Question, d: Decides) -> Question:
    """Give the question as if what would do had been typed."""
    (i,) = (i for i in q.inputs if i.field == d.field)
    if d.would_do is None:
        return q
    value = d.would_do if isinstance(d.would_do, float) else i.high
    return _but(q, replace(i, low=value, high=value, sure=True, known=True))


def _at_best(i: Input, best: Question) -> Decides:
    (value,) = (j.low for j in best.inputs if j.field == i.field)
    return _decides(i, i.word or value, value >= i.high)


def _asked(value: float) -> Decides:
    words = f"the factor asked for: {value:g} or less"
    return Decides(FACTOR, value, "", "at most", words)


def _hundredths(factor: float) -> float:
    return floor(factor * 100 + 1e-9) / 100


def _not_typed(i: Input) -> Decides:
    return Decides(i.field, None, "", "is", f"{_said(i)}: not typed")


def _said(i: Input) -> str:
    return i.field.rpartition(".")[2].replace("_", " ")


def _decides(i: Input, limit: float | str | None, rises: bool) -> Decides:
    """Say what of an input would do."""
    taken = (i.low, i.high) if i.known or i.open else None
    if i.word:
        return Decides(i.field, limit, "", "is", f"{_said(i)}: {i.word}", taken)
    sense: Literal["at least", "at most"] = "at least" if rises else "at most"
    words = f"{_said(i)}: no value of it alone would do"
    if limit is not None:
        more = "more" if rises else "less"
        words = f"{_said(i)} of {limit:.4g} {i.unit}".rstrip() + f" or {more}"
    return Decides(i.field, limit, i.unit, sense, words, taken)


def _limit_of(q: Question, i: Input, cases: Cases, wanted: float, far: bool = False) -> Decides:
    """Give what one input would have to be, the others at their weakest."""
    others = list(corners([j for j in q.inputs if j.field != i.field]))

    def lowest(value: float) -> float:
        return min(q.least({**at, i.field: value}, cases) for at in others)

    if i.word:
        return _decides(i, i.word if lowest(i.high) >= wanted else None, True)
    begin = max(i.low, 1e-9)
    rises = lowest(begin * 1.05) >= lowest(begin / 1.05)
    ratios = _ratios(i, far)
    limit = _limit(lowest, begin, wanted, rises, ratios, SPARE if i.unit == "mm" else ratios[-1])
    strongest = i.high if i.open else STRONGEST
    if i.unit == "MPa" and limit is not None and limit > strongest:
        limit = strongest if i.open and lowest(strongest) >= wanted else None
    return _decides(i, limit, rises)


def enough(q: Question, field: str, cases: Cases, wanted: float) -> float | None:
    """Give what the size ``field`` must be at least for a factor, the rest at its weakest.

    0 where it is enough as it is; None where no value of it alone would do, or where less would.
    """
    if q.lowest(cases) >= wanted:
        return 0.0
    found = next(_limit_of(q, i, cases, wanted) for i in q.inputs if i.field == field)
    value = found.would_do
    return value if isinstance(value, float) and found.sense == "at least" else None


def _ratios(i: Input, far: bool = False) -> tuple[float, ...]:
    if i.unit != "mm":
        return FORCES
    if far and i.known:
        return FAR
    return DRAWN if i.known or i.open else UNSEEN


def _limit(
    lowest: Callable[[float], float],
    begin: float,
    wanted: float,
    rises: bool,
    ratios: Sequence[float],
    spare: float,
) -> float | None:
    """Give the value nearest the weak side that is enough, rounded to the side that holds."""
    way = 1 if rises else -1
    steps: list[float] = [begin * r**way for r in (1 / spare, 1.0, *ratios)]
    at = next((k for k, value in enumerate(steps) if lowest(value) >= wanted), None)
    if not at:
        return None if at is None else steps[0]
    weak, enough = steps[at - 1], steps[at]
    for _ in range(STEPS):
        half: float = (weak * enough) ** 0.5
        if lowest(half) >= wanted:
            enough = half
        else:
            weak = half
    return enough
