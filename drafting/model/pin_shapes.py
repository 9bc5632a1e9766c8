"""A loose pin as a part in its mount's hole, and alone with its dimensions for a small detail."""

from __future__ import annotations

from dataclasses import replace

from drafting.model.cylinder import Cylinder
from drafting.model.frame import ORIGIN, Frame, Vec, X, Y, Z, along, scale
from drafting.model.loose_pin import LoosePin
from drafting.model.pieces import Part, Piece, Prism, box, cylinder, stepped
from drafting.model.wishes import Callout, CentreLine, Diameter, Length, Symbol, Wish
from drafting.records import dataclass

CHAMFER = 0.06
"""Lead at a pin's plain ends, in pins; as drawn only."""
PLATE_WIDE, PLATE_LONG, SCREWS, SCREW_HEAD = 0.7, 1.9, 1.25, 0.4
"""A keeper plate's width and length, the distance of its two screws and their heads' diameter, in
pins; as drawn only: what an ear of twice the pin has room for."""
RANK = 3


@dataclass(frozen=True, slots=True)
class PinDetail:
    """A pin alone, along +X of its own frame: 0 is under the head, or where the grip begins.

    The holes run along Y, so that they are round from the side; a keeper's slot is on the +Z side.
    """

    table: str
    title: str
    parts: tuple[Part, ...]
    wishes: tuple[Wish, ...]
    symbols: tuple[Symbol, ...]


def pin_parts(pin: LoosePin) -> tuple[Part, ...]:
    """Give pin and keeper plate in the mount's frame: along Y, the head at 3 o'clock.

    A cross hole runs along Z. A keeper plate lies over the ear that it is bolted to: a clevis's own
    on the cylinder's side of the pin, the machine's on the other.
    """
    middle = (pin.way.left - pin.way.right) / 2
    ear = X if pin.way.outermost else scale(X, -1.0)
    up = ear if pin.slot else Z
    place = along(scale(Y, -1.0), (0.0, middle + pin.grip / 2, 0.0), up)
    own = (_alone(pin), *_keeper(pin))
    return tuple(replace(p, pieces=tuple(q.within(place) for q in p.pieces)) for p in own)


def pin_details(c: Cylinder) -> tuple[PinDetail, ...]:
    """Give a detail of every pin that is supplied."""
    words = {"body": "BASE END PIN", "rod": "ROD END PIN"}
    return tuple(
        PinDetail(p.table, words[p.end_of], (_alone(p, Y),), _wishes(p), _symbols(p))
        for p in c.pins
        if p.supplied
    )


def _alone(pin: LoosePin, drilled: Vec = Z) -> Part:
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


def _wishes(pin: LoosePin) -> tuple[Wish, ...]:
    t, r = pin.table, pin.diameter / 2

    def on(x: float, z: float = -r) -> Vec:
        return (x, 0.0, z)

    middle = pin.grip / 2
    wishes: list[Wish] = [
        Length(f"{t}.diameter", on(middle), on(middle, r), Z, rank=RANK, form="round"),
        Length(f"{t}.grip", on(0.0), on(pin.grip), X, rank=RANK + 1, note="GRIP"),
        Length(f"{t}.length", on(pin.start), on(pin.end), X, rank=RANK + 2),
    ]
    if pin.head:
        across, high = pin.head
        at = pin.start + high / 2
        wishes += [
            Length(
                f"{t}.head_diameter", on(at, -across / 2), on(at, across / 2), Z, RANK, form="round"
            ),
            Length(f"{t}.head_height", on(pin.start, r), on(0.0, r), X, rank=RANK - 1),
        ]
    if pin.holes:
        first, last = pin.holes[-1], pin.holes[0]
        start = pin.start if len(pin.holes) == 2 else 0.0
        count = f"{len(pin.holes)} HOLES" if len(pin.holes) == 2 else ""
        wishes += [
            Diameter(f"{t}.hole", on(last, 0.0), Y, pin.hole, note=count),
            Length(f"{t}.hole_at", on(start), on(first), X, rank=RANK - 1),
        ]
        if len(pin.holes) == 2:
            wishes.append(Length(f"{t}.hole_pitch", on(first), on(last), X, rank=RANK - 1))
    if pin.slot:
        x0, x1, deep = pin.slot
        wishes += [
            Length(f"{t}.slot_width", on(x0, r), on(x1, r), X, rank=RANK - 1),
            Length(f"{t}.slot_depth", on(x1, r - deep), on(x1, r), Z, rank=RANK - 1),
        ]
    at = pin.holes[0] if pin.holes else pin.grip
    wishes.append(Callout(f"{t}.retention", on(at, r), Z, (pin.retention.upper(),)))
    return tuple(wishes)


def _symbols(pin: LoosePin) -> tuple[Symbol, ...]:
    t, r = pin.table, pin.diameter / 2
    axis = CentreLine(f"{t}.axis", (pin.start, 0.0, 0.0), (pin.end, 0.0, 0.0), pin.end_of)
    holes = (CentreLine(f"{t}.hole", (x, -r, 0.0), (x, r, 0.0), pin.end_of) for x in pin.holes)
    return (axis, *holes)
