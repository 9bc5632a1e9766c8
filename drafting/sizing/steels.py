"""The steels that a proposal is made of, and that its spec names: ordinary ones of either trade."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from drafting.checks.steels import Steel, steel

STEELS: Mapping[str, Mapping[str, str]] = {
    "in": {
        "rod": "1045 chrome plated",
        "barrel": "1026 DOM",
        "mount": "A572",
        "pin": "4140 heat treated",
        "weld": "E70",
    },
    "mm": {
        "rod": "1045 chrome plated",
        "barrel": "E355 SR",
        "mount": "S355",
        "pin": "42CrMo4 QT",
        "weld": "E70",
    },
}
"""By the file's units and the part; words of the table of steels. Common practice."""


@cache
def steel_of(units: str, part: str) -> Steel:
    """Give the steel of a part with its strengths in MPa."""
    row = {"barrel": "tube"}.get(part, part)
    found = steel(f"cylinder.{part}_material", row, STEELS[units][part])
    assert found.typed
    return found
