"""What is read on a cylinder with these mounts: the letters of worksheet and readings file.

A letter says what is measured, the number behind it at which end: 1 at the base, 2 at the rod. So
``P1`` is the pin at the base, ``W2`` the width at the rod's end. ``I`` and ``O`` are left out: they
read like 1 and 0.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.records import dataclass

Kind = Literal["length", "bore", "rod", "pin", "hole", "tube", "thread", "size", "place"]
Tool = Literal["tape", "caliper", "micrometer"]
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


_Row = tuple[str, str, str, Kind, Tool, str, bool]

_PIN: tuple[_Row, ...] = (
    ("P", "pin", "the pin, at its unworn end", "pin", "caliper",
     "Twice, a quarter turn apart, under the head or beyond the ears: wear is never even.", True),
    ("H", "hole", "the hole", "hole", "caliper",
     "Along the cylinder and across it, deep inside: a pulled hole is longer one way.", True),
)  # fmt: skip
_SIDES: tuple[_Row, ...] = (
    ("U", "left", "centre line to the face at 3 o'clock", "size", "caliper",
     "Only when the eye does not sit in the middle; looking from the rod end.", False),
    ("V", "right", "centre line to the face at 9 o'clock", "size", "caliper", "", False),
)  # fmt: skip
_OUTSIDE: _Row = (
    "Z", "outside", "over the eye, square to the cylinder", "size", "caliper", "", False,
)  # fmt: skip
_BOSS: _Row = ("Z", "outside", "the boss round a pin", "size", "caliper", "", False)
_NOSE: _Row = (
    "N", "nose", "pin centre to the end of the nose", "size", "caliper",
    "Measure from the hole's edge and add half of the hole.", False,
)  # fmt: skip
_PLATE: tuple[_Row, ...] = (
    ("Y", "thickness", "thickness of the plate", "size", "caliper", "", True),
    ("H", "bolts.hole", "a bolt hole", "hole", "caliper", "Two holes, two ways.", True),
)
_FLANGE: tuple[_Row, ...] = (
    ("J", "plate.0", "the plate from 3 to 9 o'clock (its diameter when round)", "size", "tape",
     "", True),
    ("L", "plate.1", "the plate from 12 to 6 o'clock; leave it out when round", "size", "tape",
     "", False),
    *_PLATE,
    ("Q", "bolts.circle", "bolt circle: across two opposite holes, centre to centre", "size",
     "caliper", "Over the outer edges, less one hole.", False),
    ("M", "bolts.pitch.0", "holes, centre to centre, 3 to 9 o'clock", "size", "caliper",
     "Outer edge to outer edge, less one hole.", False),
    ("X", "bolts.pitch.1", "holes, centre to centre, 12 to 6 o'clock", "size", "caliper", "",
     False),
)  # fmt: skip

BY_MOUNT: Mapping[str, tuple[_Row, ...]] = {
    "clevis": (
        *_PIN,
        ("G", "gap", "between the ears", "size", "caliper",
         "In front and at the bottom: ears are bent together. The machine's own eye too.", True),
        ("W", "width", "over the ears", "size", "caliper", "", True),
        ("T", "throat", "pin centre to the bottom of the slot", "size", "caliper",
         "From the hole's edge, and add half of the hole.", False),
        _NOSE,
        _OUTSIDE,
    ),
    "cross tube": (
        *_PIN,
        ("W", "width", "length of the tube", "size", "caliper",
         "Without washers. The gap of the machine's ears too.", True),
        *_SIDES,
        _OUTSIDE,
    ),
    "pin eye": (
        *_PIN,
        ("W", "width", "width of the eye", "size", "caliper",
         "Without washers. The gap of the machine's ears too.", True),
        *_SIDES,
        _NOSE,
        _OUTSIDE,
    ),
    "ball swivel": (
        *_PIN,
        ("K", "ball_width", "across the ball's faces", "size", "caliper", "", True),
        ("W", "width", "width of the ring", "size", "caliper", "", True),
        _OUTSIDE,
    ),
    "trunnion": (
        ("P", "pin", "a trunnion pin", "pin", "caliper",
         "At its root, where no bearing ran, twice, a quarter turn apart.", True),
        ("W", "width", "over both pins, end to end", "size", "tape", "", True),
        ("G", "shoulders", "across the shoulders", "size", "caliper", "", True),
        ("L", "position", "closed end of the barrel to the pins' centre line", "place", "tape",
         "To the pin's near edge, and add half of the pin.", True),
        _BOSS,
    ),
    "flange": _FLANGE,
    "foot": (
        ("J", "plate.0", "a foot's plate along the cylinder", "size", "caliper", "", True),
        ("L", "plate.1", "a foot's plate across", "size", "tape", "", True),
        *_PLATE,
        ("N", "seat_height", "centre line to the seat", "size", "tape",
         "Seat to the barrel's far side, less half of the barrel.", True),
        ("M", "bolts.pitch.0", "holes, centre to centre, along the cylinder", "size", "tape",
         "Edge to the same edge of the next hole.", True),
        ("X", "bolts.pitch.1", "holes, centre to centre, across", "size", "caliper", "", True),
    ),
    "male thread": (
        ("M", "thread", "over the thread's crests", "thread", "caliper",
         "On clean full threads; and the pitch with a gauge or over ten threads.", True),
        ("L", "thread_length", "length of the thread", "size", "caliper", "", True),
        ("Y", "shoulder", "end of the thread to the shoulder", "size", "caliper", "", False),
    ),
    "female thread": (
        ("M", "thread", "the hole inside its thread's crests", "thread", "caliper",
         "And the pitch with a gauge or from a bolt that fits.", True),
        ("L", "thread_length", "depth of full thread", "size", "caliper", "", True),
    ),
    "plain": (),
    "none": (),
}  # fmt: skip

DATUM: Mapping[str, str] = {
    **dict.fromkeys(("clevis", "cross tube", "pin eye", "ball swivel"), "the pin's centre"),
    "trunnion": "the trunnion's centre line",
    "flange": "the flange's face",
    "foot": "the bolt holes' centre line, of the foot nearer the base",
    "male thread": "the end of the thread",
    "female thread": "the end face",
    "plain": "the end face",
    "none": "the barrel's closed end",
}
ROUND: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("clevis", "cross tube", "pin eye", "ball swivel"), ("H", "P")),
    "trunnion": ("P",),
    "foot": ("H",),
}
"""Letters of the round thing whose edges bound a length; a mount without one ends in a face."""

COMMON: tuple[Letter, ...] = (
    Letter("A", "closed", "cylinder.retracted", "closed length", "length", "tape",
           "Off the machine, oil drained, ports open, pushed in to a hard stop. Twice."),
    Letter("B", "open", "cylinder.extended", "open length", "length", "tape",
           "Pulled out to a hard stop. Twice."),
    Letter("S", "travel", "cylinder.stroke", "travel of a mark on the rod", "length", "tape",
           "A check of closed and open: mark the rod at the gland, move it, measure.", False),
    Letter("T", "body_to_gland", "", "body datum to the gland's outer face", "length", "tape",
           "The second way to both lengths: over the hole's outer edge, with another stretch of "
           "the tape.", False),
    Letter("K", "bare_rod_closed", "", "the gland's face to the rod's datum, closed", "length",
           "tape", "Pushed home anew: with T it must give the closed length.", False),
    Letter("L", "bare_rod_open", "", "the gland's face to the rod's datum, open", "length", "tape",
           "Pulled out anew: with T it must give the open length.", False),
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


def _of_end(mount: str, end: int) -> tuple[Letter, ...]:
    table, word = (("body_mount", "body"), ("rod_mount", "rod"))[end - 1]
    return tuple(
        Letter(
            f"{letter}{end}",
            f"{word}_{field.replace('.', '_')}",
            f"{table}.{field}",
            what,
            kind,
            tool,
            tip,
            needed,
        )
        for letter, field, what, kind, tool, tip, needed in BY_MOUNT[mount]
    )


def ways(letter: Letter) -> tuple[Way, ...]:
    """Give the ways in which a letter may be read."""
    if letter.letter in ("A", "B"):
        return ("outer", "inner", "same", "")
    if letter.letter in ("T", "K", "L"):
        return ("outer", "")
    return ("outer", "") if letter.kind == "place" and letter.letter[0] == "R" else ("",)
