"""Tolerance classes of ISO 286: ``H8`` on a size to its two deviations.

The table holds shafts and standard tolerances; holes follow by the rules of ISO 286-1: the mirror
of the shaft, and for K, M and N to IT8 and P to IT7 the mirror raised by the step between the two
neighbouring grades (rules recalled, witnessed in the printed classes that the tests name).
"""

from __future__ import annotations

import re

from drafting.records import dataclass
from drafting.standards.table import Row, table

CLASS = re.compile(r"([A-Z]{1,2}|[a-z]{1,2}) ?(01|0|[1-9]|1[0-8])")
"""How a class is written: letters of one case and a grade 01 to 18."""
_UPPER = ("d", "e", "f", "g", "h")
_LOWER = ("k", "m", "n", "p")
_MIRROR_UP_TO = {"k": 8, "m": 8, "n": 8, "p": 7}


@dataclass(frozen=True, slots=True)
class Fit:
    """The deviations of a class on one size, in mm, and where they come from."""

    lower: float
    upper: float
    where: str
    source: str
    confidence: str


def fit(word: str, size: float) -> Fit | None:
    """Give the deviations of a class such as ``H8`` on a size in mm; None where not tabled."""
    found = CLASS.fullmatch(word)
    row = next(
        (r for r in table("iso286").rows if r.required("over_mm") < size <= r.required("incl_mm")),
        None,
    )
    if found is None or row is None:
        return None
    letters, grade = found[1], int(found[2])
    width = row.cells.get(f"it{grade}")
    if not isinstance(width, float):
        return None
    band = _hole(letters, grade, width, row) if letters.isupper() else _shaft(letters, grade, row)
    if band is None:
        return None
    lower, upper = band
    return Fit(lower / 1000 + 0.0, upper / 1000 + 0.0, row.where, row.source, row.confidence)


def _shaft(letters: str, grade: int, row: Row) -> tuple[float, float] | None:
    """Give ei and es in micrometres."""
    width = row.required(f"it{grade}")
    if letters == "js":
        return -width / 2, width / 2
    if letters in _UPPER:
        es = row.required(letters)
        return es - width, es
    if letters in _LOWER:
        # k has a deviation in IT4 to IT7 only.
        ei = row.required(letters) if letters != "k" or grade <= 7 else 0.0
        return ei, ei + width
    return None


def _hole(letters: str, grade: int, width: float, row: Row) -> tuple[float, float] | None:
    """Give EI and ES in micrometres."""
    mirror = letters.lower()
    if mirror in ("js", *_UPPER):
        shaft = _shaft(mirror, grade, row)
        return None if shaft is None else (-shaft[1], -shaft[0])
    if mirror not in _LOWER:
        return None
    small = row.required("incl_mm") <= 3.0
    if mirror == "k" and grade > 8:
        return None  # tabled for the smallest sizes only
    if mirror == "n" and grade > 8 and not small:
        return -width, 0.0
    if mirror == "m" and grade == 6 and row.required("over_mm") == 250.0:
        return -9.0 - width, -9.0  # the one exception that the standard names
    es = -row.required(mirror)
    if grade <= _MIRROR_UP_TO[mirror] and not small:
        below = row.cells.get(f"it{grade - 1}")
        if not isinstance(below, float):
            return None
        es += width - below
    return es - width, es
