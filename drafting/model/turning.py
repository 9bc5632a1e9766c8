"""Whether the rod's mount has room to turn: a rod that is not keyed turns by hand.

The mount is turned in steps at several places of the stroke and held against everything of the
body that it could meet: port tubes, bosses, a foot's leg, a flange ahead of the gland.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from drafting.model.ports.space import BARE, POSES, TOUCH, Taken
from drafting.settle.ledger import Ledger
from drafting.shape.boxes import box_of
from drafting.shape.contact import meet
from drafting.shape.frame import X, Y, Z, about_x
from drafting.shape.pieces import Part, Piece, cylinder, extent
from drafting.shape.reach import reach

STEP = 10
"""Degrees from one look to the next."""
AXES = (X, Y, Z)
TURNS = ("rod_mount.", "rod_pin.")


def judge_turning(book: Ledger, parts: Iterable[Part], stroke: float) -> None:
    """Enter an error where the rod's mount meets the body, a warning where it would in turning."""
    parts = list(parts)
    mount = [
        Taken(piece, part.name, part.owner, box_of(piece))
        for part in parts
        for piece in part.pieces
        if part.owner == "rod" and not piece.cut and piece.name.startswith(TURNS)
    ]
    if not mount:
        return
    start = min(t.box[0] for t in mount)
    angles = range(0, 1 if _held(book) else 360, STEP)
    told: set[str] = set()
    for part in (p for p in parts if p.owner == "body"):
        cuts = [p for p in part.pieces if p.cut]
        for piece in part.pieces:
            if piece.cut or piece.name in BARE:
                continue
            thing = Taken(piece, part.name, part.owner, box_of(piece))
            if thing.box[1] <= start + TOUCH:
                continue
            hit = next(_hits(mount, piece, cuts, angles, stroke), None)
            if hit is not None and thing.table not in told:
                told.add(thing.table)
                _tell(book, hit[0], thing, hit[1])


def _held(book: Ledger) -> bool:
    """Tell whether the rod cannot turn: keyed, or held by the machine."""
    typed = (book.spec.get(name) for name in ("cylinder.rod_keyed", "rod_mount.held"))
    return any(found is not None and found.value is True for found in typed)


def _hits(
    mount: list[Taken], thing: Piece, cuts: list[Piece], angles: range, stroke: float
) -> Iterator[tuple[Taken, int]]:
    """Give what of the mount meets a thing, and at which angle, the one drawn first."""
    near = [t for t in mount if any(_meets(p, thing, cuts) for p in _places(_swept(t), stroke))]
    for angle in angles:
        for t in near:
            turned = t.piece.within(about_x(float(angle)))
            if any(_meets(p, thing, cuts) for p in _places(turned, stroke)):
                yield t, angle


def _meets(own: Piece, thing: Piece, cuts: list[Piece]) -> bool:
    return meet(own, thing, AXES, TOUCH, cuts)


def _swept(t: Taken) -> Piece:
    """Give what a piece sweeps as it turns, and no less."""
    x0, x1 = extent(t.piece, X)
    return Piece(t.piece.name, cylinder(reach(t.piece), x0, x1))


def _places(piece: Piece, stroke: float) -> Iterator[Piece]:
    for k in range(POSES + 1):
        yield replace(piece, frame=piece.frame.moved(stroke * k / POSES))


def _tell(book: Ledger, own: Taken, thing: Taken, angle: int) -> None:
    where = f"{thing.table}.position"
    if angle == 0:
        book.find("mount-hits", "error", where, f"{own.words(book)} runs into {thing.words(book)}")
        return
    book.find(
        "turning-hits",
        "warning",
        where,
        f"the rod turns by hand, and {own.words(book)} then strikes {thing.words(book)} (from "
        f"{angle} degrees on); move one of them, or type rod_keyed = true where the rod cannot "
        "turn",
        "common practice",
    )
