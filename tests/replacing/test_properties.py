"""A cylinder against itself, swapped sides, and one size changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from drafting.model.load import load, read
from drafting.replacing.judge import compare
from drafting.replacing.known import Subject, subject
from drafting.replacing.rule import Answer, Rule, Said, Sides
from drafting.replacing.table import RULES
from tests.replacing.offers import cylinder, judged, row

SPECS = sorted(Path("specs").glob("*.toml"))


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_a_cylinder_against_itself_is_the_same_everywhere(path):
    one = subject(load(read(str(path))))
    c = compare(one, one)
    assert {r.verdict for r in c.rows} == {"same"}
    assert c.verdict == "fits"
    assert c.jobs == ()


class Watched(Mapping[str, Said]):
    """Values that remember who was asked for."""

    def __init__(self, values: Mapping[str, Said], asked: set[str]) -> None:
        self.values_, self.asked = values, asked

    def __getitem__(self, name: str) -> Said:
        self.asked.add(name)
        return self.values_[name]

    def __contains__(self, name: object) -> bool:
        self.asked.add(str(name))
        return name in self.values_

    def __iter__(self) -> Iterator[str]:
        raise AssertionError("a rule reads fields that it names")

    def __len__(self) -> int:
        return len(self.values_)


MACHINE: dict[str, Said] = {
    "distance.closest": 900.0,
    "distance.farthest": 1500.0,
    "base_ears.pin": 20.0,
    "rod_ears.gap": 60.0,
    "supply.flow": 0.5,
    "pair.count": 2.0,
}


def unnamed(rule: Rule, one: Subject, other: Subject) -> set[str]:
    """The fields that a rule reads without naming them."""
    cylinders: set[str] = set()
    machines: set[str] = set()
    for machine in ({}, MACHINE):
        sides = (Watched(one.values, cylinders), Watched(other.values, cylinders))
        rule.judge(Sides(*sides, Watched(machine, machines), "in"))
    return (cylinders - set(rule.reads)) | (machines - set(rule.asks))


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.field)
def test_a_rule_reads_only_what_it_names(rule):
    subjects = [subject(load(read(str(p)))) for p in SPECS[::3]] + [subject(cylinder())]
    for one in subjects:
        for other in subjects:
            assert unnamed(rule, one, other) == set()


def test_that_rule_can_fail():
    def nosy(s: Sides) -> Answer | None:
        return Answer("same") if "cylinder.bore" in s.old else None

    one = subject(cylinder())
    assert unnamed(Rule("x", "x", (), nosy), one, one) == {"cylinder.bore"}


CHANGES = {
    "cylinder.bore": "2 3/4",
    "cylinder.rod": "1 3/4",
    "cylinder.working_pressure": "3000 psi",
    "cylinder.barrel_outside": "3 3/4",
    "body_mount.hole": "1.05",
    "body_mount.width": "2 3/4",
    "rod_mount.outside": "2 1/4",
    "rod_mount.hole": "1.1",
    "rod_mount.width": "2 1/4",
    "base_port.thread": "SAE-6",
    "rod_port.clock": "3:00",
}


@pytest.mark.parametrize(("field", "value"), CHANGES.items(), ids=lambda x: str(x))
def test_one_size_changed_changes_exactly_the_rules_that_name_it(field, value):
    c = judged(**{field.replace(".", "__"): value})
    changed = {r.rule.field for r in c.rows if r.verdict != "same"}
    named = {r.field for r in RULES if _names(r, field)}
    assert changed
    assert changed <= named
    asked = {"rod_port.clock": "ports.clock"}.get(field, field.replace(".hole", ".pin"))
    assert row(c, asked).verdict != "same"


def _names(rule: Rule, field: str) -> bool:
    """Whether a rule names a field, or what is reckoned of the whole cylinder."""
    whole = {"mass", "column", "strength"}
    return bool({field, f"{field}_from_rod", *whole} & set(rule.reads))


MIRRORED = {
    ("works", "not known"), ("works", "works"), ("same", "same"), ("changes", "changes"),
    ("works with", "works with"), ("works with", "does not fit"), ("not known", "not known"),
    ("works with", "changes"), ("works with", "not known"), ("works", "changes"),
    ("works", "works with"), ("works", "does not fit"), ("changes", "does not fit"),
}  # fmt: skip


@pytest.mark.parametrize(("field", "value"), CHANGES.items(), ids=lambda x: str(x))
def test_swapping_the_two_mirrors_every_verdict(field, value):
    one, other = subject(cylinder()), subject(cylinder(**{field.replace(".", "__"): value}))
    there, back = compare(one, other), compare(other, one)
    backs = {r.rule.field: r for r in back.rows}
    for r in there.rows:
        if r.rule.field.endswith(".bearing"):
            continue  # the pin is the machine's: a larger one is not put in for a larger hole
        m = backs.get(r.rule.field)
        if m is None:
            assert r.rule.field == "relief"
            continue
        assert (r.verdict == "same") == (m.verdict == "same"), r.rule.field
        pair = (r.verdict, m.verdict)
        assert pair in MIRRORED or pair[::-1] in MIRRORED, (r.rule.field, pair)
        if r.difference is not None and r.rule.field.count(".") and m.difference is not None:
            assert r.difference == pytest.approx(-m.difference, abs=1e-9), r.rule.field
