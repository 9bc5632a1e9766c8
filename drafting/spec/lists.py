"""Lists of numbers that only the files beside a spec have: forces, directions, steps."""

from __future__ import annotations

from decimal import Decimal
from math import hypot, isfinite
from typing import Any

from drafting.factors import Misread
from drafting.spec.field import Field
from drafting.units import read_quantity

_LARGEST = 1_000_000
_STEPS = 100
"""A table of steps has at most so many lines."""


def read_forces(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...]:
    """Read two forces with their units, to the right and up, in N."""
    if not isinstance(raw, list) or len(raw) != 2 or not all(isinstance(r, str) for r in raw):
        raise Misread(
            "not-a-force",
            f"found {typed}; write two forces with their units, to the right and up: "
            f"{field.example}",
        )
    return tuple(float(read_quantity(r, "force", None, signed=True)) for r in raw)


def read_numbers(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...]:
    """Read as many plain numbers as the field's example has; not all of them zero."""
    count = field.example.count(",") + 1
    if not isinstance(raw, list) or len(raw) != count or not all(map(_plain, raw)):
        raise Misread(
            "not-numbers",
            f"found {typed}; write {count} plain numbers in square brackets: {field.example}",
        )
    found = tuple(float(r) for r in raw)
    if field.name in ("along", "axis", "up") and hypot(*found) < 1e-9:
        raise Misread("not-a-direction", f"found {typed}; a direction is not all zeros")
    return found


def read_place(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...] | str:
    """Read three millimetres of a model, or the name of a face."""
    if isinstance(raw, str):
        if not raw.strip() or len(raw) > 200:
            raise Misread("empty", f"found {typed}; write the name of a round face, or [x, y, z]")
        return raw.strip()
    return read_numbers(raw, typed, field, units)


def read_steps(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...]:
    """Read ``[[at, factor], ...]`` with rising ``at``: degrees where bare, else lengths, flat."""
    if not isinstance(raw, list) or not 2 <= len(raw) <= _STEPS:
        raise Misread("not-steps", f"found {typed}; write 2 to {_STEPS} pairs: {field.example}")
    kind, bare = ("angle", "deg") if field.bare else ("length", units)
    flat: list[float] = []
    last = float("-inf")
    for pair in raw:
        if not isinstance(pair, list) or len(pair) != 2 or not _plain(pair[1]):
            raise Misread("not-steps", f"found {pair} in it; write pairs: {field.example}")
        if isinstance(pair[0], bool) or not isinstance(pair[0], int | Decimal | str):
            raise Misread("not-steps", f"found {pair} in it; write pairs: {field.example}")
        at = float(read_quantity(str(pair[0]), kind, bare, signed=True))  # type: ignore[arg-type]
        if at <= last:
            raise Misread("not-rising", f"{pair[0]} does not come after the step before it")
        last = at
        flat += [at, float(pair[1])]
    return tuple(flat)


def _plain(raw: Any) -> bool:
    if isinstance(raw, bool) or not isinstance(raw, int | Decimal):
        return False
    return bool(isfinite(raw) and abs(float(raw)) <= _LARGEST)
