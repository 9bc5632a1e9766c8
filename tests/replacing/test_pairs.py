"""The thirty pairs of PAIRS.md: the verdict that a foreman would give, whole and in a row."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.replacing.judge import Comparison
from drafting.replacing.rule import Known
from tests.replacing.offers import judged, row

TABLE = Path(__file__).with_name("PAIRS.md")
IN = 25.4
MACHINES: dict[str, Known] = {
    "": {},
    "rack": {
        "distance.closest": 36.5 * IN,
        "distance.farthest": 59 * IN,
        "distance.hard_closest": 35 * IN,
        "distance.hard_farthest": 61 * IN,
    },
}


def pairs() -> list[list[str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    rows = [[c.strip() for c in x.strip("|").split("|")] for x in lines if x.startswith("| ")]
    return rows[2:]


def offer(words: str, machine: str) -> Comparison:
    changes: dict[str, str | None] = {}
    for part in words.split(";"):
        name, _, value = part.strip().partition(" = ")
        if value:
            changes[name.replace(".", "__")] = None if value == "-" else value
    return judged(MACHINES[machine], **changes)


@pytest.mark.parametrize("pair", pairs(), ids=lambda p: f"{p[0]}-{p[4]}")
def test_a_foreman_would_say_the_same(pair):
    _, words, machine, whole, field, verdict, says = pair
    c = offer(words, machine)
    found = row(c, field)
    told = " ".join([found.answer.why, found.answer.do, *(j.text for j in found.answer.jobs)])
    shown = {r.rule.field: r.verdict for r in c.rows if r.verdict not in ("same", "works")}
    assert found.verdict == verdict, (told, shown)
    assert says in told
    assert c.verdict == whole, shown


def test_there_are_thirty():
    assert [p[0] for p in pairs()] == [str(k) for k in range(1, 31)]
