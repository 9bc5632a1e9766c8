"""What every mount is: fields it takes, sizes it settles, pieces and wishes in its own frame.

A mount is written once, for the body end: its datum at the origin, the cylinder towards +X, its pin
along Y. ``cylinder.py`` mirrors it for the rod end and turns it. Nothing here knows about ends but
through ``Host``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal, Protocol

from drafting.model.ledger import Ledger
from drafting.model.pieces import Part, Piece
from drafting.model.wishes import Symbol, Wish

End = Literal["body", "rod"]


@dataclass(frozen=True, slots=True)
class Host:
    """What a mount sits on: the barrel's closed end or the rod's end. Diameters in mm."""

    end: End
    diameter: float
    bore: float
    rod: float
    units: str

    @property
    def table(self) -> str:
        """Give the spec table of the mount."""
        return f"{self.end}_mount"

    @property
    def part(self) -> str:
        """Give the part that the mount is welded into."""
        return "barrel" if self.end == "body" else "rod"


@dataclass(frozen=True, slots=True)
class Offset:
    """Datum to the face where the cylinder begins (mm): preferred, and how far it gives way."""

    value: float
    floor: float
    typed: bool
    why: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """A mount in its own frame: pieces of the host's part, parts of its own, wishes, symbols.

    ``swing`` is the radius past the pin that must turn free, ``half_height`` and ``half_width``
    its reach in Z and Y from the axis.
    """

    pieces: tuple[Piece, ...]
    wishes: tuple[Wish, ...] = ()
    symbols: tuple[Symbol, ...] = ()
    parts: tuple[Part, ...] = ()
    embed: float = 2.0


class Mount(Protocol):
    """The five things that a mount file provides."""

    word: ClassVar[str]
    fields: ClassVar[tuple[str, ...]]
    ends: ClassVar[tuple[End, ...]]
    example: ClassVar[dict[str, float]]

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Mount:
        """Settle every size but the offset; enter faults for what cannot exist."""
        ...

    @property
    def offset(self) -> Offset:
        """Give the datum's distance to the face, as it may give way."""
        ...

    def draw(self, host: Host, offset: float) -> Drawn:
        """Give pieces and wishes for a settled offset, in the mount's own frame."""
        ...
