"""A check: what there is against what is asked, with a verdict or the reason for none.

``ok`` is True or False only when every number behind it was given (or computed from given ones)
and a factor is asked or common practice leaves no doubt. Else it is None, not judged, and the note
says why; the number stands all the same, and ``would`` is what the verdict would be with the
numbers that nobody gave.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from drafting.checks.numbers import Number
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Check:
    """One line of the report. ``unit`` is empty for factors; ``ratio`` is provided over required.

    A check without ``required`` only tells a number. ``code`` is stable and unique in a report.
    ``would`` is the verdict that was taken back because it rests on numbers that nobody gave.
    """

    code: str
    name: str
    provided: float
    required: float | None
    unit: str
    ratio: float | None
    ok: bool | None
    source: str
    note: str
    would: bool | None = None


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


def told(code: str, name: str, value: float, unit: str, source: str, note: str = "") -> Check:
    """Give a number that nothing is asked of."""
    return Check(code, name, value, None, unit, None, None, source, note)


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
    ratio = provided / required
    return _settle(
        Check(code, name, provided, required, unit, ratio, ratio >= 1.0, source, note), rests_on
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

    Between the least and the ample factor of common practice there is no verdict.
    """
    if asked is not None:
        required, source = asked.value, f"{source}; factor asked for in the spec"
        ok: bool | None = value >= required
        rests_on = (*rests_on, asked)
    else:
        required = usual.ample
        source = f"{source}; factor by common practice"
        ok = True if value >= usual.ample else False if value < usual.least else None
        if ok is None:
            between = (
                f"not judged: common practice takes {usual.least:g} to {usual.ample:g} "
                f"{usual.what}; a person must choose"
            )
            note = f"{note}; {between}" if note else between
    check = Check(code, name, value, required, "", value / required, ok, source, note)
    return _settle(check, rests_on)


def failed(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Give the checks that do not hold."""
    return tuple(c for c in checks if c.ok is False)


def would_fail(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Give the checks without a verdict that fail with the assumed numbers as they are."""
    return tuple(c for c in checks if c.would is False)


def verdict(check: Check) -> str:
    """Say the verdict in a word: holds, FAILS, not judged, or nothing for a plain number."""
    if check.required is None:
        return ""
    return "not judged" if check.ok is None else "holds" if check.ok else "FAILS"


def _settle(check: Check, rests_on: Iterable[Number]) -> Check:
    """Take the verdict back when it rests on numbers that nobody gave."""
    weak = _weak(list(rests_on))
    if not weak or check.ok is None:
        return _noted(check, f"rests on {weak}" if weak else "")
    would = "it would hold" if check.ok else "it would fail"
    taken_back = replace(check, ok=None, would=check.ok)
    return _noted(taken_back, f"not judged: rests on {weak}; with them {would}")


def _weak(numbers: Sequence[Number]) -> str:
    seen = dict.fromkeys(f"{n.name} ({n.origin})" for n in numbers if not n.firm)
    return ", ".join(seen)


def _noted(check: Check, extra: str) -> Check:
    return replace(check, note="; ".join(part for part in (check.note, extra) if part))
