"""The cylinder as a column: a stiff tube and a slender rod under one push.

The stretch where the rod lies inside the tube counts as tube alone, which is cautious.
Not covered, and each lowers the load: own weight and sag, side load, play in gland and piston,
a bent rod, an eccentric pin, friction in the pins. Divide by a factor of safety; 2.5 to 4 is
common practice, more for lifting.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi

from drafting.calc.euler import bar_inertia, johnson_stress, slenderness_limit, tube_inertia
from drafting.calc.force import rod_area
from drafting.calc.stepped import Ends, critical_load
from drafting.calc.types import STEEL_MODULUS
from drafting.units import Mm, MPa, N, One


def column_lengths(pivot: Mm, gland_face: Mm, rod_pivot: Mm) -> tuple[Mm, Mm]:
    """Tube and rod lengths of the column, from places along the axis: (a, b).

    a = gland face - pivot, b = rod pivot - gland face. A trunnion or flange anywhere along the
    barrel is only another pivot: the tube behind it does not count; ahead of the gland face the
    rod alone is the column. A stop tube is in the barrel's length already.

    Symbols: body pivot, gland face and rod pivot along the axis (mm), at the extension in question.
    Holds: for rod pivot beyond the other two.
    Source: geometry.

    >>> column_lengths(100.0, 900.0, 1750.0)
    (800.0, 850.0)
    """
    joint = max(pivot, gland_face)
    return joint - pivot, rod_pivot - joint


def column_load(
    ends: Ends,
    outside: Mm,
    bore: Mm,
    tube_length: Mm,
    rod: Mm,
    rod_length: Mm,
    rod_strength: MPa,
    modulus: MPa = STEEL_MODULUS,
) -> N:
    """Critical load of a cylinder's tube and rod, with Johnson's line for short columns.

    The elastic load is turned into an equal uniform rod, Le = pi sqrt(E I2 / Pcr); when its
    slenderness Le / (d/4) is below the limit, the load is the rod's area times Johnson's stress.

    Symbols: ends; barrel outside, bore, rod d, lengths a and b (mm); rod yield Sy, modulus E (MPa).
    Holds: for a solid rod. The link from a stepped column to Johnson is an engineering choice of
    this project, not a standard.
    Source: ``stepped.critical_load``, ``euler.johnson_stress``.

    >>> round(column_load("pinned_pinned", 60.0, 50.0, 300.0, 28.0, 250.0, 500.0) / 1000)
    243
    """
    stiffness = modulus * bar_inertia(rod)
    elastic = critical_load(
        ends, modulus * tube_inertia(outside, bore), tube_length, stiffness, rod_length
    )
    slenderness = pi * (stiffness / elastic) ** 0.5 / (rod / 4)
    if slenderness >= slenderness_limit(rod_strength, modulus):
        return elastic
    return rod_area(rod) * johnson_stress(slenderness, rod_strength, modulus)


def longest_stroke(
    load: N,
    ends: Ends,
    outside: Mm,
    bore: Mm,
    tube_rest: Mm,
    tube_share: One,
    rod: Mm,
    rod_rest: Mm,
    rod_strength: MPa,
    modulus: MPa = STEEL_MODULUS,
    longest: Mm = 20_000.0,
) -> Mm:
    """Longest stroke whose column carries a load when fully out; zero when none does.

    With the stroke s the column is a = a0 + q s of tube and b = b0 + s of rod. q is 1 for a mount
    at the base, 0 for one at the gland, 1/2 in the middle. Where a comes out below zero the pivot
    lies ahead of the gland, and the rod alone is the column from there.

    Symbols: load P (N, factor of safety included), ends, sections as in ``column_load``; tube rest
    a0, rod rest b0 (mm), share q; the search ends at ``longest`` (mm).
    Holds: as ``column_load``.
    Source: bisection; the load falls as the column grows.

    >>> round(longest_stroke(40_000.0, "pinned_pinned", 60.0, 50.0, 90.0, 1.0, 28.0, 60.0, 500.0))
    717
    """

    def short(stroke: float) -> bool:
        whole = tube_rest + tube_share * stroke + rod_rest + stroke
        tube = max(tube_rest + tube_share * stroke, 0 * whole)
        lengths = tube, whole - tube
        return load > column_load(
            ends, outside, bore, lengths[0], rod, lengths[1], rod_strength, modulus
        )

    nothing = 0 * longest
    if short(nothing):
        return nothing
    return longest if not short(longest) else _edge(short, nothing, longest)


def smallest_rod(
    load: N,
    ends: Ends,
    outside: Mm,
    bore: Mm,
    tube_length: Mm,
    rod_length: Mm,
    rod_strength: MPa,
    modulus: MPa = STEEL_MODULUS,
) -> Mm:
    """Thinnest rod whose column carries a load; the bore when not even that would do.

    Symbols: load P (N, factor of safety included), ends; barrel outside, bore, lengths a, b (mm);
    rod yield Sy, modulus E (MPa).
    Holds: as ``column_load``. Take the next larger size of the series.
    Source: bisection; the load rises with the rod.

    >>> round(smallest_rod(40_000.0, "pinned_pinned", 60.0, 50.0, 900.0, 850.0, 500.0), 1)
    29.4
    """

    def enough(rod: float) -> bool:
        return load <= column_load(
            ends, outside, bore, tube_length, rod, rod_length, rod_strength, modulus
        )

    return _edge(enough, bore / 100, bore) if enough(bore) else bore


def _edge(true_above: Callable[[float], bool], lo: float, hi: float) -> float:
    """Place between lo (false) and hi (true) where the answer turns, to 1e-7 of the span."""
    for _ in range(24):
        middle = (lo + hi) / 2
        if true_above(middle):
            hi = middle
        else:
            lo = middle
    return (lo + hi) / 2
