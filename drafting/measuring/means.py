"""What was read for a letter as one value with its uncertainty, and whether the repeats agree."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import sqrt
from typing import Literal

from drafting.measuring.letters import both_sheets
from drafting.measuring.readings import Bench, Read
from drafting.measuring.tools import limit, of_mean
from drafting.records import dataclass
from drafting.settle.to_read import Kind

APART = 3.0
"""Repeats further apart than this, in standard uncertainties of their difference, disagree."""
ROUGH_MM = 0.25
"""Repeats over welded, sawn or flame-cut faces of sound parts lie so far apart; common practice."""
_ROUGH: tuple[Kind, ...] = ("size",)
_TAKE: Mapping[Kind, Literal["least", "most"]] = {
    "bore": "least",
    "hole": "least",
    "pin": "most",
    "rod": "most",
}
"""Wear makes bores and holes wider, rods and pins thinner: the other end of the readings counts."""


@dataclass(frozen=True, slots=True)
class Mean:
    """One value (mm) for what was read in one way with one tool. ``u`` is standard uncertainty.

    ``set_aside`` are repeats that show wear, beside at least two that agree.
    """

    read: Read
    value: float
    u: float
    agree: bool
    guessed: bool
    set_aside: tuple[float, ...] = ()

    @property
    def once(self) -> bool:
        """Tell whether it was read a single time."""
        return len(self.read.values) == 1

    @property
    def spread(self) -> float:
        """Give how far the repeats lie apart (mm)."""
        return max(self.read.values) - min(self.read.values)


def means(bench: Bench) -> tuple[Mean, ...]:
    """Give every reading as one value."""
    return tuple(mean(r, bench) for r in bench.reads)


def mean(read: Read, bench: Bench) -> Mean:
    """Give one value: the mean, or where repeats disagree the one that tells more."""
    letter, values = read.letter, read.values
    base, rod = (s.edges for s in both_sheets(bench.body, bench.rod))
    guessed = read.way == "" and letter.letter in ("A", "B") and bool(base or rod)
    guessed = guessed or (read.way == "" and letter.letter[0] == "R")
    along = {"T": base, "K": rod, "L": rod}.get(letter.letter)
    guessed = guessed or (read.way == "" and bool(along))
    middle = sum(values) / len(values)
    one = limit(read.tool, bench.shows[read.tool], letter.kind, abs(middle), guessed) / 2
    spread = max(values) - min(values)
    rough = ROUGH_MM if letter.kind in _ROUGH else 0.0
    agree = spread <= max(APART * sqrt(2) * one, rough)
    if agree:
        u = of_mean(one, len(values))
        if letter.kind in ("length", "hole", *_ROUGH):  # no mean takes these away
            u = max(u, spread / 2)
        return Mean(read, middle, u, True, guessed)
    side = _TAKE.get(letter.kind)
    telling = sorted(values, reverse=side == "most")
    kept = [v for v in telling if abs(v - telling[0]) <= APART * sqrt(2) * one]
    if side and len(kept) > 1:
        value, u = sum(kept) / len(kept), of_mean(one, len(kept))
        return Mean(read, value, u, True, guessed, tuple(telling[len(kept) :]))
    if letter.kind == "length":
        side = "least" if letter.letter == "A" else "most"
    value = min(values) if side == "least" else max(values) if side == "most" else middle
    return Mean(read, value, max(one, (max(values) - min(values)) / 2), False, guessed)


def swapped(bench: Bench) -> str:
    """Say which round of readings has the two ends swapped, "" when none looks so.

    Told only where repeats disagree at both ends and agree once one round is swapped back.
    """
    by_key = {(r.letter.letter, r.way, r.tool): r for r in bench.reads}
    rounds: list[set[int]] = []
    for (letter, way, tool), one in by_key.items():
        other = by_key.get((f"{letter[:-1]}2", way, tool)) if letter[-1] == "1" else None
        if other is None or letter[0] == "R" or len(one.values) != len(other.values):
            continue
        if mean(one, bench).agree and mean(other, bench).agree:
            continue
        rounds.append(
            {
                n
                for n in range(len(one.values))
                if all(mean(r, bench).agree for r in _swap(one, other, n))
            }
        )
    common = set.intersection(*rounds) if rounds else set()
    if not common:
        return ""
    n = max(common)
    nth = ("first", "second", "third", "fourth")[n] if n < 4 else f"{n + 1}th"
    return f"the {nth} readings look as if the two ends were swapped"


def _swap(one: Read, other: Read, n: int) -> Sequence[Read]:
    a, b = list(one.values), list(other.values)
    a[n], b[n] = b[n], a[n]
    return replace(one, values=tuple(a)), replace(other, values=tuple(b))
