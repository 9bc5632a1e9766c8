"""A candidate turned end for end: its rod where the old base was, where both mounts allow it."""

from __future__ import annotations

from dataclasses import replace

from drafting.replacing.judge import Comparison, compare
from drafting.replacing.known import Subject
from drafting.replacing.mounts import ENDS, pinned

BETTER = ("fits", "fits with work", "not known", "does not fit")
_SWAPPED = (("body_mount.", "rod_mount."), ("body_pin.", "rod_pin."))
_CLOCKS = ("base_port.clock_from_rod", "rod_port.clock_from_rod")
_PLACES = ("base_port.position", "rod_port.position")
WORDS = (
    "turned end for end: {}. The oil stays with its side, so both hoses change places; the rod's "
    "wiper must not stand upwards in the wet or where it is struck"
)


def end_for_end(found: Comparison) -> Comparison | None:
    """Give the comparison of the candidate turned end for end, None where that is no better.

    It turns about the line square to both pins, so that 12 o'clock stays and 3 becomes 9.
    """
    new = found.candidate
    if found.verdict == "fits" or not all(pinned(new.values, end) for end in ENDS):
        return None
    other = compare(found.original, _turned(new), found.machine)
    if any(" grind " in job.short for job in other.jobs):
        return None  # how far an eye may be ground hangs on what it is welded to
    straight, back = BETTER.index(found.verdict), BETTER.index(other.verdict)
    return other if back < straight else None


def _turned(s: Subject) -> Subject:
    swap = {a: b for pair in _SWAPPED for a, b in (pair, pair[::-1])}

    def named(name: str) -> str:
        table = name.partition(".")[0] + "."
        return swap.get(table, table) + name[len(table) :] if table in swap else name

    values = {named(n): v for n, v in s.values.items() if n not in _PLACES}
    for clock in _CLOCKS:
        hour = values.get(clock)
        if isinstance(hour, float):
            values[clock] = -hour % 360.0
    return replace(
        s,
        values=values,
        plus_minus={named(n): u for n, u in s.plus_minus.items()},
        drawn={named(n): d for n, d in s.drawn.items()},
    )
