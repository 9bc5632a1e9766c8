"""What is read on the machine that a cylinder goes into: the letters of its worksheet.

``field`` is the machine file's name for it. A number behind the letter says at which end: 1 at the
base, 2 at the rod. Only the closest and the farthest distance must be known.
"""

from __future__ import annotations

from drafting.measuring.letters import Letter
from drafting.settle.to_read import Tool


def _letter(
    letter: str, field: str, what: str, tool: Tool, tip: str = "", needed: bool = False
) -> Letter:
    return Letter(letter, field.replace(".", "_"), field, what, "length", tool, tip, needed)


DISTANCES = (
    _letter("A", "distance.closest", "pin to pin, closest", "tape",
            "Where the work brings it, not pushed over its stop. Block it there.", True),
    _letter("B", "distance.farthest", "pin to pin, farthest", "tape",
            "As far as the work needs it to reach.", True),
    _letter("C", "distance.hard_closest", "pin to pin at the stop, closed", "tape",
            "The frame, a bumper: closer, something breaks."),
    _letter("D", "distance.hard_farthest", "pin to pin at the stop, open", "tape",
            "Farther, something breaks."),
)  # fmt: skip
_EARS = (
    _letter("G", "gap", "between the ears", "caliper",
            "At the bottom and in front: ears are bent together."),
    _letter("L", "lug", "or, one lug for a clevis: its thickness", "caliper"),
    _letter("E", "ear", "thickness of one ear", "caliper", "A pin bends with it."),
    _letter("P", "pin", "the machine's pin", "caliper", "At its unworn end."),
    _letter("H", "hole", "the hole in the ears or the lug", "caliper",
            "Two ways: a pulled hole is longer one way."),
    _letter("K", "behind", "hole's centre to the nearest wall behind", "tape",
            "The nose of the mount must turn before it."),
    _letter("R", "around", "free radius about the pin, over the whole swing", "tape"),
    _letter("N", "lug_nose", "one lug: from the pin's centre to its end", "tape"),
    _letter("T", "pin_grip", "the pin, from its head to what holds it", "tape"),
    _letter("S", "aside", "middle of these ears beside the other's", "tape",
            "A string through the middle of both."),
)  # fmt: skip


def at_end(end: int) -> tuple[Letter, ...]:
    """Give the letters of the ears at the base (1) or at the rod (2)."""
    table = ("base_ears", "rod_ears")[end - 1]
    return tuple(
        _letter(f"{x.letter}{end}", f"{table}.{x.field}", x.what, x.tool, x.tip) for x in _EARS
    )


def machine_letters() -> tuple[Letter, ...]:
    """Give every letter in the order of the worksheet."""
    return (*DISTANCES, *at_end(1), *at_end(2))
