"""How far a reading is trusted. Limits hold for 19 readings in 20: two standard uncertainties.

What a tool shows is finer than the truth: jaws tilt, hooks have play, paint and dirt lie between.
The floors below are common practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

from drafting.measuring.letters import Kind, Tool

USUAL_MM: Mapping[Tool, Mapping[str, float]] = {
    "tape": {"in": 25.4 / 16, "mm": 1.0},
    "caliper": {"in": 0.0254, "mm": 0.02},
    "micrometer": {"in": 0.0127, "mm": 0.01},
}
"""What the tool shows, when the file does not say otherwise."""
FLOOR_MM: Mapping[Tool, float] = {"tape": 1.0, "caliper": 0.05, "micrometer": 0.015}
"""No reading is truer than this: a tape's hook has play, a caliper's jaws tilt on round metal."""
INSIDE_FLOOR_MM: Mapping[Tool, float] = {"tape": 1.0, "caliper": 0.10, "micrometer": 0.03}
"""Inside jaws touch a hole with flats, off its middle; a bore gauge is set by a micrometer."""
TAPE_STRETCH = 0.0002
"""A tape of class II errs by 0.2 mm in a metre (recalled)."""
GUESSED_MM = 25.4 / 8
"""A pin centre that is guessed by eye is known no better than this."""
TUBE_FLOOR_MM = 0.15
"""A drawn tube is out of round and painted; its outside is known no better."""
_INSIDE: tuple[Kind, ...] = ("bore", "hole")


def limit(tool: Tool, shows: float, kind: Kind, mm: float, guessed: bool = False) -> float:
    """Give the limit (mm) of one reading; ``shows`` is the tool's own step in mm."""
    floor = (INSIDE_FLOOR_MM if kind in _INSIDE else FLOOR_MM)[tool]
    if kind == "tube":
        floor = max(floor, TUBE_FLOOR_MM)
    own = max(shows, floor) + (TAPE_STRETCH * mm if tool == "tape" else 0.0)
    return max(own, GUESSED_MM) if guessed else own


def of_mean(one: float, count: int) -> float:
    """Give the standard uncertainty of a mean of ``count`` readings with ``one`` each.

    The tool's own error is in all of them, so that no number of readings halves it twice.
    """
    return one * max(1.0 / sqrt(count), 0.5)
