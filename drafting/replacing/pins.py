"""Pins: a hole too large is sleeved, one too small is bored out or met by the machine.

How hard a pin bears on eye and ears before and after stands in a row of its own.
"""

from __future__ import annotations

from functools import partial

from drafting.calc.pin import bearing_pressure
from drafting.replacing import loads
from drafting.replacing.holes import (
    LEAST_EYE,
    LEAST_WALL,
    RUNNING,
    SAME,
    SLACK,
    Pin,
    machine_pin,
    pin_of,
    sleeve,
)
from drafting.replacing.mounts import BALL, ENDS, FORK, WORDS, across, alike, has, pinned
from drafting.replacing.rule import MEMORY, Answer, Job, Rule, Sides, number
from drafting.replacing.smaller import smaller
from drafting.settle.mount import End

HARDER, ALIKE = 1.05, 0.005
"""Pressure on a pin that has grown by less is none to speak of; shares that are the same; ours."""


def fits(s: Sides, end: End) -> Answer | None:
    """Judge the candidate's hole on the machine's pin."""
    if not alike(s, end):
        return None
    there, new = machine_pin(s, end), pin_of(s.new, end)
    old = pin_of(s.old, end)
    if there is None and new is None:
        return None
    if there is None or new is None:
        return Answer("not known", "pin or hole of one of the two", "measure pin and hole")
    was = old.pin if old else there.pin
    if new.hole is None:
        if abs(new.pin - there.pin) <= SAME:
            return Answer("same" if abs(was - new.pin) <= SAME else "works", old=was, new=new.pin)
        judge = _larger if new.pin > there.pin else smaller
        return judge(s, end, there, new, was)
    if there.guessed and old and old.hole is not None and old.hole - new.hole <= SLACK:
        if new.hole < old.hole - SAME:
            do = f"measure the old pin at its unworn end: < {s.bare(new.hole)}"
            return Answer("not known", "the old pin was not read", do, old=was, new=new.pin)
        if new.hole - old.hole <= SLACK:
            return Answer("works", "the hole is the old one's, for its pin", old=was, new=new.pin)
    if new.hole < there.pin - 1e-6:
        return smaller(s, end, there, new, was)
    known = old is not None and abs(old.pin - there.pin) <= SAME
    before = old.hole if known and old and old.hole is not None else there.pin + RUNNING
    if new.hole - max(before, there.pin + RUNNING) > SLACK:
        return _larger(s, end, there, new, was)
    if abs(new.hole - before) <= SAME and abs(new.pin - was) <= SAME:
        return Answer("same", old=was, new=new.pin)
    play = s.say(new.hole - there.pin)
    return Answer("works", f"{play} of play on the {s.say(there.pin)} pin", old=was, new=new.pin)


def _larger(s: Sides, end: End, there: Pin, new: Pin, was: float) -> Answer:
    hole = new.hole if new.hole is not None else new.pin + RUNNING
    where, made = WORDS[end], sleeve(hole, there.pin)
    if pinned(s.new, end) == BALL or not made.sound:
        why = (
            "a ball's ring is never sleeved or ground"
            if pinned(s.new, end) == BALL
            else f"a wall of {s.say(max(made.wall, 0.0))} is no sleeve: least {s.say(LEAST_WALL)}"
        )
        least = LEAST_EYE * new.pin
        do = (
            f"measure metal round the hole of {has(s, end)}: {s.say(least)} beyond a "
            f"{s.bare(new.pin)} hole or more, then bore it for a {s.bare(new.pin)} pin"
        )
        return Answer("not known", why, do, old=was, new=new.pin)
    short = f"{where} sleeve {s.bare(new.pin)} -> {s.bare(there.pin)} pin"
    text = (
        f"{where}: sleeve the {s.say(hole)} hole to the {s.say(there.pin)} pin, wall "
        f"{s.say(made.wall)}, over the whole width; outside a press fit (H7/p6), inside running "
        f"(+{s.say(RUNNING)}), hardened to about 50 HRC or bearing bronze; the grease hole stays "
        "open"
    )
    return Answer("works with", f"sleeve, wall {s.say(made.wall)}", jobs=(Job(short, text, 1.0),),
                  old=was, new=new.pin)  # fmt: skip


def ears_load(s: Sides, end: End) -> Answer | None:
    """Give the pressure between pin and eye at the greatest force, MPa, before and after."""
    if not alike(s, end) or pinned(s.new, end) == FORK:
        return None
    there, p = machine_pin(s, end), loads.circuit(s)
    before, after = (loads.greatest(k, p) for k in (s.old, s.new))
    widths = across(s.old, end), across(s.new, end)
    if there is None or before is None or after is None or None in widths:
        return None
    new = pin_of(s.new, end)
    goes_in = new is None or new.hole is None or new.hole >= there.pin
    pin = there.pin if goes_in or new is None else min(there.pin, new.pin)
    old_p, new_p = (
        bearing_pressure(f, d, w)
        for f, d, w in zip((before, after), (there.pin, pin), widths, strict=True)
        if w is not None
    )
    if abs(new_p / old_p - 1.0) < ALIKE:
        return Answer("same", old=old_p, new=new_p)
    if new_p < old_p * HARDER:
        said = "less than before" if new_p < old_p else "hardly more"
        return Answer("works", said, old=old_p, new=new_p)
    why = "the machine's ears feel it too: nobody gave their thickness"
    if after <= before * (1.0 + ALIKE):
        why = "in the eye alone: the force is as before, the ears feel no more"
        return Answer("changes", why, old=old_p, new=new_p)
    ears = "base_ears" if end == "body" else "rod_ears"
    ear = number(s.machine, f"{ears}.ear")
    if ear is not None:
        why = f"in the machine's two ears {s.pressure(bearing_pressure(after, pin, 2 * ear))}"
    return Answer("changes", why, old=old_p, new=new_p)


def _reads(end: End) -> tuple[str, ...]:
    own = (
        "mount",
        "pin",
        "hole",
        "outside",
        "nose",
        "bushing",
        "width",
        "ball_width",
        "gap",
        "ear",
    )
    return (*(f"{end}_mount.{n}" for n in own), *loads.FIELDS, *loads.PRESSURES)


def _asks(end: End) -> tuple[str, ...]:
    ears = "base_ears" if end == "body" else "rod_ears"
    own = (f"{ears}.{n}" for n in ("pin", "hole", "ear", "gap", "lug"))
    return (*own, *loads.SUPPLY)


RULES = (
    *(
        Rule(f"{end}_mount.pin", f"{WORDS[end]} pin", _reads(end), partial(fits, end=end),
             f"{MEMORY}; shear F/2A, bending F/2 (ear/2 + gap + eye/4)", asks=_asks(end), same=SAME)
        for end in ENDS
    ),
    *(
        Rule(f"{end}_mount.bearing", f"on {WORDS[end]} pin and ears",
             _reads(end), partial(ears_load, end=end), "force over pin times width", "MPa",
             _asks(end), False)
        for end in ENDS
    ),
)  # fmt: skip
