"""Usual bores, rods and pins, mounting codes, bearings and rod accessories, out of the tables."""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass
from drafting.standards.table import Row, lookup, table
from drafting.standards.threads import ThreadWordError, parse_thread
from drafting.standards.words import tidy

Kind = Literal["bore", "rod", "pin"]
_ROWS = {
    "bore": ("bore_rod", "bore", "bore"),
    "rod": ("bore_rod", "rod", "rod"),
    "pin": ("pins", "mounting_pin", "diameter"),
}


@dataclass(frozen=True, slots=True)
class Usual:
    """A usual size in mm, who lists it, and how it is known. ``inch`` marks an inch size."""

    mm: float
    inch: bool
    series: str
    where: str
    source: str
    confidence: str


def usual_sizes(kind: Kind) -> tuple[Usual, ...]:
    """Give every usual bore, rod or pin diameter, rising; each size once, with all its lists."""
    name, words, stem = _ROWS[kind]
    sizes: dict[float, list[Row]] = {}
    for row in table(name).where(table=words):
        mm = row.size(stem)
        if mm is not None:
            sizes.setdefault(mm, []).append(row)
    return tuple(_usual(mm, stem, sizes[mm]) for mm in sorted(sizes))


def nearest(kind: Kind, mm: float, count: int = 3) -> tuple[Usual, ...]:
    """Give the usual sizes nearest to one in mm, nearest first."""
    return tuple(sorted(usual_sizes(kind), key=lambda u: (abs(u.mm - mm), u.mm))[:count])


def bearing(bore_mm: float) -> Row | None:
    """Give the spherical plain bearing of this bore (mm), series E before the inch series."""
    rows = lookup(table("spherical_bearing").rows, "d", bore_mm)
    return rows[0] if rows else None


def accessories(thread: str) -> tuple[Row, ...]:
    """Give the rod clevises and eyes with a female thread of this designation.

    A row may name two threads (``M8 or M8x1``).
    """
    wanted = _designation(thread)
    return tuple(
        row
        for row in table("rod_accessories").rows
        if any(_designation(w) == wanted for w in row.word("thread").split(" or ") if w)
    )


def _designation(thread: str) -> str:
    try:
        return parse_thread(thread).name
    except ThreadWordError:
        return tidy(thread)


def _usual(mm: float, stem: str, rows: list[Row]) -> Usual:
    best = min(rows, key=lambda r: (r.cells.get("preference") == "second", r.line))
    lists = dict.fromkeys(r.word("standard") for r in rows)
    inch = best.cells.get(f"{stem}_in") is not None
    return Usual(mm, inch, "; ".join(lists), best.where, best.source, best.confidence)
