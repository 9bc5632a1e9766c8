"""A settled cylinder as the checks see it, and what they say of it."""

from __future__ import annotations

from dataclasses import replace

from drafting.checks.all import all_checks
from drafting.checks.cautions import Cautions, cautions
from drafting.checks.check import Check, LoadCase
from drafting.checks.completeness import Question, open_questions
from drafting.checks.holding import falling_load
from drafting.checks.loads import load_cases
from drafting.checks.not_judged import not_judged
from drafting.checks.numbers import CylinderNumbers
from drafting.checks.numbers_of import USUAL, cylinder_numbers
from drafting.checks.steels import steel
from drafting.checks.unused import unused
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.told.length_stack import length_stack
from drafting.values import Finding


@dataclass(frozen=True, slots=True)
class Judgement:
    """What the checks say: verdicts, what a person must look at, open questions, cautions."""

    numbers: CylinderNumbers
    checks: tuple[Check, ...]
    cases: tuple[LoadCase, ...]
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    cautions: Cautions


def judge(c: Cylinder) -> Judgement:
    """Run every check on a cylinder, and find what was typed for nothing."""
    found = _judge(c)

    def said(other: Cylinder) -> object:
        return replace(_judge(other), numbers=found.numbers)

    return replace(found, findings=(*found.findings, *unused(c, said)))


def _judge(c: Cylinder) -> Judgement:
    numbers = cylinder_numbers(c)
    checks = tuple(all_checks(numbers))
    return Judgement(
        numbers,
        checks,
        load_cases(numbers),
        (
            *falling_load(numbers),
            *_unknown_metals(c),
            *_wide_stack(c),
            *not_judged(numbers),
        ),
        open_questions(numbers),
        cautions(numbers),
    )


def _wide_stack(c: Cylinder) -> list[Finding]:
    """Tell where the chain's tolerances go beyond what the retracted length is to hold."""
    s = length_stack(c)
    if not s.too_wide:
        return []
    counted = ", ".join(k.name for k in s.counted)
    message = (
        f"the tolerances of {counted} alone add up to {s.worst[1]:+.3f} / {s.worst[0]:+.3f} mm, "
        "more than is asked of the retracted length; narrow them, or let the builder fit the length"
    )
    return [Finding("stack-too-wide", "warning", "cylinder.retracted", message, "arithmetic")]


def _unknown_metals(c: Cylinder) -> list[Finding]:
    """Give a finding for each typed material of which no grade is known."""
    found = []
    for part in ("rod", "barrel", "pin", "mount", "gland", "tie_rod", "weld"):
        name = f"cylinder.{part}_material"
        words = c.spec.word(name)
        if words and not steel(name, USUAL.get(part, part), words).typed:
            message = (
                f'no grade with a known yield in "{words}"; the checks take what is usual, from '
                'weakest to best. A yield typed with its unit is taken as it is, for example "75 '
                'ksi" or "520 MPa"'
            )
            found.append(Finding("unknown-material", "note", name, message))
    return found
