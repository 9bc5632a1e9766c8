"""What is asked and what is cautioned; the list of questions is the trade's, common practice."""

from dataclasses import replace

from drafting.checks.cautions import (
    BLOCKED,
    CAN_FALL,
    COLUMN,
    GLAND,
    UNSURE_METAL,
    cautions,
)
from drafting.checks.completeness import RULES, open_questions
from drafting.checks.numbers import Duty
from drafting.checks.steels import steel
from drafting.spec.fields import TABLES
from drafting.told.border import SPRING
from tests.checks.sample_numbers import numbers, steels


def test_every_field_asked_for_exists():
    known = {f"{t.name}.{f.name}" if t.name else f.name for t in TABLES.values() for f in t.fields}
    assert {q.field for q, _ in RULES if q.field} <= known


def test_weights_are_three_and_what_is_unsafe_has_the_highest():
    weight = {q.field: q.weight for q, _ in RULES if q.field}
    assert {q.weight for q, _ in RULES} == {1, 2, 3}
    unsafe = ("cylinder.working_pressure", "cylinder.relief_pressure", "duty.lifts_people")
    assert {weight[f] for f in unsafe} == {3}


def test_worst_first_and_answered_ones_gone():
    left = open_questions(numbers())
    weights = [q.weight for q in left]
    assert weights == sorted(weights, reverse=True)
    assert {"cylinder.fluid", "cylinder.working_pressure"} <= {q.field for q in left}
    said = open_questions(numbers(said=frozenset({"cylinder.fluid"})))
    assert len(said) == len(left) - 1
    assert "cylinder.fluid" not in {q.field for q in said}


def test_questions_follow_the_kind_of_cylinder():
    def fields(n):
        return {q.field for q in open_questions(n)}

    assert "cylinder.tie_rod" not in fields(numbers())
    assert "cylinder.tie_rod" in fields(numbers(construction="tie rod"))
    assert "rod_port.thread" not in fields(numbers(action="push"))
    assert "duty.mass" not in fields(numbers())
    assert "duty.mass" in fields(numbers(duty=Duty(orientation="vertical")))


def test_cautions_where_they_apply():
    flat = cautions(numbers())
    assert flat.refusal == ""
    assert COLUMN in flat.texts
    assert GLAND in flat.texts
    assert CAN_FALL not in flat.texts
    assert CAN_FALL in cautions(numbers(duty=Duty())).texts
    assert COLUMN not in cautions(numbers(action="pull")).texts
    for action in ("double", "push"):
        for piston in ("sealed", "none"):
            told = cautions(numbers(action=action, piston=piston)).texts
            assert (BLOCKED in told) is (action == "double" and piston == "sealed")
    assert SPRING in cautions(numbers(spring=True)).texts
    guessed = numbers(steels=steels(pin=steel("cylinder.pin_material", "pin", None)))
    assert UNSURE_METAL in cautions(guessed).texts
    assert UNSURE_METAL not in flat.texts


def test_people_are_refused_with_a_pointer():
    n = numbers()
    refused = cautions(replace(n, duty=replace(n.duty, lifts_people=True)))
    assert "does not call such a cylinder safe" in refused.refusal
    assert "licensed engineer" in refused.refusal
    assert "codes in force" in refused.refusal
