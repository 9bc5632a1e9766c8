"""The mounts between the machine's ears, judged by the table of replacement rules.

The rules compare a new cylinder with an old one in a machine; here the machine is known and there
is no old one but its kind of mount, so that every size is held against the machine's own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from drafting.fitting.machine import Ears, Machine
from drafting.fitting.row import Row, Unit, Verdict
from drafting.fitting.subject import Subject, known
from drafting.replacing.known import subject as known_of
from drafting.replacing.loads import PRESSURES
from drafting.replacing.rule import Answer, Known, Rule, Sides, number
from drafting.replacing.table import RULES
from drafting.told.short import quantity

V = TypeVar("V")
MEETS = ("width", "gap", "nose", "outside", "throat", "pin", "length", "tilt", "in_line", "grease")
ROOM = {"nose": "behind", "outside": "around", "throat": "lug_nose"}
"""What the machine says of the room that a size needs."""
ASKED = {**ROOM, "width": "gap", "gap": "lug", "pin": "pin"}
"""What of the ears a size is held against."""
VERDICTS: dict[str, Verdict] = {
    "same": "fits", "works": "fits", "works with": "fits with work", "changes": "fits with work",
    "does not fit": "does not fit", "not known": "not known",
}  # fmt: skip


def ears(s: Subject, m: Machine) -> Iterator[Row]:
    """Judge each end whose ears the machine file tells; say what to measure of the other."""
    of = known_of(s.cylinder)
    machine = known(m)
    for end, table, its in (("body", "base_ears", m.base_ears), ("rod", "rod_ears", m.rod_ears)):
        if its is None:
            yield Row("ears", table, f"{_word(end)} ears", "not known",
                      do=f"measure gap, pin, hole and ear, and write [{table}]",
                      why="nothing is said of the machine's ears", decides=False)  # fmt: skip
            continue
        old, new = _machine_side(end, table, of.values, machine), _with_nose(end, of.values)
        for rule in RULES:
            name = rule.field.partition(".")[2]
            if not rule.field.startswith(end) or name not in MEETS:
                continue
            said = rule.field in new and f"{table}.{ROOM.get(name)}" in machine
            answer = rule.judge(Sides(old, new, machine, m.units)) if _asked(name, said) else None
            if answer is not None:
                yield _row(rule, answer, table, new, machine)
        yield from _open_room(m, end, table, its, new, _with_nose(end, of.drawn))


def _asked(name: str, said: bool) -> bool:
    return name not in ROOM or said


def _word(end: str) -> str:
    return "base" if end == "body" else end


def _with_nose(end: str, values: Mapping[str, V]) -> dict[str, V | float]:
    """Add the nose of a mount that is round and has none: half of its outside."""
    found: dict[str, V | float] = dict(values)
    outside = found.get(f"{end}_mount.outside")
    if isinstance(outside, float):
        found.setdefault(f"{end}_mount.nose", outside / 2)
    return found


def _open_room(
    m: Machine, end: str, table: str, its: Ears, typed: Known, drawn: Mapping[str, float]
) -> Iterator[Row]:
    """Say what room about a pin is not judged: what is to be measured, and the bound it must keep.

    A size that was drawn by rule proves nothing; where it would strike, that decides. What the
    machine does not say of its room is asked for only where no model of it shows it.
    """
    wanted = []
    for name, side in ROOM.items():
        field = f"{end}_mount.{name}"
        has, room = number(typed, field), getattr(its, side)
        size = has if has is not None else drawn.get(field)
        if size is None or (has is not None and room is not None):
            continue
        half = 2 if name == "outside" else 1
        below = name == "throat"
        if room is None:
            if m.model is None or below:
                say = quantity(size / half, "mm", m.units)
                wanted.append(f"[{table}] {side} {'less' if below else 'more'} than {say}")
            continue
        bound = quantity(half * room, "mm", m.units)
        ask = f"{field}: {bound} or {'more' if below else 'less'}"
        if (size <= room) if below else (size > half * room):
            why = f"not typed; as drawn by rule, {quantity(size, 'mm', m.units)}, it would strike"
            yield Row("ears", field, f"{_word(end)} {name}", "not known", "mm", half * room, None,
                      None, f"measure {ask}", why, decides=True)  # fmt: skip
        else:
            wanted.append(ask)
    if wanted:
        yield Row("ears", f"{end}_mount.room", f"{_word(end)} room about pin", "not known",
                  do=f"measure {'; '.join(wanted)}", decides=False)  # fmt: skip


def _machine_side(end: str, table: str, new: Known, machine: Known) -> Known:
    """Give what the rules see as the old cylinder: the kind of mount, and the machine's own pin."""
    t = f"{end}_mount"
    found = {k: v for k, v in new.items() if k in (f"{t}.mount", *PRESSURES)}
    pin = number(machine, f"{table}.pin")
    return found if pin is None else {**found, f"{t}.pin": pin}


def _row(rule: Rule, a: Answer, table: str, new: Known, machine: Known) -> Row:
    """Give a rule's answer as a row: what the machine has, what the mount has, what is left."""
    name = rule.field.partition(".")[2]
    has = a.new if name in ("length", "tilt", "width") else number(new, rule.field)
    asked = number(machine, f"{table}.{ASKED.get(name, name)}")
    left = None
    if isinstance(has, float) and asked is not None:
        if name == "outside":
            asked *= 2
        left = {"width": asked - has, "nose": asked - has, "outside": (asked - has) / 2,
                "gap": has - asked, "throat": has - asked}.get(name)  # fmt: skip
    unit: Unit = "deg" if name == "tilt" else "mm"
    return Row("ears", rule.field, rule.words, VERDICTS[a.verdict], unit, asked,
               has if isinstance(has, float) else None, left, a.do, a.why, rule.source, None,
               a.jobs, rule.decides)  # fmt: skip
