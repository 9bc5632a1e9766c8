"""Closed, open and stroke: does it go in, does it reach, and what stops it.

A spacer inside, on the rod between piston and gland, limits how far it opens; a collar on the rod
before the gland limits how far it closes. Neither makes a closed length shorter.
"""

from __future__ import annotations

from drafting.records import dataclass
from drafting.replacing.mounts import same_datums
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides, number

CLOSED, OPEN, STROKE = (f"cylinder.{n}" for n in ("retracted", "extended", "stroke"))
ELSEWHERE = (
    "the mounts are of other kinds: their lengths run from other datums",
    "lay both out in the machine",
)
MOUNTS = ("body_mount.mount", "rod_mount.mount")
SAME = 0.5
"""Lengths (mm) that differ by no more are the same: the format takes them for one."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A stroke stop of ``length`` mm: ``inside`` before the gland, or a collar on the rod."""

    length: float
    inside: bool


def _stop_job(s: Sides, stop: Stop) -> Job:
    if stop.inside:
        return Job(
            f"spacer {s.bare(stop.length)} inside",
            f"stroke: a spacer {s.say(stop.length)} long inside, on the rod between piston and "
            f"gland; it opens {s.say(stop.length)} less and closes as before. The cylinder is "
            "taken apart for it; the spacer bears the full push on its rim",
            4.0,
        )
    return Job(
        f"collar {s.bare(stop.length)} on the rod",
        f"stroke: a split collar on the rod before the gland, as long as the rod that shows when "
        f"it is closed plus {s.say(stop.length)}; it closes {s.say(stop.length)} less and opens as "
        "before. It bears the full pull and must not touch the rod's running face with an edge",
        2.0,
    )


def closed(s: Sides) -> Answer | None:
    """Judge whether it goes in, and whether it closes farther than the machine can stand."""
    old, new = s.pair(CLOSED)
    if old is None and new is None:
        return None
    if not same_datums(s):
        return Answer("not known", *ELSEWHERE)
    closest, hard = (
        number(s.machine, "distance.closest"),
        number(s.machine, "distance.hard_closest"),
    )
    if new is None:
        return Answer("not known", "the candidate's closed length", "ask for it")
    if closest is not None and new > closest:
        over = new - closest
        return Answer(
            "does not fit",
            f"{s.say(over)} too long for the machine's closest, {s.say(closest)}; no stop or "
            "spacer cures that",
            f"ask for {s.bare(closest)} or less",
            far=over / closest,
        )
    if hard is not None and new < hard:
        stop = Stop(hard - new, False)
        why = f"closes {s.say(hard - new)} past the machine's hard stop at {s.say(hard)}"
        return Answer("works with", why, jobs=(_stop_job(s, stop),))
    gap = None if old is None else new - old
    if gap is not None and abs(gap) <= SAME:
        return Answer("same")
    if closest is not None:
        left = f"goes in, {s.say(closest - new)} left"
        if hard is not None or (gap is not None and gap > 0.0):
            return Answer("works", left)
        why = f"{left}; it can pull the machine that far past its closest"
        return Answer("not known", why, f"measure the hard stop: < {s.bare(new)}")
    if old is None or gap is None:
        return Answer("not known", "", f"measure the closest: >= {s.bare(new)}")
    if gap > 0.0:
        return Answer("not known", f"{s.say(gap)} longer", f"measure closest: >= {s.bare(new)}")
    why = f"goes in; it can pull {s.say(-gap)} farther than the old one"
    return Answer("not known", why, f"measure hard stop: < {s.bare(new)}")


def opened(s: Sides) -> Answer | None:
    """Judge whether it reaches, and whether it opens farther than the machine can stand."""
    old, new = s.pair(OPEN)
    if old is None and new is None:
        return None
    if not same_datums(s):
        return Answer("not known", *ELSEWHERE)
    far, hard = number(s.machine, "distance.farthest"), number(s.machine, "distance.hard_farthest")
    if new is None:
        return Answer("not known", "the candidate's open length", "ask for it")
    if far is not None and new < far:
        short = far - new
        return Answer(
            "does not fit",
            f"{s.say(short)} short of the machine's farthest, {s.say(far)}",
            f"ask for {s.bare(far)} or more",
            far=short / far,
        )
    if hard is not None and new > hard:
        stop = Stop(new - hard, True)
        why = f"opens {s.say(new - hard)} past the machine's hard stop at {s.say(hard)}"
        return Answer("works with", why, jobs=(_stop_job(s, stop),))
    gap = None if old is None else new - old
    if gap is not None and abs(gap) <= SAME:
        return Answer("same")
    if far is not None:
        left = f"reaches, {s.say(new - far)} beyond the farthest"
        if hard is not None or (gap is not None and gap < 0.0):
            return Answer("works", left)
        return Answer("not known", left, f"measure hard stop: > {s.bare(new)}")
    if old is None or gap is None:
        return Answer("not known", "", f"measure the farthest: <= {s.bare(new)}")
    if gap > 0.0:
        why = f"it can push {s.say(gap)} farther than the old one"
        return Answer("not known", why, f"measure hard stop: > {s.bare(new)}")
    return Answer("not known", f"{s.say(-gap)} shorter", f"measure farthest: <= {s.bare(new)}")


def stroke(s: Sides) -> Answer | None:
    """Judge the travel: what a longer one runs into, what a shorter one loses."""
    old, new = s.pair(STROKE)
    if old is None or new is None:
        if old is None and new is None:
            return None
        return Answer("not known", "the stroke of one of the two", "measure it, or ask for it")
    gap = new - old
    if abs(gap) <= SAME:
        return Answer("same")
    travel = _within(s)
    if travel is not None:
        return Answer("works", f"the machine's travel of {s.say(travel)} is within it")
    if gap > 0.0:
        return Answer(
            "changes",
            f"{s.say(gap)} farther into whatever stops it; a spacer of {s.say(gap)} inside limits "
            "open, a collar on the rod limits closed, neither makes closed shorter",
        )
    return Answer("changes", f"{s.say(-gap)} of travel is lost; nothing gives it back")


def _within(s: Sides) -> float | None:
    """Give the machine's own travel where the candidate covers it, None where it does not."""
    near, far = (number(s.machine, f"distance.{n}") for n in ("closest", "farthest"))
    shut, out = number(s.new, CLOSED), number(s.new, OPEN)
    if near is None or far is None or shut is None or out is None:
        return None
    return far - near if shut <= near and out >= far else None


_MACHINE = tuple(f"distance.{n}" for n in ("closest", "farthest", "hard_closest", "hard_farthest"))
RULES = (
    Rule(CLOSED, "closed", (CLOSED, *MOUNTS), closed, PRACTICE, asks=_MACHINE, same=SAME),
    Rule(OPEN, "open", (OPEN, *MOUNTS), opened, PRACTICE, asks=_MACHINE, same=SAME),
    Rule(STROKE, "stroke", (STROKE, CLOSED, OPEN), stroke, PRACTICE, asks=_MACHINE, same=SAME),
)
