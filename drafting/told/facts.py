"""What the data table, the report and the JSON say of a cylinder, as rows of words."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from drafting.model.cylinder import Cylinder
from drafting.model.pins.loose_pin import LoosePin
from drafting.settle.clock import hour, seen_from_rod
from drafting.shape.reach import reach
from drafting.told.codes import code_of
from drafting.units import both
from drafting.values import Value

Row = tuple[str, str]

ENDS = (("body", "Base"), ("rod", "Rod"))

POUND, GALLON = 0.45359237, 3.785411784
"""kg and litres, exact by definition."""
OPEN = "open"
"""Shown for what was not said; the drawing leaves a line to write on."""

ASKED = (
    ("cylinder.working_pressure", "Working pressure"),
    ("cylinder.relief_pressure", "Relief pressure"),
    ("cylinder.proof_pressure", "Proof pressure"),
    ("cylinder.fluid", "Fluid"),
    ("cylinder.temperature", "Temperature"),
    ("cylinder.seals", "Seals"),
    ("cylinder.rod_material", "Rod material"),
    ("cylinder.rod_finish", "Rod plating"),
    ("cylinder.barrel_material", "Barrel material"),
    ("cylinder.finish", "Finish"),
    ("cylinder.bare", "Stays bare"),
    ("cylinder.marking", "Marking"),
)
ACTIONS = {
    "double": "double acting",
    "push": "single acting, pushes",
    "pull": "single acting, pulls",
}


def facts(c: Cylinder, mass: float | None = None) -> tuple[Row, ...]:
    """Give the rows of the data table, beside what must hold; what was not said is ``OPEN``.

    ``mass`` is the dry weight in kg where somebody has weighed the pieces.
    """
    units, s = c.spec.units, c.stations
    rows = [
        ("Bore", both(s.bore, units)),
        ("Rod", f"{both(s.rod, units)}, {turning(c)}"),
        ("Barrel OD", both(s.barrel_outside, units)),
        ("Largest OD, no mounts", both(2 * outermost(c), units)),
        ("Action", action_words(c)),
        ("Body mount" if elsewhere(c) else "Base end mount", mount_words(c, "body")),
        ("Rod end mount", ", ".join(filter(None, (mount_words(c, "rod"), turned_words(c))))),
    ]
    swings = [(word, r) for end, word in ENDS if (r := swing(c, end)) is not None]
    rows += [(f"{word} swing radius", both(r, units)) for word, r in swings]
    cap = c.value("cylinder.cap_turned")
    if cap is not None and cap.value:
        rows.append(("Cap", f"turned {float(cap.value):g} deg against the head"))
    longest = [c.value(f"cylinder.{n}_longest") for n in ("retracted", "extended")]
    for label, value in zip(("Retracted", "Extended"), longest, strict=True):
        if value is not None:
            rows.append((f"{label}, backed off", f"up to {both(float(value.value), units)}"))
    rows += pin_rows(c)
    for port in c.ports:
        dash, bend = (c.value(f"{port.table}.{w}") for w in ("fitting_size", "hose_bend"))
        if dash is not None and bend is not None:
            kind = {"90": "90 deg"}.get(c.spec.word(f"{port.table}.fitting") or "", "straight")
            room = f"37 deg flare {dash.value}, {kind}; hose bend {both(float(bend.value), units)}"
            rows.append((f"{port.end.capitalize()} port, room for", room))
    for name, label in ASKED:
        given = c.spec.get(name)
        rows.append((label, given.typed if given is not None else OPEN))
    if mass is not None:
        kilos, pounds = f"{mass:.1f} kg", f"{mass / POUND:.0f} lb"
        shown = f"{pounds} ({kilos})" if units == "in" else f"{kilos} ({pounds})"
        rows.append(("Weight, dry", shown))
    out, back = c.action.oil(s.bore, s.rod, c.lengths.stroke)
    oil = f"{out:.2f} L, {back:.2f} L"
    if units == "in":
        oil = f"{out / GALLON:.2f}, {back / GALLON:.2f} US gal ({oil})"
    rows.append(("Oil, out and back", oil))
    quantity = c.spec.get("quantity")
    matched = ", a matched set" if _yes(c, "matched_set") else ""
    rows.append(("Quantity", quantity.typed + matched if quantity is not None else OPEN))
    return tuple(rows)


def action_words(c: Cylinder) -> str:
    """Say how a cylinder works, and of a single acting one what brings its rod back."""
    words = ACTIONS[c.action.word]
    if c.action.word == "double":
        return words
    return f"{words}, {c.spec.word('cylinder.return') or 'load'} return"


def turning(c: Cylinder) -> str:
    """Say whether the rod may turn."""
    return "keyed" if _yes(c, "cylinder.rod_keyed") else "free to turn"


def turning_note(c: Cylinder) -> str:
    """Say whether the rod may turn and, where its mount stands askew, how it is drawn.

    It stands behind the words that say from which end clocks are read.
    """
    if not c.turned % 90.0:
        return turning(c)
    before = {
        ("keyed", True): "",
        ("keyed", False): f"{c.mounts['rod']} ",
        ("free to turn", True): "drawn with ",
        ("free to turn", False): "drawn ",
    }
    how = before[turning(c), _both_pinned(c)] + turned_words(c, "°", "")
    return f"{turning(c)}, {how}"


def outermost(c: Cylinder) -> float:
    """Give how far barrel, gland and ports reach from the centre line (mm); no mount's parts."""
    far = 0.0
    for piece in (p for part in c.parts for p in part.pieces if not p.cut):
        table = piece.name.partition(".")[0]
        if table == "cylinder" or table.endswith("_port") or "[" in table:
            far = max(far, reach(piece, far))
    return far


def swing(c: Cylinder, end: str) -> float | None:
    """Give the radius about the pin that a round eye or tube needs; a nose must hold instead."""
    if c.value(f"{end}_mount.hole") is None or c.value(f"{end}_mount.nose") is not None:
        return None
    outside = c.value(f"{end}_mount.outside")
    return None if outside is None else float(outside.value) / 2


def mount_words(c: Cylinder, end: str) -> str:
    """Say a mount, screwed on or not, with its ISO 6099 code where one applies."""
    word = c.mounts[end]
    code = code_of({v.name: v for v in c.values}, word, end)
    held = c.value(f"{end}_mount.engagement")
    screwed = ", screwed on" if held is not None else ""
    return f"{word}{screwed}{f' (ISO 6099 {code})' if code else ''}"


def turned_words(c: Cylinder, sign: str = " deg", seen: str = ", seen from") -> str:
    """Say how the rod's mount stands: its pin to the body's, else how far it was turned, if it was.

    ``seen`` leads to the end from which that is clockwise; without it the place of the words tells.
    """
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    typed = (c.turned if side == "rod" else -c.turned) % 360.0
    words = "turned "
    if _both_pinned(c):
        typed %= 180.0  # a pin has no front: 200 degrees are 20
        if typed in (0.0, 90.0):  # both ends read the same
            return f"pins at 90{sign}" if typed else "pins in line"
        words = "rod pin "
    if not typed:
        return ""
    return f"{words}{typed:g}{sign} clockwise" + (f"{seen} {side}" if seen else "")


def _both_pinned(c: Cylinder) -> bool:
    return all(c.value(f"{end}_mount.pin") is not None for end in ("body", "rod"))


def face_word(c: Cylinder, end: str, field: str) -> str:
    """Name the face of an eye that ``left`` or ``right`` reaches to, by its hour as drawn.

    Left is +Y, 3 o'clock seen from the rod end; a rod's pin that is turned takes its faces along.
    """
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    at = (90.0 if field == "left" else 270.0) + (c.turned if end == "rod" else 0.0)
    return f"{hour(seen_from_rod(at, side))} face"


def pin_rows(c: Cylinder) -> tuple[Row, ...]:
    """Say for each mount with a loose pin whether that is supplied."""
    asked = {p.end_of: p for p in c.pins}
    rows = []
    for end, label in (("body", "Base end pin"), ("rod", "Rod end pin")):
        if c.value(f"{end}_mount.hole") is None:  # a trunnion's pins are its own
            continue
        pin = asked.get(end)  # type: ignore[call-overload]
        said = OPEN if pin is None else "supplied, see parts" if pin.supplied else "not supplied"
        rows.append((label, said))
    return tuple(rows)


def part_rows(c: Cylinder) -> tuple[Row, ...]:
    """Give the loose parts that come with the cylinder: how many, and what."""
    rows = []
    for pin in c.pins:
        if pin.supplied:
            words = pin_words(pin, partial(both, units=c.spec.units))
            rows.append(("1 x", f"{end_word(pin.end_of)} end pin, {words}"))
    return (*rows, *(("1 x", words) for end in ("body", "rod") for words in _small(c, end)))


def pin_words(pin: LoosePin, say: Callable[[float], str]) -> str:
    """Say a loose pin's size, head and retention; ``say`` writes a size in mm."""
    head = "head and " if pin.head else ""
    return f"{say(pin.diameter)} x {say(pin.length)} long, {head}{pin.retention}"


def small_parts(c: Cylinder) -> tuple[str, ...]:
    """Give the small parts that come with the mounts; what both ends have is said once."""
    base, rod = (_small(c, end) for end in ("body", "rod"))
    alike = {b: r for b in base for r in rod if b.replace("base end", "rod end") == r}
    one = [b.replace(", base end", "s, both ends") if b in alike else b for b in base]
    return (*one, *(r for r in rod if r not in alike.values()))


def _small(c: Cylinder, end: str) -> tuple[str, ...]:
    table = f"{end}_mount"
    at = c.mounts[end] if end == "body" and elsewhere(c) else f"{end_word(end)} end"
    found = []
    if _yes(c, f"{table}.jam_nut"):
        found.append(f"jam nut, {at}, {c.spec.word(f'{table}.thread') or ''}")
    if _yes(c, f"{table}.grease"):
        found.append(f"grease fitting, {at}")
    return tuple(found)


def elsewhere(c: Cylinder) -> bool:
    """Tell whether the body's mount stands along it and not at its base end."""
    at = c.value("body_mount.position")
    return at is not None and at.value != "base"


def end_word(end: str) -> str:
    """Give the word of the trade for an end: ``base`` for the body's."""
    return "base" if end == "body" else end


def _yes(c: Cylinder, name: str) -> bool:
    given = c.spec.get(name)
    return given is not None and given.value is True


def derived_rows(c: Cylinder) -> tuple[Row, ...]:
    """Give every derived or tabled size with its reason, for the list of derived sizes."""
    units = c.spec.units
    return tuple(
        (
            v.name,
            f"{_as_written(v, units)}: {v.why}" + (f" ({v.source})" if v.source else ""),
        )
        for v in c.values
        if v.origin in ("derived", "table") and isinstance(v.value, float) and v.value != 0.0
    )


def _as_written(v: Value, units: str) -> str:
    """Write a value as people do: a size in both units, a clock by its hour."""
    if v.unit == "mm":
        return both(float(v.value), units)
    if v.name.endswith(".clock"):
        return hour(float(v.value))
    return f"{v.value} {v.unit}".rstrip()
