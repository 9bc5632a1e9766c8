"""Metals: found in the table by the words of the spec, or assumed, named and marked."""

from __future__ import annotations

import re

from drafting.checks.numbers import Firmness, Material, Number
from drafting.standards.table import Row, table
from drafting.standards.tubes import tube_yield

WELD_ALLOWED = 145.0
"""Allowed stress on a weld's throat in MPa: 0.30 of 483 MPa (E70 electrode), the welding codes'
figure for static load as Shigley prints it (21 ksi); from memory."""
WELD_SOURCE = "145 MPa on the throat for an E70 electrode (21 ksi, Shigley ch. 9), static load"

ASSUMED_ROD = ("SAE/AISI", "1045", "hot rolled")
ASSUMED_PIN = ("SAE/AISI", "1045", "hot rolled")
ASSUMED_MOUNT = ("SAE/AISI", "1020", "hot rolled")
"""The weakest metal that is ordinary for each part: a figure to think with, never a verdict."""

ALIASES = {"st52": "e355", "st523": "e355", "c45": "c45e", "ck45": "c45e"}
"""Other names of the same grade in the trade, from memory."""


def assumed(field: str, row: tuple[str, str, str]) -> Material:
    """Give the metal that is assumed when the spec does not say one."""
    standard, grade, condition = row
    (found,) = table("tube_materials").where(standard=standard, grade=grade, condition=condition)
    return _material(field, found, "assumed", f"assumed {row[1]} {row[2]}")


def stated(field: str, words: str) -> Material | None:
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
    return _material(field, row, "given", name)


def material(field: str, words: str | None, otherwise: tuple[str, str, str]) -> Material:
    """Give the stated metal, or the assumed one when nothing known is stated."""
    found = stated(field, words) if words else None
    return found or assumed(field, otherwise)


def ordinary_tube(units: str) -> tuple[str, str, str]:
    """Give the row of the ordinary barrel tube (``in`` or ``mm``), which the wall rule uses too."""
    row = tube_yield("inch" if units == "in" else "metric")
    return row.word("standard"), row.word("grade"), row.word("condition")


def _material(field: str, row: Row, kind: Firmness, name: str) -> Material:
    tensile = row.number("tensile_min_mpa")
    return Material(
        name,
        Number(f"{field} yield", row.required("yield_min_mpa"), kind, row.where),
        None if tensile is None else Number(f"{field} tensile", tensile, kind, row.where),
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
