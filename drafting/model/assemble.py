"""Settled sizes to parts, wishes and symbols in their world places."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import isclose

from drafting.model.pins.loose_pin import LoosePin
from drafting.model.pins.shapes import pin_parts
from drafting.model.ports.action import Action
from drafting.model.ports.knobs import Knob, callouts
from drafting.model.ports.port import Port
from drafting.model.ports.shapes import port_pieces, thread_lines
from drafting.model.return_spring import spring_of, spring_wish
from drafting.settle.clock import viewpoint
from drafting.settle.ledger import Ledger
from drafting.settle.lengths import Lengths
from drafting.settle.mount import MountDrawing
from drafting.settle.placing import placed
from drafting.settle.shell import Shell
from drafting.settle.stations import (
    Stations,
    piston_nose,
    piston_part,
    rod_pieces,
    stop_tube_part,
    stop_tube_radius,
)
from drafting.settle.wishes import CentreLine, Length, Pose, Symbol, Wish
from drafting.shape.frame import ORIGIN, Frame, X, about_x, dot, sub
from drafting.shape.pieces import Part
from drafting.spec.tolerance_sense import reference_length

_SAME = 1e-6
"""Places nearer than this (mm) are one."""
_PRINTED = 0.005
"""What is smaller (mm) is printed as 0."""
_STUB = 1 / 30
"""A rod of which less than this of the closed length is bare shows its diameter where it is out."""


def _rod_frame(turned: float, lengths: Lengths) -> Frame:
    turn = about_x(-turned)
    return Frame((lengths.retracted, 0.0, 0.0), (-1.0, 0.0, 0.0), turn.y, turn.z)


def place_parts(
    s: Stations,
    shell: Shell,
    drawn: Mapping[str, MountDrawing],
    ports: tuple[Port, ...],
    knobs: Sequence[Knob],
    turned: float,
    lengths: Lengths,
    pins: tuple[LoosePin, ...] = (),
) -> tuple[Part, ...]:
    """Give every part in its place, retracted; of the loose pins those that are supplied."""
    body, rod = drawn["body"], drawn["rod"]
    frame = _rod_frame(turned, lengths)
    seats = [(port.part, piece) for port in ports for piece in port_pieces(port)]
    seats += [(knob.seat.part, piece) for knob in knobs for piece in knob.pieces()]
    loose = {
        end: [q for p in pins if p.supplied and p.end_of == end for q in pin_parts(p)]
        for end in drawn
    }
    rod_part = [*rod_pieces(s), *(p.within(frame) for p in rod.pieces)]
    return (
        *shell.parts(s, body.pieces, seats),
        *body.parts,
        *loose["body"],
        piston_part(s),
        *stop_tube_part(s),
        Part("rod", "rod", tuple(rod_part), hatched=False),
        *(
            replace(p, pieces=tuple(q.within(frame) for q in p.pieces))
            for p in (*rod.parts, *loose["rod"])
        ),
    )


def _said_by(mount: tuple[Wish, ...], wish: Wish) -> bool:
    """Tell whether a bare length along the body is the way to the mount's datum as well."""
    if not isinstance(wish, Length) or wish.direction != X or wish.note:
        return False
    ends = (wish.a[0], wish.b[0])
    along = [(w.a[0], w.b[0]) for w in mount if isinstance(w, Length) and w.direction == X]
    return any(
        all(isclose(p, q, abs_tol=_SAME) for p, q in zip(w, ends, strict=True)) for w in along
    )


def place_wishes(
    book: Ledger,
    s: Stations,
    shell: Shell,
    action: Action,
    drawn: Mapping[str, MountDrawing],
    ports: tuple[Port, ...],
    knobs: Sequence[Knob],
    turned: float,
    lengths: Lengths,
) -> tuple[tuple[Wish, ...], tuple[Symbol, ...]]:
    """Give the wishes and symbols of the whole cylinder, at world places."""
    frame = _rod_frame(turned, lengths)
    end = (lengths.retracted, 0.0, 0.0)
    open_end = (lengths.extended, 0.0, 0.0)
    reference = reference_length(book.spec)
    out = lengths.stroke
    mid = (s.piston_front + s.gland_inner) / 2
    free = (s.oil_side + s.piston_back + out) / 2
    bare = (s.gland_face + s.rod_end) / 2
    rod: tuple[float, Pose] = (bare, "retracted")
    if s.rod_end - s.gland_face < _STUB * (s.rod_end - s.closed_end):
        rod = (bare + out / 2, "extended")
    note = drawn["rod"].note
    r, nose = s.barrel_outside / 2, piston_nose(s)
    body = shell.wishes(s)
    for wish in body:
        if isinstance(wish, Length) and wish.reference:
            book.compute(wish.name, wish.b[0] - wish.a[0], "what the parts of the body add up to")

    def across(name: str, x: float, d: float, rank: int, pose: Pose = "retracted") -> Length:
        ends = ((x, 0.0, -d / 2), (x, 0.0, d / 2))
        return Length(name, *ends, (0.0, 0.0, 1.0), rank=rank, form="round", pose=pose)

    def inside(word: str, x0: float, r0: float, x1: float, r1: float, note: str = "") -> Length:
        ends = ((x0, 0.0, r0), (x1, 0.0, r1))
        return Length(f"cylinder.{word}", *ends, X, rank=3, note=note, pose="extended")

    wishes: list[Wish] = [
        Length("cylinder.retracted", ORIGIN, end, X, 8, reference == "retracted", note),
        Length(
            "cylinder.extended",
            ORIGIN,
            open_end,
            X,
            9,
            reference == "extended",
            note,
            pose="extended",
        ),
        Length("cylinder.stroke", end, open_end, X, 8, reference == "stroke", pose="extended"),
        across("cylinder.bore", free, s.bore, 2, "extended"),
        inside("base_thickness", s.closed_end, r, s.oil_side, s.bore / 2),
        inside("piston_length", s.piston_back + out, nose, s.piston_front + out, nose),
        inside("gland_length", s.gland_inner, s.rod / 2, s.gland_face, s.rod / 2),
        across("cylinder.barrel_outside", mid, 2 * r, 3),
        across("cylinder.rod", rod[0], s.rod, 2, rod[1]),
        *(w for w in body if not _said_by(drawn["body"].wishes, w)),
        *drawn["body"].wishes,
        *(placed(w, frame) for w in drawn["rod"].wishes),
    ]
    if s.stop_tube > 0:
        x, radius = s.piston_front + out, stop_tube_radius(s)
        wishes.append(inside("stop_tube", x, radius, x + s.stop_tube, radius, "STOP TUBE"))
    wishes += callouts(knobs, viewpoint(book))
    spring = spring_of(action, s, out)
    symbols: list[Symbol] = [
        CentreLine("axis", (min(0.0, s.closed_end), 0.0, 0.0), end),
        *shell.symbols(s),
        *drawn["body"].symbols,
        *(placed(w, frame) for w in drawn["rod"].symbols),
    ]
    if spring:
        wishes.append(spring_wish(action, spring))
        symbols.append(spring)
    for port in ports:
        wishes += port.wishes()
        symbols += [*port.symbols(), *thread_lines(port)]
    return tuple(w for w in wishes if not _says_nothing(w)), tuple(symbols)


def _says_nothing(wish: Wish) -> bool:
    """Tell whether a wish asks for a size of 0; a closed length may be that, and is asked for."""
    if not isinstance(wish, Length) or wish.name == "cylinder.retracted":
        return False
    return abs(dot(sub(wish.b, wish.a), wish.direction)) < _PRINTED
