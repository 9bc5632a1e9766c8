"""Room: the barrel, the nose and the eye about the pin, the bottom of a slot.

What was there had room; anything larger has it only where the machine says so.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import atan2, cos, degrees, radians, sin

from drafting.replacing.mounts import ENDS, FORK, WORDS, alike, pinned
from drafting.replacing.rule import PRACTICE, Answer, Rule, Sides, number
from drafting.settle.mount import End

SAME = 0.5
"""Sizes (mm) in free room that nobody tells apart."""
LEAST_FREE = 0.5
"""Millimetres that must stay between what turns past each other; ours."""


def larger(s: Sides, name: str, room: float | None, what: str, half: bool = False) -> Answer | None:
    """Judge a size that must stay within ``room`` mm; ``half``: it grows on both sides."""
    old, new = s.pair(name)
    if old is None and new is None:
        return None
    if new is not None and room is not None:
        if new > room + 1e-6:
            why = f"{s.say(new - room)} more than the room there is, {s.say(room)}"
            return Answer("does not fit", why, f"ask for {s.bare(room)} or less",
                          far=(new - room) / room)  # fmt: skip
        if old is None or abs(new - old) > SAME:
            return Answer("works", f"the machine leaves {s.say(room)}")
        return Answer("same")
    if old is None or new is None:
        return Answer("not known", f"{what} of one of the two", "measure it, or ask")
    gap = new - old
    if abs(gap) <= SAME:
        return Answer("same")
    if gap < 0.0:
        return Answer("works", "smaller than before")
    more = gap / 2 if half else gap
    around = " all round" if half else ""
    return Answer("not known", f"{s.say(more)} more{around}", f"measure: {s.bare(new)} of room")


def barrel(s: Sides) -> Answer | None:
    """Judge the room round the barrel."""
    room = number(s.machine, "cylinder.largest_outside")
    if room is None:
        room = number(s.old, "cylinder.largest_outside")
    return larger(s, "cylinder.barrel_outside", room, "the barrel's outside", True)


def nose(s: Sides, end: End) -> Answer | None:
    """Judge what swings past the pin against the wall behind it: the nose, the barrel's corner."""
    if not alike(s, end):
        return None
    ears, which = ("base_ears", "base") if end == "body" else ("rod_ears", "rod")
    room = number(s.machine, f"{ears}.behind")
    swing = number(s.machine, f"travel.{which}_swing")
    if end == "body" and room is not None and swing is not None:
        outside, offset = (number(s.new, f) for f in (OUTSIDE, "body_mount.offset"))
        back = None if outside is None or offset is None else corner(outside / 2, offset, swing)
        if back is not None and back > room + 1e-6:
            comes = f"the barrel's corner comes {s.say(back)} behind the pin"
            why = f"over {swing:.0f} deg of swing {comes}"
            return Answer("does not fit", why, f"{s.bare(room)} is there: a longer mount, or room",
                          far=(back - room) / room)  # fmt: skip
    return larger(s, f"{end}_mount.nose", room, "the nose past the pin")


def corner(half: float, offset: float, swing: float) -> float:
    """Give how far behind its pin the corner of a barrel swings at most, mm.

    The barrel of half height ``half`` begins ``offset`` before the pin. The wall is taken as square
    to the cylinder at the one end of its swing (degrees), which is the worst; below 0 the corner
    stays before the pin.
    """
    turn = radians(min(swing, 90.0 + degrees(atan2(offset, half))))
    return half * sin(turn) - offset * cos(turn)


def about(s: Sides, end: End) -> Answer | None:
    """Judge the eye's outside against what stands about the pin."""
    if not alike(s, end):
        return None
    free = number(s.machine, f"{'base_ears' if end == 'body' else 'rod_ears'}.around")
    room = None if free is None else 2 * free
    return larger(s, f"{end}_mount.outside", room, "the outside round the pin", True)


def throat(s: Sides, end: End) -> Answer | None:
    """Judge the bottom of a fork's slot against the machine's lug."""
    if not pinned(s.old, end) == pinned(s.new, end) == FORK:
        return None
    old, new = s.pair(f"{end}_mount.throat")
    if old is None and new is None:
        return None
    lug = number(s.machine, f"{'base_ears' if end == 'body' else 'rod_ears'}.lug_nose")
    if lug is not None and new is not None:
        if new < lug + LEAST_FREE:
            return Answer("does not fit", f"the {s.say(lug)} lug strikes the slot's bottom",
                          f"ask for a throat of {s.bare(lug + LEAST_FREE)} or more",
                          far=(lug + LEAST_FREE - new) / lug)  # fmt: skip
        if old is None or abs(new - old) > SAME:
            return Answer("works", f"{s.say(new - lug)} free before the slot's bottom")
        return Answer("same")
    if old is None or new is None:
        return Answer("not known", "the throat of one of the two", "measure it")
    gap = new - old
    if abs(gap) <= SAME:
        return Answer("same")
    if gap > 0.0:
        return Answer("works", "deeper than before")
    do = f"measure the machine's lug past the pin: < {s.bare(new)}"
    return Answer("not known", f"{s.say(-gap)} shallower: the lug may strike the bottom", do)


def _of_mount(end: End, name: str, words: str, judge: Callable[..., Answer | None],
              *asks: str, reads: tuple[str, ...] = ()) -> Rule:  # fmt: skip
    ears = "base_ears" if end == "body" else "rod_ears"
    return Rule(
        f"{end}_mount.{name}",
        f"{WORDS[end]} {words}",
        (f"{end}_mount.mount", f"{end}_mount.{name}", *reads),
        partial(judge, end=end),
        PRACTICE,
        asks=tuple(a if "." in a else f"{ears}.{a}" for a in asks),
        ask_last=(f"{end}_mount.{name}",),
        same=SAME,
    )


def square(s: Sides) -> Answer | None:
    """Judge the room round a tie-rod cylinder's heads, over their flats."""
    return larger(s, SQUARE, None, "the heads over their flats", True)


OUTSIDE, SQUARE = "cylinder.barrel_outside", "cylinder.square"
RULES = (
    Rule(OUTSIDE, "room round barrel", (OUTSIDE, "cylinder.largest_outside"), barrel, PRACTICE,
         asks=("cylinder.largest_outside",), ask_last=(OUTSIDE,), same=SAME),
    Rule(SQUARE, "square heads", (SQUARE,), square, PRACTICE, ask_last=(SQUARE,), same=SAME),
    *(
        rule
        for end in ENDS
        for which in (WORDS[end],)
        for rule in (
            _of_mount(end, "nose", "nose", nose, "behind", f"travel.{which}_swing",
                      reads=(OUTSIDE, "body_mount.offset")),
            _of_mount(end, "outside", "eye outside", about, "around"),
            _of_mount(end, "throat", "throat", throat, "lug_nose"),
        )
    ),
)  # fmt: skip
