"""A loose pin alone with its dimensions, for a view of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from drafting.model.pins.loose_pin import LoosePin
from drafting.model.pins.shapes import pin_alone
from drafting.records import dataclass
from drafting.settle.wishes import Callout, CentreLine, Diameter, Length, Symbol, Wish
from drafting.shape.frame import Vec, X, Y, Z
from drafting.shape.pieces import Part

RANK = 3


@dataclass(frozen=True, slots=True)
class PinDetail:
    """A pin alone, along +X of its own frame: 0 is under the head, or where the grip begins.

    The holes run along Y, so that they are round from the side; a keeper's slot is on the +Z side.
    Where they lie follows from grip, hole and length and is for reference.
    """

    table: str
    title: str
    parts: tuple[Part, ...]
    wishes: tuple[Wish, ...]
    symbols: tuple[Symbol, ...]


def pin_details(
    pins: Iterable[LoosePin], said: Callable[[str], object] = lambda _: None
) -> tuple[PinDetail, ...]:
    """Give a detail of every pin that is supplied, one of both where they are alike.

    ``said`` gives what else is printed of a size, by its dotted name: a flag, a tolerance.
    """
    words = {"body": "BASE END PIN", "rod": "ROD END PIN"}
    some = [p for p in pins if p.supplied]
    if len(some) == 2 and _alike(some[0], some[1], said):
        words, some = {some[0].end_of: "PIN, BOTH ENDS"}, some[:1]
    return tuple(
        PinDetail(p.table, words[p.end_of], (pin_alone(p, Y),), _wishes(p), _symbols(p))
        for p in some
    )


def _alike(one: LoosePin, other: LoosePin, said: Callable[[str], object]) -> bool:
    """Tell whether a shop may make two pins by one drawing."""
    same = replace(other, end_of=one.end_of, way=one.way) == one
    names = [w.name.partition(".")[2] for w in _wishes(one)]
    return (
        same
        and one.diameter == other.diameter
        and all(said(f"{one.table}.{n}") == said(f"{other.table}.{n}") for n in names)
    )


def _wishes(pin: LoosePin) -> tuple[Wish, ...]:
    t, r = pin.table, pin.diameter / 2

    def on(x: float, z: float = -r) -> Vec:
        return (x, 0.0, z)

    middle = pin.grip / 2
    words: tuple[str, ...] = (pin.retention.upper(),)
    sizes: tuple[float, ...] = ()
    wishes: list[Wish] = [
        Length(f"{t}.diameter", on(middle), on(middle, r), Z, rank=RANK, form="round"),
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
            Length(f"{t}.hole_at", on(start), on(first), X, rank=RANK - 1, reference=True),
        ]
        if len(pin.holes) == 2:
            wishes.append(Length(f"{t}.hole_pitch", on(first), on(last), X, RANK - 1, True))
    if not pin.slot or pin.head:
        grip = Length(f"{t}.grip", on(0.0), on(pin.grip), X, rank=RANK + 1, note="GRIP")
        wishes.append(grip)
    if pin.slot:
        x0, x1, deep = pin.slot
        if not pin.head:  # no edge stands where the grip begins: its place is said from the end
            wishes.append(Length(f"{t}.slot_at", on(pin.start), on(x0), X, rank=RANK + 1))
            words, sizes = (f"{words[0]}, GRIP {{}}",), (pin.grip,)
        wishes += [
            Length(f"{t}.slot_width", on(x0, r), on(x1, r), X, rank=RANK - 1),
            Length(f"{t}.slot_depth", on(x1, r - deep), on(x1, r), Z, rank=RANK - 1),
        ]
    at = pin.holes[0] if pin.holes else pin.grip
    wishes.append(Callout(f"{t}.retention", on(at, r), Z, words, sizes=sizes))
    return tuple(wishes)


def _symbols(pin: LoosePin) -> tuple[Symbol, ...]:
    t, r = pin.table, pin.diameter / 2
    axis = CentreLine(f"{t}.axis", (pin.start, 0.0, 0.0), (pin.end, 0.0, 0.0), pin.end_of)
    holes = (CentreLine(f"{t}.hole", (x, -r, 0.0), (x, r, 0.0), pin.end_of) for x in pin.holes)
    return (axis, *holes)
