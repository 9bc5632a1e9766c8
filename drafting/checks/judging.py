"""The verdict on a factor whose inputs are partly ranges, partly sizes that nobody typed.

A factor is a function of its inputs and of a load case. It is taken at every corner of the ranges
and over all cases: the lowest is what is sure to be there, the highest what there can be at best.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from drafting.checks.check import Check, Decides, LoadCase, Verdict
from drafting.checks.numbers import Number
from drafting.checks.question import Question, corners
from drafting.checks.would_do import deciders, hopeless


def judge(q: Question, cases: Sequence[LoadCase], asked: float | None) -> Check | None:
    """Give the check of a question; None where no case loads it. ``asked`` is the typed factor."""
    middle = {i.field: i.low for i in q.inputs}
    loading = [c for c in cases if isfinite(q.factor(middle, c))]
    if not loading:
        return None
    sure = [c for c in loading if not c.decided_by]
    worst = min(loading, key=lambda c: q.factor(middle, c))
    ends = list(corners(q.inputs))
    low, weak = min(((q.least(at, loading), at) for at in ends), key=lambda e: e[0])
    best = (q.least(at, sure or loading) for at in ends)
    high = max((f for f in best if isfinite(f)), default=low)
    least, wanted = q.band.floor(asked), q.band.asked(asked)
    missing = [i for i in q.inputs if not i.known]
    verdict: Verdict = "depends"
    if bool(sure) and high < least and hopeless(q, sure, least):
        verdict = "fails"
    elif missing:
        verdict = "not known"
    elif low >= wanted and all(i.sure for i in q.inputs):
        verdict = "holds"
    deciding = () if verdict == "holds" else deciders(q, loading, worst, asked)
    if verdict == "fails":
        # What was typed is what must change; the rest comes with it.
        typed = {i.field for i in q.inputs if i.sure and not i.open}
        able = [d for d in deciding if d.would_do is not None]
        deciding = sorted(able, key=lambda d: d.field not in typed)
    known = all(i.open for i in missing)
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
        tuple(deciding),
        worst.name,
    )


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
