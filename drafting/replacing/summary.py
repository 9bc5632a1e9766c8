"""A comparison in one line: what decides, what is to do, what the machine will feel."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.replacing.judge import Comparison, Whole, jobs_of, whole
from drafting.replacing.rule import Row

MOST_JOBS = 4
COUNTED = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven"}


def count(n: int, what: str) -> str:
    """Say how many there are of a thing."""
    return f"{COUNTED.get(n, str(n))} {what}{'s' * (n != 1)}"


def against(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Give the rows that keep it from fitting: what does not fit, else what is not known."""
    worst = tuple(r for r in rows if r.verdict == "does not fit")
    return worst or open_rows(rows)


def open_rows(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Give what is not known and decides."""
    return tuple(r for r in rows if r.verdict == "not known" and r.rule.decides and not r.unsaid)


def reason(row: Row) -> str:
    """Say in a few words what a row means."""
    return f"{row.rule.words}: {row.answer.why or row.answer.do or row.verdict}"


def summary(c: Comparison) -> str:
    """Give the one line on the whole."""
    if not c.in_part:
        return line(c.verdict, c.rows)
    return f"{c.in_part}. So far {line(whole(c.rows), c.rows)}"


def line(verdict: Whole, rows: Sequence[Row]) -> str:
    """Give the one line: the verdict, what decides it, the jobs, the force."""
    if verdict == "does not fit":
        found = against(rows)
        more = f" (and {len(found) - 1} more)" if len(found) > 1 else ""
        other = "another kind: " if found[0].rule.field.endswith("_mount.mount") else ""
        return f"does not fit: {other}{reason(found[0])}{more}"
    if verdict == "not known":
        found = against(rows)
        more = f" (and {len(found) - 1} more)" if len(found) > 1 else ""
        rest = _rest(rows)
        return f"not known: {reason(found[0])}{more}; otherwise {rest}"
    return _rest(rows)


def _rest(rows: Sequence[Row]) -> str:
    """Say what it is once everything is known and does fit."""
    left = [r for r in rows if r.verdict not in ("not known", "does not fit")]
    jobs = jobs_of(left)
    if whole(left) == "fits":
        return "fits: same in all that meets the machine, or works as it is"
    force = _force(left)
    if not jobs:
        return f"fits with work: no job, but it works otherwise{force}"
    shorts = [j.short for j in jobs[:MOST_JOBS]]
    named = ", ".join(f"{n} x {j}" if (n := shorts.count(j)) > 1 else j
                      for j in dict.fromkeys(shorts))  # fmt: skip
    more = f" and {len(jobs) - MOST_JOBS} more" if len(jobs) > MOST_JOBS else ""
    return f"fits with {count(len(jobs), 'job')}: {named}{more}{force}"


def _force(rows: Sequence[Row]) -> str:
    """Say how much stronger or weaker it pushes."""
    for r in rows:
        old, new = r.old, r.new
        if r.rule.field in ("push", "pull") and r.verdict == "changes":
            if isinstance(old, float) and isinstance(new, float):
                share = new / old - 1.0
                more = "more" if share > 0 else "less"
                return f"; {abs(share) * 100:.0f} % {more} {r.rule.field}"
            return f"; {r.answer.why}"
    return ""
