"""The open questions as one table, in the order of asking, and when each is asked.

Weights are the trade's, common practice: 3 is unsafe or unusable without an answer, 2 decides
price, parts or fit, 1 will be asked.
"""

from dataclasses import replace

import pytest

from drafting.checks.completeness import RULES, open_questions
from drafting.checks.numbers import Duty
from tests.checks.sample_numbers import duty, numbers

TABLE = (
    ("cylinder.working_pressure", 3, "always"),
    ("cylinder.relief_pressure", 3, "always"),
    ("duty.push", 3, "pushes"),
    ("duty.pull", 2, "pulls"),
    ("duty.safety_factor", 3, "always"),
    ("duty.lifts_people", 3, "always"),
    ("duty.orientation", 2, "always"),
    ("duty.mass", 2, "not flat"),
    ("duty.flow", 2, "always"),
    ("cylinder.spring_force", 2, "spring"),
    ("cylinder.fluid", 3, "always"),
    ("cylinder.temperature", 2, "always"),
    ("cylinder.seals", 2, "always"),
    ("cylinder.barrel_material", 2, "always"),
    ("cylinder.rod_material", 2, "always"),
    ("cylinder.wall", 2, "no outside typed"),
    ("cylinder.gland", 2, "welded"),
    ("cylinder.tie_rod", 2, "tie rods"),
    ("cylinder.cushions", 1, "always"),
    ("cylinder.proof_pressure", 2, "always"),
    ("quantity", 2, "always"),
    ("cylinder.finish", 1, "always"),
    ("body_mount.hole", 2, "body hole"),
    ("rod_mount.hole", 2, "rod hole"),
    ("body_pin.supplied", 1, "a hole"),
    ("cylinder.rod_keyed", 1, "a hole"),
    ("base_port.thread", 3, "pushes"),
    ("rod_port.thread", 3, "pulls"),
    ("duty.load_guided", 3, "pushes"),
    ("body_mount.held", 2, "rod end not said to be held"),
    ("duty.strokes_per_day", 1, "always"),
    ("", 1, "always"),
)

BOTH = duty(numbers(), orientation="")
VARIANTS = {
    "always": (BOTH, None),
    "pushes": (BOTH, replace(BOTH, action="pull")),
    "pulls": (BOTH, replace(BOTH, action="push")),
    "not flat": (BOTH, duty(BOTH, orientation="horizontal")),
    "no outside typed": (BOTH, replace(BOTH, said=frozenset({"cylinder.barrel_outside"}))),
    "spring": (replace(BOTH, spring=True), BOTH),
    "welded": (BOTH, replace(BOTH, construction="tie rod")),
    "tie rods": (replace(BOTH, construction="tie rod"), BOTH),
    "body hole": (BOTH, numbers(sizes={"body_mount.hole": None})),
    "rod hole": (BOTH, numbers(sizes={"rod_mount.hole": None})),
    "a hole": (numbers(sizes={"body_mount.hole": None}),
               numbers(sizes={"body_mount.hole": None, "rod_mount.hole": None})),
    "rod end not said to be held": (BOTH, replace(BOTH, said=frozenset({"rod_mount.held"}))),
}  # fmt: skip


def asked(n):
    return [q.field for q in open_questions(n)]


def test_the_table():
    assert [(q.field, q.weight) for q, _ in RULES] == [row[:2] for row in TABLE]


@pytest.mark.parametrize(("field", "weight", "when"), TABLE)
def test_each_is_asked_when_it_applies_and_only_then(field, weight, when):
    there, not_there = VARIANTS[when]
    assert field in asked(there)
    if not_there is not None:
        assert field not in asked(not_there)
    answered = replace(there, said=frozenset({field}))
    assert field not in asked(answered)


def test_worst_first_and_among_equals_as_in_the_table():
    table = [(f, w) for f, w, _ in TABLE if f not in ("cylinder.tie_rod", "cylinder.spring_force")]
    worst_first = [f for weight in (3, 2, 1) for f, w in table if w == weight]
    assert asked(BOTH) == worst_first


@pytest.mark.parametrize(("action", "piston", "rod_oil"), [
    ("double", "sealed", True), ("pull", "sealed", True), ("push", "sealed", False),
    ("push", "displacement", False), ("double", "displacement", False)])  # fmt: skip
def test_a_rod_port_only_where_oil_pulls(action, piston, rod_oil):
    n = numbers(action=action, piston=piston, duty=Duty())
    assert ("rod_port.thread" in asked(n)) is rod_oil
    assert ("duty.pull" in asked(n)) is rod_oil


def test_what_is_held_is_asked_only_of_a_cylinder_that_pushes():
    assert "body_mount.held" not in asked(numbers(action="pull"))
