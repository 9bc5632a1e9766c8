"""Ports: their threads, clocks and places, and the oil's speed."""

from __future__ import annotations

from functools import partial

from drafting.calc.flow import PRESSURE_LINE_SPEED, line_speed
from drafting.calc.types import MM3_PER_LITRE
from drafting.replacing import adapters, loads
from drafting.replacing.adapters import PASSAGE, Adapter, port
from drafting.replacing.adapters import PORTS as END
from drafting.replacing.mounts import pinned, same_datums
from drafting.replacing.rule import MEMORY, PRACTICE, Answer, Job, Rule, Sides, word
from drafting.settle.clock import hour

HOSE_GIVES, HOSE_TURNS = 25.0, 15.0
"""How far (mm) and how much (degrees) a port may stand elsewhere before a hose feels it; ours."""


def thread(s: Sides, table: str) -> Answer | None:
    """Judge a port's thread: the same, or an adapter by the thread at both ends."""
    old, new = s.words(f"{table}.thread")
    hose = word(s.machine, "hoses.base" if table == "base_port" else "hoses.rod")
    if not old and not new:
        return None
    if not new or not old:
        missing = "candidate" if not new else "original"
        do = "ask for the port" if not new else "look at the old port"
        return Answer("not known", f"no {END[table]} port is given of the {missing}", do)
    a, b = port(old), port(new)
    if a is None or b is None:
        if old == new:
            return Answer("same")
        return Answer("not known", f"the tables do not know {new if b is None else old}", "look")
    if a.spelling == b.spelling:
        return Answer("same")
    if a.is_flange != b.is_flange or a.is_flange:
        text = f"{END[table]} port: flange adapter, {new} to {old}; room about it"
        return Answer("works with", "flange adapter", jobs=(Job("flange adapter", text, 1.0),))
    made = Adapter(b, a)
    kind = "reducer" if made.reduces else "adapter"
    throttled = _throttled(s, table, made)
    ends = "" if not hose else f"; the hose end ({hose}) stays"
    text = (
        f"{END[table]} port: {kind}, {new} male to {old} female, about "
        f"{s.about(made.longer)} longer and higher; {made.seals}; rated for the "
        f"pressure{ends}{throttled}"
    )
    short = f"{kind} {new} -> {old}"
    return Answer(
        "works with", f"{kind}, about {s.about(made.longer)} more", jobs=(Job(short, text),)
    )


def _throttled(s: Sides, table: str, made: Adapter) -> str:
    q = loads.flow(s)
    if q is None or not made.reduces:
        return ""
    speed = line_speed(q * MM3_PER_LITRE, made.passage)
    most = f", more than {s.speed(PRESSURE_LINE_SPEED)}: slower, and warm"
    return f"; oil at {s.speed(speed)} in it{most * (speed > PRESSURE_LINE_SPEED)}"


def speed(s: Sides, table: str) -> Answer | None:
    """Give the oil's speed in a port at the flow of the pump, mm/s."""
    q = loads.flow(s)
    a, b = (port(w) if w else None for w in s.words(f"{table}.thread"))
    if q is None or a is None or b is None or a.is_flange or b.is_flange:
        return None
    most = [q, q]
    if table == "base_port":
        for k, known in enumerate((s.old, s.new)):
            found = loads.areas(known)
            if found and found.push and found.pull:
                most[k] = q * found.push / found.pull
    old, new = (
        line_speed(f * MM3_PER_LITRE, PASSAGE * p.major_mm)
        for f, p in zip(most, (a, b), strict=True)
    )
    if abs(new / old - 1.0) < 0.005:
        return Answer("same", old=old, new=new)
    if new < old or new <= PRESSURE_LINE_SPEED:
        return Answer("works", "passage 0.6 of the thread, as drawn", old=old, new=new)
    usual = s.speed(PRESSURE_LINE_SPEED)
    why = f"{s.speed(new)} where {usual} is usual at most: slower than reckoned, warm, noisy"
    return Answer("changes", why, old=old, new=new)


CLOCKS = ("base_port.clock_from_rod", "rod_port.clock_from_rod")


def clock(s: Sides) -> Answer | None:
    """Judge where both ports face, together: the whole cylinder may be turned half round first."""
    pairs = [s.pair(name) for name in CLOCKS]
    if all(a is None and b is None for a, b in pairs):
        return None
    old, new = (_hours([pair[k] for pair in pairs]) for k in (0, 1))
    if any((a is None) != (b is None) for a, b in pairs):
        return Answer("not known", "the clock of a port is not known", "look, or ask", old=old,
                      new=new)  # fmt: skip
    gaps = [(b - a) % 360.0 for a, b in pairs if a is not None and b is not None]
    if all(_near(g, 0.0) for g in gaps):
        return Answer("same", old=old, new=new)
    can_turn = bool(pinned(s.new, "body")) or s.new.get("body_mount.mount") == "trunnion"
    if can_turn and all(_near(g, 180.0) for g in gaps):
        text = "ports: turn the whole cylinder half round about its axis; the pins stay"
        return Answer("works with", "turned half round, they face as before",
                      jobs=(Job("turn half round", text, 0.2),), old=old, new=new)  # fmt: skip
    if word(s.new, "cylinder.construction") == "tie rod" and len(gaps) == 2:
        found = _quarters(s, gaps, old, new, can_turn)
        if found:
            return found
    stays = "a welded boss does not turn"
    if word(s.new, "cylinder.construction") == "tie rod":
        stays = "its head and cap turn in quarters alone"
    text = (
        f"ports: hoses led to {new} (old {old}), longer or with an elbow; {stays}; look for room "
        "there"
    )
    return Answer("works with", f"{stays}: the hoses go there",
                  jobs=(Job("hoses led elsewhere", text, 1.5),), old=old, new=new)  # fmt: skip


def _quarters(s: Sides, gaps: list[float], old: str, new: str, can_turn: bool) -> Answer | None:
    """Judge heads that turn in quarters: the base mount sits on the cap, so the head turns."""
    for half in (0.0, 180.0) if can_turn else (0.0,):
        base, rod = ((g - half) % 360.0 for g in gaps)
        if _near(base, 0.0) and _near(rod % 90.0, 0.0):
            turn = "" if half == 0.0 else "the whole half round, then "
            text = (
                f"ports: {turn}the head turned {rod:g} degrees on its tie rods (it turns in "
                "quarters, the base mount stays on its cap); tie rods tightened anew to the "
                "builder's torque, by whoever may"
            )
            job = Job("turn the head", text, 3.0)
            return Answer("works with", "the head turns in quarters", jobs=(job,), old=old, new=new)
    return None


def _near(a: float, b: float) -> bool:
    return abs((a - b + 180.0) % 360.0 - 180.0) <= HOSE_TURNS


def _hours(clocks: list[float | None]) -> str:
    said = ["-" if c is None else hour(c) for c in clocks]
    return said[0] if said[0] == said[1] else f"{said[0]}, {said[1]}"


def place(s: Sides, table: str) -> Answer | None:
    """Judge where a port stands along the cylinder."""
    if not same_datums(s, ("body",)):
        return None
    return _moved(s, f"{table}.position", f"{END[table]} port: hose {{}} longer or shorter")


def height(s: Sides, table: str) -> Answer | None:
    """Judge how far a port stands out of the barrel."""
    return _moved(s, f"{table}.height", f"{END[table]} port: extension fitting, or hose, {{}}")


def _moved(s: Sides, name: str, text: str) -> Answer | None:
    old, new = s.pair(name)
    if old is None or new is None:
        return None  # where it stands is seen, and a hose gives
    gap = new - old
    if abs(gap) <= 0.5:
        return Answer("same")
    if abs(gap) <= HOSE_GIVES:
        return Answer("works", "the hose gives that much")
    job = Job("hoses of other length", f"{text.format(s.say(abs(gap)))}; look that it bends", 0.5)
    return Answer("works with", "the hose must follow", jobs=(job,))


RULES = (
    *(
        Rule(f"{t}.thread", f"{END[t]} port", (f"{t}.thread", "duty.flow"),
             partial(thread, table=t), MEMORY, "", ("hoses.base", "hoses.rod", "supply.flow"))
        for t in END
    ),
    *adapters.RULES,
    Rule("ports.clock", "ports face",
         (*CLOCKS, "body_mount.mount", "cylinder.construction"), clock, PRACTICE, "",
         ask_last=CLOCKS),
    *(
        rule
        for t in END
        for rule in (
            Rule(f"{t}.position", f"{END[t]} port along", (f"{t}.position", "body_mount.mount"),
                 partial(place, table=t), PRACTICE, decides=False),
            Rule(f"{t}.height", f"{END[t]} port height", (f"{t}.height",),
                 partial(height, table=t), PRACTICE, decides=False),
            Rule(f"{t}.speed", f"oil speed, {END[t]} port",
                 (f"{t}.thread", "duty.flow", *loads.FIELDS), partial(speed, table=t),
                 "flow over the passage; 6 m/s common practice, from memory", "mm/s",
                 ("supply.flow",), False),
        )
    ),
)  # fmt: skip
