"""A hole that the machine's pin does not go into: bush the machine for a thinner pin, or bore.

The thinner pin is judged in shear and in bending; where bending is not known it is not put in.
"""

from __future__ import annotations

from drafting.calc.pin import bending_moment, bending_stress, double_shear
from drafting.calc.thread import shear_strength
from drafting.checks.bands import ON_YIELD
from drafting.checks.steels import steel
from drafting.records import dataclass
from drafting.replacing import loads
from drafting.replacing.holes import LEAST_EYE, Pin, Sleeve, metal_left, sleeve
from drafting.replacing.mounts import BALL, FORK, WORDS, across, has, pinned
from drafting.replacing.rule import Answer, Job, Sides, number
from drafting.settle.mount import End


@dataclass(frozen=True, slots=True)
class Thinner:
    """A thinner pin at the greatest force (N): factors on yield, weakest to best usual steel.

    ``bending`` is None where nobody knows the ear (of a fork: the machine's lug).
    """

    force: float
    shear: tuple[float, float]
    bending: tuple[float, float] | None

    @property
    def least(self) -> tuple[float, float] | None:
        """Give the lower of both factors, None while bending is not known."""
        if self.bending is None:
            return None
        return min(self.shear[0], self.bending[0]), min(self.shear[1], self.bending[1])

    def words(self, s: Sides) -> str:
        """Say the factors."""
        shear = f"shear factor {self.shear[0]:.1f} to {self.shear[1]:.1f}"
        bending = self.bending
        bent = f", bending {bending[0]:.1f} to {bending[1]:.1f}" if bending else ""
        steels = "with the weakest to the best usual pin steel"
        return f"{shear}{bent} on yield at {s.force(self.force)} {steels}"


def smaller(s: Sides, end: End, there: Pin, new: Pin, was: float) -> Answer:
    """Judge a hole that the pin does not go into: bush the machine, or bore the eye."""
    t = f"{end}_mount"
    bored = there.pin + there.clearance
    left = metal_left(bored, *(number(s.new, f"{t}.{n}") for n in ("outside", "nose", "bushing")))
    can_bore = pinned(s.new, end) != BALL and left is not None and left >= LEAST_EYE * bored
    bush = sleeve(there.hole if there.hole is not None else bored, new.pin)
    pin = thinner(s, end, new.pin)
    least = pin.least if pin else None
    if pin and bush.sound and least and least[0] >= ON_YIELD.ample:
        job = _bush(s, end, bush, there, new, pin)
        return Answer("works with", f"bush {has(s, end)}", jobs=(job,), old=was, new=new.pin)
    if can_bore and left is not None:
        job = _bore(s, end, bored, left, there, new)
        why = f"the {s.say(there.pin)} pin does not go in: bore the eye"
        return Answer("works with", why, jobs=(job,), old=was, new=new.pin)
    if pin and bush.sound and least and least[1] >= ON_YIELD.least:
        job = _bush(s, end, bush, there, new, pin)
        why = f"bush {has(s, end)}; the pin's steel decides: name it"
        return Answer("works with", why, jobs=(job,), old=was, new=new.pin)
    worst = least[1] if least else (pin.shear[1] if pin else ON_YIELD.least)
    if worst < ON_YIELD.least and pin:
        how = "shears" if pin.shear[1] < ON_YIELD.least else "bends"
        why = (
            f"pin {s.say(new.pin)} in place of {s.say(there.pin)} {how}: factor {worst:.1f} with "
            f"the best steel, at least {ON_YIELD.least:g} asked"
        )
        if left is not None:
            why += f"; the eye cannot be bored, {s.say(max(left, 0.0))} would be left"
        return Answer("does not fit", why, "ask for the old pin size", old=was, new=new.pin,
                      far=abs(there.pin - new.pin) / there.pin)  # fmt: skip
    return _not_known(s, end, there, new, was, pin)


def _not_known(s: Sides, end: End, there: Pin, new: Pin, was: float, pin: Thinner | None) -> Answer:
    why = f"the {s.say(there.pin)} pin does not go in"
    what = "ears' outside: they are" if pinned(s.new, end) == FORK else "eye's outside: it is"
    do = f"measure the {what} bored where the metal allows"
    if pin is None:
        do += f"; type the pressure: {has(s, end)} can be bushed where the pin holds"
    elif pin.bending is None:
        thick = "thickness of the lug" if pinned(s.new, end) == FORK else "thickness of one ear"
        before = loads.greatest(s.old, loads.circuit(s)) or pin.force
        more = pin.force / before * (there.pin / new.pin) ** 3
        why += (
            f"; a {s.say(new.pin)} one is bent {more:.1f} times as hard as the old, {pin.words(s)}"
        )
        do += f"; measure the {thick}: {has(s, end)} can be bushed where the pin does not bend"
    return Answer("not known", why, do, old=was, new=new.pin)


def _bush(s: Sides, end: End, bush: Sleeve, there: Pin, new: Pin, pin: Thinner) -> Job:
    where = WORDS[end]
    both = "hole of" if pinned(s.new, end) == FORK else "holes of both"
    what = "the machine's lug" if pinned(s.new, end) == FORK else "machine ears"
    return Job(
        f"{where} bush machine {s.bare(there.pin)} -> {s.bare(new.pin)}",
        f"{where}: bush the {s.say(bush.outside)} {both} {what} to {s.say(bush.inside)}, wall "
        f"{s.say(bush.wall)}, pressed in and held; new {s.say(new.pin)} pin in place of the "
        f"{s.say(there.pin)} one: {pin.words(s)}",
        3.0,
    )


def _bore(s: Sides, end: End, bored: float, left: float, there: Pin, new: Pin) -> Job:
    text = (
        f"{WORDS[end]}: bore the eye out to {s.say(bored)} for the {s.say(there.pin)} pin; metal "
        f"left {s.say(left)}, least {s.say(LEAST_EYE * bored)}; a bushing in it goes; the eye "
        "is weaker, judge it with drafting check"
    )
    return Job(f"{WORDS[end]} bore eye {s.bare(new.pin)} -> {s.bare(there.pin)}", text, 2.0)


def thinner(s: Sides, end: End, pin: float) -> Thinner | None:
    """Judge a pin in the machine at the candidate's greatest force; None without a pressure."""
    force = loads.greatest(s.new, loads.circuit(s))
    if force is None:
        return None
    low, high = steel("cylinder.pin_material", "pin", None).strength
    stress = double_shear(force, pin)
    shear = shear_strength(low) / stress, shear_strength(high) / stress
    moment = _moment(s, end, force)
    if moment is None:
        return Thinner(force, shear, None)
    bent = bending_stress(moment, pin)
    return Thinner(force, shear, (low / bent, high / bent))


def _moment(s: Sides, end: End, force: float) -> float | None:
    """Give the pin's bending moment, N mm; None where ear, lug or eye are not known."""
    ears, t = ("base_ears" if end == "body" else "rod_ears"), f"{end}_mount"
    if pinned(s.new, end) == FORK:
        lug, gap = number(s.machine, f"{ears}.lug"), number(s.new, f"{t}.gap")
        width = number(s.new, f"{t}.width")
        if lug is None or gap is None or width is None:
            return None
        return bending_moment(force, lug, (width - gap) / 2, max(gap - lug, 0.0) / 2)
    ear = number(s.machine, f"{ears}.ear")
    ear = number(s.old, f"{t}.ear") if ear is None else ear
    eye, gap = across(s.new, end), number(s.machine, f"{ears}.gap")
    gap = across(s.old, end) if gap is None else gap
    if ear is None or eye is None:
        return None
    return bending_moment(force, eye, ear, max((gap or eye) - eye, 0.0) / 2)
