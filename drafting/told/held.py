"""What a replacement must hold, end beside end: mounts, ports, and the lengths between datums."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import ceil

from drafting.model.catalog import mount_types
from drafting.model.cylinder import Cylinder
from drafting.settle.clock import hour, seen_from_base, seen_from_rod
from drafting.settle.mount import Mount
from drafting.settle.tolerance import tolerance_of, toleranced
from drafting.settle.wishes import Callout, Length
from drafting.spec.tolerance_sense import reference_length
from drafting.told.codes import code_of
from drafting.told.data_sheet import Held, Said
from drafting.told.facts import elsewhere, face_word, outermost, swing, turned_words
from drafting.told.flags import flag_of, flag_said, flags
from drafting.told.printed import printed, with_brackets
from drafting.values import Value

ENDS = (("body", "base"), ("rod", "rod"))
_SWING = "Swing radius"
"""Where one end has such a row a round eye or tube at the other, whose outside is drawn by rule,
has half of that in it."""
FIELDS = (
    ("position", "From closed end"),
    ("pin", "Pin Ø"),
    ("hole", "Hole Ø, for the pin"),
    ("bushing", "Bushing OD"),
    ("width", "Width"),
    ("left", "Centre to"),
    ("right", "Centre to"),
    ("gap", "Gap"),
    ("throat", "Throat"),
    ("offset", "to"),
    ("ball_width", "Ball width"),
    ("nose", _SWING),
    ("outside", "Eye OD"),
    ("shoulders", "Shoulders"),
    ("seat_height", "Centre to seat"),
    ("plate", "Plate Ø"),
    ("plate.x", "Plate along"),
    ("plate.across", "Plate across"),
    ("plate.y", "Plate across"),
    ("plate.z", "Plate up"),
    ("thickness", "Thickness"),
    ("shoulder", "End to shoulder"),
    ("thread_length", "Thread length"),
    ("bolts.hole", "Bolt holes"),
    ("bolts.circle", "Bolt circle"),
    ("bolts.pitch.x", "Bolt pitch along"),
    ("bolts.pitch.y", "Bolt pitch across"),
    ("bolts.pitch.z", "Bolt pitch up"),
    ("bolts.pitch.across", "Bolt pitch across"),
)
"""Fields of a mount in their order, with the words of their rows."""
SAME = 0.005
"""Half of the last digit that is printed (mm)."""
LOOSE = (
    "offset",
    "bushing",
    "outside",
    "plate",
    "plate.x",
    "plate.across",
    "plate.y",
    "plate.z",
    "thickness",
)
"""Fields that no builder is held to unless they were typed, and then without a tolerance."""


def label_of(c: Cylinder, end: str, field: str, word: str) -> str:
    """Give the words of a field of an end's mount: the mount's own, else ``word``."""
    if field in ("left", "right"):
        return f"{word} {face_word(c, end, field)}"
    if field == "offset":
        return f"{datum_word(c, end).capitalize()} {word} {_begins(c, end)}"
    return _kind(c, end).sheet_words.get(field, word)


def held_rows(c: Cylinder, dimensions: str, fractions: int) -> tuple[Held, ...]:
    """Give the rows of the sizes to hold; a row without anything at either end is left out."""
    cells: dict[str, dict[str, Said]] = {}

    def put(label: str, end: str, said: Said) -> None:
        cells.setdefault(label, {})[end] = said

    for end, column in ENDS:
        put("Mount", column, Said(_mount(c, end), names=(f"{end}_mount.mount",)))
    for end, column in ENDS:
        name = f"{end}_mount.thread"
        if held := _held_by(c, end):
            put("Held by", column, Said(held, names=(name,)))
        elif thread := _thread(c, end):
            put("Thread", column, Said(thread, flag_said(c, name), names=(name,)))
    for field, word in FIELDS:
        for end, column in ENDS:
            said = _size(c, f"{end}_mount", field, dimensions, fractions)
            if said is not None:
                put(label_of(c, end, field, word), column, said)
    for end, column in ENDS if _SWING in cells else ():
        outside, round_end = c.value(f"{end}_mount.outside"), swing(c, end)
        if outside is not None and outside.typed is None and round_end is not None:
            size = printed(outside.name, round_end, dimensions, fractions)
            put(_SWING, column, Said(with_brackets(*size), flag_of(outside)))
    for end, column in ENDS:
        seat = c.value(f"{end}_mount.seat")
        if seat is not None:
            put("Bearing face", column, Said(str(seat.value), flag_of(seat), names=(seat.name,)))
        faces = c.value(f"{end}_mount.clock")
        if faces is not None:
            words = _seat_clock(c, faces)
            put("Seat faces", column, Said(words, flag_of(faces), names=(faces.name,)))
    for label, column, said in _ports(c, dimensions, fractions):
        put(label, column, said)
    return tuple(Held(label, row.get("base"), row.get("rod")) for label, row in cells.items())


def body_head(c: Cylinder) -> str:
    """Head the column of the body's mount, which may stand elsewhere than the base end's port."""
    if not elsewhere(c):
        return "BASE END"
    return "BODY, BASE PORT" if any(p.end == "base" for p in c.ports) else "BODY"


def lengths_held(
    c: Cylinder, dimensions: str, fractions: int
) -> tuple[tuple[tuple[str, Said], ...], str]:
    """Give the three lengths and the largest diameter without mounts, and the words over them."""
    n, reference = c.lengths, reference_length(c.spec)
    out = []
    for word, size in (
        ("retracted", n.retracted),
        ("stroke", n.stroke),
        ("extended", n.extended),
    ):
        if word == reference:
            main, other = printed(word, size, dimensions, fractions, rough=True)
            shown = with_brackets(f"({main})", other)
            name = f"cylinder.{word}"
            flag = flags(c.values).get(name, "")
            out.append((word.upper(), Said(shown, flag, names=(name,))))
        else:
            out.append((word.upper(), said(c, f"cylinder.{word}", size, dimensions, fractions)))
    across = printed(
        "outermost", _room(2 * outermost(c), dimensions, fractions), dimensions, fractions
    )
    out.append(("LARGEST Ø, NO MOUNTS", Said(with_brackets(*across))))
    pinned = all(_kind(c, end).datum == "pin" for end, _ in ENDS)
    base, rod = (_datum(c, end) + _off_bearing(c, end, dimensions, fractions) for end, _ in ENDS)
    words = "between pin centres" if pinned else f"from {base} to {rod}".rstrip(",")
    more = c.spec.number("rod_mount.adjustment") or 0.0
    if more:
        backed = with_brackets(*printed("rod_mount.adjustment", more, dimensions, fractions))
        words += f", rod end screwed home; backed off up to {backed} more"
    return tuple(out), words


def _room(size: float, dimensions: str, fractions: int) -> float:
    """Round a room up to what a machine is built to: 0.1 mm, 1/16 in, .01 in among decimals."""
    if dimensions.startswith("in"):
        step = 25.4 / 16 if fractions else 0.254
        return ceil(size / step - 1e-6) * step
    return round(ceil(size * 10.0 - 1e-6) / 10.0, 1)


def said(
    c: Cylinder, name: str, size: float, dimensions: str, fractions: int, open_line: bool = True
) -> Said:
    """Say a size with its tolerance; ``open_line`` leaves a line where none is typed."""
    held = tolerance_of(c.tolerances, name)
    main, other = printed(name, size, dimensions, fractions, held is not None)
    general = c.spec.word("drawing.general_tolerance")
    band: str | None = "" if open_line and not general else None
    if held is not None:
        main, band = toleranced(size, held, dimensions[:2], fractions)
        band = band.strip()
    return Said(with_brackets(main, other), flag_said(c, name), band, (name,))


def datum_word(c: Cylinder, end: str) -> str:
    """Give one word for where an end's lengths are measured from: ``pin``, ``face``."""
    return _kind(c, end).datum.split()[-1]


def _begins(c: Cylinder, end: str) -> str:
    """Name the face that a mount's reach runs to: where its barrel or rod begins, or its own."""
    if _held_by(c, end):
        return "mount's face"
    return "closed end" if end == "body" else "rod end"


def _kind(c: Cylinder, end: str) -> type[Mount]:
    return mount_types()["body" if end == "body" else "rod", c.mounts[end]]


def _datum(c: Cylinder, end: str) -> str:
    """Name what an end's lengths run from: of a flange the face that bears, or its side."""
    datum = _kind(c, end).datum
    if datum == "pin":
        return f"{dict(ENDS)[end]} pin"
    seat = c.value(f"{end}_mount.seat")
    if seat is None:
        return datum
    side, rod = _side(c, end), end == "rod"
    if seat.value == side:
        return "rod's bearing face" if rod else "bearing face"
    return f"{'rod ' * rod}flange's {side.replace(' ', '-')} face"


def _side(c: Cylinder, end: str) -> str:
    """Give the side of a flange that its lengths run from."""
    return "base side" if end == "body" and not elsewhere(c) else "rod side"


def _off_bearing(c: Cylinder, end: str, dimensions: str, fractions: int) -> str:
    """Say how far off a flange bears, where its lengths run from the other face."""
    seat, thick = (c.value(f"{end}_mount.{n}") for n in ("seat", "thickness"))
    if seat is None or thick is None or seat.value == _side(c, end):
        return ""
    shown = with_brackets(*printed(thick.name, float(thick.value), dimensions, fractions))
    return f", {shown} off its bearing face,"


def _mount(c: Cylinder, end: str) -> str:
    code = code_of({v.name: v for v in c.values}, c.mounts[end], end)
    at = c.value(f"{end}_mount.position")
    place = f" at {at.value}" if at is not None and at.value in ("rod end", "middle") else ""
    words = c.mounts[end] + place + (f" (ISO 6099 {code})" if code else "")
    turned = turned_words(c, "°") if end == "rod" else ""
    return f"{words}, {turned}" if turned else words


def _held_by(c: Cylinder, end: str) -> str:
    """Say the thread that holds a mount that is screwed on."""
    if c.value(f"{end}_mount.engagement") is None:
        return ""
    return f"{c.spec.word(f'{end}_mount.thread') or 'thread'}, screwed home"


def _thread(c: Cylinder, end: str) -> str:
    """Give the thread of an end as its callout on the drawing says it, with its class."""
    name = f"{end}_mount.thread"
    said = (w.lines[0] for w in c.wishes if isinstance(w, Callout) and w.name == name)
    return next(said, c.spec.word(name) or "")


def _seat_clock(c: Cylinder, faces: Value) -> str:
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    typed = (faces.typed or "").replace("°", "deg")
    return _clock(seen_from_rod(float(faces.value), side), side, "deg" in typed)


def _size(c: Cylinder, table: str, field: str, dimensions: str, fractions: int) -> Said | None:
    value = c.value(f"{table}.{field}")
    if value is None or value.unit != "mm" or not isinstance(value.value, int | float):
        return None
    if field in LOOSE and value.typed is None:
        return None
    if field.startswith("bolts.pitch") and not value.value:  # one row of bolts
        return None
    if any(isinstance(w, Length) and w.name == value.name and w.reference for w in c.wishes):
        main, other = printed(value.name, float(value.value), dimensions, fractions, rough=True)
        shown = with_brackets(f"({main})", other)
        return Said(shown, flag_said(c, value.name), names=(value.name,))
    found = said(c, value.name, float(value.value), dimensions, fractions, field not in LOOSE)
    count = c.value(f"{table}.bolts.count")
    if field != "bolts.hole" or count is None:
        return found
    text = f"{count.value} x Ø{found.text}"
    return replace(found, text=text, names=(*found.names, count.name))


def _ports(c: Cylinder, dimensions: str, fractions: int) -> Iterable[tuple[str, str, Said]]:
    origin = _datum(c, "body").removeprefix("foot's ")
    origin = origin.removeprefix("flange's ").replace("-side face", " side")
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    count: dict[str, int] = {}
    rows: list[tuple[int, int, str, str, Said]] = []
    for port in c.ports:
        n = count[port.end] = count.get(port.end, 0) + 1
        number = f" {n}" if n > 1 else ""
        word = f"Port{number}"
        plug = ", plugged" if port.sizes.plugged else ""
        named = ", ".join(port.thread.callout[:2]) + plug
        name = f"{port.table}.thread"
        thread = Said(named, flag_said(c, name), names=(name, f"{port.table}.plugged"))
        rows.append((n, 0, f"{word} thread", port.end, thread))
        place = _place(c, f"{port.table}.position", port.x, dimensions, fractions)
        rows.append((n, 1, f"{word} from {origin}", port.end, place))
        if port.sizes.facing != "out":
            at = _place(c, f"{port.table}.outlet_position", port.outlet, dimensions, fractions)
            rows.append((n, 2, f"Outlet{number} to {origin}", port.end, at))
        if f"{port.table}.height" in c.tolerances:  # which the drawing leaves out where it is full
            high = said(c, f"{port.table}.height", port.sizes.height, dimensions, fractions)
            what = "height" if port.sizes.facing == "out" else f"axis off {port.part}"
            rows.append((n, 3, f"{word} {what}", port.end, high))
        readings, name = _clock(port.clock, side, port.in_degrees), f"{port.table}.clock"
        clock = Said(readings, flag_said(c, name), names=(name,))
        rows.append((n, 4, f"{word} clock", port.end, clock))
    for _, _, label, end, words in sorted(rows, key=lambda r: r[:2]):
        yield label, end, words


def _place(c: Cylinder, name: str, at: float, dimensions: str, fractions: int) -> Said:
    """Say how far from the datum a port lies; of one that lies right at it nothing is measured."""
    found = said(c, name, at, dimensions, fractions)
    return found if abs(at) > SAME else replace(found, text="right at it")


def toward_base(c: Cylinder) -> bool:
    """Tell whether a port or its outlet lies behind the datum: its place is less than nothing."""
    return any(p.x < -SAME or (p.sizes.facing != "out" and p.outlet < -SAME) for p in c.ports)


def _clock(degrees: float, side: str, in_degrees: bool) -> str:
    """Say a clock as it was typed, with the reading from the other end where it differs."""
    readings = {
        end: hour(seen, in_degrees).replace(" deg", "°")
        for end, seen in (("rod", degrees), ("base", seen_from_base(degrees)))
    }
    first, second = (side, "base" if side == "rod" else "rod")
    if readings[first] == readings[second]:
        return readings[first]
    return f"{readings[first]} from {first}, {readings[second]} from {second}"
