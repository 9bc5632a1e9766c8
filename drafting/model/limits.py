"""What can be built but needs a person's eye, and what cannot exist in space."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations

from drafting.model.frame import Vec, X, cross
from drafting.model.ledger import Ledger
from drafting.model.lengths import Lengths
from drafting.model.mounts.base import Mount
from drafting.model.pieces import Part, Piece, extent
from drafting.model.port import Port
from drafting.model.tube_parts import Stations

CLEAR = 2.5
"""Overlaps up to this (mm) are weld seams and roots, not collisions."""


def judge_whole(book: Ledger, s: Stations, lengths: Lengths, mounts: Mapping[str, Mount]) -> None:
    """Enter findings on the cylinder as a whole."""
    if s.bore < 10.0:
        book.find(
            "smells-of-unit",
            "warning",
            "cylinder.bore",
            f"a bore of {book.say(s.bore)} is very small for a hydraulic cylinder: inch or mm?",
            "common practice",
        )
    if s.bore > 1000.0:
        book.find(
            "smells-of-unit",
            "warning",
            "cylinder.bore",
            f"a bore of {book.say(s.bore)} is very large: inch or mm?",
            "common practice",
        )
    for end in mounts:
        pin = book.number(f"{end}_mount.pin")
        if pin is not None and not 0.25 * s.rod <= pin <= 2.0 * s.rod:
            book.find(
                "smells-of-unit",
                "warning",
                f"{end}_mount.pin",
                f"a pin of {book.say(pin)} beside a rod of {book.say(s.rod)}: inch or mm?",
                "common practice",
            )
    room = book.number("cylinder.largest_outside")
    widest = max(s.barrel_outside, s.gland_outside)
    if room is not None and widest > room:
        book.find(
            "beyond-room",
            "warning",
            "cylinder.largest_outside",
            f"barrel or gland of {book.say(widest)} is larger than the room of {book.say(room)}",
        )
    _judge_clocks(book)


def _judge_clocks(book: Ledger) -> None:
    spec = book.spec
    if spec.has("cylinder.clock_seen_from"):
        return
    for table in ("base_port", "rod_port"):
        clock = book.number(f"{table}.clock")
        if clock is not None and clock % 180.0 > 1e-9:
            book.find(
                "clock-viewpoint",
                "warning",
                f"{table}.clock",
                "read as seen from the rod end because clock_seen_from is not typed; the trade has "
                'no one viewpoint: type clock_seen_from = "rod" or "base"',
            )
            return


def judge_ports(
    book: Ledger, ports: tuple[Port, ...], s: Stations, parts: Iterable[Part], lengths: Lengths
) -> None:
    """Enter findings and faults on ports: missing, covered, over an edge, in each other's way."""
    for table, end in (("base_port", "base"), ("rod_port", "rod")):
        if not book.spec.has(table):
            book.find(
                "no-port",
                "warning",
                table,
                f"no {end} end port was given and none is drawn; double acting needs one",
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
    half, open_half = port.boss / 2, port.passage / 2
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
        s.oil_side + s.piston_relief + travel,
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
    arc = apart / 180.0 * 3.14159265 * a.barrel / 2
    gap = (arc**2 + (a.x - b.x) ** 2) ** 0.5
    if gap < (a.thread.major_mm + b.thread.major_mm) / 2:
        book.fault(
            "ports-overlap",
            f"{b.table}.position",
            f"its opening lies in that of {a.table}, {book.say(gap)} from centre to centre; "
            "move one or turn its clock",
        )
    elif gap < (a.boss + b.boss) / 2:
        book.find(
            "bosses-overlap",
            "warning",
            f"{b.table}.position",
            f"its boss overlaps that of {a.table} by {book.say((a.boss + b.boss) / 2 - gap)}",
        )


def _judge_against(book: Ledger, port: Port, mounts: list[Piece]) -> None:
    boss = port.pieces()[0]
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


NOT_DRAWN: dict[str, tuple[object, ...]] = {}
"""Words of the spec format that are known but not drawn yet; empty: everything is drawn."""
