"""Plain: the rod's bare end, to be welded or machined; its end face is the datum."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.flats import Flats, settle_flats
from drafting.records import dataclass
from drafting.settle.carried import Carried
from drafting.settle.ledger import Ledger
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet


@dataclass(frozen=True, slots=True)
class Plain(Mount):
    """A rod cut square, with flats for a wrench where they are asked for."""

    flats: Flats | None

    word: ClassVar[str] = "plain"
    also: ClassVar[str] = "bare plain-rod"
    ends: ClassVar[tuple[End, ...]] = ("rod",)
    fields: ClassVar[tuple[str, ...]] = ("flats",)
    example: ClassVar[Mapping[str, object]] = {}
    datum: ClassVar[str] = "rod's end face"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet("the end face", (), {})

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Plain:
        """Settle the flats."""
        return cls(settle_flats(book, host))

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give 0: the datum is the rod's end face."""
        return 0.0

    def carried(self, host: Host) -> Carried:
        """Give nothing: what is put on the rod is the machine's."""
        return Carried((), not_judged=("what is welded or fitted to a plain rod's end",))

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the flats; the rod itself is drawn with the cylinder."""
        if self.flats is None:
            return MountDrawing(())
        return MountDrawing(self.flats.pieces(host, s, 0.0), self.flats.wishes(host, s, 0.0))
