"""What a rule of replacement is, what it sees and what it answers.

A rule names the fields that it reads, and sees no others: one answer serves every candidate that
has the same in those fields, and a size that no rule names changes no verdict.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import ceil
from typing import Literal

from drafting.records import dataclass
from drafting.told.short import quantity, size

Verdict = Literal["same", "works", "works with", "changes", "does not fit", "not known"]
WORST_FIRST: tuple[Verdict, ...] = (
    "does not fit", "not known", "works with", "changes", "works", "same",
)  # fmt: skip
Said = float | str | bool
Known = Mapping[str, Said]
"""Values by dotted name, in mm, MPa, l/s, N, kg or degrees, words and yes or no."""
PRACTICE = "common practice"
MEMORY = "common practice, from memory"


@dataclass(frozen=True, slots=True)
class Job:
    """Something to do. ``short`` for the headline, ``text`` for the work list.

    ``effort`` ranks jobs: 1 is an hour at the bench (ours, to rank by and for nothing else).
    """

    short: str
    text: str
    effort: float = 1.0


@dataclass(frozen=True, slots=True)
class Answer:
    """What a rule says. ``old`` and ``new`` stand for the values of its field where they differ.

    ``why`` is what it means, ``do`` what to do or to measure; ``far`` how far a thing is from
    fitting, as a share.
    """

    verdict: Verdict
    why: str = ""
    do: str = ""
    jobs: tuple[Job, ...] = ()
    old: Said | None = None
    new: Said | None = None
    far: float = 0.0


@dataclass(frozen=True, slots=True)
class Sides:
    """What a rule sees: the original, the candidate, the machine, each as far as it is known.

    ``units`` are those that its words are in, "in" or "mm".
    """

    old: Known
    new: Known
    machine: Known
    units: str

    def pair(self, name: str) -> tuple[float | None, float | None]:
        """Give the number of a field on both sides, None where it is not known."""
        return number(self.old, name), number(self.new, name)

    def numbers(self, name: str) -> tuple[float, float] | None:
        """Give the number of a field on both sides, None unless it is known on both."""
        a, b = self.pair(name)
        return None if a is None or b is None else (a, b)

    def words(self, name: str, otherwise: str = "") -> tuple[str, str]:
        """Give the word of a field on both sides."""
        return word(self.old, name, otherwise), word(self.new, name, otherwise)

    def say(self, mm: float) -> str:
        """Say a length with its unit, as a person of that unit writes it."""
        return quantity(mm, "mm", self.units)

    def about(self, mm: float) -> str:
        """Say a length that is not known better than to a sixteenth or a millimetre, rounded up."""
        step = 25.4 / 16 if self.units == "in" else 1.0
        return self.say(ceil(mm / step - 1e-6) * step)

    def bare(self, mm: float) -> str:
        """Say a length without its unit."""
        return size(mm, self.units)

    def force(self, newton: float) -> str:
        """Say a force."""
        return quantity(newton, "N", self.units)

    def speed(self, mm_s: float) -> str:
        """Say a speed of oil."""
        return f"{mm_s / 304.8:.1f} ft/s" if self.units == "in" else f"{mm_s / 1000:.1f} m/s"

    def pressure(self, mpa: float) -> str:
        """Say a pressure."""
        return quantity(mpa, "MPa", self.units)


def number(known: Known, name: str) -> float | None:
    """Give a number, None where there is none."""
    value = known.get(name)
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def word(known: Known, name: str, otherwise: str = "") -> str:
    """Give a word, or the one that stands for none."""
    value = known.get(name)
    return value if isinstance(value, str) else otherwise


@dataclass(frozen=True, slots=True)
class Rule:
    """One judgement. ``field`` is what it is about: a dotted name, or the name of a consequence.

    ``judge`` gives None where the question does not arise. ``reads`` are the fields of the two
    cylinders, ``asks`` those of the machine. ``unit`` is that of ``old`` and ``new``: mm, N, MPa,
    s, l, mm/s, kg, deg or none. ``decides``: what is not known here makes the whole not known.
    ``ask_last``: where a list of many has none of these fields, it is asked of the one chosen.
    ``same`` is how near two sizes are that nobody tells apart, in the unit.
    """

    field: str
    words: str
    reads: tuple[str, ...]
    judge: Callable[[Sides], Answer | None]
    source: str = PRACTICE
    unit: str = "mm"
    asks: tuple[str, ...] = ()
    decides: bool = True
    ask_last: tuple[str, ...] = ()
    same: float = 0.0


@dataclass(frozen=True, slots=True)
class Row:
    """One rule's answer on two cylinders. ``within``: the difference is less than was measured."""

    rule: Rule
    old: Said | None
    new: Said | None
    answer: Answer
    within: bool = False
    unsaid: bool = False

    @property
    def verdict(self) -> Verdict:
        """Give the verdict."""
        return self.answer.verdict

    @property
    def difference(self) -> float | None:
        """Give candidate less original, None where either is no number."""
        a, b = (x if isinstance(x, int | float) and not isinstance(x, bool) else None
                for x in (self.old, self.new))  # fmt: skip
        return None if a is None or b is None else b - a
