"""The thread of a rod's end: typed, or the usual one for the rod."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from drafting.model.ledger import COMMON, Ledger, Rule
from drafting.model.mounts.base import Host
from drafting.model.mounts.words import settle_word
from drafting.model.neat import neat_up
from drafting.standards.table import Row, lookup, table

INCH = re.compile(
    r"(?:(\d+)[ -])?(\d+)(?:/(\d+))? ?- ?(\d+)(?: ?(\d*-?UN[A-Z]?F?))?(?:-?[123]A?B?)?"
)
METRIC = re.compile(r"M ?(\d+(?:\.\d+)?)(?: ?[xX×] ?(\d+(?:\.\d+)?))?(?: ?-?\d[a-zA-Z]\w*)?")
ROOT_DEPTH = 1.22687
"""Major less root diameter of an external thread, in pitches (ISO 724, d3)."""


@dataclass(frozen=True, slots=True)
class RodThread:
    """A screw thread as written, with major and root diameter and pitch (mm)."""

    words: str
    major: float
    minor: float
    pitch: float

    @property
    def depth(self) -> float:
        """Give the depth of the thread (mm)."""
        return (self.major - self.minor) / 2


def parse_thread(text: str) -> RodThread | None:
    """Read an inch (``1 1/4-12 UNF``) or metric (``M27x2``) thread; None when it is neither."""
    words = " ".join(text.split())
    metric = METRIC.fullmatch(words)
    if metric:
        major = float(metric[1])
        if metric[2]:
            return _thread(words, major, float(metric[2]))
        coarse = [r for r in lookup(_rows(), "major", major) if r.word("series") == "M coarse"]
        if not coarse:
            return None
        pitch = coarse[0].required("pitch_mm")
        return _thread(f"M{major:g}x{pitch:g}", major, pitch)
    inch = INCH.fullmatch(words)
    if not inch or (inch[1] and not inch[3]) or inch[3] == "0" or inch[4] == "0":
        return None
    size = Fraction(int(inch[2]), int(inch[3] or 1)) + int(inch[1] or 0)
    return _thread(words, float(size * Fraction(254, 10)), float(Fraction(254, 10) / int(inch[4])))


def settle_thread(book: Ledger, host: Host) -> RodThread | None:
    """Settle the thread, smaller than the rod, or enter a fault and give None."""
    name = f"{host.table}.thread"
    typed = book.spec.word(name)
    usual = None if typed else _usual(host)
    if typed:
        book.given(name, interface=True)
    elif usual is None:
        book.fault(
            "missing",
            name,
            f"no thread is typed, and no table has one for a rod of {book.say(host.rod)}; type "
            'thread, for example "1 1/4-12 UNF" or "M27x2"',
        )
        return None
    else:
        why = f"the usual one for the rod, {usual.where}"
        settle_word(book, name, usual.word("thread"), why)
    text = typed or (usual.word("thread") if usual else "")
    thread = parse_thread(text)
    if thread is None:
        book.fault(
            "unknown-thread",
            name,
            f'"{text}" is no thread of a rod\'s end; write size and threads per inch, '
            '"1 1/4-12 UNF", or size and pitch, "M27x2"',
        )
        return None
    if not 0 < thread.minor < thread.major or thread.major > host.rod + 0.02:
        book.fault(
            "thread-too-large",
            name,
            f"{thread.words} has {book.say(thread.major)} outside, the rod {book.say(host.rod)}; "
            "the thread is cut on the rod",
        )
        return None
    return thread


def settle_length(book: Ledger, host: Host, thread: RodThread) -> float:
    """Settle the thread's length: the table's short one, else 1.25 of the thread."""
    usual = _usual_length(thread)
    rule = usual or Rule(neat_up(1.25 * thread.major, host.units), "1.25 of the thread")
    return book.size(f"{host.table}.thread_length", rule, interface=True)


def _thread(words: str, major: float, pitch: float) -> RodThread:
    return RodThread(words, major, major - ROOT_DEPTH * pitch, pitch)


def _rows() -> tuple[Row, ...]:
    return table("thread_un_metric").rows


def _usual(host: Host) -> Row | None:
    """Give the table's thread for the rod, inch threads for inch files."""
    rows = lookup(table("rod_end_threads").where(table="rod_to_thread"), "rod", host.rod)
    return next((r for r in rows if r.word("thread").startswith("M") == (host.units == "mm")), None)


def _usual_length(thread: RodThread) -> Rule | None:
    for row in table("rod_end_threads").rows:
        known = parse_thread(row.word("thread"))
        if (
            known is None
            or abs(known.major - thread.major) + abs(known.pitch - thread.pitch) > 0.01
        ):
            continue
        short = row.length("thread_length_short_mm") or row.length("thread_length_in")
        if short:
            return Rule(short, f"the usual length, {row.where}", row.source or COMMON, "table")
    return None
