"""Metals by grade: found in the table of materials by the words of a spec."""

from __future__ import annotations

import re

from drafting.records import dataclass
from drafting.standards.table import Row, table


@dataclass(frozen=True, slots=True)
class Material:
    """A metal: yield and tensile strength in MPa, with the row that says so."""

    name: str
    strength: float
    tensile: float | None
    source: str


ASSUMED_ROD = ("SAE/AISI", "1045", "hot rolled")
ASSUMED_PIN = ("SAE/AISI", "1045", "hot rolled")
"""The weakest metal that is ordinary for each part: to size with, never a verdict."""

ALIASES = {"st52": "e355", "st523": "e355", "c45": "c45e", "ck45": "c45e"}
"""Other names of the same grade in the trade, from memory."""


def assumed(row: tuple[str, str, str]) -> Material:
    """Give the metal of a row, by standard, grade and condition."""
    standard, grade, condition = row
    (found,) = table("tube_materials").where(standard=standard, grade=grade, condition=condition)
    return _material(found, f"assumed {row[1]} {row[2]}")


def stated(words: str) -> Material | None:
    """Give the metal that a spec's words name, None when no grade of the table stands in them.

    Without a condition in the words the lowest yield listed for the grade counts. A grade that is
    listed without a yield at all gives None.
    """
    said = _plain(words)
    rows = [r for r in table("tube_materials").rows if _names(r, said)]
    with_yield = [r for r in rows if r.number("yield_min_mpa") is not None]
    closer = [r for r in with_yield if _condition(r, words)]
    if not with_yield:
        return None
    row = min(closer or with_yield, key=lambda r: r.required("yield_min_mpa"))
    why = "" if closer else ", the lowest listed; the condition is not said"
    name = f"{row.word('grade')} {row.word('condition')}{why}"
    return _material(row, name)


def _material(row: Row, name: str) -> Material:
    return Material(
        name,
        row.required("yield_min_mpa"),
        row.number("tensile_min_mpa"),
        f"{row.word('standard')} ({row.word('kind_of_value')}, {row.confidence})",
    )


def _plain(words: str) -> list[str]:
    """Split into words of letters and digits; 1045 stays 1045, St52.3 becomes st523."""
    return [ALIASES.get(w, w) for w in re.findall(r"[a-z0-9]+", words.casefold().replace(".", ""))]


def _names(row: Row, said: list[str]) -> bool:
    grades = [_plain(g) for g in row.word("grade").split(" / ")]
    return any(g and g[0] in said for g in grades)


def _condition(row: Row, words: str) -> bool:
    condition = row.word("condition").casefold()
    code = condition.split()[0]
    text = f" {words.casefold()} ".replace(",", " ")
    if code.startswith("+"):
        return f"{code} " in text
    return condition in text
