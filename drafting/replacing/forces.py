"""What the machine feels: forces, pressures, times, oil, column, and what a pair does.

Areas times pressures at rest without friction; flow over area without leakage.
"""

from __future__ import annotations

from functools import partial

from drafting.calc.types import MM3_PER_LITRE
from drafting.replacing import loads
from drafting.replacing.loads import FIELDS, PRESSURES, Areas
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides, Verdict, number

SAME = 0.005
"""Forces, times and volumes that differ by less, as a share, are the same."""
SLENDER = 0.9
"""A column that keeps less of what it stood, as a share, must be reckoned before it is trusted."""
AREAS = "areas times pressures, at rest, without friction"
CONTINUITY = "flow over area, without leakage"
OTHERS = "every other circuit on a main relief feels it; this circuit's own valve is the place"


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}"


def _percent(ratio: float) -> str:
    return f"{abs(ratio - 1.0) * 100:.0f} %"


def _ways(s: Sides, way: str) -> tuple[float, float] | None:
    """Give the driven areas of both in a way, None where either drives nothing."""
    a, b = (loads.areas(k) for k in (s.old, s.new))
    if a is None or b is None:
        return None
    old, new = getattr(a, way), getattr(b, way)
    return None if old is None or new is None else (old, new)


def diameter(s: Sides, name: str) -> Answer | None:
    """Judge bore or rod by itself: what it does stands in the rows of forces and times."""
    old, new = s.pair(name)
    if old is None and new is None:
        return None
    if old is None or new is None:
        return Answer("not known", "of one of the two", "measure it, or ask")
    if abs(new - old) <= 0.05:
        return Answer("same")
    return Answer("changes", "forces, times, oil: below")


def force(s: Sides, way: str) -> Answer | None:
    """Judge push or pull at the same pressure."""
    found = _ways(s, way)
    if found is None:
        return None
    old, new = found
    p, ratio = loads.circuit(s), new / old
    forces = (None, None) if p is None else (p * old, p * new)
    if abs(ratio - 1.0) <= SAME:
        return Answer("same", old=forces[0], new=forces[1])
    asked = number(s.old, f"duty.{way}")
    if p is None:
        more = "more" if ratio > 1.0 else "less"
        return Answer("changes", f"{_percent(ratio)} {more} at the same pressure",
                      old=_at(ratio, 0), new=_at(ratio, 1))  # fmt: skip
    keeps = f"{s.pressure(p / ratio)} = old {way}"
    if ratio > 1.0:
        return Answer("changes", f"{_percent(ratio)} more; {keeps}", old=forces[0], new=forces[1])
    if asked is not None:
        if p * new < asked:
            why = f"{s.force(p * new)} where {s.force(asked)} is asked; {keeps}"
            return Answer("does not fit", why, old=forces[0], new=forces[1],
                          far=1.0 - p * new / asked)  # fmt: skip
        why = f"{_percent(ratio)} less, still above the {s.force(asked)} asked"
        return Answer("changes", why, old=forces[0], new=forces[1])
    why = f"{_percent(ratio)} less; {keeps}"
    return Answer("changes", why, old=forces[0], new=forces[1], far=1.0 - ratio)


def _travels(s: Sides) -> tuple[float, float] | None:
    """Give how far both move: the machine's own travel where both cover it, else their strokes."""
    strokes = s.numbers("cylinder.stroke")
    near, far = (number(s.machine, f"distance.{n}") for n in ("closest", "farthest"))
    if strokes is None or near is None or far is None or far - near > min(strokes):
        return strokes
    return far - near, far - near


def _at(ratio: float, which: int) -> str:
    return ("100 %", f"{ratio * 100:.0f} %")[which]


def relief(s: Sides) -> Answer | None:
    """Give the settings that keep the old forces, each way by itself: one cannot keep both."""
    p = loads.circuit(s)
    a, b = (loads.areas(k) for k in (s.old, s.new))
    if a is None or b is None or p is None:
        return None
    needs = {
        way: p * getattr(a, way) / getattr(b, way)
        for way in ("push", "pull")
        if getattr(a, way) and getattr(b, way)
    }
    if not needs or all(abs(need / p - 1.0) <= SAME for need in needs.values()):
        return None
    first = "push" if "push" in needs else "pull"
    setting = needs[first]
    if setting > p * (1.0 + SAME):
        return _weaker(s, p, needs)
    if abs(setting / p - 1.0) <= SAME:
        other = next(way for way in needs if way != first)
        why = f"{first} as before; {s.pressure(needs[other])} on its own side keeps the {other}"
        return Answer("changes", why, old=p, new=setting)
    return Answer(
        "works with",
        "stronger than the machine was made for",
        jobs=(_relief_job(s, p, needs, b, first),),
        old=p,
        new=setting,
    )


def _relief_job(s: Sides, p: float, needs: dict[str, float], b: Areas, first: str) -> Job:
    said = f"{s.pressure(needs[first])} keeps the {first}"
    other = "pull" if first == "push" else "push"
    if other in needs:
        area = getattr(b, other)
        ratio = needs[first] / needs[other]
        less = "less" if ratio < 1.0 else "more"
        said += (
            f", {other} is then {s.force(needs[first] * area)}, {_percent(ratio)} {less} than old; "
            f"{s.pressure(needs[other])} keeps the {other}; no one setting restores both"
            if abs(ratio - 1.0) > SAME
            else f" and the {other}"
        )
    text = f"relief: {said}. {_sentence(OTHERS)}"
    return Job(f"set relief to {s.pressure(needs[first])}", text, 1.0)


def _weaker(s: Sides, p: float, needs: dict[str, float]) -> Answer:
    most = max(needs.values())
    rated = number(s.new, "cylinder.working_pressure")
    why = f"the old forces want {s.pressure(most)}"
    if rated is not None and most > rated:
        why += f", above its {s.pressure(rated)}: they are not to be had"
    else:
        why += "; only where pump, valves, hoses and the rating of all allow it"
    return Answer("changes", why, old=p, new=most)


def rating(s: Sides) -> Answer | None:
    """Judge the candidate's working pressure against that of the circuit."""
    name = "cylinder.working_pressure"
    p, rated = loads.circuit(s), number(s.new, name)
    if p is None and rated is None:
        return None
    if rated is None:
        return Answer("not known", "the candidate's working pressure", "ask the builder")
    if p is None:
        return Answer("not known", "the pressure of the circuit", "read the gauge at the relief")
    reliefs = number(s.machine, "supply.relief"), number(s.old, "cylinder.relief_pressure")
    highest = max(x for x in (p, *reliefs) if x is not None)
    if rated >= highest * (1.0 - 1e-6):
        same = abs(rated - p) <= 0.01
        return Answer("same" if same else "works", "" if same else "rated higher", old=p, new=rated)
    a, b = (loads.areas(k) for k in (s.old, s.new))
    needs = [
        p * getattr(a, way) / getattr(b, way)
        for way in ("push", "pull")
        if a and b and getattr(a, way) and getattr(b, way)
    ]
    if needs and max(needs) <= rated * (1.0 + 1e-6):
        text = f"relief: {s.pressure(rated)} or less, the candidate's rating. {_sentence(OTHERS)}"
        job = Job(f"relief at most {s.pressure(rated)}", text, 1.0)
        why = "rated lower, and the larger bore needs less"
        return Answer("works with", why, jobs=(job,), old=p, new=rated)
    why = f"rated {s.pressure(rated)}, the circuit has {s.pressure(highest)}"
    return Answer("does not fit", why, f"ask for {s.pressure(highest)} or more", old=p, new=rated,
                  far=1.0 - rated / highest)  # fmt: skip


def time(s: Sides, way: str) -> Answer | None:
    """Judge the time of a stroke at the pump's flow, s; without a flow by the ratio alone."""
    found, strokes = _ways(s, way), _travels(s)
    if found is None or strokes is None:
        return None
    a, b = strokes
    old, new = found[0] * a, found[1] * b
    q, ratio = loads.flow(s), new / old
    seconds = None if q is None else (old / (q * MM3_PER_LITRE), new / (q * MM3_PER_LITRE))
    shown: tuple[float | str, float | str] = seconds or (_at(ratio, 0), _at(ratio, 1))
    if abs(ratio - 1.0) <= SAME:
        return Answer("same", old=shown[0], new=shown[1])
    word = "slower" if ratio > 1.0 else "faster"
    why = f"{_percent(ratio)} {'longer' if ratio > 1 else 'shorter'}: {word} by areas and stroke"
    return Answer("changes", why, old=shown[0], new=shown[1])


def oil(s: Sides, way: str) -> Answer | None:
    """Judge the oil of a stroke, l, and for the way out what the tank gives up."""
    found, strokes = _ways(s, way), _travels(s)
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
        "changes", f"{_percent(new / old)} more: see that the tank has it", old=old, new=new
    )


def column(s: Sides) -> Answer | None:
    """Judge the column: its factor where both could be reckoned, else the rod's stiffness."""
    old, new = s.pair("column")
    asked = number(s.new, "column.asked")
    if old is not None and new is not None and asked is not None:
        if abs(new - old) <= SAME * old:
            return Answer("same")
        if new >= old or new >= asked:
            return Answer("works", f"factor {new:.2f} at its full push, {asked:g} asked")
        return _thinner(s, old, new, asked)
    rods, lengths, found = (
        s.numbers("cylinder.rod"),
        s.numbers("cylinder.extended"),
        _ways(s, "push"),
    )
    if rods is None or lengths is None:
        return None
    load = found[1] / found[0] if found else 1.0
    ratio = (rods[1] / rods[0]) ** 4 * (lengths[0] / lengths[1]) ** 2 / load
    shown = _at(ratio, 0), _at(ratio, 1)
    if abs(ratio - 1.0) <= SAME:
        return Answer("same", old=shown[0], new=shown[1])
    if ratio > 1.0:
        return Answer("works", "stiffer for its push", old=shown[0], new=shown[1])
    why = f"{_percent(ratio)} less against buckling at the same pressure (rod alone, Euler)"
    known: Verdict = "changes" if ratio >= SLENDER else "not known"
    return Answer(known, why, "drafting check on the candidate", old=shown[0], new=shown[1],
                  far=1.0 - ratio)  # fmt: skip


def _thinner(s: Sides, old: float, new: float, asked: float) -> Answer:
    """Judge a column below what is asked and below the old one: a relief, or not known."""
    a, b = (loads.areas(k) for k in (s.old, s.new))
    p, rated = loads.circuit(s), number(s.new, "cylinder.working_pressure")
    goal = min(old, asked)
    if a and b and a.push and b.push and p and rated:
        allowed = rated * new / goal
        if allowed * b.push >= p * a.push * (1.0 - SAME):
            text = (
                f"relief: {s.pressure(allowed)} or less keeps the column at the old factor "
                f"{goal:.2f} ({asked:g} asked), reckoned with the weakest usual rod steel. "
                f"{_sentence(OTHERS)}"
            )
            job = Job(f"relief at most {s.pressure(allowed)} for the column", text, 1.0)
            return Answer("works with", f"factor {new:.2f} at full push", jobs=(job,))
    why = f"factor {new:.2f}, {asked:g} asked, with the weakest usual rod steel"
    return Answer("not known", why, "drafting check on the candidate", far=1.0 - new / asked)


def pair(s: Sides) -> Answer | None:
    """Judge one of a pair: what unequal areas and strokes do to speed and height."""
    count = number(s.machine, "pair.count") or 1.0
    together = count > 1.0 or s.old.get("matched_set") is True
    found, strokes = _ways(s, "push"), s.numbers("cylinder.stroke")
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


P = ("supply.pressure",)
ALL = (*FIELDS, *PRESSURES)
TRAVEL = ("distance.closest", "distance.farthest")
MOVES = (*FIELDS, "cylinder.stroke", "duty.flow")
RULES = (
    *(
        Rule(f"cylinder.{n}", n, (f"cylinder.{n}",), partial(diameter, name=f"cylinder.{n}"),
             PRACTICE, same=0.05)
        for n in ("bore", "rod")
    ),
    *(
        Rule(way, way, (*ALL, f"duty.{way}"), partial(force, way=way), AREAS, "N", P)
        for way in ("push", "pull")
    ),
    Rule("relief", "setting for the old force", (*ALL, "cylinder.working_pressure"), relief,
         AREAS, "MPa", P),
    Rule("cylinder.working_pressure", "rated pressure",
         (*ALL, "cylinder.relief_pressure"), rating, PRACTICE, "MPa",
         (*P, "supply.relief"), ask_last=("cylinder.working_pressure",)),
    Rule("column", "column, full push",
         (*ALL, "column", "column.asked", "cylinder.extended"), column,
         "stepped column, as drafting check; else Euler on the rod alone", "", P),
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
