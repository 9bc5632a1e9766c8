"""Readings as sums of sizes: lengths over edges, walls, sides; adjusted all at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.measuring.adjust import Adjusted, Judged, Observation, judge_readings
from drafting.measuring.letters import both_sheets
from drafting.measuring.means import Mean
from drafting.measuring.readings import Bench

Terms = Mapping[str, float]
ALONG: Mapping[str, Terms] = {
    "T": {"A": 1.0, "K": -1.0},
    "K": {"K": 1.0},
    "L": {"B": 1.0, "A": -1.0, "K": 1.0},
}
"""Body datum to gland, bare rod closed and open: what they are the sums of."""


def terms(letter: str, way: str, bench: Bench, read: frozenset[str]) -> Terms:
    """Give what a letter read in some way is the sum of; ``read`` are all letters with readings."""
    sheets = both_sheets(bench.body, bench.rod)
    rounds = [_round(s.edges, n, read, bench.edges) for n, s in enumerate(sheets, 1)]
    if letter in ("A", "B"):
        signs = {"": (0.0, 0.0), "outer": (0.5, 0.5), "inner": (-0.5, -0.5), "same": (0.5, -0.5)}
        edges = {d: k for d, k in zip(rounds, signs[way], strict=True) if d and k}
        return {letter: 1.0, **edges}
    if letter == "S":
        return {"B": 1.0, "A": -1.0}
    if letter in ALONG:
        over = {name: 0.5} if (name := edge(letter, way, bench, read)) else {}
        return {**ALONG[letter], **over}
    if letter == "D" and read & {"C", "F"}:
        return {"C": 1.0, "F": 2.0}
    end = letter[-1]
    if letter[0] == "W" and read & {f"U{end}", f"V{end}"}:
        return {f"U{end}": 1.0, f"V{end}": 1.0}
    if letter[0] == "R" and way == "outer" and rounds[0]:
        return {letter: 1.0, rounds[0]: 0.5}
    return {letter: 1.0}


def edge(letter: str, way: str, bench: Bench, read: frozenset[str]) -> str:
    """Give the letter of the round thing over whose edge a length along the cylinder runs."""
    base, rod = both_sheets(bench.body, bench.rod)
    end, sheet = (1, base) if letter == "T" else (2, rod)
    return _round(sheet.edges, end, read, bench.edges) if way == "outer" else ""


def _round(found: tuple[str, ...], end: int, read: frozenset[str], edges: str) -> str:
    names = [f"{x}{end}" for x in (found if edges == "holes" else found[::-1])]
    return next((n for n in names if n in read), names[0] if names else "")


def adjusted(bench: Bench, means: Sequence[Mean]) -> Judged:
    """Adjust all readings together."""
    read = frozenset(m.read.letter.letter for m in means)
    return judge_readings(
        [
            Observation(
                m.read.name, m.value, m.u, terms(m.read.letter.letter, m.read.way, bench, read)
            )
            for m in means
        ]
    )


def estimate(
    letter: str, bench: Bench, means: Sequence[Mean], found: Adjusted
) -> tuple[float, float] | None:
    """Give a letter's size and standard uncertainty (mm), None when nothing determines it."""
    read = frozenset(m.read.letter.letter for m in means)
    sum_of = terms(letter, "", bench, read)
    value = found.value(sum_of)
    return None if value is None else (value, found.sigma(sum_of))
