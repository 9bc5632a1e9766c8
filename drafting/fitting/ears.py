"""The mounts between the machine's ears, judged by the table of replacement rules.

The rules compare a new cylinder with an old one in a machine; here the machine is known and there
is no old one but its kind of mount, so that every size is held against the machine's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.fitting.machine import Machine
from drafting.fitting.row import Row, Verdict
from drafting.fitting.subject import Subject, known
from drafting.replacing.known import subject as known_of
from drafting.replacing.loads import PRESSURES
from drafting.replacing.rule import Answer, Known, Rule, Sides, number
from drafting.replacing.table import RULES

MEETS = ("width", "gap", "nose", "pin")
VERDICTS: dict[str, Verdict] = {
    "same": "fits", "works": "fits", "works with": "fits with work", "changes": "fits with work",
    "does not fit": "does not fit", "not known": "not known",
}  # fmt: skip


def ears(s: Subject, m: Machine) -> Iterator[Row]:
    """Judge each end whose ears the machine file tells; say what to measure of the other."""
    new = known_of(s.cylinder).values
    machine = known(m)
    for end, table, its in (("body", "base_ears", m.base_ears), ("rod", "rod_ears", m.rod_ears)):
        if its is None:
            yield Row("ears", table, f"{'base' if end == 'body' else 'rod'} ears", "not known",
                      do=f"measure gap, pin, hole and ear, and write [{table}]",
                      why="nothing is said of the machine's ears", decides=False)  # fmt: skip
            continue
        old = _machine_side(end, table, new, machine)
        for rule in RULES:
            if _about(rule, end):
                answer = rule.judge(Sides(old, new, machine, m.units))
                if answer is not None:
                    yield _row(rule, answer, end, table, new, machine)


def _about(rule: Rule, end: str) -> bool:
    mount, _, name = rule.field.partition(".")
    return mount == f"{end}_mount" and name in MEETS


def _machine_side(end: str, table: str, new: Known, machine: Known) -> Known:
    """Give what the rules see as the old cylinder: the kind of mount, and the machine's own pin."""
    t = f"{end}_mount"
    found = {k: v for k, v in new.items() if k in (f"{t}.mount", *PRESSURES)}
    pin = number(machine, f"{table}.pin")
    return found if pin is None else {**found, f"{t}.pin": pin}


def _row(rule: Rule, a: Answer, end: str, table: str, new: Known, machine: Known) -> Row:
    name = rule.field.partition(".")[2]
    has = number(new, rule.field)
    asked = next((number(machine, f) for f in rule.asks if number(machine, f) is not None), None)
    if asked is None:
        asked = number(machine, f"{table}.{name}")
    left = None if has is None or asked is None or name not in ("width", "nose") else asked - has
    return Row("ears", rule.field, rule.words, VERDICTS[a.verdict], "mm", asked, has, left, a.do,
               a.why, rule.source, None, a.jobs)  # fmt: skip
