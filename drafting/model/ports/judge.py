"""What is wrong with where a port sits: covered, over an edge, in another thing's way."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.model.ports.action import Action
from drafting.model.ports.port import Port
from drafting.model.ports.space import judge_space
from drafting.settle.ledger import Ledger
from drafting.settle.lengths import Lengths
from drafting.settle.stations import Stations
from drafting.shape.pieces import Part


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
        _judge_port(book, action, port, s, lengths)
    judge_space(book, ports, parts, lengths.stroke)


def _judge_port(book: Ledger, action: Action, port: Port, s: Stations, lengths: Lengths) -> None:
    field = f"{port.table}.position"
    half, open_half = port.sizes.boss / 2, port.sizes.passage / 2
    what, lo, hi = _seat(port, s)
    if _over_edge(book, port, what, lo, hi):
        return
    if port.x - half < lo - 1e-6:
        book.find(
            "boss-over-end",
            "warning",
            field,
            f"boss or spotface stands {book.say(lo - port.x + half)} over the {what}'s base side",
        )
    if port.x + half > hi + 1e-6:
        drawn = ": what is held there cannot be drawn out past it" if what == "barrel" else ""
        book.find(
            "boss-over-gland" if what == "barrel" else "boss-over-end",
            "warning",
            field,
            f"boss or spotface stands {book.say(port.x + half - hi)} over the {what}'s rod "
            f"side{drawn}",
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
    elif action.displacement:  # oil passes its guide: a port works on either side
        return
    elif (port.x > land[1]) if port.end == "base" else (port.x < land[0]):
        book.find(
            "port-wrong-side",
            "error",
            field,
            f"the {port.end} end port lies on the other side of the piston when "
            f"{'retracted' if port.end == 'base' else 'extended'}: it would not move the rod",
        )


def _seat(port: Port, s: Stations) -> tuple[str, float, float]:
    """Give what a port sits in, and from where to where that reaches."""
    spans = {
        "cap": (s.closed_end, s.oil_side),
        "head": (s.gland_inner, s.barrel_end),
        "gland": (s.barrel_end, s.gland_face),
        "barrel": (s.closed_end, s.barrel_end),
    }
    return port.part, *spans[port.part]


def _over_edge(book: Ledger, port: Port, what: str, lo: float, hi: float) -> bool:
    """Refuse a thread that is cut over an edge of what it sits in."""
    half = port.sizes.opening / 2
    if lo - 1e-6 <= port.x - half and port.x + half <= hi + 1e-6:
        return False
    book.fault(
        "port-over-edge",
        f"{port.table}.position",
        f"its opening reaches from {book.say(port.x - half)} to {book.say(port.x + half)}, but the "
        f"{what} that it sits in from {book.say(lo)} to {book.say(hi)}: it would be cut over the "
        "edge",
    )
    return True
