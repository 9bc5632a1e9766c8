"""Forces at the pressure of the circuit, the settings that keep the old ones, the rating.

Areas times pressures at rest without friction.
"""

from __future__ import annotations

from functools import partial

from drafting.replacing import loads
from drafting.replacing.loads import FIELDS, PRESSURES, SAME, Areas, percent, share, ways
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Sides, number

AREAS = "areas times pressures, at rest, without friction"
OTHERS = "Every other circuit on a main relief feels it; this circuit's own valve is the place"


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
    found = ways(s, way)
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
        return Answer("changes", f"{percent(ratio)} {more} at the same pressure",
                      old=share(ratio, 0), new=share(ratio, 1))  # fmt: skip
    keeps = f"{s.pressure(p / ratio)} = old {way}"
    if ratio > 1.0:
        return Answer("changes", f"{percent(ratio)} more; {keeps}", old=forces[0], new=forces[1])
    if asked is not None:
        if p * new < asked:
            why = f"{s.force(p * new)} where {s.force(asked)} is asked; {keeps}"
            return Answer("does not fit", why, old=forces[0], new=forces[1],
                          far=1.0 - p * new / asked)  # fmt: skip
        why = f"{percent(ratio)} less, still above the {s.force(asked)} asked"
        return Answer("changes", why, old=forces[0], new=forces[1])
    why = f"{percent(ratio)} less; {keeps}"
    return Answer("changes", why, old=forces[0], new=forces[1], far=1.0 - ratio)


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


def keeps_push(s: Sides) -> tuple[float, tuple[Job, ...]] | None:
    """Give the setting (MPa) that the relief is to have for the old force, and its job."""
    found = relief(s)
    if found is None or not found.jobs or not isinstance(found.new, float):
        return None
    return found.new, found.jobs


def _relief_job(s: Sides, p: float, needs: dict[str, float], b: Areas, first: str) -> Job:
    said = f"{s.pressure(needs[first])} keeps the {first}"
    other = "pull" if first == "push" else "push"
    if other in needs:
        area = getattr(b, other)
        ratio = needs[first] / needs[other]
        less = "less" if ratio < 1.0 else "more"
        said += (
            f", {other} is then {s.force(needs[first] * area)}, {percent(ratio)} {less} than old; "
            f"{s.pressure(needs[other])} keeps the {other}; no one setting restores both"
            if abs(ratio - 1.0) > SAME
            else f" and the {other}"
        )
    text = f"relief: {said}. {OTHERS}"
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
        text = f"relief: {s.pressure(rated)} or less, the candidate's rating. {OTHERS}"
        job = Job(f"relief at most {s.pressure(rated)}", text, 1.0)
        why = "rated lower, and the larger bore needs less"
        return Answer("works with", why, jobs=(job,), old=p, new=rated)
    why = f"rated {s.pressure(rated)}, the circuit has {s.pressure(highest)}"
    return Answer("does not fit", why, f"ask for {s.pressure(highest)} or more", old=p, new=rated,
                  far=1.0 - rated / highest)  # fmt: skip


P = ("supply.pressure",)
ALL = (*FIELDS, *PRESSURES)
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
)  # fmt: skip
