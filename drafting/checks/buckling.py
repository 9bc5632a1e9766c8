"""The column, each plane on its own.

A pin turns in one plane and holds in the other, but only as well as pin, ears and frame fit: it
counts as held only where the person says so. Without that word each pivot and each bolted end
counts as pinned, which is cautious; a rod end without a pivot whose load is said not to be guided
counts as free.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from drafting.calc.column import column_lengths, column_load, longest_stroke, smallest_rod
from drafting.calc.euler import bar_inertia, euler_load, tube_inertia
from drafting.calc.stepped import LENGTH_FACTOR, Ends
from drafting.calc.types import STEEL_MODULUS
from drafting.checks.check import Check, told
from drafting.checks.judging import ON_COLUMN, ON_COLUMN_JAMMED, factor
from drafting.checks.loads import push_at
from drafting.checks.numbers import CylinderNumbers, EndMount, Number
from drafting.records import dataclass

Plane = Literal["y", "z"]
"""Named by the axis square to it: ``y`` is the plane in which the body pin turns."""

METHOD = (
    "stepped column of tube and rod with Johnson's line for short ones; own weight, sag, side "
    "load, play, bent rod and eccentric pins are not covered"
)


@dataclass(frozen=True, slots=True)
class Column:
    """The column at full extension in its weaker plane, lengths in mm, load in N."""

    ends: Ends
    tube: float
    rod: float
    load: float
    words: str


def buckling(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give the factors against buckling and, as advice, the longest stroke and thinnest rod."""
    if n.action == "pull" and n.duty.push is None:
        return ()
    columns = [column(n, plane) for plane in ("y", "z")]
    weaker = min(columns, key=lambda c: c.load)
    return (*_told(n, columns), *_factors(n, weaker), *_advice(n, weaker))


def column(n: CylinderNumbers, plane: Plane, extension: float | None = None) -> Column:
    """Give the column in one plane, fully out unless an extension (mm) is given."""
    out = n.stroke.value if extension is None else extension
    pivots = n.body_pivot.value, n.gland_face.value, n.rod_pivot.value + out
    tube, rod = column_lengths(*pivots)
    ends = ends_in(n, plane)
    load = column_load(
        ends,
        n.barrel_outside.value,
        n.bore.value,
        tube,
        n.rod.value,
        rod,
        n.rod_material.strength.value,
    )
    turning = "in which the body mount turns" if plane == "y" else "along the body mount's pin"
    words = f"{ends.replace('_', '-')} in the plane {turning}"
    return Column(ends, tube, rod, load, words)


def ends_in(n: CylinderNumbers, plane: Plane) -> Ends:
    """Give the end conditions in a plane, tube end first."""
    body = _end(n.body, plane)
    rod = _end(n.rod_end, plane)
    if n.rod_end.axis is None and n.duty.load_guided is False:
        # A free rod end stands only on a tube that cannot turn.
        return "fixed_free"
    pairs: dict[tuple[str, str], Ends] = {
        ("pinned", "pinned"): "pinned_pinned",
        ("pinned", "fixed"): "pinned_fixed",
        ("fixed", "pinned"): "fixed_pinned",
        ("fixed", "fixed"): "fixed_fixed",
    }
    return pairs[body, rod]


def _end(mount: EndMount, plane: Plane) -> str:
    turns = mount.axis in ("ball", "skew", plane)
    return "fixed" if mount.held and not turns else "pinned"


def _told(n: CylinderNumbers, columns: list[Column]) -> Iterator[Check]:
    for plane, c in zip(("turning", "pin"), columns, strict=True):
        lengths = f"{c.words}; tube {c.tube:.0f} mm, rod {c.rod:.0f} mm"
        name = (
            f"Column load fully out, plane {'of turning' if plane == 'turning' else 'of the pin'}"
        )
        yield told(f"column-load-{plane}", name, c.load, "N", METHOD, lengths)
    c = columns[0]
    alone = euler_load(
        STEEL_MODULUS * bar_inertia(n.rod.value), c.tube + c.rod, LENGTH_FACTOR[c.ends]
    )
    name = "Euler's load of the rod alone over the whole length"
    yield told("column-rod-alone", name, alone, "N", "Euler; a lower bound while slender")


def _rests_on(n: CylinderNumbers, c: Column, rod_alone_holds: bool) -> tuple[Number, ...]:
    """Give what the verdict rests on; tube and gland drop out where the rod alone would do."""
    parts = [n.rod, n.stroke, n.body_pivot, n.rod_pivot, n.rod_material.strength]
    if not rod_alone_holds:
        parts += [n.bore, n.barrel_outside, n.gland_face]
    if c.ends == "fixed_free" and not n.body.held:
        parts.append(Number(f"{n.body.field} held against turning", 1.0, "assumed"))
    return tuple(parts)


def _rod_alone(n: CylinderNumbers, c: Column) -> float:
    """Give the column load of the rod over the whole length, N: no less wherever the gland is.

    Zero where the rod is stiffer than the tube, which makes the tube the weak part.
    """
    if bar_inertia(n.rod.value) > tube_inertia(n.barrel_outside.value, n.bore.value):
        return 0.0
    sections = n.barrel_outside.value, n.bore.value, 0.0, n.rod.value, c.tube + c.rod
    return column_load(c.ends, *sections, n.rod_material.strength.value)


def loads(n: CylinderNumbers) -> dict[str, Number]:
    """Give the pushes that the column is held against, N: the duty's, and all that pressure can."""
    found: dict[str, Number] = {}
    if n.duty.push is not None:
        found["duty"] = n.duty.push
    highest = n.highest_pressure or n.duty.pressure
    if highest is not None and (full := push_at(n, highest.value)) > 0.0:
        firm = highest.firm and n.bore.firm and n.rod.firm
        found["full"] = Number(highest.name, full, "computed" if firm else "derived")
    return found


def _factors(n: CylinderNumbers, weaker: Column) -> Iterator[Check]:
    found = loads(n)
    for which, load in found.items():
        jammed = which == "full" and "duty" in found
        usual = ON_COLUMN_JAMMED if jammed else ON_COLUMN
        asked = None if jammed else n.duty.safety_factor
        alone = _rod_alone(n, weaker) / load.value >= (asked.value if asked else usual.ample)
        what = "push of the duty" if which == "duty" else "full push at the highest pressure"
        note = f"{weaker.words}; load {load.value:.0f} N"
        yield factor(
            f"column-{which}",
            f"Factor against buckling, {what}",
            weaker.load / load.value,
            usual,
            METHOD,
            (*_rests_on(n, weaker, alone), load),
            asked,
            f"{note}; the rod alone over the whole length would do" if alone else note,
        )
    if n.rod_end.axis is None and n.duty.load_guided is None:
        yield told(
            "column-unguided",
            "Column load if the load on the rod is not guided",
            _unguided(n, weaker),
            "N",
            METHOD,
            "nobody said whether it is guided; fixed-free, and only if the body mount is held",
        )


def _unguided(n: CylinderNumbers, c: Column) -> float:
    sections = n.barrel_outside.value, n.bore.value, c.tube, n.rod.value, c.rod
    return column_load("fixed_free", *sections, n.rod_material.strength.value)


def _advice(n: CylinderNumbers, weaker: Column) -> Iterator[Check]:
    found = loads(n)
    load = found.get("duty") or found.get("full")
    if load is None:
        return
    wanted = n.duty.safety_factor.value if n.duty.safety_factor is not None else ON_COLUMN.ample
    held = load.value * wanted
    strength = n.rod_material.strength.value
    sections = weaker.ends, n.barrel_outside.value, n.bore.value
    note = f"factor {wanted:g} at {load.value:.0f} N, the rest as it is"
    stroke = longest_stroke(
        held,
        *sections,
        weaker.tube - n.tube_share * n.stroke.value,
        n.tube_share,
        n.rod.value,
        weaker.rod - n.stroke.value,
        strength,
    )
    yield told("longest-stroke", "Longest stroke that holds", stroke, "mm", METHOD, note)
    thinnest = smallest_rod(held, *sections, weaker.tube, weaker.rod, strength)
    if thinnest < n.bore.value:
        yield told("thinnest-rod", "Thinnest rod that holds", thinnest, "mm", METHOD, note)
    else:
        note = f"{note}; not even a rod as thick as the bore"
        yield told("thinnest-rod", "No rod holds in the bore of", thinnest, "mm", METHOD, note)
