"""The table over the travel: pins, lever, forces, column at each place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.drawing.lists.strips import Strip, hair, heading, stacked
from drafting.drawing.sheet.sheet import Text
from drafting.fitting.fit import Fit
from drafting.fitting.forces import Position
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Distance
from drafting.fitting.travel import dead_centres, kind
from drafting.told.short import factor, figures, size

PITCH, HEAD = 4.6, 1.8
WIDE = (17.0, 21.0, 19.0, 20.0, 20.0, 20.0, 21.0, 21.0, 19.0)
NOTE = "+ pushes, - pulls; still: at rest, friction not credited; there: at the pressure"


def travel_table(f: Fit, wide: float, room: float) -> Strip:
    """Give as many places of the travel as there is room for."""
    marks, texts, high = heading("OVER THE TRAVEL", NOTE, wide, "travel")
    most = max(2, int((room - high - PITCH) // PITCH))
    every = max(1, -(-(len(f.positions) - 1) // (most - 1)))
    head, below = _heads(f)
    k = wide / sum(WIDE)
    strips = [Strip(high, marks, texts), _row(head, k, HEAD, False), _row(below, k, HEAD, True)]
    worst = {
        max(f.positions, key=lambda q: q.most_push), max(f.positions, key=lambda q: q.most_pull)
    }  # fmt: skip
    strips += [_row(_cells(f, q), k, 2.5, True, q in worst) for q in f.positions[::every]]
    return stacked(*strips)


def under_table(f: Fit) -> Iterator[str]:
    """Say oil, time, dead centre and what is not in the numbers."""
    out, back, t_out, t_back = f.oil
    each = "each, " if f.machine.count > 1 else ""
    said = f"Oil {each}over the travel: out {liquid(out, f)}, in {liquid(back, f)}"
    if t_out and t_back:
        said += f"; time out {t_out:.1f} s, in {t_back:.1f} s at the given flow"
    yield said + "."
    low, high = f.positions[0].place.at, f.positions[-1].place.at
    reach = 180.0 if kind(f.machine.way) == "deg" else 10 * (high - low)
    found = [d for d in dead_centres(f.machine.way, low - reach, high + reach)
             if not low <= d <= high]  # fmt: skip
    if found:
        near = min(found, key=lambda d: max(low - d, d - high))
        yield f"Nearest dead centre outside the travel: {say_at(f.machine, near)}."
    yield "At rest, in one plane; own weight counted; no shock, no side load, no wind."


def liquid(litres: float, f: Fit) -> str:
    """Say an amount of oil."""
    if f.machine.units == "mm":
        return f"{litres:.2f} l"
    return f"{litres / 3.785411784:.2f} gal"


def _heads(f: Fit) -> tuple[Sequence[str], Sequence[str]]:
    units = f.machine.units
    force = "lbf" if units == "in" else "kN"
    turns = kind(f.machine.way) == "deg"
    return (
        ("AT", "PINS", "LEVER", "STILL", "OUT", "IN", "PUSH THERE", "PULL THERE", "COLUMN"),
        ("°" if turns else units, units, units if turns else "share", *[force] * 5, "factor"),
    )


def _row(cells: Sequence[str], k: float, high: float, rule: bool, bold: bool = False) -> Strip:
    tall = PITCH if high > HEAD else 3.4
    under = (hair((0.0, -tall), (k * sum(WIDE), -tall)),) if rule else ()
    return Strip(tall, under, tuple(_across(cells, k, high, bold)))


def _across(cells: Sequence[str], k: float, high: float, bold: bool) -> Iterator[Text]:
    x, down = 0.0, 3.6 if high > HEAD else 2.4
    for cell, wide in zip(cells, WIDE, strict=True):
        x += k * wide
        yield Text((x - 2.0, -down), cell, high, "end", bold=bold, name="table")


def _cells(f: Fit, q: Position) -> tuple[str, ...]:
    units = f.machine.units

    def force(x: float | None) -> str:
        if x is None:
            return "-"
        return figures(x / 4.4482216152605) if units == "in" else figures(x / 1000.0)

    turns = kind(f.machine.way) == "deg"
    where = f"{q.place.at:.1f}" if turns else size(q.place.at, units)
    lever = size(abs(q.place.arm), units) if turns else f"{abs(q.place.arm):.3f}"
    column = "-" if q.column is None else factor(q.column)
    loaded = not isinstance(f.machine.way, Distance) and bool(f.machine.way.loads)
    asked = (force(x) if loaded else "-" for x in (q.still, q.out, q.back))
    there = (force(q.push), force(q.pull))
    return (where, size(q.place.length, units), lever, *asked, *there, column)
