"""Pins and holes: a hole too large is sleeved, one too small is met by the machine or bored out.

The pin is the machine's: its own where a machine is given, else that of the original.
"""

from __future__ import annotations

from functools import partial

from drafting.calc.pin import bearing_pressure, double_shear
from drafting.calc.thread import shear_strength
from drafting.checks.bands import ON_YIELD
from drafting.checks.steels import steel
from drafting.records import dataclass
from drafting.replacing import loads
from drafting.replacing.mounts import BALL, ENDS, FORK, WORDS, across, alike, pinned
from drafting.replacing.rule import MEMORY, Answer, Job, Known, Rule, Sides, number
from drafting.settle.mount import End

SAME, SLACK = 0.05, 0.3
"""Pins (mm) that nobody tells apart; how much looser a hole may be before it is called so."""
HARDER = 1.05
"""Pressure on a pin that has grown by less is none to speak of; ours."""
RUNNING = 0.2
"""Clearance of a pin in its hole, mm, where nobody typed both; common practice, from memory."""
LEAST_WALL = 1.5
"""Wall of a sleeve or bush, mm, below which it is no sleeve: it cracks or creeps out."""
LEAST_EYE = 0.4
"""Metal round a hole, as a part of it, that must stay after boring; common practice, memory."""


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve or bush, mm: pressed into ``outside``, the pin runs in ``inside``."""

    outside: float
    inside: float

    @property
    def wall(self) -> float:
        """Give its wall."""
        return (self.outside - self.inside) / 2

    @property
    def sound(self) -> bool:
        """Tell whether it is thick enough to be one."""
        return self.wall >= LEAST_WALL - 1e-6


def sleeve(hole: float, pin: float, clearance: float = RUNNING) -> Sleeve:
    """Give the sleeve that fills a hole down to a pin with its running clearance, all mm."""
    return Sleeve(hole, pin + clearance)


def metal_left(
    hole: float, outside: float | None, nose: float | None = None, bushing: float | None = None
) -> float | None:
    """Give the least metal round a hole after boring, mm; None where nobody knows the eye.

    A bushing thinner than it may be is bored through: what is left counts from the hole all the
    same.
    """
    around = [x for x in (outside and outside / 2, nose) if x is not None]
    return min(around) - max(hole, bushing or 0.0) / 2 if around else None


@dataclass(frozen=True, slots=True)
class Pin:
    """What is known of a pin in its hole, mm. Either follows from the other where one is typed."""

    pin: float
    hole: float | None

    @property
    def clearance(self) -> float:
        """Give how loose it is."""
        return RUNNING if self.hole is None else max(self.hole - self.pin, 0.0)


def pin_of(known: Known, end: End) -> Pin | None:
    """Give pin and hole of a mount, None where neither is known."""
    pin, hole = (number(known, f"{end}_mount.{n}") for n in ("pin", "hole"))
    if pin is None and hole is None:
        return None
    return Pin(pin if pin is not None else hole or 0.0, hole)


def machine_pin(s: Sides, end: End) -> Pin | None:
    """Give the pin that is in the machine, and the hole of its ears where that is known."""
    ears = "base_ears" if end == "body" else "rod_ears"
    own, hole = number(s.machine, f"{ears}.pin"), number(s.machine, f"{ears}.hole")
    old = pin_of(s.old, end)
    if own is None and old is None:
        return None
    return Pin(own if own is not None else old.pin if old else 0.0, hole)


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
        judge = _larger if new.pin > there.pin else _smaller
        return judge(s, end, there, new, was)
    if new.hole < there.pin - 1e-6:
        return _smaller(s, end, there, new, was)
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
            f"measure metal round the hole of the machine's ears: {s.say(least)} beyond a "
            f"{s.bare(new.pin)} hole or more, then bore them for a {s.bare(new.pin)} pin"
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


def _smaller(s: Sides, end: End, there: Pin, new: Pin, was: float) -> Answer:
    """Judge a hole that the pin does not go into: bush the machine's ears, or bore the eye."""
    where, t = WORDS[end], f"{end}_mount"
    bored = there.pin + there.clearance
    left = metal_left(bored, *(number(s.new, f"{t}.{n}") for n in ("outside", "nose", "bushing")))
    can_bore = pinned(s.new, end) != BALL and left is not None and left >= LEAST_EYE * bored
    ears = there.hole if there.hole is not None else bored
    bush = sleeve(ears, new.pin)
    force = loads.greatest(s.new, loads.circuit(s))
    factors = None if force is None else shear_factors(force, new.pin)
    said = f"pin {s.say(new.pin)} in place of {s.say(there.pin)}"
    shear = "pin's shear not known: type the pressure"
    if factors and force is not None:
        shear = (
            f"{said}: shear factor {factors[0]:.1f} to {factors[1]:.1f} on yield at "
            f"{s.force(force)} with the weakest to the best usual pin steel"
        )
    bushed = Job(
        f"{where} bush machine {s.bare(there.pin)} -> {s.bare(new.pin)}",
        f"{where}: bush the {s.say(ears)} holes of both machine ears to {s.say(bush.inside)}, wall "
        f"{s.say(bush.wall)}, pressed in and held; new {s.say(new.pin)} pin. {shear}. Bending: not "
        "known here; the pin bends more the thicker the ears and the gaps",
        3.0,
    )
    if bush.sound and factors and factors[0] >= ON_YIELD.ample:
        return Answer("works with", "bush the machine's ears", jobs=(bushed,), old=was, new=new.pin)
    if can_bore and left is not None:
        text = (
            f"{where}: bore the eye out to {s.say(bored)} for the {s.say(there.pin)} pin; metal "
            f"left {s.say(left)}, least {s.say(LEAST_EYE * bored)}; a bushing in it goes; the eye "
            "is weaker, judge it with drafting check"
        )
        short = f"{where} bore eye {s.bare(new.pin)} -> {s.bare(there.pin)}"
        why = f"the {s.say(there.pin)} pin does not go in: bore the eye"
        return Answer("works with", why, jobs=(Job(short, text, 2.0),), old=was, new=new.pin)
    if bush.sound and factors and factors[0] >= ON_YIELD.least:
        why = "bush the machine's ears; the pin's steel decides: name it"
        return Answer("works with", why, jobs=(bushed,), old=was, new=new.pin)
    if factors and factors[1] < ON_YIELD.least:
        low = f"{factors[1]:.1f} with the best steel, at least {ON_YIELD.least:g} asked"
        why = f"{said} shears: factor {low}"
        if left is not None:
            why += f"; the eye cannot be bored, {s.say(max(left, 0.0))} would be left"
        return Answer("does not fit", why, "ask for the old pin size", old=was, new=new.pin,
                      far=abs(there.pin - new.pin) / there.pin)  # fmt: skip
    do = "measure the eye's outside: it is bored where the metal allows"
    if factors is None:
        do += "; type the pressure: the machine's ears can be bushed where the pin holds"
    why = f"the {s.say(there.pin)} pin does not go in"
    return Answer("not known", why, do, old=was, new=new.pin)


def shear_factors(force: float, pin: float) -> tuple[float, float]:
    """Give the factor on yield of a pin in double shear, for the weakest and best usual steel."""
    low, high = steel("cylinder.pin_material", "pin", None).strength
    stress = double_shear(force, pin)
    return shear_strength(low) / stress, shear_strength(high) / stress


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
    if abs(new_p / old_p - 1.0) < 0.005:
        return Answer("same", old=old_p, new=new_p)
    if new_p < old_p * HARDER:
        said = "less than before" if new_p < old_p else "hardly more"
        return Answer("works", said, old=old_p, new=new_p)
    why = "the machine's ears feel it too: nobody gave their thickness"
    ears = "base_ears" if end == "body" else "rod_ears"
    ear = number(s.machine, f"{ears}.ear")
    if ear is not None:
        why = f"in the machine's two ears {s.pressure(bearing_pressure(after, pin, 2 * ear))}"
    return Answer("changes", why, old=old_p, new=new_p)


def _reads(end: End) -> tuple[str, ...]:
    own = ("mount", "pin", "hole", "outside", "nose", "bushing")
    return (*(f"{end}_mount.{n}" for n in own), *loads.FIELDS, *loads.PRESSURES)


def _asks(end: End) -> tuple[str, ...]:
    ears = "base_ears" if end == "body" else "rod_ears"
    return (f"{ears}.pin", f"{ears}.hole", f"{ears}.ear", *loads.SUPPLY)


RULES = (
    *(
        Rule(f"{end}_mount.pin", f"{WORDS[end]} pin", _reads(end), partial(fits, end=end),
             f"{MEMORY}; shear: F/2A", asks=_asks(end), same=SAME)
        for end in ENDS
    ),
    *(
        Rule(f"{end}_mount.bearing", f"on {WORDS[end]} pin and ears",
             (*_reads(end), f"{end}_mount.width", f"{end}_mount.ball_width"),
             partial(ears_load, end=end), "force over pin times width", "MPa", _asks(end), False)
        for end in ENDS
    ),
)  # fmt: skip
