"""A value that never loses its origin, and what a person must look at."""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass

Origin = Literal["given", "table", "derived", "computed", "measured", "open", "builder"]
"""``measured``, ``open`` (a best guess), ``builder`` (answered): typed, and the file tells how."""
Unit = Literal["mm", "mpa", "n", "kg", "l_s", "deg", "degc", "mm_s2", ""]
Level = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Value:
    """One size or word of the cylinder.

    ``name`` is the dotted field. ``value`` is in the unit of its ``unit`` (the suffix of its JSON
    key). ``typed`` is what the person wrote. ``why`` is file and line, table row, or the rule;
    ``source`` the standard or ``common practice`` behind a rule. ``interface`` marks a size that
    meets the machine. ``plus_minus`` (in ``unit``) is how well a measured value is known.
    """

    name: str
    value: float | str | bool
    unit: Unit
    typed: str | None
    origin: Origin
    why: str
    source: str = ""
    interface: bool = False
    plus_minus: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that can be built but that a person must look at (``note``: should know)."""

    code: str
    level: Level
    field: str
    message: str
    source: str = ""
