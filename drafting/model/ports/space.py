"""What a port takes up in space, and what it takes it from.

Three things must have room: the thread (a flange's bore and bolt holes), the metal round it, and
the way by which a fitting is screwed in. The others are mounts, loose pins, grease fittings, tie
rods and nuts, what holds the gland, what moves with the rod, and other ports.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from drafting.model.ports.port import Port
from drafting.model.ports.shapes import port_pieces, thread_depth
from drafting.records import dataclass
from drafting.settle.called import CALLED, called
from drafting.settle.ledger import Ledger
from drafting.shape.boxes import Box, apart, box_of
from drafting.shape.contact import meet
from drafting.shape.frame import Vec, X, add, along, cross, scale
from drafting.shape.pieces import Owner, Part, Piece, cylinder, extent

WELD = 2.5
"""Overlaps up to this (mm) within one weldment are weld seams and roots, not collisions."""
TOUCH = 0.5
"""Overlaps up to this (mm) of two separate things are nothing."""
POSES = 8
"""Steps of the stroke at which what moves with the rod is looked at."""
BARE = (
    "cylinder.barrel_outside",
    "cylinder.cap",
    "cylinder.head",
    "cylinder.gland_outside",
    "cylinder.piston",
    "cylinder.rod",
    "cylinder.stop_tube",
)
"""What ports sit on, and what lies inside of it: other rules look after these."""
OIL = ("cylinder.bore", "cylinder.cap_recess", "cylinder.gland_bore")


@dataclass(frozen=True, slots=True)
class Taken:
    """A piece of the cylinder in a port's surroundings, with the part that it belongs to."""

    piece: Piece
    part: str
    owner: Owner
    box: Box

    @property
    def table(self) -> str:
        """Give the spec table that the piece comes from."""
        return self.piece.name.partition(".")[0]

    def words(self, book: Ledger) -> str:
        """Name the piece for a message."""
        table, _, rest = self.piece.name.partition(".")
        rest = _spoken(rest)
        if table == "cylinder":
            return f"the {rest}"
        return (
            f"the {rest} of the {called(book, table)}" if table in CALLED else f"{table}'s {rest}"
        )


def _spoken(piece: str) -> str:
    """Say the name of one piece of several: of ``shoulders_right`` the right shoulder.

    >>> _spoken("shoulders_right"), _spoken("plate1")
    ('right shoulder', 'plate')
    """
    *what, last = piece.rstrip("0123456789").split("_")
    if not what or last not in ("left", "right"):
        return " ".join((*what, last))
    return " ".join((last, *what)).removesuffix("s")


@dataclass(frozen=True, slots=True)
class Space:
    """The pieces of a port: holes, metal, and the ways of a fitting's thread and of its hexagon."""

    port: Port
    holes: tuple[Piece, ...]
    metal: tuple[Piece, ...]
    way: Piece
    room: Piece

    @property
    def axes(self) -> tuple[Vec, Vec, Vec]:
        """Give the port's own three directions."""
        out = self.port.direction
        return (X, out, cross(X, out))


def space_of(port: Port) -> Space:
    """Give what a port takes up."""
    t, major = port.thread, port.thread.major_mm / 2
    pieces = port_pieces(port)
    if port.sizes.facing == "out":
        frame, face = along(port.direction, (port.x, 0.0, 0.0), X), port.face
        foot = max(face - thread_depth(port), port.inside + 2.0)
    else:
        centre = add((port.x, 0.0, 0.0), scale(port.direction, port.face))
        frame, face = along(port.normal, centre), abs(port.outlet - port.x)
        foot = max(face - thread_depth(port), 0.0)
    thread = Piece(f"{port.table}.thread", cylinder(major, foot, face), frame)
    bolts = tuple(replace(p, cut=False) for p in pieces if p.name.endswith(".bolts"))
    metal = tuple(p for p in pieces if not p.cut)
    wide = (t.spotface_dia_mm or port.sizes.boss) / 2
    if t.flange:
        wide = t.flange.long_mm / 2 + t.flange.bolt_mm
    start, end = face + TOUCH, face + max(2 * major, 10.0)
    return Space(
        port,
        (thread, *bolts),
        metal,
        Piece(f"{port.table}.way", cylinder(major, start, end), frame),
        Piece(f"{port.table}.room", cylinder(max(wide, major), start, end), frame),
    )


def judge_space(
    book: Ledger, ports: tuple[Port, ...], parts: Iterable[Part], stroke: float
) -> None:
    """Enter what each port collides with: a fault where both cannot be, else a finding."""
    taken = [
        Taken(piece, part.name, part.owner, box_of(piece))
        for part in parts
        for piece in part.pieces
        if piece.name not in BARE
    ]
    for k, port in enumerate(ports):
        space = space_of(port)
        others = [t for t in taken if t.table != port.table]
        later = {p.table for p in ports[k + 1 :]}
        if not _cannot_be(book, space, others, later, stroke):
            _need_a_look(book, space, [t for t in others if t.table not in later], stroke)


def _cannot_be(
    book: Ledger, space: Space, others: list[Taken], later: set[str], stroke: float
) -> bool:
    """Enter the first fault; of two ports in each other's way the later one in the file has it."""
    field = f"{space.port.table}.position"
    solid = [t for t in others if not t.piece.cut]
    cuts = [t for t in others if t.piece.cut]
    apart = [t for t in solid if t.part not in ("barrel", "gland", "cap", "head")]
    ports = [
        t
        for t in cuts
        if "_port" in t.table and t.table not in later and t.piece.name.endswith(".thread")
    ]
    mount = [t for t in cuts if t.piece.name.startswith(("body_mount.", "rod_mount."))]
    oil = [t for t in cuts if t.piece.name in OIL]
    told = (
        ("ports-overlap", space.holes, ports, "its opening lies in {}"),
        ("port-hits", space.holes, apart, "its thread runs into {}"),
        ("port-hits", space.metal, apart, "its boss takes the place of {}"),
        ("port-opens", space.holes, mount, "its thread opens into {}"),
        ("bolts-open", space.holes[1:], oil, "its bolt holes open into {}"),
    )
    for code, own, things, words in told:
        hit = _first(space, own, things, TOUCH, stroke)
        if hit is not None:
            where = "move the port or turn its clock"
            book.fault(code, field, f"{words.format(hit.words(book))}; {where}")
            return True
    return False


def _need_a_look(book: Ledger, space: Space, others: list[Taken], stroke: float) -> None:
    field = f"{space.port.table}.position"
    solid = [t for t in others if not t.piece.cut]
    hit = _first(space, (space.way,), solid, TOUCH, stroke)
    if hit is not None:
        book.find(
            "port-blocked",
            "error",
            field,
            f"no fitting goes in: {hit.words(book)} is in its way; move the port or turn its clock",
        )
        return
    for piece in space.metal:
        hit = _first(space, (piece,), solid, WELD, stroke)
        if hit is None:
            continue
        book.find(
            "bosses-overlap" if "_port" in hit.table else "boss-hits-mount",
            "warning",
            field,
            f"its boss runs into {hit.words(book)}; move the port or turn it",
        )
        break
    hit = _first(space, (space.room,), solid, TOUCH, stroke)
    if hit is not None:
        book.find(
            "port-hemmed",
            "warning",
            field,
            f"{hit.words(book)} leaves no room for a fitting's hexagon over the port's face",
        )


def _first(
    space: Space, own: tuple[Piece, ...], things: list[Taken], least: float, stroke: float
) -> Taken | None:
    """Give the first thing that one of a port's pieces meets."""
    boxes = [(piece, box_of(piece)) for piece in own]
    for thing in things:
        travel = stroke if thing.owner == "rod" else 0.0
        for piece, box in boxes:
            if not apart(box, thing.box, travel) and _hit(space, piece, thing, least, stroke):
                return thing
    return None


def _hit(space: Space, own: Piece, thing: Taken, least: float, stroke: float) -> bool:
    """Tell whether a port's piece meets another; what moves with the rod, over its stroke."""
    if thing.owner == "body" or extent(thing.piece, X)[0] >= extent(own, X)[1]:
        return meet(own, thing.piece, space.axes, least)  # the rod only moves away from it
    return any(
        meet(own, _moved(thing.piece, stroke * k / POSES), space.axes, least)
        for k in range(POSES + 1)
    )


def _moved(piece: Piece, x: float) -> Piece:
    return replace(piece, frame=piece.frame.moved(x))
