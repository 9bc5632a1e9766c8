"""What else a change brings: action, construction, cushions, grease, pins, seals, weight."""

from __future__ import annotations

from functools import partial

from drafting.replacing.mounts import ENDS, WORDS
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides


def action(s: Sides) -> Answer | None:
    """Judge whether it moves the ways that the old one did."""
    old, new = s.words("cylinder.action", "double")
    if old == new:
        return Answer("same", old=old, new=new)
    if new == "double":
        text = (
            f"action: double acting in place of {old}: the side that was not driven needs its oil "
            "led to tank, or a filtered breather where nothing pulls it; no port is plugged"
        )
        job = Job("lead the other side to tank", text, 1.5)
        return Answer("works with", "the other side must breathe", jobs=(job,), old=old, new=new)
    return Answer("does not fit", f"{new} acting, the old is {old}: one way is not driven",
                  "ask for the old action", old=old, new=new, far=10.0)  # fmt: skip


def piston(s: Sides) -> Answer | None:
    """Judge a displacement ram against a sealed piston."""
    old, new = s.words("cylinder.piston", "sealed")
    if old == new:
        return Answer("same", old=old, new=new)
    if new == "sealed":
        return Answer("changes", "a sealed piston pushes on the bore, not on the rod", old=old,
                      new=new)  # fmt: skip
    return Answer(
        "changes", "a ram pushes on the rod's area alone and never pulls", old=old, new=new
    )


def cushions(s: Sides) -> Answer | None:
    """Judge cushions: without them the piston strikes."""
    old, new = s.words("cylinder.cushions", "none")
    if old == new:
        return Answer("same", old=old, new=new)
    if old == "none" or new == "both":
        return Answer("works", "softer at the end of the stroke", old=old, new=new)
    why = "a cushion less: the piston strikes the end; slow it by the valve, or ask for cushions"
    return Answer("changes", why, old=old, new=new)


def built(s: Sides) -> Answer | None:
    """Judge the construction."""
    old, new = s.words("cylinder.construction")
    if not old or not new:
        return None
    if old == new:
        return Answer("same")
    return Answer("works", "look at what stands out: tie rods, square heads, gland")


def grease(s: Sides, end: str) -> Answer | None:
    """Judge grease fittings: a pin that was greased wants it."""
    name = f"{end}_mount.grease"
    old, new = s.old.get(name) is True, s.new.get(name) is True
    if name not in s.old and name not in s.new:
        return None
    shown = ("yes" if old else "no", "yes" if new else "no")
    if old == new:
        return Answer("same", old=shown[0], new=shown[1])
    if new:
        reach = s.machine.get(f"{'base' if end == 'body' else 'rod'}_ears.grease_reach")
        if reach is False:
            where = "base" if end == "body" else "rod"
            text = f"{where}: lead the grease fitting by a pipe to where a gun reaches"
            return Answer("works with", "a gun does not reach it", old=shown[0], new=shown[1],
                          jobs=(Job(f"{where} grease pipe", text, 1.0),))  # fmt: skip
        why = "a gun reaches it" if reach is True else "see that a gun reaches it"
        return Answer("works", why, old=shown[0], new=shown[1])
    return Answer("changes", "no fitting: grease the pin when it is out, or drill it", old=shown[0],
                  new=shown[1])  # fmt: skip


def retention(s: Sides, end: str) -> Answer | None:
    """Judge how the pins are held."""
    old, new = s.words(f"{end}_pin.retention")
    if not old and not new:
        return None
    if old == new:
        return Answer("same")
    if not new:
        return Answer("works", "keep the old pin and what holds it")
    return Answer("works", "see that nothing strikes what holds the new pin")


def stuff(s: Sides, name: str, why: str) -> Answer | None:
    """Judge seals, fluid and the like by their words."""
    old, new = s.old.get(name), s.new.get(name)
    if old is None and new is None:
        return None
    if str(old).casefold() == str(new).casefold():
        return Answer("same")
    if old is None or new is None:
        return Answer("not known", f"{why}; said of one of the two", "ask")
    return Answer("changes", why)


def strength(s: Sides) -> Answer | None:
    """Judge the candidate's own checks at its own rating, as ``drafting check`` has them."""
    old, new = s.words("strength")
    if not new:
        return None
    before, weak = (w.split("; ") if w else [] for w in s.words("strength.weak"))
    worse = [name for name in weak if name not in before]
    if worse:
        why = f"fails at its own rating: {', '.join(worse)}"
        return Answer("does not fit", why, "drafting check says by how much", old=old, new=new,
                      far=1.0)  # fmt: skip
    if old == new:
        return Answer("same", old=old, new=new)
    if new == "holds":
        return Answer("works", "by drafting check, at its own rating", old=old, new=new)
    return None  # what nobody can say of it stands below every report


def weight(s: Sides) -> Answer | None:
    """Judge the weight, kg."""
    old, new = s.pair("mass")
    if old is None or new is None:
        return None
    if abs(new / old - 1.0) <= 0.02:
        return Answer("same")
    return Answer("works", "heavier to lift in" if new > old else "lighter")


def _stuff(name: str, words: str, why: str) -> Rule:
    field = f"cylinder.{name}"
    return Rule(field, words, (field,), partial(stuff, name=field, why=why), PRACTICE, "",
                decides=False)  # fmt: skip


RULES = (
    Rule("cylinder.action", "action", ("cylinder.action",), action, PRACTICE, ""),
    Rule("cylinder.piston", "piston", ("cylinder.piston",), piston, PRACTICE, ""),
    Rule("cylinder.cushions", "cushions", ("cylinder.cushions",), cushions, PRACTICE, "",
         decides=False),
    Rule("cylinder.construction", "construction", ("cylinder.construction",), built, PRACTICE, "",
         decides=False),
    *(
        rule
        for end in ENDS
        for rule in (
            Rule(f"{end}_mount.grease", f"{WORDS[end]} grease", (f"{end}_mount.grease",),
                 partial(grease, end=end), PRACTICE, "", ("base_ears.grease_reach",
                 "rod_ears.grease_reach"), False),
            Rule(f"{end}_pin.retention", f"{WORDS[end]} pin held by", (f"{end}_pin.retention",),
                 partial(retention, end=end), PRACTICE, "", decides=False),
        )
    ),
    _stuff("seals", "seals", "other seals: do they stand this oil and heat"),
    _stuff("fluid", "fluid", "made for another fluid: seals and metals must stand yours"),
    Rule("strength", "its own strength", ("strength", "strength.weak"), strength,
         "as drafting check", "", decides=False),
    Rule("mass", "weight", ("mass",), weight, "steel, dry, from the pieces", "kg", decides=False),
)  # fmt: skip
