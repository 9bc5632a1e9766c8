"""What differs between a cylinder and an older drawing of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.settle.clock import hour
from drafting.settle.tolerance import tolerance_of, toleranced
from drafting.spec.given import Given
from drafting.told.row_words import row_words
from drafting.units import format_inch, format_mm

ARROW = "→"
NONE = "none"
_MERE_PAPER = ("revision", "revision_note", "number", "drawing.")
_SAME_MM = 1e-6
_FOLLOWS = ("clock_from_rod", "clock_from_base")
"""The two readings of a clock that is compared itself."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that differs. ``was`` and ``now`` are as said on paper, ``NONE`` where absent.

    ``words`` are those of its row on the data sheet. ``typed`` tells that a person typed it in
    either file; else it follows from what they typed.
    """

    name: str
    words: str
    was: str
    now: str
    typed: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that differs from the older drawing ``name`` at ``revision`` (empty when it has none)."""

    name: str
    revision: str
    changes: tuple[Change, ...]

    @property
    def title(self) -> str:
        """Name the older drawing."""
        return f"{self.name}, revision {self.revision}" if self.revision else self.name

    def rows(self, shown: Iterable[str]) -> tuple[tuple[str, str], ...]:
        """Give the rows for the sheet: what was typed, and what ``shown`` dimensions show."""
        if not self.changes:
            return (("", f"No changes against {self.title}."),)
        seen = frozenset(shown)
        told = [c for c in self.changes if c.typed or c.name in seen]
        rows = [(c.words, f"{c.was} {ARROW} {c.now}") for c in told]
        rest = len(self.changes) - len(told)
        more = f" {rest} derived sizes follow from it." if rest else ""
        return (("", f"Against {self.title}.{more}"), *rows)

    @property
    def flagged(self) -> frozenset[str]:
        """Name what is flagged on the drawing; a clock stands in its port's callout."""
        names = {c.name for c in self.changes}
        clocks = {n.removesuffix("clock") + "thread" for n in names if n.endswith("_port.clock")}
        return frozenset(names | clocks)

    def entry(self) -> dict[str, Any]:
        """Give its rows of the document."""
        return {
            "against": {"name": self.name, "revision": self.revision or None},
            "changes": [
                {"name": c.name, "was": c.was, "now": c.now, "typed": c.typed} for c in self.changes
            ],
        }


def compare(old: Cylinder, new: Cylinder) -> Comparison:
    """Give what differs, in the order of the new one; what is gone comes last."""
    changes: list[Change] = []
    words = row_words(old) | row_words(new)
    was, now = ({v.name: v for v in c.values} for c in (old, new))
    for name in dict.fromkeys([*now, *was]):
        if name.rpartition(".")[2] in _FOLLOWS or _paper(name):
            continue
        a, b = was.get(name), now.get(name)
        same = a is not None and b is not None and _same(a.value, b.value)
        if same and tolerance_key(old, name) == tolerance_key(new, name):
            continue
        typed = any(v is not None and v.typed is not None for v in (a, b))
        units = new.spec.units
        before, after = (_said(c, name, units) for c in (old, new))
        changes.append(Change(name, words[name], before, after, typed))
    seen = {c.name for c in changes} | was.keys() | now.keys()
    givens = [c.spec.givens for c in (new, old)]
    for name in dict.fromkeys([*givens[0], *givens[1]]):
        first, second = (g.get(name) for g in reversed(givens))
        if name in seen or ".tolerance." in name or _paper(name) or _pair_in(name, seen):
            continue
        if (first and first.value) != (second and second.value):
            before, after = (_in_words(g, new.spec.units) for g in (first, second))
            changes.append(Change(name, words[name], before, after, True))
    return Comparison(old.name, old.spec.word("revision") or "", tuple(changes))


def _paper(name: str) -> bool:
    return name != "drawing.general_tolerance" and name.startswith(_MERE_PAPER)


def _pair_in(name: str, seen: Iterable[str]) -> bool:
    """Tell whether a pair is compared by its sides already."""
    return any(s.startswith(f"{name}.") for s in seen)


def _same(a: object, b: object) -> bool:
    if isinstance(a, int | float) and isinstance(b, int | float):
        return abs(a - b) <= _SAME_MM
    return a == b


def tolerance_key(c: Cylinder, name: str) -> tuple[object, ...]:
    """Give what two equal tolerances have in common."""
    t = tolerance_of(c.tolerances, name)
    if t is None:
        return ()
    return (t.fit, *(None if v is None else round(v, 6) for v in (t.lower, t.upper)))


def _in_words(given: Given | None, units: str) -> str:
    """Say what was typed: a list by its entries, a pair by its sizes, a flag as yes or no."""
    if given is None:
        return NONE
    value = given.value
    if isinstance(value, tuple):
        return (" x " if given.unit == "mm" else "; ").join(
            _size(v, units) if isinstance(v, float) and given.unit == "mm" else str(v)
            for v in value
        )
    if isinstance(value, bool):
        return "yes" if value else "no"
    return given.typed


def _size(size: float, units: str) -> str:
    return format_inch(size, 64) if units == "in" else format_mm(size)


def _said(c: Cylinder, name: str, units: str) -> str:
    """Say a value with its tolerance, in one unit."""
    v = c.value(name)
    if v is None:
        return NONE
    if isinstance(v.value, bool):
        return "yes" if v.value else "no"
    if name.endswith("clock") and isinstance(v.value, int | float):
        return hour(float(v.value), bool(v.typed and "deg" in v.typed))
    if v.unit == "deg" and isinstance(v.value, int | float):
        return f"{round(float(v.value), 1):g}°"
    if v.unit != "mm" or not isinstance(v.value, int | float):
        return v.typed or (format_mm(v.value) if isinstance(v.value, float) else str(v.value))
    held = tolerance_of(c.tolerances, name)
    if held is not None:
        return "".join(toleranced(float(v.value), held, units, 64))
    return _size(float(v.value), units)
