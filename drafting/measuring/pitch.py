"""The pitch of a thread as it was read: by a gauge laid on, or counted over ten threads.

A gauge of a few teeth cannot tell 12 per inch from 2 mm, nor 18 per inch from 19: a twentieth of a
pitch is not seen on one thread. Over ten threads it is half a pitch.
"""

from __future__ import annotations

import re

from drafting.factors import Misread
from drafting.records import dataclass
from drafting.units import format_inch, format_mm, read_length

BY_GAUGE = 0.035
"""How far a gauge of a few teeth is trusted, as a part of the pitch; common practice."""
OVER_ALL_MM = 0.2
"""How far a length over many threads is trusted; common practice."""
ENOUGH = 8
"""Threads that have to be counted for that."""
FORMS = 'write threads per inch as "12 tpi", a pitch as "1.5 mm", ten threads as "10 over 15.9 mm"'
_COUNTED = re.compile(r"(\d{1,2}) (?:threads? )?over (\S.*)")


@dataclass(frozen=True, slots=True)
class Pitch:
    """A pitch in mm with how far it is trusted; ``counted`` over many threads."""

    mm: float
    uncertainty_mm: float
    counted: bool


def read_pitch(text: str) -> Pitch | None:
    """Give a pitch out of ``12 tpi``, ``1.5 mm`` or ``10 over 15.9 mm``; None for anything else."""
    words = " ".join(text.replace("per inch", "tpi").split())
    if found := _COUNTED.fullmatch(words):
        try:
            over = float(read_length(found[2]))
        except Misread:
            return None
        count = int(found[1])
        if count < ENOUGH or over <= 0:
            return None
        return Pitch(over / count, OVER_ALL_MM / count, True)
    number, _, unit = words.partition(" ")
    try:
        size = float(number)
    except ValueError:
        return None
    mm = {"tpi": 25.4 / size, "mm": size}.get(unit) if size > 0 else None
    return None if mm is None else Pitch(mm, BY_GAUGE * mm, False)


def ten_threads(pitches_mm: set[float]) -> str:
    """Say how long ten threads of each pitch are."""
    said = [f"{format_inch(10 * p, 0)} in ({format_mm(10 * p, 1)} mm)" for p in sorted(pitches_mm)]
    return f"the length of ten threads: {' or '.join(said)}"
