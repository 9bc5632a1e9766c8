"""What the data sheet behind the drawing says, as plain rows; where they stand is not known here.

A text that is empty is a line for the builder or the buyer to fill.
"""

from __future__ import annotations

from drafting.records import dataclass

Row = tuple[str, str]
"""A label and what is said of it."""


@dataclass(frozen=True, slots=True)
class Said:
    """One size or word; ``flag`` says where it comes from, and how well a measured one is known.

    ``tolerance`` is what was typed, empty for a line to fill, None where none belongs. ``names``
    are the dotted names of what is said.
    """

    text: str
    flag: str = ""
    tolerance: str | None = None
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Held:
    """A size that a replacement must hold, at the base end and at the rod end."""

    label: str
    base: Said | None = None
    rod: Said | None = None


@dataclass(frozen=True, slots=True)
class Ruled:
    """A size drawn by rule: its label, the size in the sheet's unit, a short reason or none."""

    names: tuple[str, ...]
    label: str
    text: str
    reason: str


@dataclass(frozen=True, slots=True)
class DataSheet:
    """All that stands on the data sheet, in its order.

    ``body`` heads the sizes of the body's mount and of the base end's ports. ``behind``: a size to
    hold has a minus, which lies towards the base. ``lengths`` are columns: label and size.
    ``general`` is the tolerance of sizes without one. ``sizes`` are (name, label, size) of all, for
    what a small drawing leaves out; ``said`` names those that a row above says already.
    """

    held: tuple[Held, ...] = ()
    body: str = "BASE END"
    behind: bool = False
    lengths: tuple[tuple[str, Said], ...] = ()
    lengths_words: str = ""
    data: tuple[tuple[str, Said], ...] = ()
    ruled: tuple[Ruled, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    general: str = ""
    changes: tuple[Row, ...] = ()
    sizes: tuple[tuple[str, str, str], ...] = ()
    said: tuple[str, ...] = ()
