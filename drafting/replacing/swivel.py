"""Pairs of ears that do not stand in line: what side play and a ball's tilt take of it.

Both ends lean against each other: a plain eye as far as its side play lets it, a ball as far as it
tilts. Beyond that the pins bend the rod.
"""

from __future__ import annotations

from functools import partial
from math import atan2, degrees, radians, sin, tan

from drafting.replacing.mounts import BALL, ENDS, EYE, FORK, WORDS, across, alike, pinned
from drafting.replacing.rule import PRACTICE, Answer, Rule, Sides, number
from drafting.settle.mount import End

EARS = {"body": "base_ears", "rod": "rod_ears"}
LEAST = 0.05
"""Degrees and mm that nobody sees."""


def side_play(s: Sides, end: End) -> float | None:
    """Give how far a mount may shift along its pin in all, mm: in the ears, or on the lug."""
    if pinned(s.new, end) == FORK:
        gap, width = number(s.new, f"{end}_mount.gap"), number(s.machine, f"{EARS[end]}.lug")
    else:
        gap, width = number(s.machine, f"{EARS[end]}.gap"), across(s.new, end)
    return None if gap is None or width is None else max(gap - width, 0.0)


def aside(s: Sides) -> float | None:
    """Give how far the two pairs of ears stand beside each other, mm; None where nobody said."""
    found = (number(s.machine, f"{EARS[end]}.aside") for end in ENDS)
    return max((abs(x) for x in found if x is not None), default=None)


def lean(s: Sides) -> float | None:
    """Give the most degrees that it may lean sideways: ears beside each other and all side play.

    At the closest, where it leans most. None while the machine's distance is not known.
    """
    length = number(s.machine, "distance.closest")
    if length is None:
        return None
    plays = sum(side_play(s, end) or 0.0 for end in ENDS) / 2
    return degrees(atan2((aside(s) or 0.0) + plays, length))


def tilt(s: Sides, end: End) -> Answer | None:
    """Judge a ball's tilt against what the machine asks of it, degrees."""
    length, leans = number(s.machine, "distance.closest"), lean(s)
    if not alike(s, end) or pinned(s.new, end) != BALL or leans is None or length is None:
        return None
    may = number(s.new, f"{end}_mount.tilt")
    asked = max(leans, _crossed(s, end))
    if may is None:
        do = f"measure ring and ball's width, or ask: {asked:.1f} deg of tilt or more"
        return Answer("not known", "the ball's tilt is not known", do, new=None)
    if asked > may:
        why = f"{asked:.1f} deg of tilt are asked, it has {may:.1f}: the ring meets the ear"
        do = "shims at the ball, ears in line, or a ball that stands out farther"
        return Answer("does not fit", why, do, new=may, far=(asked - may) / may)
    room = length * tan(radians(may))
    off = aside(s)
    why = f"tilts {asked:.1f} deg at most by side play"
    if off is None:
        why += f"; the two pairs of ears may stand {s.say(room)} beside each other (not measured)"
    else:
        why += f" and ears {s.say(off)} beside each other"
    return Answer("works", why, new=may)


def _crossed(s: Sides, end: End) -> float:
    """Give the degrees that a ball on a keyed rod takes because its hole lies across the swing."""
    turned = number(s.new, "rod_mount.turned")
    if end != "rod" or turned is None or s.new.get("cylinder.rod_keyed") is not True:
        return 0.0
    swing = number(s.machine, "travel.rod_swing") or 0.0
    return swing * abs(sin(radians(turned)))


def in_line(s: Sides, end: End) -> Answer | None:
    """Judge a plain mount whose ears stand beside the others': its side play must take it all."""
    off = aside(s)
    if not alike(s, end) or pinned(s.new, end) not in (EYE, FORK) or off is None:
        return None
    if off <= LEAST:
        return Answer("same")
    plays = [side_play(s, e) for e in ENDS if pinned(s.new, e)]
    if None in plays:
        do = f"measure both gaps: {s.say(off)} of side play in all is wanted, or ears in line"
        return Answer("not known", f"the ears stand {s.say(off)} beside each other", do)
    play = sum(p for p in plays if p is not None) / 2
    if off > play + LEAST:
        why = f"ears {s.say(off)} beside each other, side play takes {s.say(play)}: it binds"
        return Answer("does not fit", why, "set the ears in line, or ball swivels",
                      far=(off - play) / max(off, 1.0))  # fmt: skip
    why = f"side play takes the {s.say(off)} by which the ears stand beside each other; no shims"
    return Answer("works", why)


_ASKS = (*(f"{e}.{n}" for e in EARS.values() for n in ("gap", "lug", "aside")), "distance.closest")
_READS = tuple(f"{e}_mount.{n}" for e in ENDS for n in ("mount", "width", "gap", "ball_width"))

RULES = tuple(
    rule
    for end in ENDS
    for rule in (
        Rule(f"{end}_mount.tilt", f"{WORDS[end]} ball's tilt",
             (*_READS, f"{end}_mount.tilt", "rod_mount.turned", "cylinder.rod_keyed"),
             partial(tilt, end=end), PRACTICE, "deg", (*_ASKS, "travel.rod_swing"), same=LEAST),
        Rule(f"{end}_mount.in_line", f"{WORDS[end]} in line", _READS, partial(in_line, end=end),
             PRACTICE, asks=_ASKS),
    )
)  # fmt: skip
