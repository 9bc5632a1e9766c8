"""What every mount is: fields it takes, sizes it settles, pieces and wishes in its own frame.

A mount is written once, for the body end: its datum at the origin, the cylinder towards +X, its pin
along Y. ``assemble.py`` mirrors it for the rod end and turns it. Nothing here knows about ends but
through ``Host``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import chain
from typing import ClassVar, Literal, Protocol

from drafting.records import dataclass
from drafting.settle.carried import Carried
from drafting.settle.ledger import Ledger
from drafting.settle.stack import Give
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet
from drafting.settle.wishes import Symbol, Wish
from drafting.shape.pieces import Part, Piece

End = Literal["body", "rod"]
Turns = Literal["", "pin", "ball"]


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A port at the body's base or rod ``end``, which the mount leaves room beside it.

    It looks out at ``clock`` (degrees, seen from the rod end), is ``across`` wide there and takes
    ``room`` along the axis (mm). ``lies`` tells how far from the closed end its usual place is, for
    the sizes of the stack; ``typed`` is where a file has it, from the datum.
    """

    end: str
    clock: float
    across: float
    room: float
    lies: Callable[[Mapping[str, float]], float]
    typed: float | None


@dataclass(frozen=True, slots=True)
class Host:
    """What a mount sits on: the barrel's closed end or the rod's end. Diameters in mm.

    A ``square`` host is ``diameter`` across flats. ``skirt`` is how much of the barrel's open end,
    as a share of the gland's length, a cap goes over. ``neighbours`` are ports beside the mount.
    """

    end: End
    diameter: float
    bore: float
    rod: float
    units: str
    square: bool = False
    skirt: float = 0.0
    neighbours: tuple[Neighbour, ...] = ()

    @property
    def table(self) -> str:
        """Give the spec table of the mount."""
        return f"{self.end}_mount"

    @property
    def label(self) -> str:
        """Give the trade's word for the end."""
        return "base end" if self.end == "body" else "rod end"


@dataclass(frozen=True, slots=True)
class PinWay:
    """What a loose pin of diameter ``pin`` runs through: metal from y = -right to y = left (mm).

    ``outermost``: nothing of the machine lies outside of that, as with a clevis's two ears.
    """

    pin: float
    right: float
    left: float
    outermost: bool


@dataclass(frozen=True, slots=True)
class MountDrawing:
    """A mount in its own frame: pieces of the host's part, parts of its own, wishes, symbols.

    The pieces share metal with the host beyond its face, and never bring its face out of place.
    ``note`` follows the retracted and extended lengths (``TO END OF THREAD``).
    """

    pieces: tuple[Piece, ...]
    wishes: tuple[Wish, ...] = ()
    symbols: tuple[Symbol, ...] = ()
    parts: tuple[Part, ...] = ()
    note: str = ""

    def solid(self) -> Iterator[Piece]:
        """Give every piece of metal, of the host's part and of parts of its own."""
        own = (piece for part in self.parts for piece in part.pieces)
        return (piece for piece in chain(self.pieces, own) if not piece.cut)


class Mount(Protocol):
    """What a mount file provides, as a class that names this one as its base.

    ``also``: what the trade says for ``word``, words apart by hyphens (common practice).
    ``rod_fields`` are taken at the rod end only. ``check_fields`` are read by the checks alone.
    ``example`` holds inch sizes for a starter spec.
    ``datum`` is what lengths run from, in the words of the data sheet, whose rows take their words
    from ``sheet_words`` where a field's own would not do.
    ``turns``: not at all, about its pin, or every way. ``not_sized`` is why a duty cannot ask for
    the mount, and what to ask for instead; empty where ``sizing`` can lay it out from ``pin`` and
    ``position``.
    """

    word: ClassVar[str]
    also: ClassVar[str] = ""
    fields: ClassVar[tuple[str, ...]]
    rod_fields: ClassVar[tuple[str, ...]] = ()
    check_fields: ClassVar[tuple[str, ...]] = ()
    ends: ClassVar[tuple[End, ...]]
    example: ClassVar[Mapping[str, object]]
    turns: ClassVar[Turns] = ""
    datum: ClassVar[str]
    sheet_words: ClassVar[Mapping[str, str]] = {}
    worksheet: ClassVar[OnWorksheet]
    not_sized: ClassVar[str] = ""

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Mount:
        """Settle every size but those that give way; enter faults for what cannot exist."""
        ...

    def gives(self, host: Host) -> tuple[Give, ...]:
        """Give the mount's own sizes in the axial stack; none where nothing gives way."""
        return ()

    def needs(self, host: Host, least: Mapping[str, float]) -> Mapping[str, float]:
        """Give how long (mm) cap or head has to be to carry the mount, by the stack's names.

        Beside it the neighbours that it is in the way of have their room. ``least`` are the floors
        of the stack's sizes without it, and the gland's projection.
        """
        return {}

    def taken(self, host: Host, clock: float, across: float) -> tuple[float, float] | None:
        """Give from where to where (mm from the datum) it is in the way of a port on the body.

        The port looks out at ``clock`` and is ``across`` wide (mm); None where it passes.
        """
        return None

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the datum to where the cylinder begins, for stack sizes in mm.

        That is the barrel's closed end or the rod's end; below 0 when the datum lies past it, on
        the barrel itself. Linear in each size.
        """
        ...

    def pin_way(self) -> PinWay | None:
        """Give what a loose pin runs through; None for a mount without one."""
        return None

    def carried(self, host: Host) -> Carried:
        """Give what is loaded in the mount, and why what is not judged is not."""
        ...

    def tightened(self) -> Mount:
        """Give it with nothing that costs length and that it could do without."""
        return self

    def closed(self, book: Ledger, host: Host, s: Stations) -> Mount:
        """Give the mount with the sizes that only the closed stack tells, and enter those."""
        return self

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter what can only be told on the closed stack: places, faults, findings."""
        return

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give pieces and wishes on the closed stack, in the mount's own frame."""
        ...
