"""What is told while the tape is still in hand: repeats, lengths and sizes that cannot be so."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.measuring.means import Mean, mean, means
from drafting.measuring.readings import Bench
from drafting.measuring.two_ways import Gap, gaps_as_read
from drafting.units import both

MORE = (
    ("B", "A", "the open length is more than the closed one"),
    ("B", "S", "the open length is more than the travel"),
    ("A", "S", "the closed length is more than the travel"),
    ("D", "C", "the barrel's outside is more than its bore"),
    ("C", "E", "the bore is more than the rod"),
    ("A", "C", "a cylinder is longer than its bore"),
    ("A", "T", "the closed length is more than the way to the gland"),
    ("X", "S", "the barrel is longer than the travel"),
    ("L", "K", "more of the rod is bare when it is open"),
    ("Z1", "H1", "the eye is more than its hole"),
    ("Z2", "H2", "the eye is more than its hole"),
    ("W1", "G1", "the width over the ears is more than the gap"),
    ("W2", "G2", "the width over the ears is more than the gap"),
)
"""Letters of which the first is always the greater, and in which words."""
TIGHT, LOOSE = 0.97, 1.25
"""A hole narrower or wider than so many pins is another's; common practice."""


def repeats_apart(bench: Bench, letter: str) -> str:
    """Say how far the repeats of a letter lie apart where they disagree, "" where they agree."""
    for m in (mean(r, bench) for r in bench.of(letter)):
        if not m.agree:
            return f"the readings lie {both(m.spread, bench.units)} apart"
    return ""


def lengths_apart(bench: Bench) -> tuple[Gap, ...]:
    """Give the lengths that do not go together, as far as they are read."""
    return gaps_as_read(bench, means(bench))


def cannot_be(bench: Bench, letter: str) -> tuple[Gap, ...]:
    """Say why a letter cannot be as it was read beside the others, and which may be wrong."""
    return tuple(_against(bench, letter))


def _against(bench: Bench, letter: str) -> Iterator[Gap]:
    read: dict[str, Mean] = {}
    for m in means(bench):
        read.setdefault(m.read.letter.letter, m)
    say = {x: both(m.value, bench.units) for x, m in read.items()}
    for more, less, words in MORE:
        both_read = letter in (more, less) and {more, less} <= read.keys()
        if both_read and read[more].value <= read[less].value:
            words = f"{more} is {say[more]} and {less} is {say[less]}, but {words}"
            yield Gap((more, less), words)
    for end in "12":
        p, h = f"P{end}", f"H{end}"
        if letter not in (p, h) or not {p, h} <= read.keys():
            continue
        if not TIGHT * read[p].value <= read[h].value <= LOOSE * read[p].value:
            yield Gap((p, h), f"pin {say[p]} and hole {say[h]} do not go together")
