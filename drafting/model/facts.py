"""What the data table, the report and the JSON say of a cylinder, as rows of words."""

from __future__ import annotations

from drafting.model.clock import both_readings
from drafting.model.codes import code_of
from drafting.model.cylinder import Cylinder
from drafting.units import both

Row = tuple[str, str]

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
    ("cylinder.barrel_material", "Barrel material"),
    ("cylinder.finish", "Finish"),
)


def facts(c: Cylinder) -> tuple[Row, ...]:
    """Give the rows of the data table; what was not said is ``OPEN``."""
    units, s = c.spec.units, c.stations
    rows = [
        ("Bore", both(s.bore, units)),
        ("Rod", both(s.rod, units)),
        ("Stroke", both(c.lengths.stroke, units)),
        ("Retracted", both(c.lengths.retracted, units)),
        ("Extended", both(c.lengths.extended, units)),
        ("Barrel OD", both(s.barrel_outside, units)),
        ("Base end mount", mount_words(c, "body")),
        ("Rod end mount", mount_words(c, "rod") + pins_words(c)),
    ]
    longest = [c.value(f"cylinder.{n}_longest") for n in ("retracted", "extended")]
    for label, value in zip(("Retracted", "Extended"), longest, strict=True):
        if value is not None:
            rows.append((f"{label}, backed off", f"up to {both(float(value.value), units)}"))
    rows += hole_rows(c)
    rows += pin_rows(c)
    for port in c.ports:
        rows.append((f"{port.end.capitalize()} end port", port.thread.echo))
        rows.append(("  clock", both_readings(port.clock)))
        dash, bend = (c.value(f"{port.table}.{w}") for w in ("fitting_size", "hose_bend"))
        if dash is not None and bend is not None:
            kind = {"90": "90 deg"}.get(c.spec.word(f"{port.table}.fitting") or "", "straight")
            room = f"37 deg flare {dash.value}, {kind}; hose bend {both(float(bend.value), units)}"
            rows.append(("  room drawn for", room))
    for name, label in ASKED:
        given = c.spec.get(name)
        rows.append((label, given.typed if given is not None else OPEN))
    keyed = c.spec.get("cylinder.rod_keyed")
    rows.append(
        ("Rod turning", "keyed" if keyed is not None and keyed.value else "free to turn by hand")
    )
    quantity = c.spec.get("quantity")
    rows.append(("Quantity", quantity.typed if quantity is not None else OPEN))
    return tuple(rows)


def hole_rows(c: Cylinder) -> list[Row]:
    """Give each loose pin's diameter with its finished hole."""
    rows = []
    for end, word in (("body", "Base"), ("rod", "Rod")):
        pin, hole = c.value(f"{end}_mount.pin"), c.value(f"{end}_mount.hole")
        if pin is not None and hole is not None:
            sizes = [both(float(v.value), c.spec.units) for v in (pin, hole)]
            unsure = "" if hole.origin == "given" else " (fit to be stated)"
            rows.append((f"{word} end pin, hole", f"{sizes[0]}, hole {sizes[1]}{unsure}"))
    return rows


def mount_words(c: Cylinder, end: str) -> str:
    """Say a mount, screwed on or not, with its ISO 6099 code where one applies."""
    word = c.mounts[end]
    code = code_of({v.name: v for v in c.values}, word, end)
    held = c.value(f"{end}_mount.engagement")
    screwed = ", screwed on" if held is not None else ""
    return f"{word}{screwed}{f' (ISO 6099 {code})' if code else ''}"


def pins_words(c: Cylinder) -> str:
    """Say how the rod's pin stands to the body's."""
    pinned = all(c.value(f"{end}_mount.pin") is not None for end in ("body", "rod"))
    if not pinned:
        return ""
    if c.turned % 180.0 == 0.0:
        return ", pins in line"
    return f", pins at {c.turned % 180.0:g} deg"


def pin_rows(c: Cylinder) -> tuple[Row, ...]:
    """Say for each mount with a loose pin whether that is supplied, and which one it is."""
    asked = {p.end_of: p for p in c.pins}
    rows = []
    for end, label in (("body", "Base end pin"), ("rod", "Rod end pin")):
        if c.value(f"{end}_mount.hole") is None:  # a trunnion's pins are its own
            continue
        pin = asked.get(end)  # type: ignore[call-overload]
        if pin is None:
            rows.append((label, OPEN))
            continue
        units = c.spec.units
        size = f"{both(pin.diameter, units)} x {both(pin.length, units)} long"
        head = "head and " if pin.head else ""
        said = f"supplied, {size}, {head}{pin.retention}" if pin.supplied else "not supplied"
        rows.append((label, said))
    return tuple(rows)


def derived_rows(c: Cylinder) -> tuple[Row, ...]:
    """Give every derived or tabled size with its reason, for the list of derived sizes."""
    units = c.spec.units
    return tuple(
        (
            v.name,
            f"{both(v.value, units) if v.unit == 'mm' else v.value}: {v.why}"
            + (f" ({v.source})" if v.source else ""),
        )
        for v in c.values
        if v.origin in ("derived", "table") and isinstance(v.value, float) and v.value != 0.0
    )
