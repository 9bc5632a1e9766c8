"""The column: its factor where both were reckoned, else the rod's stiffness by itself."""

from __future__ import annotations

from drafting.replacing import loads
from drafting.replacing.forces import ALL, OTHERS, P, keeps_push
from drafting.replacing.loads import SAME, percent, share, ways
from drafting.replacing.rule import Answer, Job, Rule, Sides, Verdict, number

SLENDER = 0.9
"""A column that keeps less of what it stood, as a share, must be reckoned before it is trusted."""


def column(s: Sides) -> Answer | None:
    """Judge the column: its factor where both could be reckoned, else the rod's stiffness."""
    old, new = s.pair("column")
    asked = number(s.new, "column.asked")
    if old is not None and new is not None and asked is not None:
        if abs(new - old) <= SAME * old:
            return Answer("same")
        if new >= old or new >= asked:
            return Answer("works", f"factor {new:.2f} at its full push, {asked:g} asked")
        return _thinner(s, old, new, asked)
    rods, lengths, found = (
        s.numbers("cylinder.rod"),
        s.numbers("cylinder.extended"),
        ways(s, "push"),
    )
    if rods is None or lengths is None:
        return None
    load = found[1] / found[0] if found else 1.0
    ratio = (rods[1] / rods[0]) ** 4 * (lengths[0] / lengths[1]) ** 2 / load
    shown = share(ratio, 0), share(ratio, 1)
    if abs(ratio - 1.0) <= SAME:
        return Answer("same", old=shown[0], new=shown[1])
    if ratio > 1.0:
        return Answer("works", "stiffer for its push", old=shown[0], new=shown[1])
    why = f"{percent(ratio)} less against buckling at the same pressure (rod alone, Euler)"
    known: Verdict = "changes" if ratio >= SLENDER else "not known"
    return Answer(known, why, "drafting check on the candidate", old=shown[0], new=shown[1],
                  far=1.0 - ratio)  # fmt: skip


def _thinner(s: Sides, old: float, new: float, asked: float) -> Answer:
    """Judge a column below what is asked and below the old one: a relief, or not known."""
    a, b = (loads.areas(k) for k in (s.old, s.new))
    p, rated = loads.circuit(s), number(s.new, "cylinder.working_pressure")
    goal = min(old, asked)
    if a and b and a.push and b.push and p and rated:
        allowed = rated * new / goal
        if allowed * b.push >= p * a.push * (1.0 - SAME):
            first = keeps_push(s)
            if first and first[0] <= allowed:
                why = f"factor {new:.2f} at full push, enough at {s.pressure(first[0])}"
                return Answer("works with", why, jobs=first[1])
            text = (
                f"relief: {s.pressure(allowed)} or less keeps the column at the old factor "
                f"{goal:.2f} ({asked:g} asked), reckoned with the weakest usual rod steel. "
                f"{OTHERS}"
            )
            job = Job(f"relief at most {s.pressure(allowed)} for the column", text, 1.0)
            return Answer("works with", f"factor {new:.2f} at full push", jobs=(job,))
    why = f"factor {new:.2f}, {asked:g} asked, with the weakest usual rod steel"
    return Answer("not known", why, "drafting check on the candidate", far=1.0 - new / asked)


RULES = (
    Rule("column", "column, full push",
         (*ALL, "column", "column.asked", "cylinder.extended"), column,
         "stepped column, as drafting check; else Euler on the rod alone", "", P),
)  # fmt: skip
