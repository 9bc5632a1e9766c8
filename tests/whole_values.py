"""Values of random spec files: sizes in both units and all spellings, clocks, pressures."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from random import Random
from typing import Any

INCH = 25.4


class Raw(str):
    """TOML that is written as it stands."""


class Sizes:
    """Draws sizes for a file in ``unit``; what is drawn can always be read back."""

    def __init__(self, rng: Random, unit: str) -> None:
        self.rng, self.unit = rng, unit

    def exact(self, mm: float) -> Any:
        """Write a size to 0.001 mm in any unit."""
        kind = self.rng.randrange(4)
        if kind == 0:
            return f"{mm:.4f} mm"
        if kind == 1:
            return f"{mm / INCH:.6f} in"
        return round(mm / INCH, 6) if self.unit == "in" else round(mm, 4)

    def size(self, mm: float) -> Any:
        """Write a size that may be up to 1.6 mm larger: as a fraction, in feet, or exactly."""
        if self.rng.random() < 0.5:
            return self.exact(mm)
        sixteenths = ceil(mm / INCH * 16)
        whole, rest = divmod(sixteenths, 16)
        fraction = f"{rest}/16" if rest else ""
        kind = self.rng.randrange(4)
        if kind == 0 and whole and fraction:
            return f"{whole}-{fraction} in"
        if kind == 1:
            feet, inches = divmod(whole, 12)
            return f"{feet} ft {inches} {fraction}".rstrip() + " in"
        if kind == 2 and whole and fraction:
            return f'{whole} {fraction}"'
        return f"{whole} {fraction}".strip() + " in" if whole else f"{fraction} in"

    def pressure(self, bar: float) -> str:
        """Write a pressure."""
        psi, mpa = f"{round(bar * 14.5038)} psi", f"{bar / 10:.2f} MPa"
        return str(self.rng.choice((f"{bar:.0f} bar", psi, mpa)))

    def maybe(self, table: dict[str, Any], share: float, **values: Any) -> None:
        """Put each value into the table, one by one, in that share of the draws."""
        for name, value in values.items():
            if self.rng.random() < share:
                table[name] = value


def clock(rng: Random, degrees: float) -> Any:
    """Write a clock angle: an hour, a half hour, a time, or degrees."""
    degrees %= 360
    hour = degrees / 30
    if hour != int(hour):
        whole = int(hour)
        half = f"{whole or 12}:30"
        return half if hour - whole == 0.5 and rng.random() < 0.6 else f"{degrees:g} deg"
    number = int(hour) or 12
    return rng.choice((number, f"{number}:00", f"{degrees:g} deg"))


def text_value(value: Any) -> str:
    """Write a value as TOML."""
    if isinstance(value, Raw):
        return str(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f"'{value}'"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(text_value, value)) + "]"
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{k} = {text_value(v)}" for k, v in value.items()) + "}"
    return repr(value)
