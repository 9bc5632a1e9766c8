"""What is wrong with a table, by its own rules: every fault in words, none when it is sound.

Each row has a source and a confidence; two columns of one size in two units agree within their
last places; rows rise where the TOML says so; columns lie below each other where it says so; every
column and role that the TOML names is there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

from drafting.standards.port_thread import ROLES, Family, port_of
from drafting.standards.table import DATA, Table, as_found, table

CONFIDENCE = re.compile(r"computed|memory|witnessed-[1-9]")
HEADS = ("title", "standard", "edition", "status")
PLACES = re.compile(r"-?[0-9]+(?:\.([0-9]*))?")


def audit(name: str, folder: Path = DATA) -> list[str]:
    """Give every fault of ``NAME.csv`` and ``NAME.toml``."""
    t = table(name, folder)
    rules: Mapping[str, Any] = t.about.get("audit", {})
    return [
        *(f"{name}.toml: {head} is missing" for head in HEADS if not t.about.get(head)),
        *_rows(t),
        *_units(t, folder),
        *_rising(t, rules.get("rising"), rules.get("each", ())),
        *(fault for chain in rules.get("below", ()) for fault in _below(t, chain)),
        *_ports(t),
        *_identify(t),
    ]


def _rows(t: Table) -> Iterator[str]:
    if not t.rows:
        yield f"{t.name}.csv: no rows"
    for column in ("source", "confidence"):
        if column not in t.columns:
            yield f"{t.name}.csv: no column {column}"
            return
    for row in t.rows:
        if not row.source:
            yield f"{row.where}: no source"
        if not CONFIDENCE.fullmatch(row.confidence):
            yield f'{row.where}: confidence "{row.confidence}" is no level'


def _units(t: Table, folder: Path) -> Iterator[str]:
    """Compare the columns in mm with those in inches, to half the last place of both."""
    columns, lines = as_found(t.name, folder)
    at = {c: k for k, c in enumerate(columns)}
    stems = [c[:-3] for c in columns if c.endswith("_mm") and f"{c[:-3]}_in" in at]
    for line, texts in lines:
        for stem in stems:
            mm, inch = texts[at[f"{stem}_mm"]], texts[at[f"{stem}_in"]]
            if not PLACES.fullmatch(mm) or not PLACES.fullmatch(inch):
                continue
            allowed = _half_place(mm) + _half_place(inch) * 25.4 + 1e-9
            if abs(float(mm) - float(inch) * 25.4) > allowed:
                yield f"{t.name}.csv:{line}: {stem} is {mm} mm but {inch} in"


def _half_place(text: str) -> float:
    found = PLACES.fullmatch(text)
    return 0.5 * 10.0 ** -len((found and found[1]) or "")


def _rising(t: Table, column: str | None, each: list[str]) -> Iterator[str]:
    if column is None:
        return
    if missing := [c for c in (column, *each) if c not in t.columns]:
        yield f"{t.name}.toml: no column {', '.join(missing)}"
        return
    groups: dict[tuple[str, ...], list[Any]] = {}
    for row in t.rows:
        if row.number(column) is not None:
            groups.setdefault(tuple(row.word(c) for c in each), []).append(row)
    for rows in groups.values():
        for a, b in pairwise(rows):
            if b.required(column) < a.required(column):
                yield f"{b.where}: {column} falls from {a.word(column)} to {b.word(column)}"


def _below(t: Table, chain: list[str]) -> Iterator[str]:
    if missing := [c for c in chain if c not in t.columns]:
        yield f"{t.name}.toml: no column {', '.join(missing)}"
        return
    for row in t.rows:
        known = [(c, v) for c in chain if (v := row.number(c)) is not None]
        for (a, low), (b, high) in pairwise(known):
            if low >= high:
                yield f"{row.where}: {a} {low:g} is not below {b} {high:g}"


def _ports(t: Table) -> Iterator[str]:
    for entry in t.about.get("port", ()):
        roles: Mapping[str, str] = entry["roles"]
        wrong = [r for r in roles if r not in ROLES]
        missing = [c for c in roles.values() if c and c not in t.columns]
        if wrong or missing:
            yield f"{t.name}.toml: no role {wrong or '-'}, no column {missing or '-'}"
            continue
        for row in t.rows:
            port = port_of(Family(t, entry), row)
            if not port.sizes.major_mm:
                yield f"{row.where}: no diameter"
            minor, major = port.minor_mm, port.major_mm
            if minor and not minor < major:
                yield f"{row.where}: drilled {minor:g} is not below {major:g}"


def _identify(t: Table) -> Iterator[str]:
    for entry in t.about.get("identify", ()):
        named = (*entry["male"], *entry["female"], entry.get("pitch") or entry["tpi"])
        if missing := [c for c in named if c not in t.columns]:
            yield f"{t.name}.toml: no column {', '.join(missing)}"
