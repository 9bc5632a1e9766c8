"""Wrench flats on the rod, close behind its end."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.settle.ledger import Ledger
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stations import Stations
from drafting.settle.wishes import Length, Wish
from drafting.shape.frame import Z
from drafting.shape.pieces import Piece, Prism, box

MARGIN = 2.0
"""Round rod (mm) that stays in front of and behind the flats."""


@dataclass(frozen=True, slots=True)
class Flats:
    """Two flats, ``across`` mm apart, square to the mount's 12 o'clock."""

    table: str
    across: float

    def pieces(self, host: Host, s: Stations, rod_end: float) -> tuple[Piece, ...]:
        """Give the two cuts; ``rod_end`` is the x of the rod's end in the mount's frame."""
        a, b = self._span(host, s, rod_end)
        r = host.diameter / 2
        outline = box(a, b, -r - 1.0, r + 1.0)
        return tuple(
            Piece(f"{self.table}.flats_{side}", Prism(outline, lo, hi), cut=True)
            for side, lo, hi in (
                ("top", self.across / 2, r + 1.0),
                ("bottom", -r - 1.0, -self.across / 2),
            )
        )

    def wishes(self, host: Host, s: Stations, rod_end: float) -> tuple[Wish, ...]:
        """Give the size across the flats."""
        x = sum(self._span(host, s, rod_end)) / 2
        half = self.across / 2
        return (
            Length(
                f"{self.table}.flats",
                (x, 0.0, -half),
                (x, 0.0, half),
                Z,
                rank=3,
                note="A/F",
            ),
        )

    def _span(self, host: Host, s: Stations, rod_end: float) -> tuple[float, float]:
        room = s.rod_end - s.gland_face - 2 * MARGIN
        start = rod_end + MARGIN
        return start, start + min(room, neat_up(0.6 * host.diameter, host.units))


def settle_flats(book: Ledger, host: Host) -> Flats | None:
    """Settle the flats, None when none were asked for; refuse what does not cut the rod."""
    across = book.number(f"{host.table}.flats")
    if across is None:
        return None
    if across >= host.diameter - 0.02:
        book.fault(
            "flats-outside-rod",
            f"{host.table}.flats",
            f"{book.say(across)} across flats on a rod of {book.say(host.diameter)} cuts nothing; "
            "flats is smaller than the rod",
        )
        return None
    if across < 0.7 * host.diameter:
        book.find(
            "deep-flats",
            "warning",
            f"{host.table}.flats",
            f"{book.say(across)} across flats on a rod of {book.say(host.diameter)} takes much of "
            "its strength: check it",
            "common practice",
        )
    return Flats(host.table, across)
