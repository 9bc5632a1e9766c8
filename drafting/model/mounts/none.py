"""None: a bare barrel; its closed end is the datum."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.records import dataclass
from drafting.settle.carried import Carried
from drafting.settle.ledger import Ledger
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet


@dataclass(frozen=True, slots=True)
class NoMount(Mount):
    """Nothing at all on the barrel."""

    word: ClassVar[str] = "none"
    ends: ClassVar[tuple[End, ...]] = ("body",)
    fields: ClassVar[tuple[str, ...]] = ()
    example: ClassVar[Mapping[str, object]] = {}
    not_sized: ClassVar[str] = "say how the body is held: a column needs both ends"
    datum: ClassVar[str] = "closed end"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet("the barrel's closed end", (), {})

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> NoMount:
        """Settle nothing."""
        return cls()

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give 0: the datum is the closed end."""
        return 0.0

    def carried(self, host: Host) -> Carried:
        """Give nothing: how the barrel is held is the machine's."""
        return Carried((), not_judged=("how a barrel without a mount is held",))

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Draw nothing."""
        return MountDrawing(())
