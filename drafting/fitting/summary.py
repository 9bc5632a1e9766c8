"""An answer in one line."""

from __future__ import annotations

from drafting.fitting.fit import Fit
from drafting.fitting.row import WORST_FIRST
from drafting.replacing.summary import count

MOST_JOBS = 3


def summary(f: Fit) -> str:
    """Give the one line on the whole: every job is counted before it says that it fits."""
    rows = sorted(f.rows, key=lambda r: WORST_FIRST.index(r.verdict))
    jobs = f.jobs
    if f.verdict == "does not fit":
        bad = [r for r in rows if r.verdict == "does not fit"]
        errors = [x.message for x in f.findings if x.level == "error"]
        said = [*(f"{r.words}: {r.why or r.do}" for r in bad), *errors]
        more = f" (and {len(said) - 1} more)" if len(said) > 1 else ""
        return f"does not fit: {said[0]}{more}"
    named = ", ".join(j.short for j in jobs[:MOST_JOBS])
    more = f" and {len(jobs) - MOST_JOBS} more" if len(jobs) > MOST_JOBS else ""
    rest = f"{count(len(jobs), 'job')}: {named}{more}" if jobs else ""
    if f.verdict == "not known":
        waits = [r for r in rows if r.verdict == "not known" and r.decides]
        first = f"{waits[0].words}: {waits[0].why or waits[0].do}" if waits else "nothing judged"
        left = f" (and {len(waits) - 1} more)" if len(waits) > 1 else ""
        return f"not known: {first}{left}" + (f"; otherwise {rest}" if rest else "")
    open_ = sum(r.verdict == "not known" for r in f.rows)
    more = f"; {open_} not known" if open_ else ""
    if jobs:
        return f"fits with {rest}{more}"
    return f"{f.verdict}: all that was judged{more}"
