"""Whether what was measured goes together as a cylinder; within its limits a size may give way.

A boss that touches the gland on the old part reads as one in the other, by less than a tape tells.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.errors import Refused
from drafting.measuring.results import Account, Result
from drafting.measuring.to_spec import spec_text
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.given import Typed

STEPS = (0.5, 1.0, 1.5, 2.0)
"""How far a size is moved, in standard uncertainties: its limits are two."""
MOST = 3
"""Sizes that may give way; where more would have to, something else is wrong."""
Fault = tuple[str, str]
"""The field and what is wrong."""


def brought_together(account: Account, values: Mapping[str, Typed]) -> dict[str, Typed]:
    """Give the values, some moved within their limits where as read they could not be built."""
    found = dict(values)
    for _ in range(MOST):
        wrong = refused(found)
        if not wrong or not (moved := _moved(account, found, wrong)):
            break
        found |= moved
    return found


def refused(values: Mapping[str, Typed]) -> list[Fault]:
    """Give why these values are no cylinder."""
    return _faults(spec_text(values, {}, {}, "trial"))[0]


def faults(text: str) -> list[Fault]:
    """Give what refuses a spec or is absurd in it."""
    no, absurd = _faults(text)
    return [(field, f"the sizes do not go together: {said}") for field, said in no] + absurd


def _faults(text: str) -> tuple[list[Fault], list[Fault]]:
    try:
        c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="spec"))
    except Refused as refused:
        return [(f.field, f.message) for f in refused.faults], []
    return [], [(f.field, f.message) for f in c.findings if f.level == "error"]


def _moved(
    account: Account, values: Mapping[str, Typed], wrong: list[Fault]
) -> dict[str, Typed] | None:
    """Move one size as little as does away with its fault, and say so; None where none does."""
    rows = {r.letter.field: r for r in account.rows.values()}
    for field, said in wrong:
        row, mm = rows.get(field), values.get(field)
        if row is None or not isinstance(mm, float) or not _may_move(row):
            continue
        for step in STEPS:
            for off in (step * row.uncertainty_mm, -step * row.uncertainty_mm):
                left = refused({**values, field: mm + off})
                if any(f == field for f, _ in left) or len(left) > len(wrong):
                    continue
                words = f"moved by {account.say(abs(off))} within its limits; as read: {said}"
                account.comments[field] += f"; {words}"
                account.notes.append(f"{row.letter.letter} {words}")
                return {field: mm + off}
    return None


def _may_move(row: Result) -> bool:
    return row.confidence == "sure" and row.taken_as == "as read" and row.uncertainty_mm > 0
