"""A port's pieces: round boss, drilling in a flat side, tube along the barrel, four-bolt pad."""

from __future__ import annotations

from dataclasses import replace

from drafting.model.ports.port import Port
from drafting.model.ports.sizes import BOLT_DEEP, pad_of
from drafting.settle.wishes import Thread
from drafting.shape.frame import Frame, Vec, X, add, along, cross, scale
from drafting.shape.pieces import Piece, Prism, Turned, box, crown, cylinder, stepped

NARROW = 0.85
"""Stem of a port tube in tubes, and its bore along the barrel in drillings; as drawn only."""
DEEP = 0.75
"""Drawn depth of a thread whose table gives none, as a part of its major diameter."""


def port_pieces(port: Port) -> tuple[Piece, ...]:
    """Give the material and the cuts of a port, in the part that it sits on."""
    if port.thread.is_flange:
        return _pad(port)
    if port.sizes.facing != "out":
        return _tube(port)
    frame = _frame(port)
    cut = Piece(f"{port.table}.thread", _opening(port, port.face), frame, cut=True)
    if port.flat and port.sizes.height <= 0:
        return (cut,)
    boss = cylinder(port.sizes.boss / 2, _foot(port), port.face)
    return (Piece(f"{port.table}.boss", boss, frame), cut)


def thread_depth(port: Port) -> float:
    """Give the drawn depth of thread."""
    return port.thread.thread_depth_mm or DEEP * port.thread.major_mm


def thread_lines(port: Port) -> tuple[Thread, ...]:
    """Give the port's thread for the drawing; a flange has none of its own.

    Where the table gives no drilled diameter the basic minor one is taken, D - 1.0825 P (ISO 68-1).
    """
    thread = port.thread
    if thread.is_flange:
        return ()
    major, pitch = thread.major_mm, thread.sizes.pitch_mm
    if pitch is None:
        pitch = 25.4 / thread.sizes.tpi if thread.sizes.tpi else 0.1 * major
    minor = thread.sizes.minor_mm or major - 1.0825 * pitch
    deep = thread_depth(port)
    if port.sizes.facing == "out":
        deep = port.face - max(port.face - deep, port.inside + 0.5)
    else:
        deep = min(deep, abs(port.outlet - port.x))
    bottom = add(port.tip, scale(port.normal, -deep))
    return (Thread(f"{port.table}.thread", port.tip, bottom, major, minor, True),)


def _frame(port: Port) -> Frame:
    return along(port.direction, (port.x, 0.0, 0.0), X)


def _foot(port: Port) -> float:
    """Where a boss begins: just below the seat at the boss's own edge."""
    if port.flat:
        return port.surface - 1.0
    return crown(port.surface, port.sizes.boss / 2) - 1.0


def _opening(port: Port, face: float) -> Turned:
    """Thread as a cylinder at its major diameter, and the drilling behind it."""
    major, passage = port.thread.major_mm / 2, port.sizes.passage / 2
    bottom = max(face - thread_depth(port), port.inside + 0.5)
    return stepped((port.inside, passage), (bottom, passage), (bottom, major), (face + 1.0, major))


def _tube(port: Port) -> tuple[Piece, ...]:
    """A boss up to the tube's centre, the tube along the barrel, both bored.

    Each round is a little smaller than the one that it ends in: equal ones would touch in a line.
    """
    half, table = port.sizes.boss / 2, port.table
    passage, major = port.sizes.passage / 2, port.thread.major_mm / 2
    up = _frame(port)
    centre = add((port.x, 0.0, 0.0), scale(port.direction, port.face))
    run = abs(port.outlet - port.x)
    out = along(port.normal, centre)
    depth = min(thread_depth(port), run)
    narrow, stem = NARROW * passage, NARROW * half
    bore = stepped((0.0, narrow), (run - depth, narrow), (run - depth, major), (run + 1.0, major))
    return (
        Piece(f"{table}.boss", cylinder(stem, _foot(port), port.face), up),
        Piece(f"{table}.tube", cylinder(half, -half, run), out),
        Piece(f"{table}.drilling", cylinder(passage, port.inside, port.face + passage), up, True),
        Piece(f"{table}.thread", bore, out, cut=True),
    )


def _pad(port: Port) -> tuple[Piece, ...]:
    """A pad with the flange's bore and its four bolt holes, long side along the barrel."""
    table, t = port.table, port.thread
    assert t.flange is not None
    long, short, bolt = t.flange.long_mm, t.flange.short_mm, t.flange.bolt_mm
    up = port.direction
    side: Vec = cross(up, X)
    frame = Frame((port.x, 0.0, 0.0), X, side, up)
    a, b = (size / 2 for size in pad_of(t))
    foot = port.surface - 1.0 if port.flat else crown(port.surface, min(b, port.surface)) - 1.0
    pieces = [Piece(f"{table}.boss", Prism(box(-a, a, -b, b), foot, port.face), frame)]
    bore = cylinder(t.major_mm / 2, port.inside, port.face + 1.0)
    pieces.append(Piece(f"{table}.thread", bore, _frame(port), cut=True))
    hole = cylinder(bolt / 2, port.face - BOLT_DEEP * bolt, port.face + 1.0)
    for x in (-long / 2, long / 2):
        for y in (-short / 2, short / 2):
            origin = add((port.x + x, 0.0, 0.0), scale(side, y))
            place = replace(_frame(port), origin=origin)
            pieces.append(Piece(f"{table}.bolts", hole, place, cut=True))
    return tuple(pieces)
