"""A loose pin as a part: in its mount's hole, and alone."""

from __future__ import annotations

from dataclasses import replace

from drafting.model.pins.loose_pin import LoosePin
from drafting.shape.frame import ORIGIN, Frame, Vec, X, Y, Z, along, scale
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder, stepped

CHAMFER = 0.06
"""Lead at a pin's plain ends, in pins; as drawn only."""
PLATE_WIDE, PLATE_LONG, SCREWS, SCREW_HEAD = 0.7, 1.9, 1.25, 0.4
"""A keeper plate's width and length, the distance of its two screws and their heads' diameter, in
pins; as drawn only: what an ear of twice the pin has room for."""


def pin_parts(pin: LoosePin) -> tuple[Part, ...]:
    """Give pin and keeper plate in the mount's frame: along Y, the head at 3 o'clock.

    A cross hole runs along Z. A keeper plate lies over the ear that it is bolted to: a clevis's own
    on the cylinder's side of the pin, the machine's on the other.
    """
    middle = (pin.way.left - pin.way.right) / 2
    ear = X if pin.way.outermost else scale(X, -1.0)
    up = ear if pin.slot else Z
    place = along(scale(Y, -1.0), (0.0, middle + pin.grip / 2, 0.0), up)
    own = (pin_alone(pin), *_keeper(pin))
    return tuple(replace(p, pieces=tuple(q.within(place) for q in p.pieces)) for p in own)


def pin_alone(pin: LoosePin, drilled: Vec = Z) -> Part:
    """Give the pin along +X of its own frame, its cross holes running along ``drilled``."""
    t, r = pin.table, pin.diameter / 2
    lead = min(CHAMFER * pin.diameter, (pin.end - max((0.0, *pin.holes)) - pin.hole / 2) / 2)
    near = [(pin.start, r)] if pin.head else [(pin.start, r - lead), (pin.start + lead, r)]
    shank = stepped(*near, (pin.end - lead, r), (pin.end, r - lead))
    pieces = [Piece(f"{t}.shank", shank)]
    if pin.head:
        pieces.append(Piece(f"{t}.head", cylinder(pin.head[0] / 2, pin.start, 0.0)))
    for k, x in enumerate(pin.holes):
        drill = cylinder(pin.hole / 2, -r - 1.0, r + 1.0)
        tag = f"_{k + 1}" if k else ""
        pieces.append(Piece(f"{t}.hole{tag}", drill, along(drilled, (x, 0.0, 0.0)), cut=True))
    if pin.slot:
        x0, x1, deep = pin.slot
        outline = box(x0, x1, r - deep, r + 1.0)
        flat = Frame(ORIGIN, X, Z, Y)
        pieces.append(Piece(f"{t}.slot", Prism(outline, -r - 1.0, r + 1.0), flat, cut=True))
    return Part(pin.name, pin.end_of, tuple(pieces), hatched=False)


def _keeper(pin: LoosePin) -> tuple[Part, ...]:
    """Give the plate in the slot with the heads of its screws, against the outer ear."""
    if not pin.slot:
        return ()
    x0, x1, deep = pin.slot
    d, t = pin.diameter, pin.table
    low = d / 2 - deep
    wide, half = PLATE_WIDE * d, PLATE_LONG * d / 2
    pieces = [Piece(f"{t}.keeper_plate", Prism(box(x0, x1, -half, half), low, low + wide))]
    r = SCREW_HEAD * d / 2
    for k, side in enumerate((1.0, -1.0)):
        middle = Frame((0.0, side * SCREWS * d / 2, low + wide / 2))
        head = cylinder(r, x1 - 1.0, x1 + 0.6 * r)
        pieces.append(Piece(f"{t}.keeper_screw{k + 1}", head, middle))
    return (Part(f"{pin.end_of} keeper plate", pin.end_of, tuple(pieces), hatched=False),)
