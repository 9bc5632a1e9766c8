"""An answer in one line, and what is tightest in it."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.fitting.clearance import AT_THE_PIN
from drafting.fitting.fit import Fit
from drafting.fitting.lengths import say_at
from drafting.fitting.row import WORST_FIRST, Row
from drafting.replacing.summary import count
from drafting.told.short import factor, quantity

MOST_JOBS = 3


def summary(f: Fit) -> str:
    """Give the one line on the whole: every job is counted before it says that it fits."""
    rows = sorted(f.rows, key=lambda r: WORST_FIRST.index(r.verdict))
    jobs = f.jobs
    if f.verdict == "does not fit":
        bad = [r for r in rows if r.verdict == "does not fit"]
        errors = [x.message for x in f.findings if x.level == "error"]
        said = [*(f"{_named(r)}: {r.why or r.do}" for r in bad), *errors]
        more = f" (and {len(said) - 1} more)" if len(said) > 1 else ""
        return f"does not fit: {said[0]}{more}"
    named = ", ".join(j.short for j in jobs[:MOST_JOBS])
    more = f" and {len(jobs) - MOST_JOBS} more" if len(jobs) > MOST_JOBS else ""
    rest = f"{count(len(jobs), 'job')}: {named}{more}" if jobs else ""
    if f.verdict == "not known":
        waits = [r for r in rows if r.verdict == "not known" and r.decides]
        first = "nothing judged"
        if waits:
            ask = waits[0].do if waits[0].chapter == "column" else ""
            first = f"{_named(waits[0])}: {ask or waits[0].why or waits[0].do}"
        left = f" (and {len(waits) - 1} more)" if len(waits) > 1 else ""
        return f"not known: {first}{left}" + (f"; otherwise {rest}" if rest else "")
    open_ = sum(r.verdict == "not known" for r in f.rows)
    more = f"; {open_} not known" if open_ else ""
    if jobs:
        return f"fits with {rest}{more}"
    return f"{f.verdict}: all that was judged{more}"


def _named(r: Row) -> str:
    """Name a row where its chapter is not seen."""
    return f"column {r.words}" if r.chapter == "column" else r.words


def facts(f: Fit) -> Iterator[str]:
    """Say where it is tightest: length, force, column, room; each with its place."""
    units = f.machine.units
    ends = [r for r in f.rows if r.field in ("cylinder.retracted", "cylinder.extended")]
    if ends:
        words = {"closed": "too long", "open": "too short"}
        said = ", ".join(
            f"{r.words} {quantity(abs(r.margin or 0.0), 'mm', units)} "
            f"{'left' if (r.margin or 0.0) >= 0 else words[r.words]}" for r in ends
        )  # fmt: skip
        yield f"Reach: {said}."
    pushed = [r for r in f.rows if r.field in ("push", "pull") and r.machine and r.cylinder]
    if pushed:
        worst = max(pushed, key=lambda r: (r.machine or 0.0) / (r.cylinder or 1.0))
        share = 100 * (worst.machine or 0.0) / (worst.cylinder or 1.0)
        yield (
            f"Tightest force: {worst.field} {quantity(worst.machine or 0.0, 'N', units)} of "
            f"{quantity(worst.cylinder or 0.0, 'N', units)}, {share:.0f} % used, at "
            f"{say_at(f.machine, worst.at or 0.0)}."
        )
    bent = [r for r in f.rows if r.chapter == "column" and r.cylinder is not None]
    if bent:
        worst = min(bent, key=lambda r: (r.cylinder or 0.0) / (r.machine or 1.0))
        yield (
            f"Tightest column: {factor(worst.cylinder or 0.0)} of {worst.machine or 0.0:g} asked, "
            f"{worst.words}, at {say_at(f.machine, worst.at or 0.0)}."
        )
    free = [c for c in (f.room.clearances if f.room else ())
            if not c.clash and not c.piece.startswith(AT_THE_PIN)]  # fmt: skip
    struck = [c for c in (f.room.clearances if f.room else ()) if c.clash]
    if struck:
        c = struck[0]
        yield f"Strikes: {c.piece} in {c.solid} at {say_at(f.machine, c.at)}."
    elif free:
        c = min(free, key=lambda c: c.gap - c.asked)
        yield (
            f"Least clearance: {quantity(c.gap, 'mm', units)} at {say_at(f.machine, c.at)}, asked "
            f"{quantity(c.asked, 'mm', units)}: {c.piece} to {c.solid}."
        )
