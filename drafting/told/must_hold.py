"""What a replacement must hold: every size that meets the machine, each with its tolerance.

One row for each, for the sheet and the report. A size without a tolerance is marked ``Q`` (the
builder states one in the quote) unless a general tolerance covers it; the flags of the drawing say
where a size comes from.
"""

from __future__ import annotations

from collections.abc import Iterable

from drafting.model.cylinder import Cylinder
from drafting.settle.clock import both_readings
from drafting.settle.tolerance import tolerance_of, toleranced
from drafting.spec.tolerance_sense import reference_length
from drafting.told.facts import elsewhere, face_word
from drafting.told.flags import flag_said, flags
from drafting.units import dual

Row = tuple[str, str]

QUOTE = "Q"
LENGTHS = ("retracted", "stroke", "extended")
MOUNT = (
    ("pin", "pin"),
    ("hole", "hole"),
    ("width", "width"),
    ("left", "centre to"),
    ("right", "centre to"),
    ("gap", "gap"),
    ("throat", "throat"),
    ("ball_width", "ball width"),
    ("nose", "swing radius"),
    ("shoulders", "shoulders"),
    ("seat_height", "centre to seat"),
    ("shoulder", "shoulder"),
    ("thread_length", "thread length"),
    ("bolts.hole", "bolt holes"),
    ("bolts.circle", "bolt circle"),
    ("bolts.pitch.x", "bolt pitch along"),
    ("bolts.pitch.y", "bolt pitch across"),
    ("bolts.pitch.z", "bolt pitch up"),
    ("bolts.pitch.across", "bolt pitch across"),
)


def must_hold(c: Cylinder, dimensions: str, fractions: int = 16) -> tuple[Row, ...]:
    """Give the rows of functional sizes; ``dimensions`` as the sheet has them ("in [mm]" ...)."""
    general = c.spec.word("drawing.general_tolerance")
    return (
        ("General", general) if general else (QUOTE, "builder to state tolerance in quote"),
        *_lengths(c, dimensions, fractions),
        *_mount(c, "body_mount", "Body" if elsewhere(c) else "Base", dimensions, fractions),
        *_mount(c, "rod_mount", "Rod", dimensions, fractions),
        *(row for port in _ports(c, dimensions, fractions) for row in port),
    )


def said(c: Cylinder, name: str, size: float, dimensions: str, fractions: int) -> str:
    """Say a size with its tolerance, the other unit in brackets and its marks."""
    number, other = dual(size, dimensions, fractions)
    held = tolerance_of(c.tolerances, name)
    mark = ""
    if held is not None:
        number = "".join(toleranced(size, held, dimensions[:2], fractions))
    elif not c.spec.word("drawing.general_tolerance"):
        mark = f" {QUOTE}"
    if flag := flag_said(c, name):
        mark = f" {flag}{mark}"
    return f"{number}{f' [{other}]' if other else ''}{mark}"


def _lengths(c: Cylinder, dimensions: str, fractions: int) -> Iterable[Row]:
    sizes = (c.lengths.retracted, c.lengths.stroke, c.lengths.extended)
    reference = reference_length(c.spec)
    for word, size in zip(LENGTHS, sizes, strict=True):
        if word == reference:
            number, other = dual(size, dimensions, fractions)
            flag = flags(c.values).get(f"cylinder.{word}", "")
            words = (f"({number})", f"[{other}]" if other else "", flag)
            yield word.capitalize(), " ".join(w for w in words if w)
        else:
            yield word.capitalize(), said(c, f"cylinder.{word}", size, dimensions, fractions)


def _mount(c: Cylinder, table: str, end: str, dimensions: str, fractions: int) -> Iterable[Row]:
    thread = c.spec.word(f"{table}.thread")
    if thread and c.value(f"{table}.hole") is None:
        yield f"{end} thread", f"{thread} {flag_said(c, f'{table}.thread')}".rstrip()
    for field, word in MOUNT:
        value = c.value(f"{table}.{field}")
        if value is None or value.unit != "mm" or not isinstance(value.value, int | float):
            continue
        text = said(c, value.name, float(value.value), dimensions, fractions)
        count = c.value(f"{table}.bolts.count")
        if field == "bolts.hole" and count is not None:
            text = f"{count.value} x {text}"
        if field in ("left", "right"):
            word = f"{word} {face_word(c, table.partition('_')[0], field)}"
        yield f"{end} {word}", text
    seat = c.value(f"{table}.seat")
    if seat is not None:
        yield f"{end} bearing face", str(seat.value)


def _ports(c: Cylinder, dimensions: str, fractions: int) -> Iterable[Iterable[Row]]:
    count: dict[str, int] = {}
    for port in c.ports:
        count[port.end] = count.get(port.end, 0) + 1
        number = f" {count[port.end]}" if count[port.end] > 1 else ""
        word = f"{port.end.capitalize()} port{number}"
        place = said(c, f"{port.table}.position", port.x, dimensions, fractions)
        clock = both_readings(port.clock, port.in_degrees).lower().replace(" / ", ", ")
        plug = ", plugged" if port.sizes.plugged else ""
        flag = flag_said(c, f"{port.table}.thread")
        rows = [
            (word, f"{port.thread.spelling}{f' {flag}' if flag else ''} at {place}{plug}"),
            (f"{word} clock", clock),
        ]
        if port.sizes.facing != "out":
            outlet = said(c, f"{port.table}.outlet_position", port.outlet, dimensions, fractions)
            rows.insert(1, (f"{word} outlet", outlet))
        yield rows
