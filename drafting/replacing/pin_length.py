"""The pin through mount and ears: whether it is long enough, and what keeps it in."""

from __future__ import annotations

from functools import partial

from drafting.replacing.mounts import ENDS, FORK, WORDS, alike, pinned
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides, number, word
from drafting.settle.mount import End

LOOSE = 3.0
"""End play of a pin (mm) beyond which washers are wanted, so that it does not wander; ours."""
LEAST = 0.05


def stack(s: Sides, end: End) -> float | None:
    """Give what the pin goes through, mm: both ears and their gap, or the fork over its ears."""
    if pinned(s.new, end) == FORK:
        return number(s.new, f"{end}_mount.width")
    ears = "base_ears" if end == "body" else "rod_ears"
    gap, ear = number(s.machine, f"{ears}.gap"), number(s.machine, f"{ears}.ear")
    return None if gap is None or ear is None else gap + 2 * ear


def length(s: Sides, end: End) -> Answer | None:
    """Judge the usable length of the pin that is there, or say which is wanted."""
    through = stack(s, end)
    if not alike(s, end) or through is None:
        return None
    t, ears = f"{end}_pin", "base_ears" if end == "body" else "rod_ears"
    comes = s.new.get(f"{t}.supplied") is True
    grip = number(s.new, f"{t}.grip") if comes else number(s.machine, f"{ears}.pin_grip")
    whose = "the pin that comes with it" if comes else "the machine's pin"
    if grip is None:
        known = pinned(s.new, end) == FORK and number(s.old, f"{end}_mount.width")
        if known and abs(known - through) <= LEAST:
            return Answer("same")
        if not comes and not any(f"{ears}.{n}" in s.machine for n in ("pin", "pin_grip")):
            return None
        do = f"measure its usable length, head to what holds it: {s.say(through)} or more"
        return Answer("not known", f"{whose} goes through {s.say(through)}", do)
    held = word(s.new, f"{t}.retention") if comes else ""
    by = f", held by {held}" if held else ""
    if grip < through - LEAST:
        text = (
            f"{WORDS[end]}: a pin with {s.say(through)} or more between head and what holds it; "
            f"{whose} has {s.say(grip)}"
        )
        job = Job(f"{WORDS[end]} pin {s.bare(through - grip)} longer", text, 1.0)
        why = f"{whose} is {s.say(through - grip)} short: what holds it does not go in"
        return Answer("works with", why, jobs=(job,), new=grip)
    if grip - through > LOOSE:
        text = (
            f"{WORDS[end]}: washers {s.say(grip - through)} thick in all on the pin, outside of "
            "the ears, so that it does not wander and wear what holds it"
        )
        job = Job(f"{WORDS[end]} pin washers {s.bare(grip - through)}", text, 0.5)
        return Answer("works with", f"{s.say(grip - through)} of end play", jobs=(job,), new=grip)
    return Answer("works", f"{s.say(grip - through)} of end play{by}", new=grip)


RULES = tuple(
    Rule(f"{end}_pin.length", f"{WORDS[end]} pin's length",
         (f"{end}_mount.mount", f"{end}_mount.width",
          *(f"{end}_pin.{n}" for n in ("supplied", "grip", "retention"))),
         partial(length, end=end), PRACTICE,
         asks=tuple(f"{ears}.{n}" for n in ("gap", "ear", "pin", "pin_grip")), decides=False)
    for end in ENDS
    for ears in ("base_ears" if end == "body" else "rod_ears",)
)  # fmt: skip
