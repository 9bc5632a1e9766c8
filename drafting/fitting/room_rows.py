"""What the look through the machine's model comes to, as rows."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.fitting.clearance import AT_THE_PIN, Ahead, Clearance, Room, Turn
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Machine
from drafting.fitting.row import Row, Verdict
from drafting.fitting.subject import Subject
from drafting.fitting.travel import kind
from drafting.replacing.rule import Job
from drafting.told.short import quantity

SURE, UNSURE = 1e-3, 0.2
"""How exact a confirmed gap is, and one of the mesh alone, mm."""
TURNED = {"fitting": ("turn a fitting", 0.3), "whole": ("turn half round", 0.2),
          "head": ("turn the head", 3.0)}  # fmt: skip
"""What is turned on a cylinder that is there: in short, and the work of it."""
MOST_CLEAR = 4
"""Clear pairs that are named, nearest first."""
KERNEL = "solids, confirmed by the kernel"
SWORN = "a point inside of both solids, by formula and kernel; the volume by triangles"
MESH = "triangles within 0.1 mm of the faces"


def room_rows(s: Subject, m: Machine, r: Room | None) -> tuple[Row, ...]:
    """Judge every pair that is struck or too near; name the nearest of the others."""
    if r is None:
        why = "no model of the machine is given: what stands beside the cylinder was not looked at"
        return (Row("room", "room", "room", "not known", do="write [model] with the machine's STEP",
                    why=why, decides=False),)  # fmt: skip
    bad = [c for c in r.clearances if _missing(c) < 0.0 or _open_between(c)]
    clear = [c for c in r.clearances if c not in bad and not c.piece.startswith(AT_THE_PIN)]
    pins = [c for c in r.clearances if c not in bad and c not in clear]
    return (*(_row(m, c, r.turns) for c in (*bad, *clear[:MOST_CLEAR], *pins[:2])), *_open(s, m, r))


def _missing(c: Clearance) -> float:
    if c.clash or c.doubt:
        return -1.0
    return c.gap - c.asked + (SURE if c.confirmed else -UNSURE)


def _row(m: Machine, c: Clearance, turns: tuple[Turn, ...]) -> Row:
    field = f"room.{c.piece}"
    words = f"{c.piece} - {c.solid}"
    at = say_at(m, c.at)
    if c.clash:
        why = (
            f"{c.piece} runs into {c.solid} at {at}: {_volume(c.clash)} mm3 of it, "
            f"a point lies {c.deep:.2f} mm deep in both"
            if c.deep
            else f"at {at} one lies inside of the other, {_volume(c.clash)} mm3"
        )
        verdict, do, jobs = _turned(m, c, turns)
        do = do or "move the pin, turn the port, or cut the machine there"
        return Row("room", field, words, verdict, "mm", c.asked, 0.0, None, do, why, SWORN,
                   c.at, jobs)  # fmt: skip
    left = c.gap - c.asked
    source = KERNEL if c.confirmed else MESH
    if c.doubt:
        why = f"kernel and triangles do not agree; the lesser says {c.gap:.2f} mm, at {at}"
        return Row("room", field, words, "not known", "mm", c.asked, c.gap, left,
                   "measure there", why, source, c.at)  # fmt: skip
    if _missing(c) < 0.0:
        sure = c.confirmed or left < -UNSURE
        why = f"{quantity(c.gap, 'mm', m.units)} at {at}"
        verdict, do, jobs = _turned(m, c, turns)
        return Row("room", field, words, verdict if sure else "not known", "mm", c.asked, c.gap,
                   left, do, why, source, c.at, jobs if sure else ())  # fmt: skip
    why = f"nearest at {at}, {_between(m, c)}"
    if _open_between(c):
        return Row("room", field, words, "not known", "mm", c.asked, c.gap, left,
                   "look there by eye, or write a smaller travel", why, source, c.at)  # fmt: skip
    return Row("room", field, words, "fits", "mm", c.asked, c.gap, left, "", why, source,
               c.at)  # fmt: skip


def _turned(
    m: Machine, c: Clearance, turns: tuple[Turn, ...]
) -> tuple[Verdict, str, tuple[Job, ...]]:
    """Say what turning does for a piece that is struck or too near, and what is to be done."""
    found = next((t for t in turns if c.piece.startswith(f"{t.port}.")), None)
    if found is None:
        return "does not fit", "", ()
    left = quantity(found.left, "mm", m.units)
    clear = f"it clears then with at least {left} more than is asked"
    said = f"{found.words}; {clear}"
    if found.what not in TURNED:
        return "does not fit", said, ()
    return "fits with work", "", (Job(TURNED[found.what][0], said, TURNED[found.what][1]),)


def _volume(v: float) -> str:
    return f"{v:,.0f}" if v >= 10.0 else f"{v:.2g}"


def _open_between(c: Clearance) -> bool:
    """Tell whether it may be struck between two places, as far as was looked."""
    return c.step > 0.0 and c.never == 0.0 and c.gap > UNSURE


def _between(m: Machine, c: Clearance) -> str:
    """Say whether it is sure between the places that were looked at."""
    if c.step == 0.0:
        return "sure for the whole travel"
    step = f"{c.step:.2g} deg" if kind(m.way) == "deg" else quantity(c.step, "mm", m.units)
    return f"looked at every {step}"


def _out(m: Machine, a: Ahead) -> Row:
    """Say the room straight out of a port of which nobody said what screws in."""

    def say(mm: float) -> str:
        return quantity(mm, "mm", m.units)

    left = a.free - a.asked.bent
    end = f"{a.solid} ends it at {say_at(m, a.at)}" if a.solid else "nothing of the machine ends it"
    if left < 0.0:
        takes = f"even a 90 degree fitting takes {say(a.asked.bent)}"
    elif a.solid:
        takes = (
            f"a 90 degree fitting goes there; a straight one and its bent hose take "
            f"{say(a.asked.straight)}"
        )
    else:
        takes = "room for a straight fitting and its bent hose"
    return Row("room", f"room.{a.port}.ahead", f"out of {a.port.replace('_', ' ')}", "not known",
               "mm", a.asked.bent, a.free, left,
               f'type fitting = "straight" or "90" at {a.port}: hose and bend are looked at then',
               f"{end}; {takes}", a.asked.source, a.at if a.solid else None,
               decides=left < 0.0)  # fmt: skip


def _open(s: Subject, m: Machine, r: Room) -> Iterator[Row]:
    if not r.clearances:
        why = f"nothing of the machine comes within {r.reach:.0f} mm of it"
        yield Row("room", "room", "room", "fits", why=why, source=KERNEL)
    if not r.looked:
        yield Row("room", "room", "room", "not known", decides=False,
                  why="the cylinder reaches no place of the travel")  # fmt: skip
    yield from (_out(m, a) for a in r.ahead)
    flanged = [p.table for p in s.cylinder.ports if p.thread.is_flange and not p.sizes.plugged]
    if flanged:
        yield Row("room", "room.fittings", "fittings, hoses", "not known", decides=False,
                  do="look for their room by eye",
                  why=f"{', '.join(flanged)}: no room of a flanged hose is known here")  # fmt: skip
    for name in dict.fromkeys(r.unseen):
        yield Row("room", f"model.{name}", name, "not known", decides=True,
                  do="export the model anew, or look there by eye",
                  why="the kernel makes no triangles of a face of it: not looked at")  # fmt: skip
    for name in r.unpinned:
        yield Row("room", f"model.{name}", name.replace("_", " "), "not known", decides=True,
                  do="look where it lies in the model",
                  why="no round hole or pin of the model lies about it")  # fmt: skip
