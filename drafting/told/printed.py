"""How a size is printed on a customer's paper: the sheet's own unit first, the other in brackets.

Millimetres in brackets that stand for a fraction of an inch are for information and say 0.1; those
that stand for decimals, and all sizes that have a tolerance or that parts are fitted by, say 0.01
(our rule).
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.settle.tolerance import Tolerance, tolerance_of, toleranced
from drafting.units import dual, format_inch, format_mm, nearest_fraction

FITTED = ("pin", "hole", "bore", "rod", "bushing", "ball_width", "diameter")
"""Sizes that other parts are fitted to."""


def printed(
    name: str,
    size: float,
    dimensions: str,
    fractions: int,
    fitted: bool = False,
    rough: bool = False,
) -> tuple[str, str]:
    """Give the number in the sheet's unit and the one in brackets, empty where there is none.

    ``name`` is the dotted name of the size in mm; ``fitted`` tells that it has a tolerance,
    ``rough`` that it follows from others and is for reference: then no more than 0.1 mm is said, or
    .01 in where it is no fraction; .001 in on a sheet of decimals.
    """
    main, other = dual(size, dimensions, fractions)
    fraction = bool(fractions) and nearest_fraction(abs(size), fractions) is not None
    if rough and dimensions.startswith("mm"):
        main = format_mm(float(format_mm(size, 1)))
    elif rough and not fraction:
        main = format_inch(float(format_inch(size, 0, 2 if fractions else 3)) * 25.4, 0)
    if other is None:
        return main, ""
    if dimensions.startswith("in"):
        fitted = fitted or name.rpartition(".")[2] in FITTED
        places = 1 if (fraction or rough) and not fitted else 2
        other = format_mm(float(format_mm(size, places)))
    return main, other


def rounding(fractions: int, toleranced: bool) -> str:
    """Say to what the millimetres in brackets are rounded."""
    if not fractions:
        return "to 0.01, references to 0.1"
    fitted = "bore, rod and sizes with a tolerance" if toleranced else "bore and rod"
    return f"from fractions to 0.1, pins, holes, {fitted} to 0.01"


def sized(
    tolerances: Mapping[str, Tolerance], name: str, size: float, dimensions: str, fractions: int
) -> str:
    """Say a size in mm in one cell: its tolerance, where it has one, and the other unit behind."""
    held = tolerance_of(tolerances, name)
    main, other = printed(name, size, dimensions, fractions, held is not None)
    if held is not None:
        main = "".join(toleranced(size, held, dimensions[:2], fractions))
    return with_brackets(main, other)


def with_brackets(main: str, other: str) -> str:
    """Put the other unit's number behind the first."""
    return f"{main} [{other}]" if other else main
