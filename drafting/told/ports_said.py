"""What a drawing says of each port: its row of the PORTS table, and the words of its callout."""

from __future__ import annotations

from drafting.model.cylinder import Cylinder
from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.settle.clock import hour, seen_from_base
from drafting.told.flags import DERIVED, MEASURED, OPEN, Flag, flag_of
from drafting.told.printed import printed


@dataclass(frozen=True, slots=True)
class PortRow:
    """A port in words.

    ``table`` is its table of the spec; ``thread`` names it in full, ``short`` as a callout does,
    ``brief`` without the standard.
    ``clock`` has both readings where they differ, then from ``other_end``; ``hour`` is as typed.
    ``boss`` is diameter (of a flange's pad length by width) by height in the sheet's unit, of one
    that does not stand out its diameter alone. ``flag`` says where the thread comes from,
    ``boss_flag`` where the boss does.
    """

    table: str
    end: str
    thread: str
    clock: str
    boss: str
    boss_flag: Flag
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


def boss_across(port: Port, dimensions: str, fractions: int) -> str:
    """Say how large a boss is: a round one by its diameter, a flange's pad by both its sides.

    A pad is bolts and a rim, nothing to be held to: on a metric sheet a tenth is enough.
    """
    sizes = [port.sizes.boss, port.sizes.across] if port.thread.is_flange else [port.sizes.boss]
    if port.thread.is_flange and dimensions.startswith("mm"):
        sizes = [round(s, 1) for s in sizes]
    said = " x ".join(printed(f"{port.table}.boss", s, dimensions, fractions)[0] for s in sizes)
    return said if port.thread.is_flange else f"Ø{said}"


def _row(c: Cylinder, port: Port, end: str, side: str, dimensions: str, fractions: int) -> PortRow:
    thread, plug = port.thread, ", plugged" if port.sizes.plugged else ""
    clocks = {"rod": port.clock, "base": seen_from_base(port.clock)}
    readings = {end: hour(d, port.in_degrees).replace(" deg", "°") for end, d in clocks.items()}
    away = "base" if side == "rod" else "rod"
    typed, other = readings[side], readings[away]
    boss = [boss_across(port, dimensions, fractions)]
    if port.sizes.height > 0.0:
        boss.append(printed(f"{port.table}.height", port.sizes.height, dimensions, fractions)[0])
    names = (f"{port.table}.boss", f"{port.table}.height")
    boss_flags = [flag_of(c.value(n)) for n in names]
    return PortRow(
        port.table,
        end,
        f"{thread.words[0]}, {thread.standard}{plug}",
        typed if typed == other else f"{typed} ({other})",
        " x ".join(boss),
        next((f for f in (OPEN, DERIVED, MEASURED) if f in boss_flags), ""),
        thread.short,
        thread.brief,
        typed,
        port.sizes.plugged,
        "" if typed == other else away,
        flag_of(c.value(f"{port.table}.thread")),
    )
