"""Mounts by kind: what the machine must have for each, and what can stand in for what."""

from __future__ import annotations

from functools import cache, partial

from drafting.model.catalog import mount_types
from drafting.replacing.rule import PRACTICE, Answer, Known, Rule, Sides, number, word
from drafting.settle.mount import End

ENDS: tuple[End, End] = ("body", "rod")
WORDS = {"body": "base", "rod": "rod"}
FORK, EYE, BALL, STUBS = "fork", "eye", "ball", "stubs"


@cache
def family(end: End, mount: str) -> str:
    """Give what a mount's word is to the machine: an eye, a ball, a fork, stubs, or itself."""
    kind = mount_types().get((end, mount))
    if kind is None:
        return mount
    if "gap" in kind.fields:
        return FORK
    if "ball_width" in kind.fields:
        return BALL
    if kind.turns:
        return EYE if "hole" in kind.fields else STUBS
    return mount


def families(s: Sides, end: End) -> tuple[str, str]:
    """Give the families of both mounts of an end, empty where the mount is not known."""
    a, b = s.words(f"{end}_mount.mount")
    return family(end, a) if a else "", family(end, b) if b else ""


def pinned(known: Known, end: End) -> str:
    """Give the family of a mount that turns on a loose pin, empty for any other."""
    mount = word(known, f"{end}_mount.mount")
    found = family(end, mount) if mount else ""
    return found if found in (FORK, EYE, BALL) else ""


def alike(s: Sides, end: End) -> bool:
    """Tell whether both mounts of an end turn on a loose pin in the same kind of ears."""
    old, new = pinned(s.old, end), pinned(s.new, end)
    return bool(old and new) and (old == FORK) == (new == FORK)


def has(s: Sides, end: End) -> str:
    """Say what of the machine the pin goes through besides the cylinder."""
    return "the machine's lug" if pinned(s.new, end) == FORK else "the machine's ears"


def same_datums(s: Sides, ends: tuple[End, ...] = ENDS) -> bool:
    """Tell whether lengths of both run between datums of one kind; so where a mount is not known.

    All that turn on a loose pin have the pin's centre.
    """
    for end in ends:
        a, b = s.words(f"{end}_mount.mount")
        if a and b and a != b and not (pinned(s.old, end) and pinned(s.new, end)):
            return False
    return True


def across(known: Known, end: End) -> float | None:
    """Give what of an eye or a ball goes between the machine's ears, mm."""
    t = f"{end}_mount"
    ball = number(known, f"{t}.ball_width")
    if pinned(known, end) == BALL and ball is not None:
        return ball
    return number(known, f"{t}.width")


def kind(s: Sides, end: End) -> Answer | None:
    """Judge whether the mount is of a kind that the machine takes."""
    old, new = s.words(f"{end}_mount.mount")
    if not old and not new:
        return None
    if not old or not new:
        return Answer("not known", "the mount of one of the two", "look, or ask")
    if old == new:
        return Answer("same")
    a, b = families(s, end)
    if a == b and a in (EYE, BALL, FORK, STUBS):
        return Answer("works", f"{old} and {new} meet the machine alike: one {a} on the pin")
    if (a, b) == (EYE, BALL):
        return Answer(
            "changes",
            "a ball swings every way: the cylinder can lean between the ears until something "
            "touches, and the ears must press on the ball's faces, not on its ring",
        )
    if (a, b) == (BALL, EYE):
        return Answer(
            "changes",
            "a plain eye does not tilt: pins that are not parallel bind it and bend the rod; "
            "sight along both pins before it is bought",
        )
    return Answer(
        "does not fit",
        f"{new}, the old is a {old}: the machine has what a {old} needs",
        "other ears or plates on the machine, or ask for the old mount",
        far=10.0,
    )


def turned(s: Sides) -> Answer | None:
    """Judge the rod's pin against the body's: a rod that turns by hand follows."""
    if not (pinned(s.old, "rod") and pinned(s.new, "rod")):
        return None
    a, b = (number(k, "rod_mount.turned") or 0.0 for k in (s.old, s.new))
    if abs((a - b) % 180.0) < 0.5 or abs((a - b) % 180.0 - 180.0) < 0.5:
        return Answer("same", old=a, new=b)
    if s.new.get("cylinder.rod_keyed") is True:
        return Answer("does not fit", "pins lie otherwise and the rod is keyed: it cannot turn",
                      "ask for pins as the old ones lie", old=a, new=b, far=1.0)  # fmt: skip
    return Answer("works", "the rod turns by hand to where the pin lies", old=a, new=b)


RULES = (
    *(
        Rule(f"{end}_mount.mount", f"{WORDS[end]} mount", (f"{end}_mount.mount",),
             partial(kind, end=end), PRACTICE, unit="")
        for end in ENDS
    ),
    Rule(
        "rod_mount.turned",
        "rod pin against base pin",
        ("rod_mount.mount", "rod_mount.turned", "cylinder.rod_keyed"),
        turned,
        PRACTICE,
        unit="deg",
        decides=False,
    ),
)  # fmt: skip
