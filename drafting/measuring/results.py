"""What measuring gives: a row for each letter, and what is still open."""

from __future__ import annotations

from dataclasses import field
from typing import Literal

from drafting.measuring.letters import Letter
from drafting.measuring.readings import Bench
from drafting.records import dataclass
from drafting.spec.given import Typed
from drafting.units import both

Confidence = Literal["sure", "likely", "open", "decided"]


@dataclass(frozen=True, slots=True)
class Result:
    """One size. Lengths in mm, ``uncertainty_mm`` is standard (limits are twice that).

    ``off_by_sigma`` is how far the reading lies from what it was taken to be.
    """

    letter: Letter
    reading_mm: float
    uncertainty_mm: float
    taken_as_mm: float
    taken_as: str
    confidence: Confidence
    note: str = ""

    @property
    def name(self) -> str:
        """Give letter and name."""
        return f"{self.letter.letter} {self.letter.name}"

    @property
    def off_by_sigma(self) -> float:
        """Give the distance from reading to taken size in standard uncertainties."""
        if self.uncertainty_mm == 0:
            return 0.0
        if self.taken_as.startswith("as read"):
            return 0.0
        return (self.reading_mm - self.taken_as_mm) / self.uncertainty_mm


@dataclass(frozen=True, slots=True)
class Open:
    """Something to measure again or to decide. ``name`` is a letter, a table, or empty."""

    name: str
    what: str
    decide: str = ""


FIRST = ("ABSTKL", "PHWGK", "CE")
"""Letters by what their size would change: the lengths, what meets the machine, what it can do."""


def weight(found: Open) -> int:
    """Rank something open, the most telling lowest; ends that were mixed up come before all."""
    name = found.name
    if name == "ends":
        return -1
    if name.endswith("_port"):
        return len(FIRST)
    ranks = [n for n, some in enumerate(FIRST) if name[:1] in some and name[:1].isupper()]
    return ranks[0] if ranks else len(FIRST) + 1


@dataclass
class Account:
    """What is found out while measuring; closed into a ``Measured``."""

    bench: Bench
    rows: dict[str, Result] = field(default_factory=dict)
    open: list[Open] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    values: dict[str, Typed] = field(default_factory=dict)
    comments: dict[str, str] = field(default_factory=dict)

    def ask(self, name: str, what: str, decide: str = "") -> None:
        """Enter something open, once."""
        if not any(o.name == name and o.what == what for o in self.open):
            self.open.append(Open(name, what, decide))

    def say(self, mm: float) -> str:
        """Say a length in both units."""
        return both(mm, self.bench.units)

    def say_read(self, mm: float, u: float) -> str:
        """Say a reading with its limits, in the file's unit."""
        if self.bench.units == "in":
            return f"{mm / 25.4:.3f} ± {2 * u / 25.4:.3f} in"
        return f"{mm:.2f} ± {2 * u:.2f} mm"

    def is_open(self, letter: str) -> bool:
        """Tell whether something is open about a letter."""
        return any(o.name == letter for o in self.open)


@dataclass(frozen=True, slots=True)
class Measured:
    """The result. ``spec`` is TOML text; it is whole only when nothing is open."""

    bench: Bench
    rows: tuple[Result, ...]
    open: tuple[Open, ...]
    notes: tuple[str, ...]
    spec: str

    @property
    def done(self) -> bool:
        """Tell whether nothing is open."""
        return not self.open
