"""What a builder is asked: sizes to hold with a place for his tolerance, make, open questions."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.checks.completeness import Question, open_questions
from drafting.checks.numbers_of import cylinder_numbers
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.settle.tolerance import tolerance_of
from drafting.spec.tolerance_sense import reference_length
from drafting.told.drawn_by_rule import size_label
from drafting.told.facts import ASKED
from drafting.told.held import FIELDS, LOOSE
from drafting.units import spell

LENGTHS = ("retracted", "stroke", "extended")
MAKE = (*ASKED, ("cylinder.mount_material", "Mount material"))
"""What it is made of and how, where the spec says it; what it leaves open is a question."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that is asked for: its dotted name, its words, and the text of the spec.

    ``mm`` is the size where it is one. ``tolerance`` is what was typed, empty where the builder
    states his, None where none belongs. ``meets`` tells that it meets the machine.
    """

    name: str
    words: str
    text: str
    mm: float | None = None
    tolerance: str | None = None
    meets: bool = False


def sizes_asked(c: Cylinder) -> tuple[Asked, ...]:
    """Give the sizes to hold that a spec can say, in the order of the data sheet."""
    return tuple(_sizes(c))


def make_asked(c: Cylinder) -> tuple[Asked, ...]:
    """Give what is typed of materials, pressures and finish."""
    return tuple(Asked(n, words, g.typed) for n, words in MAKE if (g := c.spec.get(n)) is not None)


def questions_asked(c: Cylinder) -> tuple[Question, ...]:
    """Give the open questions, worst first: the numbers of the form's answers."""
    return open_questions(cylinder_numbers(c))


def _sizes(c: Cylinder) -> Iterator[Asked]:
    for word in LENGTHS:
        if word != reference_length(c.spec):
            yield _size(c, f"cylinder.{word}", getattr(c.lengths, word), True)
    for name in ("cylinder.bore", "cylinder.rod"):
        yield from _of_value(c, name, False)
    for end in ("body", "rod"):
        thread = c.spec.get(f"{end}_mount.thread")
        if thread is not None:
            yield Asked(f"{end}_mount.thread", _words(end, "thread"), thread.typed, meets=True)
        for field, _ in FIELDS:
            name = f"{end}_mount.{field}"
            if field not in LOOSE or c.spec.has(name):
                yield from _of_value(c, name, field not in LOOSE)
    for port in c.ports:
        words = size_label(c, f"{port.table}.thread")
        typed = c.spec.get(f"{port.table}.thread")
        if typed is not None:
            yield Asked(f"{port.table}.thread", words, typed.typed, meets=True)
        yield _size(c, f"{port.table}.position", port.x, True)


def _words(end: str, what: str) -> str:
    return f"{'Base' if end == 'body' else 'Rod'} {what}"


def _of_value(c: Cylinder, name: str, meets: bool) -> Iterator[Asked]:
    value = c.value(name)
    if value is not None and value.unit == "mm" and isinstance(value.value, float | int):
        yield _size(c, name, float(value.value), meets)


def _size(c: Cylinder, name: str, mm: float, meets: bool) -> Asked:
    given = c.spec.get(name)
    held = tolerance_of(c.tolerances, name)
    text = given.typed if given is not None else spell(round(mm, 3), "length", c.spec.units)
    return Asked(name, size_label(c, name), text, mm, held.typed if held else "", meets)
