"""A question put to the numbers: what it rests on, and how the factor follows from that."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product
from typing import Literal

from drafting.checks.bands import Band
from drafting.checks.check import LoadCase
from drafting.checks.numbers import Number
from drafting.checks.steels import Steel
from drafting.records import dataclass

At = Mapping[str, float]
Factor = Callable[[At, LoadCase], float]


@dataclass(frozen=True, slots=True)
class Input:
    """A number that a factor rests on, by the field to type.

    ``low`` to ``high`` is one number, or a range. ``sure`` tells that it was typed or measured;
    one that is not ``known`` is only where the search for what would do begins. ``word`` is what
    to type for the upper end, where that is no number.
    """

    field: str
    low: float
    high: float
    sure: bool = True
    known: bool = True
    unit: str = "mm"
    word: str = ""

    @property
    def open(self) -> bool:
        """Tell whether it is a range."""
        return self.low != self.high


def sized(n: Number, unit: str = "mm") -> Input:
    """Give a size as an input."""
    return Input(n.name, n.value, n.value, n.firm, True, unit)


def unknown(field: str, begin: float, unit: str = "mm") -> Input:
    """Give an input that nobody typed and no rule gives."""
    return Input(field, begin, begin, False, False, unit)


def unsaid(field: str) -> Input:
    """Give a word that nobody typed; no number stands for it."""
    return unknown(field, 1.0, "word")


def strong(s: Steel, which: Literal["strength", "tensile", "welded"] = "strength") -> Input:
    """Give a strength of a steel as an input."""
    low, high = getattr(s, which)
    return Input(s.field, low, high, unit="MPa", word="E355" if which == "welded" else "")


@dataclass(frozen=True, slots=True)
class Question:
    """What is judged: a code and a name, the band, the inputs, the factor, the source, a note."""

    code: str
    name: str
    band: Band
    inputs: tuple[Input, ...]
    factor: Factor
    source: str
    note: Callable[[At, LoadCase], str] = lambda at, case: ""

    def least(self, at: At, cases: Sequence[LoadCase]) -> float:
        """Give the factor of the worst of some cases."""
        return min(self.factor(at, c) for c in cases)

    def lowest(self, cases: Sequence[LoadCase]) -> float:
        """Give what is sure to be there: the least at any corner of the ranges."""
        return min(self.least(at, cases) for at in corners(self.inputs))


def corners(inputs: Sequence[Input]) -> Iterator[dict[str, float]]:
    """Give every choice of ends of the ranges, as values by field."""
    ranges = [(i.low, i.high) if i.open else (i.low,) for i in inputs]
    for values in product(*ranges):
        yield {i.field: v for i, v in zip(inputs, values, strict=True)}
