"""Closed and open length by two ways: read at once, and along barrel and bare rod.

Some errors repeat themselves: short of the stop both times, an inch burned off the tape's end, the
same wrong edge. Repeats of one way agree all the same, so that only another way shows them. Lengths
that disagree are never averaged: each stays as it was read, and the gap is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import hypot
from typing import Literal

from drafting.measuring.lengths import adjusted, edge, estimate
from drafting.measuring.means import APART, Mean
from drafting.measuring.readings import Bench
from drafting.records import dataclass
from drafting.units import format_mm, mixed

Length = Literal["A", "B"]
Known = tuple[float, float]
"""A length and its standard uncertainty (mm)."""
LENGTHS: tuple[Length, ...] = ("A", "B")
ALONG = ("T", "K", "L")
"""Body datum to the gland's face; the gland's face to the rod's datum, closed and open."""
BARE: dict[Length, str] = {"A": "K", "B": "L"}
_STEP_MM = 0.5
_STEP_IN = 32
ANEW = "each of them again, drained and pushed to the stop anew before every reading"


@dataclass(frozen=True, slots=True)
class Gap:
    """Readings of one length that disagree, and in which words."""

    letters: tuple[str, ...]
    words: str


def direct(letter: Length, bench: Bench, means: Sequence[Mean]) -> tuple[float, float] | None:
    """Give a length (mm) as it was read at once with its standard uncertainty, or None."""
    others = {*LENGTHS, "S", *ALONG} - {letter}
    return _from([m for m in means if m.read.letter.letter not in others], letter, bench)


def second(letter: Length, bench: Bench, means: Sequence[Mean]) -> tuple[float, float] | None:
    """Give a length (mm) along barrel and bare rod with its standard uncertainty, or None."""
    others = {*LENGTHS, "S", *(x for k, x in BARE.items() if k != letter)}
    kept = [m for m in means if m.read.letter.letter not in others]
    parts = [_bare(x, bench, kept) for x in ("T", BARE[letter])]
    if None in parts:
        return None
    known = [p for p in parts if p is not None]
    return sum(value for value, _ in known), hypot(*(u for _, u in known))


def gaps(bench: Bench, means: Sequence[Mean]) -> tuple[Gap, ...]:
    """Give where the ways to a length disagree by more than they are known."""
    return _gaps(
        bench,
        {x: direct(x, bench, means) for x in LENGTHS},
        {x: second(x, bench, means) for x in LENGTHS},
        [(m.value, m.u) for m in means if m.read.letter.letter == "S"],
    )


def gaps_as_read(bench: Bench, means: Sequence[Mean]) -> tuple[Gap, ...]:
    """Give the same of lengths over the same edges, while the edges themselves are not yet read."""
    way = next((m.read.way for m in means if m.read.letter.letter in LENGTHS), "")
    read = {m.read.letter.letter: (m.value, m.u) for m in reversed(means) if m.read.way == way}
    along: dict[Length, Known | None] = {}
    for x in LENGTHS:
        t, bare = read.get("T"), read.get(BARE[x])
        along[x] = (t[0] + bare[0], hypot(t[1], bare[1])) if t and bare else None
    travel = [(m.value, m.u) for m in means if m.read.letter.letter == "S"]
    return _gaps(bench, {x: read.get(x) for x in LENGTHS}, along, travel)


def _gaps(
    bench: Bench,
    read: Mapping[Length, Known | None],
    along: Mapping[Length, Known | None],
    travel: Sequence[Known],
) -> tuple[Gap, ...]:
    found: list[Gap] = []
    doubted = set(LENGTHS)
    for x in LENGTHS:
        one, other = read[x], along[x]
        if one and other and _apart(one, other):
            names = (x, "T", BARE[x])
            words = (
                f"{x} = {_say(one[0], bench)}, T + {BARE[x]} = {_say(other[0], bench)}: "
                f"{_say(abs(one[0] - other[0]), bench)} apart; one of the two was not against its "
                "stop, or the tape's end or edge was another"
            )
            found.append(Gap(names, words))
        elif one and other:
            doubted.discard(x)
    a, b = read["A"], read["B"]
    if a and b and travel:
        s = min(travel, key=lambda known: known[1])
        between = (b[0] - a[0], hypot(a[1], b[1]))
        if _apart(between, s):
            short = between[0] < s[0]
            why = (
                "B may be short of its stop, or A not pushed home"
                if short
                else "the mark's travel may have been short of a stop"
            )
            found.append(
                Gap(
                    (*(x for x in LENGTHS if x in doubted), "S"),
                    f"B - A = {_say(between[0], bench)}, S = {_say(s[0], bench)}: "
                    f"{_say(abs(between[0] - s[0]), bench)} apart; {why}",
                )
            )
    return tuple(found)


def _from(means: Sequence[Mean], letter: str, bench: Bench) -> tuple[float, float] | None:
    if not any(m.read.letter.letter == letter for m in means):
        return None
    return estimate(letter, bench, means, adjusted(bench, means).adjusted)


def _bare(x: str, bench: Bench, means: Sequence[Mean]) -> tuple[float, float] | None:
    """Give a reading along the cylinder less its edge; None where its repeats disagree."""
    own = min(
        (m for m in means if m.read.letter.letter == x and m.agree),
        key=lambda m: (m.guessed, m.u),
        default=None,
    )
    if own is None:
        return None
    name = edge(x, own.read.way, bench, frozenset(m.read.letter.letter for m in means))
    if not name:
        return own.value, own.u
    of = [m for m in means if m.read.letter.letter == name]
    if not of:
        return None
    best = min(of, key=lambda m: m.u)
    return own.value - best.value / 2, hypot(own.u, best.u / 2)


def _apart(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) > APART * hypot(one[1], other[1])


def _say(mm: float, bench: Bench) -> str:
    """Say a length as a tape shows it: to 1/32 in or half a millimetre."""
    if bench.units == "in":
        return mixed(Fraction(round(mm / 25.4 * _STEP_IN), _STEP_IN))
    return format_mm(round(mm / _STEP_MM) * _STEP_MM)
