"""What of the cylinder lies beyond the room that the machine leaves for it."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, hypot, radians, sin

from drafting.model.frame import Y, Z
from drafting.model.ledger import Ledger
from drafting.model.pieces import Part, Piece, extent

PINS = ("body_pin", "rod_pin")
"""Loose pins lie in the machine's own ears."""
WORDS = {
    "cylinder": ("cylinder.largest_outside", "barrel, gland or head"),
    "body_mount": ("body_mount.mount", "base end mount"),
    "rod_mount": ("rod_mount.mount", "rod end mount"),
}
_COARSE, _FINE = 5.0, 0.25


def judge_room(book: Ledger, parts: Iterable[Part]) -> None:
    """Enter a finding for body, mounts and each port that reach beyond ``largest_outside``."""
    room = book.number("cylinder.largest_outside")
    if room is None:
        return
    widest: dict[str, float] = {}
    for piece in (p for part in parts for p in part.pieces if not p.cut):
        table = piece.name.partition(".")[0]
        if table not in PINS:
            widest[table] = max(widest.get(table, 0.0), reach(piece, widest.get(table, room / 2)))
    for table, r in widest.items():
        if r > room / 2 + 1e-6:
            field, words = WORDS.get(table, (f"{table}.height", "port"))
            book.find(
                "beyond-room",
                "warning",
                field,
                f"the {words} reaches {book.say(r)} from the centre line; the room of "
                f"{book.say(room)} ends at {book.say(room / 2)}",
            )


def reach(piece: Piece, beyond: float = 0.0) -> float:
    """Give how far a piece reaches from the cylinder's axis (mm), within 0.001 %.

    ``beyond`` is a distance below which nobody asks: 0 comes back where the piece's box is inside.
    """
    corner = hypot(*(max(map(abs, extent(piece, axis))) for axis in (Y, Z)))
    if corner <= beyond:
        return 0.0

    def at(degrees: float) -> float:
        a = radians(degrees)
        return extent(piece, (0.0, cos(a), sin(a)))[1]

    near = max((k * _COARSE for k in range(round(360.0 / _COARSE))), key=at)
    steps = round(_COARSE / _FINE)
    return max(at(near + k * _FINE) for k in range(-steps, steps + 1))
