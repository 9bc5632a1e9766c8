"""What can be built but needs a person's eye, and what cannot exist in space."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.model.bearing_face import judge_bearing_face
from drafting.settle.called import CALLED, called
from drafting.settle.ledger import Ledger
from drafting.shape.pieces import Part
from drafting.shape.reach import reach

PINS = ("body_pin", "rod_pin")
"""Loose pins lie in the machine's own ears."""


def judge_whole(book: Ledger, parts: Sequence[Part]) -> None:
    """Enter findings on the cylinder as a whole."""
    judge_room(book, parts)
    judge_bearing_face(book, parts)
    _judge_clocks(book)


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
            field, words = _who(book, table)
            book.find(
                "beyond-room",
                "warning",
                field,
                f"the {words} reaches {book.say(r)} from the centre line; the room of "
                f"{book.say(room)} ends at {book.say(room / 2)}",
            )


def _who(book: Ledger, table: str) -> tuple[str, str]:
    """Give the field to look at and what reaches so far, in words."""
    if table == "cylinder":
        return "cylinder.largest_outside", "barrel, gland or head"
    if table in CALLED:
        return f"{table}.mount", called(book, table)
    return f"{table}.height", "port"


def _judge_clocks(book: Ledger) -> None:
    spec = book.spec
    if spec.has("cylinder.clock_seen_from"):
        return
    extra = (f"extra_port[{k + 1}]" for k in range(spec.count("extra_port")))
    for table in ("base_port", "rod_port", *extra, "body_mount"):
        clock = book.number(f"{table}.clock")
        if clock is not None and clock % 180.0 > 1e-9:
            book.find(
                "clock-viewpoint",
                "warning",
                f"{table}.clock",
                "read as seen from the rod end, because nothing says from which end hours are read "
                "and the trade has no one viewpoint: clock_seen_from, rod or base",
            )
            return
