"""What can be built but needs a person's eye, and what cannot exist in space."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from drafting.model.bearing_face import judge_bearing_face
from drafting.settle.called import CALLED, called
from drafting.settle.ledger import Ledger
from drafting.shape.contact import meet
from drafting.shape.frame import X, Y, Z
from drafting.shape.pieces import Part, Piece, cylinder, extent
from drafting.shape.reach import reach

AXES = (X, Y, Z)
_TOUCH = 0.5
"""What a mount and a tie rod share at the least (mm) where it is notched for the rod."""
PINS = ("body_pin", "rod_pin")
"""Loose pins lie in the machine's own ears."""


def judge_whole(book: Ledger, parts: Sequence[Part]) -> None:
    """Enter findings on the cylinder as a whole."""
    judge_room(book, parts)
    judge_bearing_face(book, parts)
    _judge_tie_rods(book, parts)
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


def _judge_tie_rods(book: Ledger, parts: Sequence[Part]) -> None:
    """Enter a finding where a mount on cap or head reaches over the tube, into the tie rods' way.

    It is drawn notched for them. A mount between cap and head has a block that they run through.
    """
    rods = [q for p in parts for q in p.pieces if q.name == "cylinder.tie_rod" and not q.cut]
    for part in (p for p in parts if p.name in ("cap", "head") and rods):
        lo, hi = next(extent(q, X) for q in part.pieces if q.name == f"cylinder.{part.name}")
        over: dict[str, float] = {}
        for piece in (q for q in part.pieces if q.name.startswith("body_mount.") and not q.cut):
            x0, x1 = extent(piece, X)
            a, b = (max(x0, hi), x1) if part.name == "cap" else (x0, min(x1, lo))
            if b - a > _TOUCH and any(meet(piece, _stretch(r, a, b), AXES, _TOUCH) for r in rods):
                over[piece.name] = b - a
        if over:
            name, most = max(over.items(), key=lambda item: item[1])
            far, end = book.say(most), "base" if part.name == "cap" else "rod"
            second = name.endswith("2")
            book.find(
                "notched-for-tie-rods",
                "warning",
                f"body_mount.{'bolts.pitch' if second else 'position'}",
                f"the {'second ' * second}{book.spec.word('body_mount.mount')} reaches {far} past "
                f"the {part.name} over the tube, where the tie rods run: it is drawn notched for "
                f"them; {far} nearer to the {end} end it would stand clear",
            )


def _stretch(rod: Piece, a: float, b: float) -> Piece:
    """Give a tie rod from a to b."""
    lo, hi = extent(rod, Z)
    return replace(rod, shape=cylinder((hi - lo) / 2, a, b))


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
