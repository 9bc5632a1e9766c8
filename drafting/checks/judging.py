"""What is there against what is asked: bands of factors, and the verdict that comes of it."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.checks.check import Check, Decides, Verdict
from drafting.checks.numbers import Number
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Usual:
    """The span of factors in common practice: below ``least`` fails, from ``ample`` on it holds."""

    least: float
    ample: float
    what: str


ON_COLUMN = Usual(2.5, 4.0, "against buckling")
ON_COLUMN_JAMMED = Usual(1.0, 2.5, "against buckling when the load jams")
ON_YIELD = Usual(1.5, 3.0, "on yield")
ON_YIELD_AT_PROOF = Usual(1.0, 1.25, "on yield in the proof test")
ON_BURST = Usual(2.5, 4.0, "on burst")
ON_WELD = Usual(1.0, 1.5, "on the weld's allowed stress")
ON_BEARING = Usual(1.0, 2.0, "on the static rating")
ON_JOINT = Usual(1.0, 1.5, "on opening")
"""All common practice, from memory; a person who knows the machine asks for a factor instead."""


def against(
    code: str,
    name: str,
    provided: float,
    required: float,
    unit: str,
    source: str,
    rests_on: Iterable[Number] = (),
    note: str = "",
) -> Check:
    """Give a check of something provided against something asked for outright, same unit."""
    verdict: Verdict = "holds" if provided >= required else "fails"
    return _settled(
        code, name, provided, required, "asked outright", verdict, source, note, unit, rests_on
    )


def factor(
    code: str,
    name: str,
    value: float,
    usual: Usual,
    source: str,
    rests_on: Iterable[Number] = (),
    asked: Number | None = None,
    note: str = "",
) -> Check:
    """Give a check of a factor of safety against the one asked for, else against common practice.

    Between the least and the ample factor of common practice it depends on the factor asked for.
    """
    if asked is not None:
        verdict: Verdict = "holds" if value >= asked.value else "fails"
        why, numbers = "asked for in the spec", (*rests_on, asked)
        return _settled(code, name, value, asked.value, why, verdict, source, note, "", numbers)
    why = f"common practice, {usual.least:g} to {usual.ample:g} {usual.what}"
    numbers = tuple(rests_on)
    if usual.least <= value < usual.ample:
        limit = Number("duty.safety_factor", value, "assumed")
        numbers = (*numbers, limit)
    verdict = "fails" if value < usual.least else "holds"
    return _settled(code, name, value, usual.ample, why, verdict, source, note, "", numbers)


def _settled(
    code: str,
    name: str,
    value: float,
    asked: float,
    why: str,
    verdict: Verdict,
    source: str,
    note: str,
    unit: str,
    rests_on: Iterable[Number],
) -> Check:
    """Take the verdict back to ``depends`` where it rests on numbers that nobody gave."""
    weak = {n.name: n for n in rests_on if not n.firm}
    deciding = tuple(
        Decides(k, None, "", "is", f"{k} ({n.origin})", (n.value, n.value)) for k, n in weak.items()
    )
    said: Verdict = "depends" if deciding else verdict
    return Check(code, name, value, value, asked, why, said, source, note, unit, deciding)
