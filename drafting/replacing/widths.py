"""Widths between ears: shims where it is narrower, grinding where it is wider, the slot of a fork.

What the machine takes is its own gap where one is given, else what the original proves: an eye as
wide as the old one goes in, and a lug as thick as the old slot stands there.
"""

from __future__ import annotations

from functools import partial

from drafting.calc.pin import bending_moment, bending_stress
from drafting.checks.bands import ON_YIELD
from drafting.checks.steels import steel
from drafting.records import dataclass
from drafting.replacing import loads
from drafting.replacing.holes import machine_pin
from drafting.replacing.mounts import BALL, ENDS, EYE, FORK, WORDS, across, pinned
from drafting.replacing.rule import MEMORY, Answer, Job, Known, Rule, Sides, Verdict, number
from drafting.settle.mount import End

SAME, PLAY = 0.25, 1.0
"""Widths (mm) that nobody tells apart; play in all that needs no shim (common practice)."""
MOST_BENT = 1.25
"""Bending of a pin over shims, as a part of what it was, that passes without its ear; ours."""
MOST_GROUND = 2.4
"""What may be ground off each side, mm: 3/32 in; ours, so that bushing and grease hole stay."""
MOST_GROUND_BUSHED = 1.0
"""The same where a bushing stands in the hole: its lip must stay; ours."""


@dataclass(frozen=True, slots=True)
class Between:
    """An eye between two ears: metal from -right to left of the centre line, mm."""

    left: float
    right: float

    @property
    def width(self) -> float:
        """Give the whole."""
        return self.left + self.right


@dataclass(frozen=True, slots=True)
class Fill:
    """What each side wants, mm: a shim above 0, grinding below 0. The mount stays centred."""

    left: float
    right: float


@dataclass(frozen=True, slots=True)
class Bent:
    """What is said of a pin in bending."""

    verdict: Verdict
    words: str
    do: str = ""


def fill(gap: Between, eye: Between) -> Fill:
    """Give shim or grinding at each side so that the eye stands where the old one stood."""
    return Fill(gap.left - eye.left, gap.right - eye.right)


def between(known: Known, end: End) -> Between | None:
    """Give the eye of a mount; in the middle unless its sides were typed."""
    width = across(known, end)
    left, right = (number(known, f"{end}_mount.{n}") for n in ("left", "right"))
    if left is not None and right is not None:
        return Between(left, right)
    return None if width is None else Between(width / 2, width / 2)


def most_ground(width: float, host: float | None, bushed: bool, most: float = MOST_GROUND) -> float:
    """Give what may go from each side, mm: never past the barrel or rod that it is welded to."""
    limit = min(most, MOST_GROUND_BUSHED if bushed else most)
    return limit if host is None or host > width else min(limit, (width - host) / 2)


def eye(s: Sides, end: End) -> Answer | None:
    """Judge an eye, tube or ball between the machine's ears."""
    if pinned(s.old, end) == FORK or not (pinned(s.old, end) and pinned(s.new, end) in (EYE, BALL)):
        return None
    ears = "base_ears" if end == "body" else "rod_ears"
    old, new, gap = between(s.old, end), between(s.new, end), number(s.machine, f"{ears}.gap")
    if old is None and new is None and gap is None:
        return None
    there = Between(gap / 2, gap / 2) if gap is not None else old
    if gap is not None and old is not None:
        off = (old.left - old.right) / 2
        there = Between(gap / 2 + off, gap / 2 - off)
    shown = (old.width if old else None, new.width if new else None)
    if there is None or new is None:
        return Answer("not known", "width of one of the two", "measure it", old=shown[0],
                      new=shown[1])  # fmt: skip
    need = fill(there, new)
    if old and abs(old.left - new.left) <= SAME / 2 and abs(old.right - new.right) <= SAME / 2:
        return Answer("same", old=shown[0], new=shown[1])
    if min(need.left, need.right) < -SAME / 2:
        return _wider(s, end, there, new, need, shown)
    if max(need.left, need.right) <= PLAY / 2:
        why = f"{s.say(need.left + need.right)} of side play in all"
        return Answer("works", why, old=shown[0], new=shown[1])
    where = WORDS[end]
    bent = bending(s, end, there.width, new.width)
    if bent.verdict != "works with":
        return Answer(bent.verdict, bent.words, bent.do, old=shown[0], new=shown[1],
                      far=1.0 - new.width / there.width)  # fmt: skip
    told = (
        f"two shims {s.say(need.left)}, one each side"
        if abs(need.left - need.right) < SAME
        else f"shims {s.say(max(need.left, 0.0))} left and {s.say(max(need.right, 0.0))} right"
    )
    kept = "the machine's gap" if gap is not None else "the old gap"
    text = (
        f"{where}: {told} of the {s.say(new.width)} width, in {kept} of {s.say(there.width)}; they "
        f"keep it centred; hardened washers on the pin. {bent.words}"
    )
    short = (
        f"shim {s.bare(need.left)} each side"
        if abs(need.left - need.right) < SAME
        else f"shims {s.bare(max(need.left, 0.0))} and {s.bare(max(need.right, 0.0))}"
    )
    return Answer("works with", told, jobs=(Job(f"{where} {short}", text, 0.5),), old=shown[0],
                  new=shown[1])  # fmt: skip


def bending(s: Sides, end: End, gap: float, eye: float) -> Bent:
    """Judge the pin over shims: it bends more the farther the ears stand from the eye.

    Without the ear's thickness the growth has a bound, that of ears without any: a pin that bends
    no more than ``MOST_BENT`` of what it did is let pass, any other wants the ear.
    """
    growth = 1.0 + (gap - eye) / gap
    if growth <= MOST_BENT:
        return Bent("works with", f"The pin bends up to {(growth - 1) * 100:.0f} % more")
    ears = "base_ears" if end == "body" else "rod_ears"
    ear = number(s.machine, f"{ears}.ear") or number(s.old, f"{end}_mount.ear")
    force, pin = loads.greatest(s.new, loads.circuit(s)), machine_pin(s, end)
    if ear is None or force is None or pin is None:
        words = f"shims {s.say((gap - eye) / 2)} thick: the pin bends up to {growth:.1f} times more"
        return Bent("not known", words, "measure one ear's thickness; type it and the pressure")
    stress = bending_stress(bending_moment(force, eye, ear, (gap - eye) / 2), pin.pin)
    low, high = (y / stress for y in steel("cylinder.pin_material", "pin", None).strength)
    words = f"pin in bending: factor {low:.1f} to {high:.1f} on yield at {s.force(force)}"
    if high < ON_YIELD.least:
        return Bent("does not fit", words, "ask for the old width")
    if low < ON_YIELD.ample:
        words += ": the pin's steel decides, name it"
    return Bent("works with", f"{words[:1].upper()}{words[1:]}")


def _wider(
    s: Sides,
    end: End,
    there: Between,
    new: Between,
    need: Fill,
    shown: tuple[float | None, float | None],
) -> Answer:
    off = max(-need.left, -need.right)
    over = new.width - there.width
    if pinned(s.new, end) == BALL:
        return Answer(
            "does not fit",
            f"{s.say(over)} too wide, and a ball's ring is never ground",
            "ask for the old width, or spread the machine's ears",
            old=shown[0],
            new=shown[1],
            far=off / new.width,
        )
    t = f"{end}_mount"
    host = number(s.new, "cylinder.barrel_outside" if end == "body" else "cylinder.rod")
    limit = most_ground(new.width, host, f"{t}.bushing" in s.new)
    if off > limit + 1e-6:
        return Answer(
            "does not fit",
            f"{s.say(over)} too wide: {s.say(off)} off a side, at most {s.say(limit)} may go",
            "ask for the old width, or spread the machine's ears",
            old=shown[0],
            new=shown[1],
            far=off / new.width,
        )
    left = new.width - max(-need.left, 0.0) - max(-need.right, 0.0)
    gap = number(s.machine, f"{'base_ears' if end == 'body' else 'rod_ears'}.gap")
    first = (
        ""
        if gap is not None
        else (f". Measure between the ears first: from {s.say(new.width)} on it goes in as it is")
    )
    text = (
        f"{WORDS[end]}: grind {s.say(max(-need.left, 0.0))} off one side and "
        f"{s.say(max(-need.right, 0.0))} off the other, square to the hole; {s.say(left)} stay. At "
        f"most {s.say(limit)} a side: barrel, weld, bushing and grease hole are not touched{first}"
    )
    short = f"{WORDS[end]} grind {s.bare(off)} a side"
    return Answer("works with", f"grind {s.say(off)} a side (limit {s.bare(limit)})",
                  jobs=(Job(short, text, 1.5),), old=shown[0], new=shown[1])  # fmt: skip


def slot(s: Sides, end: End) -> Answer | None:
    """Judge the slot of a fork on the machine's lug."""
    if not pinned(s.old, end) == pinned(s.new, end) == FORK:
        return None
    name = f"{end}_mount.gap"
    old, new = s.pair(name)
    lug = number(s.machine, f"{'base_ears' if end == 'body' else 'rod_ears'}.lug")
    if old is None and new is None:
        return None
    there = lug if lug is not None else old
    if there is None or new is None:
        return Answer("not known", "the slot of one of the two", "measure it")
    if old is not None and abs(new - old) <= SAME:
        return Answer("same")
    room = new - there
    where = WORDS[end]
    if room < -1e-6:
        off = -room / 2
        first = (
            ""
            if lug is not None
            else (f". Measure the lug first: up to {s.say(new)} it goes on as it is")
        )
        if off > MOST_GROUND:
            return Answer("does not fit", f"the slot is {s.say(-room)} too narrow for the lug",
                          "ask for the old slot", far=-room / there)  # fmt: skip
        text = (
            f"{where}: mill {s.say(off)} off the inside of each ear of the fork, or off each side "
            f"of the machine's lug; at most {s.say(MOST_GROUND)} a side; the ear is weaker by it"
            f"{first}"
        )
        return Answer("works with", f"mill {s.say(off)} a side",
                      jobs=(Job(f"{where} mill {s.bare(off)} a side", text, 2.0),))  # fmt: skip
    if room <= PLAY:
        return Answer("works", f"{s.say(room)} of side play in all")
    text = (
        f"{where}: two washers {s.say(room / 2)} on the pin, one each side of the machine's lug, "
        "so that it stays in the middle of the slot"
    )
    job = Job(f"{where} washers {s.bare(room / 2)} each side", text, 0.5)
    return Answer("works with", f"washers {s.say(room / 2)} each side", jobs=(job,))


def over_ears(s: Sides, end: End) -> Answer | None:
    """Judge a fork over its ears: the pin's length, and room beside."""
    if not pinned(s.old, end) == pinned(s.new, end) == FORK:
        return None
    old, new = s.pair(f"{end}_mount.width")
    if old is None and new is None:
        return None
    if old is None or new is None:
        return Answer("not known", "width over the ears of one of the two", "measure it", old=old,
                      new=new)  # fmt: skip
    gap = new - old
    if abs(gap) <= SAME:
        return Answer("same", old=old, new=new)
    if gap < 0.0:
        why = f"the old pin stands {s.say(-gap)} longer; fill it with washers"
        return Answer("works", why, old=old, new=new)
    text = f"{WORDS[end]}: a pin {s.say(gap)} longer, grip {s.say(new)} or more, held as before"
    do = f"measure: {s.say(gap / 2)} more room each side of the ears"
    job = Job(f"{WORDS[end]} pin {s.bare(gap)} longer", text, 1.0)
    return Answer("works with", do, jobs=(job,), old=old, new=new)


def _reads(end: End, *names: str) -> tuple[str, ...]:
    return tuple(f"{end}_mount.{n}" for n in ("mount", *names))


RULES = tuple(
    rule
    for end in ENDS
    for ears in ("base_ears" if end == "body" else "rod_ears",)
    for rule in (
        Rule(f"{end}_mount.width", f"{WORDS[end]} width",
             (*_reads(end, "width", "ball_width", "left", "right", "bushing", "pin", "hole",
                      "ear"),
              "cylinder.barrel_outside" if end == "body" else "cylinder.rod",
              *loads.FIELDS, *loads.PRESSURES),
             partial(eye, end=end), MEMORY,
             asks=(f"{ears}.gap", f"{ears}.ear", f"{ears}.pin", f"{ears}.hole", *loads.SUPPLY),
             same=SAME),
        Rule(f"{end}_mount.gap", f"{WORDS[end]} slot", _reads(end, "gap"),
             partial(slot, end=end), MEMORY, asks=(f"{ears}.lug",), same=SAME),
        Rule(f"{end}_mount.over_ears", f"{WORDS[end]} over ears", _reads(end, "width"),
             partial(over_ears, end=end), MEMORY, ask_last=(f"{end}_mount.width",), same=SAME),
    )
)  # fmt: skip
