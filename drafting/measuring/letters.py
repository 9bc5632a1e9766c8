"""What is read on a cylinder with these mounts: the letters of worksheet and readings file.

A letter says what is measured, the number behind it at which end: 1 at the base, 2 at the rod. So
``P1`` is the pin at the base, ``W2`` the width at the rod's end. ``I`` and ``O`` are left out: they
read like 1 and 0.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.model.catalog import mount_types
from drafting.records import dataclass
from drafting.settle.mount import Mount
from drafting.settle.to_read import Kind, OnWorksheet, Tool

__all__ = [
    "COMMON",
    "PORTS",
    "WAYS",
    "Kind",
    "Letter",
    "Tool",
    "Way",
    "both_mounts",
    "both_sheets",
    "both_turn",
    "letters",
    "ways",
]

Way = Literal["", "outer", "inner", "same"]

WAYS: Mapping[Way, str] = {
    "": "between centres",
    "outer": "over the outer edges",
    "inner": "between the inner edges",
    "same": "from edge to edge, both on the side towards the base",
}
"""How a length between two pins or holes was read."""


@dataclass(frozen=True, slots=True)
class Letter:
    """One thing to read. ``field`` is the spec's name for it, with a number for half of a pair.

    ``needed``: the spec is not whole without it.
    """

    letter: str
    name: str
    field: str
    what: str
    kind: Kind
    tool: Tool
    tip: str = ""
    needed: bool = True

    @property
    def end(self) -> int:
        """Give 1 at the base, 2 at the rod, 0 for what belongs to no end."""
        return int(self.letter[-1]) if self.letter[-1].isdigit() else 0


COMMON: tuple[Letter, ...] = (
    Letter("A", "closed", "cylinder.retracted", "closed length", "length", "tape",
           "Off the machine, oil drained, ports open, pushed in to a hard stop. Twice."),
    Letter("B", "open", "cylinder.extended", "open length", "length", "tape",
           "Pulled out to a hard stop. Twice."),
    Letter("S", "travel", "cylinder.stroke", "travel of a mark on the rod", "length", "tape",
           "A check of closed and open: mark the rod at the gland, move it, measure.", False),
    Letter("T", "body_to_gland", "", "body datum to gland's face", "length", "tape",
           "The second way to both lengths: over the hole's outer edge, with another stretch of "
           "the tape.", False),
    Letter("K", "bare_rod_closed", "", "gland's face to rod datum, closed", "length",
           "tape", "Pushed home anew: with T it must give the closed length.", False),
    Letter("L", "bare_rod_open", "", "gland's face to rod datum, open", "length", "tape",
           "Pulled out anew: with T it must give the open length.", False),
    Letter("X", "barrel_length", "", "barrel, its closed end to its end at the gland", "length",
           "tape", "From flat to flat. It must hold the travel, the piston and the gland.", False),
    Letter("Y", "gland_shown", "cylinder.gland_projection", "what of the gland shows", "size",
           "caliper", "Barrel's end to the gland's face; leave it out where nothing shows.", False),
    Letter("C", "bore", "cylinder.bore", "bore", "bore", "caliper",
           "Inside, past thread and chamfer; two directions, two depths."),
    Letter("D", "barrel", "cylinder.barrel_outside", "barrel outside", "tube", "caliper",
           "On bare metal: paint is up to 0.3 mm a side.", False),
    Letter("F", "wall", "cylinder.wall", "wall, where a port or an open end shows it", "size",
           "caliper", "Only when the bore cannot be reached.", False),
    Letter("E", "rod", "cylinder.rod", "rod", "rod", "caliper",
           "Two directions, where it is bright and never ran in the gland."),
)  # fmt: skip
PORTS: tuple[Letter, ...] = (
    Letter("R1", "base_port", "base_port.position", "body datum to the base port's centre", "place",
           "tape", "+ towards the rod. Adapters out of the ports first.", False),
    Letter("R2", "rod_port", "rod_port.position", "body datum to the rod port's centre", "place",
           "tape", "", False),
)  # fmt: skip


def letters(body: str, rod: str) -> tuple[Letter, ...]:
    """Give every letter for a body mount and a rod mount, in the order of the worksheet."""
    return (*COMMON, *_of_end(body, 1), *_of_end(rod, 2), *PORTS)


def both_mounts(body: str, rod: str) -> tuple[type[Mount], type[Mount]]:
    """Give the mounts at the base and at the rod's end by their words."""
    return mount_types()["body", body], mount_types()["rod", rod]


def both_sheets(body: str, rod: str) -> tuple[OnWorksheet, OnWorksheet]:
    """Give how the mounts at the base and at the rod's end are read."""
    base, end = both_mounts(body, rod)
    return base.worksheet, end.worksheet


def both_turn(body: str, rod: str) -> bool:
    """Tell whether the machine turns on a pin at either end, so that their angle is asked for."""
    return all(m.turns for m in both_mounts(body, rod))


def _of_end(mount: str, end: int) -> tuple[Letter, ...]:
    word: Literal["body", "rod"] = "body" if end == 1 else "rod"
    return tuple(
        Letter(
            f"{x.letter}{end}",
            f"{word}_{x.field.replace('.', '_')}",
            f"{word}_mount.{x.field}",
            x.what,
            x.kind,
            x.tool,
            x.tip,
            x.needed,
        )
        for x in mount_types()[word, mount].worksheet.letters
    )


def ways(letter: Letter) -> tuple[Way, ...]:
    """Give the ways in which a letter may be read."""
    if letter.letter in ("A", "B"):
        return ("outer", "inner", "same", "")
    if letter.letter in ("T", "K", "L"):
        return ("outer", "")
    return ("outer", "") if letter.kind == "place" and letter.letter[0] == "R" else ("",)
