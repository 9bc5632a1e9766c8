"""What is wrong with where a port sits: covered, over an edge, in another thing's way."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from math import pi

from drafting.model.action import Action
from drafting.model.frame import Vec, X, cross
from drafting.model.ledger import Ledger
from drafting.model.lengths import Lengths
from drafting.model.pieces import Part, Piece, extent
from drafting.model.port import Port
from drafting.model.port_shapes import port_pieces
from drafting.model.tube_parts import Stations

CLEAR = 2.5
"""Overlaps up to this (mm) are weld seams and roots, not collisions."""


def judge_ports(
    book: Ledger,
    action: Action,
    ports: tuple[Port, ...],
    s: Stations,
    parts: Iterable[Part],
    lengths: Lengths,
) -> None:
    """Enter findings and faults on ports: missing, covered, over an edge, in each other's way."""
    for table, end in (("base_port", "base"), ("rod_port", "rod")):
        if book.spec.has(table) or action.vented == end or (action.displacement and ports):
            continue
        needs = "double acting" if action.word == "double" else f"single acting ({action.word})"
        book.find(
            "no-port",
            "warning",
            table,
            f"no {end} end port was given and none is drawn; {needs} needs one",
        )
    for port in ports:
        _judge_port(book, port, s, lengths)
    for a, b in combinations(ports, 2):
        _judge_pair(book, a, b)
    mounts = [p for part in parts for p in part.pieces if "_mount." in p.name and not p.cut]
    for port in ports:
        _judge_against(book, port, mounts)
    _judge_room(book, ports)


def _judge_port(book: Ledger, port: Port, s: Stations, lengths: Lengths) -> None:
    field = f"{port.table}.position"
    half, open_half = port.sizes.boss / 2, port.sizes.passage / 2
    if port.x - half < s.closed_end - 1e-6:
        over = s.closed_end - port.x + half
        book.find(
            "boss-over-end",
            "warning",
            field,
            f"the boss stands {book.say(over)} over the barrel's closed end",
        )
    if port.x + half > s.barrel_end + 1e-6:
        over = port.x + half - s.barrel_end
        book.find(
            "boss-over-gland",
            "warning",
            field,
            f"the boss reaches {book.say(over)} past the barrel's end, over the gland",
        )
    if port.flat:
        return
    if port.x + open_half <= s.oil_side:
        book.find(
            "port-in-cap",
            "warning",
            field,
            "the port lies over the base cap and opens into no oil; a cross drilling is needed",
        )
    if port.x - open_half >= s.gland_inner + s.gland_relief:
        book.find(
            "port-in-gland",
            "warning",
            field,
            "the port lies over the gland and opens into no oil; a drilling in the gland is needed",
        )
    travel = 0.0 if port.end == "base" else lengths.stroke
    land = (
        s.piston_back + s.piston_relief + travel,
        s.piston_front - s.piston_relief + travel,
    )
    if land[0] <= port.x - open_half and port.x + open_half <= land[1]:
        book.find(
            "port-covered",
            "warning",
            field,
            f"the piston covers this port when {'retracted' if port.end == 'base' else 'extended'}"
            f"; its land then reaches from {book.say(land[0])} to {book.say(land[1])}",
        )
    elif (port.x > land[1]) if port.end == "base" else (port.x < land[0]):
        book.find(
            "port-wrong-side",
            "error",
            field,
            f"the {port.end} end port lies on the other side of the piston when "
            f"{'retracted' if port.end == 'base' else 'extended'}: it would not move the rod",
        )


def _judge_pair(book: Ledger, a: Port, b: Port) -> None:
    apart = min((a.clock - b.clock) % 360.0, (b.clock - a.clock) % 360.0)
    arc = apart / 180.0 * pi * a.surface
    both_half = (a.sizes.boss + b.sizes.boss) / 2
    gap = (arc**2 + (a.x - b.x) ** 2) ** 0.5
    if gap < (a.thread.major_mm + b.thread.major_mm) / 2:
        book.fault(
            "ports-overlap",
            f"{b.table}.position",
            f"its opening lies in that of {a.table}, {book.say(gap)} from centre to centre; "
            "move one or turn its clock",
        )
    elif gap < both_half:
        book.find(
            "bosses-overlap",
            "warning",
            f"{b.table}.position",
            f"its boss overlaps that of {a.table} by {book.say(both_half - gap)}",
        )


def _judge_against(book: Ledger, port: Port, mounts: list[Piece]) -> None:
    boss = next((p for p in port_pieces(port) if not p.cut), None)
    if boss is None:
        return
    out = port.direction
    sideways: Vec = cross(X, out)
    for piece in mounts:
        if all(_overlap(boss, piece, axis) > CLEAR for axis in (X, out, sideways)):
            book.find(
                "boss-hits-mount",
                "warning",
                f"{port.table}.position",
                f"the boss runs into {piece.name.replace('_', ' ')}; move the port or turn it",
            )
            return


def _overlap(a: Piece, b: Piece, axis: Vec) -> float:
    (a0, a1), (b0, b1) = extent(a, axis), extent(b, axis)
    return min(a1, b1) - max(a0, b0)


def _judge_room(book: Ledger, ports: tuple[Port, ...]) -> None:
    room = book.number("cylinder.largest_outside")
    for port in ports:
        if room is not None and port.face > room / 2:
            book.find(
                "beyond-room",
                "warning",
                f"{port.table}.height",
                f"the port's face lies {book.say(port.face)} from the centre line; the "
                f"room of {book.say(room)} ends at half of that diameter",
            )
