"""Settling the loose pins that a file asks for: grip, length, head, and what keeps them in."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.model.mounts.pinned import SMALL
from drafting.model.pins.loose_pin import LoosePin, Retention
from drafting.model.pins.rules import beyond_rule, head_rules, hole_rule
from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host, Mount, PinWay
from drafting.settle.shop_sizes import neat, neat_up
from drafting.values import Value

PLAY = 0.5
"""Least end play (mm) between a clevis and what keeps its pin in; common practice."""
SLOT_WIDE, SLOT_DEEP, RIM = 0.2, 0.12, 0.15
"""Keeper plate's thickness, slot depth and metal beyond it, in pins; common practice, from memory
of DIN 15058 (30 mm pin: plate of 8 mm; 50 mm pin: 10 mm)."""
THICK_HOLE = 0.35
"""ISO 2341 drills at most 0.33 of the pin; a larger hole is a finding."""


@dataclass(frozen=True, slots=True)
class _Ends:
    """What a pin needs beyond its grip at either end: ``least`` to exist, ``good`` to be sound."""

    front: float
    least: float
    good: float
    even: bool


def settle_pins(
    book: Ledger, hosts: Mapping[str, Host], mounts: Mapping[str, Mount]
) -> tuple[LoosePin, ...]:
    """Settle the pins that the file asks for; one for a mount that takes none is a fault."""
    pins = []
    for end, host in hosts.items():
        t = f"{end}_pin"
        if not book.spec.has(t):
            continue
        way = mounts[end].pin_way()
        if way is None:
            word = type(mounts[end]).word
            own = "its pins are its own" if type(mounts[end]).turns else "it has none"
            book.fault(
                "no-loose-pin",
                t,
                f'a mount "{word}" takes no loose pin: {own}; leave [{t}] out',
            )
            continue
        pins.append(_settle(book, host, t, way))
    return tuple(pins)


def _settle(book: Ledger, host: Host, t: str, way: PinWay) -> LoosePin:
    known = book.values.get(f"{host.table}.pin")
    if known is not None and known.origin in ("derived", "table"):
        book.enter(f"{t}.diameter", Rule(way.pin, "the mount's pin", known.source))
    else:
        book.compute(f"{t}.diameter", way.pin, "the mount's pin")
    supplied = _supplied(book, t)
    retention = _retention(book, t)
    head = _head(book, host, t, way, retention)
    hole, beyond = 0.0, Rule(0.0, "")
    slot_wide = slot_deep = 0.0
    if retention == "keeper plate":
        slot_wide, slot_deep = _slot(book, host, t, way)
    else:
        hole, beyond = _hole(book, t, way)
    front = head[1] if head else 0.0
    if retention == "keeper plate":
        rim = neat(RIM * way.pin, host.units)
        ends = _Ends(front or rim, slot_wide + 1.0, slot_wide + rim, False)
    else:
        both = retention == "two cotters"
        ends = _Ends(front, hole, hole / 2 + beyond.value, both)
    grip = _grip(book, host, t, way, ends)
    length = _length(book, host, t, grip, ends)
    spare = length - grip - 2 * ends.good if ends.even else 0.0
    start = -(ends.good + spare / 2) if ends.even else -ends.front
    pin = LoosePin(
        host.end,
        way,
        supplied,
        retention,
        grip,
        start,
        start + length,
        head,
        hole,
        () if not hole else (grip + hole / 2, -hole / 2) if ends.even else (grip + hole / 2,),
        (grip, grip + slot_wide, slot_deep) if slot_wide else None,
    )
    _enter_places(book, pin, beyond)
    return pin


def _supplied(book: Ledger, t: str) -> bool:
    if book.spec.has(f"{t}.supplied"):
        return book.flag(f"{t}.supplied")
    book.find(
        "pin-supplied",
        "note",
        f"{t}.supplied",
        "not typed: taken as supplied, because the file asks for the pin; supplied = false says "
        "that the machine's own pin is used",
    )
    return True


def _retention(book: Ledger, t: str) -> Retention:
    typed = book.given(f"{t}.retention")
    if typed is not None:
        return str(typed.value)  # type: ignore[return-value]
    single = not book.spec.has(f"{t}.head") or book.flag(f"{t}.head")
    word: Retention = "cotter" if single else "two cotters"
    why = "head and cotter" if single else "no head: a cotter at each end"
    book.values[f"{t}.retention"] = Value(
        f"{t}.retention", word, "", None, "derived", why, "common practice"
    )
    book.find(
        "to-confirm",
        "warning",
        f"{t}.retention",
        f'not typed; drawn as "{word}" ({why}): to be confirmed',
        "common practice",
    )
    return word


def _head(
    book: Ledger, host: Host, t: str, way: PinWay, retention: Retention
) -> tuple[float, float] | None:
    name, single = f"{t}.head", retention in ("spring clip", "cotter")
    wanted = book.flag(name) if book.spec.has(name) else single
    if single and not wanted:
        book.fault(
            "pin-held-at-one-end",
            name,
            f'without a head one "{retention}" lets the pin out at the other end; head = true, '
            '"two cotters" or "keeper plate" will do',
        )
    if wanted and retention == "two cotters":
        book.fault(
            "head-and-two-cotters",
            name,
            'a pin has a head and one "cotter", or no head and "two cotters"; which of them?',
        )
    if not book.spec.has(name):
        why = "a pin held at one end needs one" if wanted else f"held both ways by {retention}"
        book.values[name] = Value(name, wanted, "", None, "derived", why, "common practice")
    if not wanted:
        return None
    rules = head_rules(way.pin, host.units)
    for word, rule in zip(("head_diameter", "head_height"), rules, strict=True):
        book.enter(f"{t}.{word}", rule)
    return rules[0].value, rules[1].value


def _hole(book: Ledger, t: str, way: PinWay) -> tuple[float, Rule]:
    """Give the hole and the least distance from its middle to the pin's end."""
    rule, hole = hole_rule(way.pin), book.number(f"{t}.hole")
    if hole is None and rule is None:
        book.fault(
            "no-hole-row",
            f"{t}.hole",
            f"no table has a split pin for a pin of {book.say(way.pin)}; type hole, or retention = "
            '"keeper plate"',
        )
    if hole is None and rule is not None:
        hole = book.size(f"{t}.hole", rule)
    if hole is None:
        return 0.0, Rule(0.0, "")
    if hole > THICK_HOLE * way.pin + SMALL:
        told = f"a hole of {book.say(hole)} through a pin of {book.say(way.pin)}"
        if hole > way.pin - 2.0:
            book.fault("hole-through-pin", f"{t}.hole", f"{told} leaves no pin")
        else:
            book.find("thick-hole", "warning", f"{t}.hole", f"{told} weakens it", "ISO 2341")
    return hole, beyond_rule(way.pin, hole)


def _slot(book: Ledger, host: Host, t: str, way: PinWay) -> tuple[float, float]:
    if book.spec.has(f"{t}.hole"):
        book.fault(
            "hole-and-keeper",
            f"{t}.hole",
            "a keeper plate lies in a slot, and the pin has no hole; leave hole out",
        )
    wide = Rule(neat_up(SLOT_WIDE * way.pin, host.units), "a plate 0.2 of the pin thick")
    deep = Rule(neat_up(SLOT_DEEP * way.pin, host.units), "0.12 of the pin")
    book.enter(f"{t}.slot_width", wide)
    book.enter(f"{t}.slot_depth", deep)
    book.find(
        "keeper-plate",
        "note",
        t,
        f"the keeper plate ({book.say(wide.value)} thick) is bolted to the outer ear with two "
        "screws; its length, width and screws are as drawn only",
        "common practice",
    )
    return wide.value, deep.value


def _grip(book: Ledger, host: Host, t: str, way: PinWay, ends: _Ends) -> float:
    name, wide = f"{t}.grip", way.right + way.left
    typed_length = book.number(f"{t}.length")
    if way.outermost:
        rule = Rule(neat_up(wide + PLAY, host.units), "over the ears, with end play")
        grip = book.size(name, rule)
    elif typed_length is not None and not book.spec.has(name):
        rest = typed_length - (2 * ends.good if ends.even else ends.front + ends.good)
        rule = Rule(rest, "what the typed length leaves between head and retention")
        grip = book.size(name, rule)
    else:
        ear = neat_up(0.6 * way.pin, host.units)
        rule = Rule(
            neat_up(wide + 2 * ear + PLAY, host.units),
            f"the machine's ears are not known: two of {book.say(ear)} (0.6 of the pin) taken",
        )
        grip = book.size(name, rule, interface=True)
    least = wide if way.outermost else wide + 2.0
    if grip < least - SMALL:
        book.fault(
            "pin-too-short",
            name if book.spec.has(name) else f"{t}.length",
            f"a grip of {book.say(grip)} does not go through {book.say(wide)} of mount"
            + ("" if way.outermost else " and the machine's ears on both sides of it"),
        )
    elif way.outermost and grip > 1.25 * wide:
        book.find(
            "loose-grip",
            "warning",
            name,
            f"a grip of {book.say(grip)} over ears of {book.say(wide)} lets the pin wander; "
            "washers take up the play",
            "common practice",
        )
    return grip


def _length(book: Ledger, host: Host, t: str, grip: float, ends: _Ends) -> float:
    name = f"{t}.length"
    good = grip + (2 * ends.good if ends.even else ends.front + ends.good)
    least = grip + (2 * ends.least if ends.even else ends.front + ends.least)
    length = book.size(
        name, Rule(neat_up(good, host.units), "head, grip, and what keeps the pin in with its end")
    )
    if length < least - SMALL:
        book.fault(
            "pin-too-short",
            name,
            f"{book.say(length)} is too short for a grip of {book.say(grip)} with its head and "
            f"retention; {book.say(good)} or more will do",
        )
    elif length < good - SMALL:
        book.find(
            "short-end",
            "warning",
            name,
            f"{book.say(good - length)} short of what leaves sound metal beyond the retention",
            "ISO 2341",
        )
    return length


def _enter_places(book: Ledger, pin: LoosePin, beyond: Rule) -> None:
    """Enter where holes or slot lie as drawn; ``beyond`` is asked from the last hole to the end."""
    t = pin.table
    if not pin.holes:
        if not pin.head:
            book.enter(f"{t}.slot_at", Rule(pin.grip - pin.start, "the grip and a rim"))
        return
    if len(pin.holes) == 2:
        book.compute(f"{t}.hole_pitch", pin.holes[0] - pin.holes[1], "the grip and one hole")
        book.compute(f"{t}.hole_at", pin.holes[1] - pin.start, "half of what is beyond the holes")
    else:
        book.compute(f"{t}.hole_at", pin.holes[0], "the grip and half of the hole")
    to_end = pin.end - pin.holes[0]
    asked = "at least" if to_end > beyond.value - SMALL else "short of"
    rule = Rule(to_end, f"{asked} {beyond.why}", beyond.source)
    made_of = ("grip", "hole", "length", *(["head_height"] if pin.head else []))
    if any(book.values[f"{t}.{n}"].origin in ("derived", "table") for n in made_of):
        book.enter(f"{t}.hole_to_end", rule)
    else:
        book.compute(f"{t}.hole_to_end", to_end, rule.why)
