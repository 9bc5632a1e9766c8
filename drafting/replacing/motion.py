"""How fast it moves and what oil it takes: times, oil, the tank, and what a pair does.

Flow over area without leakage.
"""

from __future__ import annotations

from functools import partial

from drafting.calc.types import MM3_PER_LITRE
from drafting.replacing import loads
from drafting.replacing.loads import FIELDS, SAME, percent, share, ways
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides, number

CONTINUITY = "flow over area, without leakage"


def _travels(s: Sides) -> tuple[float, float] | None:
    """Give how far both move: the machine's own travel where both cover it, else their strokes."""
    strokes = s.numbers("cylinder.stroke")
    near, far = (number(s.machine, f"distance.{n}") for n in ("closest", "farthest"))
    if strokes is None or near is None or far is None or far - near > min(strokes):
        return strokes
    return far - near, far - near


def time(s: Sides, way: str) -> Answer | None:
    """Judge the time of a stroke at the pump's flow, s; without a flow by the ratio alone."""
    found, strokes = ways(s, way), _travels(s)
    if found is None or strokes is None:
        return None
    a, b = strokes
    old, new = found[0] * a, found[1] * b
    q, ratio = loads.flow(s), new / old
    seconds = None if q is None else (old / (q * MM3_PER_LITRE), new / (q * MM3_PER_LITRE))
    shown: tuple[float | str, float | str] = seconds or (share(ratio, 0), share(ratio, 1))
    if abs(ratio - 1.0) <= SAME:
        return Answer("same", old=shown[0], new=shown[1])
    by = [w for w, r in (("area", found[1] / found[0]), ("stroke", b / a)) if abs(r - 1.0) > SAME]
    why = f"{percent(ratio)} {'longer' if ratio > 1 else 'shorter'}, by {' and '.join(by)}"
    return Answer("changes", why, old=shown[0], new=shown[1])


def oil(s: Sides, way: str) -> Answer | None:
    """Judge the oil of a stroke, l, and for the way out what the tank gives up."""
    found, strokes = ways(s, way), _travels(s)
    if found is None or strokes is None:
        return None
    a, b = strokes
    old, new = found[0] * a / MM3_PER_LITRE, found[1] * b / MM3_PER_LITRE
    if abs(new / old - 1.0) <= SAME:
        return Answer("same", old=old, new=new)
    return Answer("changes", "more oil" if new > old else "less oil", old=old, new=new)


def swing(s: Sides) -> Answer | None:
    """Judge by how much the tank's oil rises and falls, l."""
    volumes = []
    for known in (s.old, s.new):
        found, travel = loads.areas(known), number(known, "cylinder.stroke")
        if found is None or travel is None or found.push is None:
            return None
        volumes.append((found.push - (found.pull or 0.0)) * travel / MM3_PER_LITRE)
    old, new = volumes
    if abs(new / old - 1.0) <= SAME:
        return Answer("same", old=old, new=new)
    if new < old:
        return Answer("works", "the tank's level moves less", old=old, new=new)
    return Answer(
        "changes", f"{percent(new / old)} more: see that the tank has it", old=old, new=new
    )


def pair(s: Sides) -> Answer | None:
    """Judge one of a pair: what unequal areas and strokes do to speed and height."""
    count = number(s.machine, "pair.count") or 1.0
    together = count > 1.0 or s.old.get("matched_set") is True
    found, strokes = ways(s, "push"), s.numbers("cylinder.stroke")
    if not together or found is None or strokes is None:
        return None
    a, b = strokes
    if abs(found[1] / found[0] - 1.0) <= SAME and abs(a - b) <= 0.5:
        return Answer("same", "alike: they stay level as before", old="one of a pair", new="alike")
    ratio = found[0] / found[1]
    height = a * abs(1.0 - ratio)
    text = (
        f"pair: replace both. Left unequal the new one runs at {ratio * 100:.0f} % of the other's "
        f"speed on the same oil and stands {s.say(height)} apart from it at the end of a stroke of "
        f"{s.say(a)}; what joins them is twisted by the difference of their forces"
    )
    job = Job("replace both of the pair", text, 8.0)
    return Answer("works with", f"{s.say(height)} apart per stroke", jobs=(job,),
                  old="one of a pair", new="unequal")  # fmt: skip


TRAVEL = ("distance.closest", "distance.farthest")
MOVES = (*FIELDS, "cylinder.stroke", "duty.flow")
RULES = (
    *(
        Rule(f"time_{out}", f"time {out}", MOVES, partial(time, way=way), CONTINUITY, "s",
             ("supply.flow", *TRAVEL), False)
        for way, out in (("push", "out"), ("pull", "in"))
    ),
    *(
        Rule(f"oil_{out}", f"oil {out}", MOVES, partial(oil, way=way), "area times stroke", "l",
             TRAVEL, decides=False)
        for way, out in (("push", "out"), ("pull", "in"))
    ),
    Rule("oil_swing", "tank's level swings", MOVES, swing, "rod area times stroke", "l",
         decides=False),
    Rule("pair", "one of a pair", (*FIELDS, "cylinder.stroke", "matched_set"), pair, PRACTICE, "",
         ("pair.count",)),
)  # fmt: skip
