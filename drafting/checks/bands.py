"""The bands of factors that are common practice, and what of them a typed factor changes."""

from __future__ import annotations

from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """Below ``least`` it fails, from ``ample`` on it holds, between them someone must choose.

    ``typed`` tells whether ``duty.safety_factor`` takes the place of ``ample``; it never goes below
    ``least``.
    """

    least: float
    ample: float
    what: str
    source: str
    typed: bool = True

    def asked(self, factor: float | None) -> float:
        """Give the factor to hold it against; ``factor`` is the one that was typed."""
        return self.ample if factor is None or not self.typed else max(factor, self.least)

    def floor(self, factor: float | None) -> float:
        """Give the factor below which it fails."""
        return self.least if factor is None or not self.typed else max(factor, self.least)

    def why(self, factor: float | None) -> str:
        """Say why this factor is asked."""
        usual = f"{self.source}: {self.least:g} to {self.ample:g} {self.what}"
        if factor is None or not self.typed:
            return usual
        if factor < self.least:
            return f"{factor:g} asked for, but never below {self.least:g}; {usual}"
        return "asked for in the spec"


COMMON = "common practice, from memory"
ON_COLUMN = Band(2.5, 4.0, "against buckling", COMMON)
ON_YIELD = Band(1.5, 3.0, "on yield", COMMON)
ON_YIELD_AT_PROOF = Band(1.0, 1.25, "on yield in the proof test", COMMON, typed=False)
ON_BURST = Band(2.5, 4.0, "on burst", COMMON)
ON_BEARING = Band(1.0, 2.0, "on the static rating", COMMON)
ON_JOINT = Band(1.0, 1.5, "on opening", COMMON, typed=False)
ON_FORCE = Band(1.0, 1.1, "of force, a tenth of it for the seals' friction", COMMON, typed=False)
ON_RATING = Band(1.0, 1.0, "of what is trapped", "never above the highest pressure in use",
                 typed=False)  # fmt: skip
"""Below its least a factor on yield is no more than the scatter of steel and of what is loaded."""
