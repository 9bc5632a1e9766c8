"""The flag behind a size: the letters that say where it comes from; what was just typed has none.

D: nobody gave it, drawn by rule. M: measured on an old part. OPEN: the best guess of several.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal

from drafting.model.cylinder import Cylinder
from drafting.units import format_inch, format_mm
from drafting.values import Origin, Value

Flag = Literal["", "D", "M", "OPEN"]
DERIVED: Flag = "D"
MEASURED: Flag = "M"
OPEN: Flag = "OPEN"
_OF: Mapping[Origin, Flag] = {
    "derived": DERIVED,
    "table": DERIVED,
    "measured": MEASURED,
    "open": OPEN,
}
MEANINGS: Mapping[Flag, str] = {
    DERIVED: "not given, drawn by rule, to be confirmed",
    MEASURED: "measured on an old part",
    OPEN: "a best guess, to be decided before metal is cut",
}
"""What each flag says, in the order of a legend."""
_LENGTHS = tuple(f"cylinder.{n}" for n in ("stroke", "retracted", "extended"))


def flag_of(value: Value | None) -> Flag:
    """Give the flag of one value by itself."""
    return _OF.get(value.origin, "") if value else ""


def flags(values: Iterable[Value]) -> dict[str, Flag]:
    """Give the flag of every value that has one, by name.

    A length that follows from the two others is no better known than they are.
    """
    known = tuple(values)
    found: dict[str, Flag] = {v.name: flag for v in known if (flag := flag_of(v))}
    lengths = [found[n] for n in _LENGTHS if n in found]
    worst: Flag = next((f for f in (OPEN, MEASURED) if f in lengths), "")
    if worst:
        found |= {v.name: worst for v in known if v.name in _LENGTHS and v.origin == "computed"}
    return found


def flag_said(c: Cylinder, name: str) -> str:
    """Give the flag of a value and, in the spec's unit, how well a measured one is known."""
    value = c.value(name)
    flag = flag_of(value)
    if value is None or value.plus_minus is None or value.unit != "mm":
        return flag
    mm = value.plus_minus
    return f"{flag} ±{format_inch(mm, 0) if c.spec.units == 'in' else format_mm(mm)}".lstrip()


def change_mark(revision: str) -> str:
    """Give what stands behind what a revision changed, as drawing offices do."""
    return f"Δ{revision}"


def legend(flagged: Iterable[str]) -> str:
    """Say what the flags that were used mean, in one line."""
    used = set(flagged)
    return " ".join(f"{flag}: {words}." for flag, words in MEANINGS.items() if flag in used)
