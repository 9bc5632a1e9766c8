"""The room that a fitting and its hose take over a port: a phantom body, no metal of the cylinder.

      straight                 90 degrees
        hose  ___                    hose bend
         |   /                            |
        [ ] nut and hose end      ___  __/
        [ ]                      [   ][____  nut and hose end
    ----+-+---- port's face   ----+-+----

Thread and tube of the 37 degree flare fitting are the table's. The rest are envelopes round what is
sold, so that what keeps clear of them keeps clear of any make; common practice, from memory.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import cos, pi, radians, sin

from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.shop_sizes import neat_up
from drafting.shape.contact import meet
from drafting.shape.frame import Frame, Vec, X, add, along, cross, scale
from drafting.shape.pieces import Arc2, Line2, Part, Piece, Prism, cylinder
from drafting.standards.table import Row, table
from drafting.standards.words import magnitude

WIDE = 1.5
"""Across the corners of nuts and hexagons, in threads (-8: 7/8 in flats make 1.35)."""
LONG, MORE = 4.0, 10.0
"""Fitting, nut and hose end together: threads, and mm on top."""
DROP = 1.5
"""From the port's face to the middle of a 90 degree fitting's arm, in threads."""
STRAIGHT = 1.5
"""Hose that runs straight before it bends, in hose outsides (SAE J1273, from memory)."""
TOUCH = 0.5
POSES = 8
"""Steps of the stroke at which what moves with the rod is looked at."""
FITTING_FIELDS = ("fitting_clock", "hose_bend")


@dataclass(frozen=True, slots=True)
class Fitting:
    """What screws into a port: mm. ``aside`` is where the arm, or the bent hose, points."""

    port: Port
    bent: bool
    thread: float
    hose: float
    bend: float
    aside: Vec


@dataclass(frozen=True, slots=True)
class Outward:
    """What fittings of a port's size take straight out from its face, mm, and where that is from.

    ``wide`` is the radius of nut and hexagon, ``straight`` reaches to the far side of the bent hose
    behind a straight fitting, ``bent`` over the arm of a 90 degree one.
    """

    wide: float
    straight: float
    bent: float
    source: str


def outward(port: Port, units: str) -> Outward | None:
    """Give what a fitting would take where none is named; None of a flange or a plugged port."""
    if port.thread.is_flange or port.sizes.plugged:
        return None
    row = _row(port)
    thread, tube = row.required("major_mm"), row.required("tube_od_mm")
    hose, wide = _hose(tube), WIDE * thread / 2
    out = LONG * thread + MORE + STRAIGHT * hose + _usual_bend(tube, units) + hose
    source = f"37 degree flare {row.word('dash')}, {row.where}, {row.confidence}; common practice"
    return Outward(wide, out, DROP * thread + wide, source)


def keep_outs(book: Ledger, ports: Iterable[Port]) -> tuple[Part, ...]:
    """Give phantom parts for every port that names a fitting; wrong fields enter faults.

    The bend of the hose is a part of its own: what is hollow in it takes nothing of the fitting.
    """
    found = (_settle(book, port) for port in ports)
    return tuple(part for f in found if f is not None for part in _parts(f))


def judge_keep_outs(
    book: Ledger, phantoms: Iterable[Part], parts: Iterable[Part], stroke: float
) -> None:
    """Enter a finding where fitting, hose end or bent hose meet the cylinder, or one another.

    The rod's mount is looked at on its way over the stroke. Two bent hoses are not looked at: they
    give way to each other.
    """
    phantoms = list(phantoms)
    straight = [p for part in phantoms for p in part.pieces if ".keep_out_bend" not in p.name]
    metal = [p for part in parts for p in part.pieces if not p.cut]
    moving = [p for p in metal if p.name.startswith(("rod_mount.", "rod_pin."))]
    for k in range(1, POSES + 1):
        metal += [replace(p, frame=p.frame.moved(stroke * k / POSES)) for p in moving]
    for k, piece in enumerate(straight):
        port = piece.name.partition(".")[0]
        others = [p for p in (*metal, *straight[:k]) if not p.name.startswith(f"{port}.")]
        axes = (piece.frame.x, piece.frame.y, piece.frame.z)
        hit = next((p for p in others if meet(piece, p, axes, TOUCH)), None)
        if hit is not None and not any(
            f.code == "keep-out-hits" and f.field == f"{port}.fitting" for f in book.findings
        ):
            book.find(
                "keep-out-hits",
                "warning",
                f"{port}.fitting",
                f"the room of the fitting runs into {hit.name.replace('_', ' ')}; turn "
                "fitting_clock, move the port, or take the other fitting",
                "common practice",
            )
    for part in phantoms:
        if any(p.cut for p in part.pieces):
            _judge_bend(book, part, [*metal, *straight])


def _judge_bend(book: Ledger, phantom: Part, things: list[Piece]) -> None:
    """Enter a finding where the bent hose runs into metal or another port's fitting."""
    bend, inside = phantom.pieces
    port = bend.name.partition(".")[0]
    others = [p for p in things if not p.name.startswith(f"{port}.")]
    axes = (bend.frame.x, bend.frame.y, bend.frame.z)
    hit = next((p for p in others if meet(bend, p, axes, TOUCH, (inside,))), None)
    if hit is not None:
        book.find(
            "hose-hits",
            "warning",
            f"{port}.fitting_clock",
            f"the bent hose runs into {hit.name.replace('_', ' ')}; turn fitting_clock, or take "
            "the other fitting",
            "common practice",
        )


def _settle(book: Ledger, port: Port) -> Fitting | None:
    t = port.table
    kind = book.given(f"{t}.fitting")
    if kind is None:
        for name in FITTING_FIELDS:
            if book.spec.has(f"{t}.{name}"):
                book.fault(
                    "no-fitting",
                    f"{t}.{name}",
                    'it belongs to a fitting; type fitting = "straight" or "90" too',
                )
        return None
    if port.thread.is_flange or port.sizes.plugged:
        flange = "a four-bolt flange takes a flanged hose"
        why = flange if port.thread.is_flange else "the port is plugged"
        book.fault("no-flare-fitting", f"{t}.fitting", f"{why}; leave fitting out")
        return None
    row = _row(port)
    thread, tube = row.required("major_mm"), row.required("tube_od_mm")
    book.compute(
        f"{t}.fitting_size",
        row.word("dash"),
        "the 37 degree flare fitting of the port's dash or pipe size, else of the nearest thread "
        f"(common practice), {row.where}, {row.confidence}",
    )
    hose = _hose(tube)
    rule = Rule(
        _usual_bend(tube, book.spec.units),
        "11 hose bores and 40 mm, to the inside of the bend (two-wire hose after EN 853, from "
        "memory: 180 mm for 1/2 in, 300 mm for 1 in)",
    )
    bend = book.size(f"{t}.hose_bend", rule)
    if bend < 2 * hose:
        book.find(
            "tight-bend",
            "warning",
            f"{t}.hose_bend",
            f"{book.say(bend)} is less than two hose outsides of {book.say(hose)}: hardly any "
            "hydraulic hose bends so tightly",
            "common practice",
        )
    usual = 180.0 if port.end == "rod" else 0.0
    words = "along the barrel to its middle" if port.sizes.facing == "out" else "away from it"
    clock = book.size(
        f"{t}.fitting_clock", Rule(usual if port.sizes.facing == "out" else 0.0, words), unit="deg"
    )
    return Fitting(port, str(kind.value) == "90", thread, hose, bend, _aside(port, clock))


def _hose(tube: float) -> float:
    """Give the outside of the hose that goes with a tube, mm."""
    return 1.25 * tube + 7.0


def _usual_bend(tube: float, units: str) -> float:
    """Give the radius to the inside of the bend that such a hose bears, mm."""
    return neat_up(11.0 * tube + 40.0, units)


def _row(port: Port) -> Row:
    """Give the fitting of the port's dash, or of a pipe's size; else that of the nearest thread."""
    rows, thread = table("fitting_37deg").rows, port.thread
    dash = thread.dash
    if thread.tube and thread.tube.endswith(" pipe"):
        dash = f"-{16 * magnitude(thread.tube):g}"
    same = (r for r in rows if r.word("dash") == dash)
    near = min(rows, key=lambda r: abs(r.required("major_mm") - thread.major_mm))
    return next(same, near)


def _aside(port: Port, clock: float) -> Vec:
    """Give the direction of an hour as seen by who looks at the port's face.

    12 is towards the rod end; on an outlet along the barrel, away from the barrel.
    """
    up = X if port.sizes.facing == "out" else port.direction
    right = cross(up, port.normal)
    a = radians(clock)
    return add(scale(up, cos(a)), scale(right, sin(a)))


def _parts(f: Fitting) -> tuple[Part, Part]:
    t, wide = f.port.table, WIDE * f.thread / 2
    name = f"{t}.keep_out"
    out, run = f.port.normal, LONG * f.thread + MORE
    tip = f.port.tip
    if f.bent:
        drop = DROP * f.thread
        stem = Piece(f"{name}_stem", cylinder(wide, 0.0, drop + wide), along(out, tip))
        start = add(tip, scale(out, drop))
        pieces = [stem, Piece(name, cylinder(wide, 0.0, run), along(f.aside, start))]
        way, turn = f.aside, out
    else:
        pieces = [Piece(name, cylinder(wide, 0.0, run), along(out, tip))]
        start, way, turn = tip, out, f.aside
    r, far = f.hose / 2, run + STRAIGHT * f.hose
    pieces.append(Piece(f"{name}_hose", cylinder(r, run, far), along(way, start)))
    middle = add(add(start, scale(way, far)), scale(turn, f.bend + r))
    plane = Frame(middle, way, turn, cross(way, turn))
    outer = f.bend + f.hose
    quarter = (
        Line2((0.0, 0.0), (0.0, -outer)),
        Arc2((0.0, 0.0), outer, -pi / 2, 0.0),
        Line2((outer, 0.0), (0.0, 0.0)),
    )
    # The seam of the hollow looks away from the bend: kernels are unsure of seams on edges.
    seam = scale(add(turn, scale(way, -1.0)), 0.5**0.5)
    hollow = Frame(middle, plane.z, seam, cross(plane.z, seam))
    inside = cylinder(f.bend, -r - 1.0, r + 1.0)
    turned = (
        Piece(f"{name}_bend", Prism(quarter, -r, r), plane),
        Piece(f"{name}_bend_inside", inside, hollow, cut=True),
    )
    label = t.replace("_", " ").replace("[", " ").replace("]", "")
    return (
        Part(f"{label} keep-out", "body", tuple(pieces), hatched=False),
        Part(f"{label} keep-out bend", "body", turned, hatched=False),
    )
