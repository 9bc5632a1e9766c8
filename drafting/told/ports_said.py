"""What a drawing says of each port: its row of the PORTS table, and the words of its callout."""

from __future__ import annotations

from typing import Literal

from drafting.model.cylinder import Cylinder
from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.settle.clock import hour, seen_from_base
from drafting.told.flags import DERIVED, Flag, flag_of
from drafting.told.printed import printed

Sized = tuple[str, Flag]
"""A number in the sheet's unit, and where it comes from."""
Seat = Literal["boss", "spotface", "tube", "long pitch", ""]
"""What a port's face lies on: metal that stands out, a flat, there nothing that a table has. A tube
lies along the barrel. In a flat a flange has bolts alone, whose long pitch lies along it too."""


@dataclass(frozen=True, slots=True)
class PortRow:
    """A port in words.

    ``table`` is its table of the spec; ``thread`` names it in full, ``short`` as a callout does,
    ``brief`` without the standard; ``flag`` says where it comes from.
    ``clock`` has both readings where they differ, then from ``other_end``; ``hour`` is as typed.
    ``sizes`` are those of the ``seat``: of a boss diameter (of a flange's pad length by width) and
    height, of a spotface the least diameter that the thread's standard asks, of a tube diameter and
    how far its axis lies off what it stands on; of a flange in a flat how its long pitch lies.
    """

    table: str
    end: str
    thread: str
    clock: str
    seat: Seat
    sizes: tuple[Sized, ...]
    short: str
    brief: str
    hour: str
    plugged: bool = False
    other_end: str = ""
    flag: Flag = ""


def port_names(c: Cylinder) -> dict[str, str]:
    """Give the name of the port of each table; a second one of an end has a number."""
    count: dict[str, int] = {}
    names = {}
    for port in c.ports:
        n = count[port.end] = count.get(port.end, 0) + 1
        names[port.table] = f"{port.end.capitalize()} port{f' {n}' if n > 1 else ''}"
    return names


def port_rows(c: Cylinder, dimensions: str, fractions: int) -> tuple[PortRow, ...]:
    """Give the ports in the order of the spec."""
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    names = port_names(c)
    return tuple(_row(c, p, names[p.table], side, dimensions, fractions) for p in c.ports)


def _row(c: Cylinder, port: Port, end: str, side: str, dimensions: str, fractions: int) -> PortRow:
    thread, plug = port.thread, ", plugged" if port.sizes.plugged else ""
    clocks = {"rod": port.clock, "base": seen_from_base(port.clock)}
    readings = {end: hour(d, port.in_degrees).replace(" deg", "°") for end, d in clocks.items()}
    away = "base" if side == "rod" else "rod"
    typed, other = readings[side], readings[away]
    seat, sizes = _seat(c, port, dimensions, fractions)
    return PortRow(
        port.table,
        end,
        f"{thread.words[0]}, {thread.standard}{plug}",
        typed if typed == other else f"{typed} ({other})",
        seat,
        sizes,
        thread.short,
        thread.brief,
        typed,
        port.sizes.plugged,
        "" if typed == other else away,
        flag_of(c.value(f"{port.table}.thread")),
    )


def _seat(
    c: Cylinder, port: Port, dimensions: str, fractions: int
) -> tuple[Seat, tuple[Sized, ...]]:
    """Say what a port's face lies on; in a flat nothing stands out: of a flange how it lies."""

    def say(name: str, size: float, rough: bool) -> str:
        return printed(f"{port.table}.{name}", size, dimensions, fractions, rough=rough)[0]

    if port.flat and port.sizes.height <= 0.0:
        if port.thread.is_flange:
            return "long pitch", (("along", DERIVED),)
        least = port.thread.spotface_dia_mm
        return ("spotface", ((f"Ø{say('boss', least, False)} MIN", ""),)) if least else ("", ())
    across = say("boss", port.sizes.boss, True)
    if port.thread.is_flange:
        across += f" x {say('boss', port.sizes.across, True)}"
    else:
        across = f"Ø{across}"
    height = f"{port.table}.height"
    flag = flag_of(c.value(height))
    rough = flag == DERIVED and not any(w.name == height for w in c.wishes)
    high = say("height", port.sizes.height, rough)
    boss = flag_of(c.value(f"{port.table}.boss"))
    if port.sizes.facing != "out":
        return "tube", ((across, boss), (f"axis {high} off {port.part}", flag))
    return "boss", ((across, boss), (high, flag))
