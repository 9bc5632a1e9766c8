"""The data of a cylinder and of its duty, in the sheet's own unit; what nobody said is a line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import floor, log10

from drafting.model.cylinder import Cylinder
from drafting.model.pins.loose_pin import LoosePin
from drafting.settle.tolerance import tolerance_of
from drafting.told.data_sheet import Said
from drafting.told.facts import (
    GALLON,
    OPEN,
    POUND,
    action_words,
    end_word,
    pin_rows,
    small_parts,
    turning,
)
from drafting.told.flags import DERIVED, flag_of, flag_said
from drafting.told.if_said import if_said
from drafting.told.ports_said import port_names
from drafting.told.printed import printed, sized, with_brackets

_PRESSURES = (
    ("Working pressure", (("cylinder.working_pressure", "Working pressure"),)),
    (
        "Relief, proof pressure",
        (
            ("cylinder.relief_pressure", "Relief pressure"),
            ("cylinder.proof_pressure", "Proof pressure"),
        ),
    ),
)
_ASKED = (
    ("Force, push / pull", (("duty.push", "Force, push"), ("duty.pull", "Force, pull"))),
    (
        "Flow or speed, cycles",
        (("duty.flow", "Flow"), ("duty.speed", "Speed"), ("duty.strokes_per_day", "Strokes a day")),
    ),
)
_SPRING = (("Spring force, in / out", (("cylinder.spring_force", "Spring force, in / out"),)),)
"""Asked where a spring brings the rod back: its force with the rod in, and out."""
_MAKE = (
    ("Fluid, temperature", (("cylinder.fluid", "Fluid"), ("cylinder.temperature", "Temperature"))),
    ("Seals", (("cylinder.seals", "Seals"),)),
    (
        "Rod material, plating",
        (("cylinder.rod_material", "Rod material"), ("cylinder.rod_finish", "Rod plating")),
    ),
    ("Barrel material", (("cylinder.barrel_material", "Barrel material"),)),
    ("Finish; stays bare", (("cylinder.finish", "Finish"), ("cylinder.bare", "Stays bare"))),
    ("Marking", (("cylinder.marking", "Marking"),)),
)
_PLACE = (
    (
        "Orientation, side load",
        (("duty.orientation", "Orientation"), ("duty.side_load", "Side load")),
    ),
    ("Environment", (("duty.environment", "Environment"),)),
    (
        "Contact, date, ship to",
        (("contact", "Contact"), ("wanted", "Wanted date"), ("ship_to", "Ship to")),
    ),
)
_OUTSIDE = (
    ("barrel_outside", "Barrel OD"),
    ("wall", "Barrel wall"),
    ("gland_outside", "Gland OD"),
    ("gland_projection", "Gland projection"),
    ("rod_stick_out", "Rod stick-out"),
)
"""Sizes that are said here where somebody gave them, and are drawn by rule where nobody did."""
_PIN = ("supplied", "retention", "diameter", "length")
"""What the row of a loose pin says."""
Row = tuple[str, Said]
"""A label and what is said."""
Group = tuple[str, tuple[tuple[str, str], ...]]
"""The label of a shared line, and each field with its own label."""
_BEHIND = {
    "duty.speed": ("duty.seconds_out", "duty.seconds_in"),
    "duty.orientation": ("duty.angle",),
}
"""What else the row of a field says."""
AS_TYPED = frozenset(
    name
    for g in (_PRESSURES, _ASKED, _SPRING, _MAKE, _PLACE)
    for _, fields in g
    for name, _ in fields
).union(*_BEHIND.values())
"""Fields that the data sheet shows as they were typed."""


def data_rows(c: Cylinder, mass: float, dimensions: str, fractions: int) -> tuple[Row, ...]:
    """Give the rows of the data section, a label and what is said; ``mass`` is dry, in kg."""
    rows = (
        ("Action", Said(_action(c), names=("cylinder.action", "cylinder.return"))),
        *_cushions(c),
        *_groups(c, _PRESSURES),
        ("Weight, dry", Said(_weight(mass, dimensions))),
        _oil(c, dimensions),
        *_groups(c, _asked(c)),
        *_groups(c, _SPRING if c.action.spring else ()),
        *_groups(c, _MAKE),
        *_pins(c, dimensions, fractions),
        *_comes_with(c),
        *_port_bolts(c),
        *_fittings(c, dimensions, fractions),
        *if_said(c, dimensions, fractions),
        *_groups(c, _PLACE),
        _quantity(c),
    )
    return (*_sizes(c, dimensions, fractions), *_room(c, dimensions, fractions), *rows)


def _sizes(c: Cylinder, dimensions: str, fractions: int) -> Iterator[Row]:
    s = c.stations
    turns = "" if flag_said(c, "cylinder.rod") else turning(c)
    sizes = [("cylinder.bore", "Bore", s.bore, ""), ("cylinder.rod", "Rod", s.rod, turns)]
    for field, label in _OUTSIDE:
        value = c.value(f"cylinder.{field}")
        if value is not None and value.origin not in ("derived", "table"):
            sizes.append((value.name, label, float(value.value), ""))
    for name, label, size, more in sizes:
        shown = sized(c.tolerances, name, size, dimensions, fractions)
        words = ", ".join(w for w in (shown, more) if w)
        if not size:  # a gland that does not project
            words = "none, flush with the barrel"
        yield label, Said(words, flag_said(c, name), names=(name,))


def _room(c: Cylinder, dimensions: str, fractions: int) -> Iterator[Row]:
    room = c.spec.number("cylinder.largest_outside")
    if room is not None:
        shown = with_brackets(*printed("cylinder.largest_outside", room, dimensions, fractions))
        yield "Room in the machine", Said(f"Ø{shown}", names=("cylinder.largest_outside",))
    cap = c.value("cylinder.cap_turned")
    if cap is not None and cap.value:
        turned = f"turned {float(cap.value):g}° against the head"
        yield "Cap", Said(turned, names=(cap.name,))


def _action(c: Cylinder) -> str:
    ram = c.spec.word("cylinder.piston") == "displacement"
    words = [action_words(c)]
    if ram:  # which acts one way alone
        words[0] = words[0].replace("single acting", "displacement ram")
    if flag_said(c, "cylinder.rod"):  # a flag stands behind the size and nothing else
        words.append(f"rod {turning(c)}")
    return ", ".join(words)


def _cushions(c: Cylinder) -> Iterator[Row]:
    name = "cylinder.cushions"
    cushions = c.spec.word(name)
    if cushions:
        words = {"both": "both ends", "none": "none"}
        yield "Cushions", Said(words.get(cushions, f"{cushions} end"), names=(name,))


def _weight(mass: float, dimensions: str) -> str:
    """Say a weight; a whole pound is coarse for what weighs a few."""
    lb = mass / POUND
    kilos, pounds = f"{mass:.{1 if mass < 100.0 else 0}f} kg", f"{lb:.{1 if lb < 10.0 else 0}f} lb"
    first, second = (pounds, kilos) if dimensions.startswith("in") else (kilos, pounds)
    return with_brackets(first, second) if " " in dimensions else first


def _oil(c: Cylinder, dimensions: str) -> Row:
    """Say the oil of each way; a single acting cylinder takes some for one of them alone."""
    ways = zip(
        ("out", "back"),
        c.action.oil(c.stations.bore, c.stations.rod, c.lengths.stroke),
        strict=True,
    )
    size, unit = (GALLON, "US gal") if dimensions.startswith("in") else (1.0, "L")
    taken = [(way, v / size) for way, v in ways if v]
    places = _places(min(v for _, v in taken))
    label = f"Oil, {' / '.join(way for way, _ in taken)}"
    return label, Said(f"{' / '.join(f'{v:.{places}f}' for _, v in taken)} {unit}")


def _places(volume: float) -> int:
    """Give two decimals, of a very small volume as many as leave two digits that say something."""
    return 2 if volume >= 0.1 else 1 - floor(log10(volume))


def _groups(c: Cylinder, groups: Iterable[Group]) -> Iterator[Row]:
    """Give rows; fields that share a line stand apart as soon as one of them is said."""
    for label, fields in groups:
        rows = [(own, Said(_said(c, name), names=_names(name))) for name, own in fields]
        if any(said.text for _, said in rows):
            yield from rows
        else:
            yield label, Said("")


def _asked(c: Cylinder) -> Iterator[Group]:
    """Give the groups of the duty; nobody is asked for a force that the oil does not give."""
    never = {"push": "duty.pull", "pull": "duty.push"}.get(c.action.word)
    for label, fields in _ASKED:
        kept = tuple(f for f in fields if f[0] != never or c.spec.has(f[0]))
        yield (label if len(kept) == len(fields) else kept[0][1]), kept


def _names(name: str) -> tuple[str, ...]:
    """Name what a row of a field says: with it what stands behind it."""
    return (name, *_BEHIND.get(name, ()))


def _said(c: Cylinder, name: str) -> str:
    given = c.spec.get(name)
    words = given.typed if given is not None else ""
    more = {"duty.speed": _times, "duty.orientation": _slope}.get(name, _nothing)(c)
    said = "; ".join(part for part in (words, more) if part)
    return said.replace("degC", "°C").replace("degF", "°F").replace(" deg", "°")


def _nothing(_: Cylinder) -> str:
    return ""


def _slope(c: Cylinder) -> str:
    """Give how steeply the stroke rises, where that was said."""
    slope = c.spec.number("duty.angle")
    return "" if slope is None else f"stroke at {slope:g}° to level"


def _times(c: Cylinder) -> str:
    """Give the times that the duty asks."""
    asked = ((way, c.spec.get(f"duty.seconds_{way}")) for way in ("out", "in"))
    return ", ".join(f"{way} within {given.typed} s" for way, given in asked if given is not None)


def _pins(c: Cylinder, dimensions: str, fractions: int) -> Iterator[Row]:
    """Say of each loose pin whether it comes with the cylinder, and then which; alike ones once."""

    def say(p: LoosePin, field: str, size: float) -> str:
        name = f"{p.table}.{field}"
        held = tolerance_of(c.tolerances, name)
        return with_brackets(*printed(name, size, dimensions, fractions, held is not None))

    rows = []
    pins = {f"{end_word(p.end_of)} end pin".capitalize(): p for p in c.pins}
    for label, words in pin_rows(c):
        pin = pins.get(label)
        names = tuple(f"{pin.table}.{field}" for field in _PIN) if pin else ()
        if pin and pin.supplied:
            words = f"supplied, {'head and ' if pin.head else ''}{pin.retention}, "
            words += f"Ø{say(pin, 'diameter', pin.diameter)} x {say(pin, 'length', pin.length)}"
        rows.append((label, Said("" if words == OPEN else words, names=names)))
    if len(rows) > 1 and rows[0][1].text == rows[1][1].text:
        base, rod = (said for _, said in rows)
        label = "Pins, both ends" if base.text else "Pins, base / rod"
        yield label, Said(base.text, names=(*base.names, *rod.names))
    else:
        yield from rows


def _comes_with(c: Cylinder) -> Iterator[Row]:
    if parts := small_parts(c):
        yield "Comes with it", Said("; ".join(parts))


def _port_bolts(c: Cylinder) -> Iterator[Row]:
    """Ask which bolts hold a flange in its port: the standards have metric and inch ones."""
    if any(p.thread.is_flange for p in c.ports):
        yield "Port bolts, M or UNC?", Said("")


def _fittings(c: Cylinder, dimensions: str, fractions: int) -> Iterator[Row]:
    """Say what room a port keeps free; how large it is nobody may have given."""
    names = port_names(c)
    for port in c.ports:
        dash, bend = (c.value(f"{port.table}.{w}") for w in ("fitting_size", "hose_bend"))
        if dash is not None and bend is not None:
            kind = {"90": "90°"}.get(c.spec.word(f"{port.table}.fitting") or "", "straight")
            size = with_brackets(*printed("hose_bend", float(bend.value), dimensions, fractions))
            flare = f"37° flare {dash.value} {DERIVED}"  # which has no field
            room = f"{flare}, {kind}; hose bend {size} {flag_of(bend)}".rstrip()
            said = Said(room, names=(f"{port.table}.fitting", dash.name, bend.name))
            yield f"{names[port.table]}, room for", said


def names_of_fittings(c: Cylinder) -> Iterator[str]:
    """Name the sizes that the rows of the fittings say, so that no other list says them again."""
    for port in c.ports:
        if c.value(f"{port.table}.fitting_size") is not None:
            yield f"{port.table}.hose_bend"


def _quantity(c: Cylinder) -> Row:
    quantity, matched = c.spec.get("quantity"), c.spec.get("matched_set")
    words = "a matched set" if matched is not None and matched.value else ""
    names = ("quantity", "matched_set")
    if quantity is None:
        return (f"Quantity, {words}" if words else "Quantity"), Said("", names=names)
    return "Quantity", Said(", ".join(filter(None, (quantity.typed, words))), names=names)
