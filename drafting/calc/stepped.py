"""Elastic critical load of a column of two sections, a stiff tube and a slender rod.

Segment 1 is the tube (EI1, length a), segment 2 the rod (EI2, length b), L = a + b; the ends are
named tube end first. In each segment EI y'' = -P y + M0 + H x; deflection and slope meet at the
joint. Eliminating the constants leaves one equation in P for each pair of ends, written here in
the form without poles. With k1 = sqrt(P/EI1), k2 = sqrt(P/EI2), s1 = sin k1 a, c1 = cos k1 a and
so on, the critical load is the lowest positive root.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin
from typing import Literal

from drafting.calc.euler import euler_load
from drafting.calc.types import NMm2
from drafting.units import Mm, N

Ends = Literal[
    "pinned_pinned",
    "fixed_free",
    "free_fixed",
    "fixed_pinned",
    "pinned_fixed",
    "fixed_guided",
    "guided_fixed",
    "fixed_fixed",
]
"""Tube end, rod end. Guided: kept from turning but free to sway."""

LENGTH_FACTOR: dict[Ends, float] = {
    "pinned_pinned": 1.0,
    "fixed_free": 2.0,
    "free_fixed": 2.0,
    "fixed_pinned": pi / 4.493409457909064,
    "pinned_fixed": pi / 4.493409457909064,
    "fixed_guided": 1.0,
    "guided_fixed": 1.0,
    "fixed_fixed": 0.5,
}
"""K of theory; fixed-pinned is pi over the first root of tan x = x."""

_STEP = 0.05
"""Radians of k1 a + k2 b between two looks for a change of sign; far below the gap of two modes."""


def critical_load(
    ends: Ends, tube_stiffness: NMm2, tube_length: Mm, rod_stiffness: NMm2, rod_length: Mm
) -> N:
    """Elastic critical load of a column of two sections: the lowest root of its equation.

    pinned pinned  k2 s1 c2 + k1 c1 s2 = 0
    fixed free     k1 s1 s2 - k2 c1 c2 = 0
    fixed pinned   s2 (c1 + L k1 s1) - k2 c2 (L c1 - s1/k1) = 0
    fixed guided   k1 s1 c2 + k2 c1 s2 = 0
    fixed fixed    (c2 - c1)(c2 - c1 + L k2 s2) - (L c2 - s1/k1 - s2/k2)(k1 s1 + k2 s2) = 0

    The root lies between Euler's loads of the whole length in the softer and the stiffer section.

    Symbols: ends; stiffness EI1 (N mm2) and length a (mm) of the tube, EI2 and b of the rod.
    Holds: while the rod's stress stays below half its yield; else ``column.column_load``.
    Source: beam column theory, Timoshenko and Gere, Theory of Elastic Stability, ch. 2; checked
    against finite elements and the book's table of stepped bars.

    >>> round(critical_load("pinned_pinned", 4.094413e11, 900.0, 4.146553e10, 850.0) / 1000, 1)
    220.4
    """
    if ends in ("free_fixed", "pinned_fixed", "guided_fixed"):
        first, second = ends.split("_")
        turned: Ends = f"{second}_{first}"  # type: ignore[assignment]
        return critical_load(turned, rod_stiffness, rod_length, tube_stiffness, tube_length)
    factor = LENGTH_FACTOR[ends]
    length = tube_length + rod_length
    if tube_length <= 0 or rod_length <= 0:
        return euler_load(rod_stiffness if tube_length <= 0 else tube_stiffness, length, factor)
    equation = _EQUATIONS[ends]
    # The square root of the load is the measure of the search: phases grow evenly with it.
    tube_phase = tube_length / tube_stiffness**0.5
    rod_phase = rod_length / rod_stiffness**0.5
    softer, stiffer = sorted((tube_stiffness, rod_stiffness))
    root = euler_load(softer, length, factor) ** 0.5 * (1 - 1e-9)
    top = euler_load(stiffer, length, factor) ** 0.5 * (1 + 1e-6)
    step = _STEP / (tube_phase + rod_phase)

    def value(w: float) -> float:
        return equation(w / tube_stiffness**0.5, w / rod_stiffness**0.5, tube_length, rod_length)

    before = value(root)
    while root < top:
        ahead = root + step
        if (after := value(ahead)) == 0 or (after > 0) != (before > 0):
            return _bisect(value, root, ahead, before > 0) ** 2
        root, before = ahead, after
    raise ArithmeticError(f"no critical load found for {ends}, {tube_length} and {rod_length} mm")


def _pinned_pinned(k1: float, k2: float, a: float, b: float) -> float:
    return k2 * sin(k1 * a) * cos(k2 * b) + k1 * cos(k1 * a) * sin(k2 * b)


def _fixed_free(k1: float, k2: float, a: float, b: float) -> float:
    return k1 * sin(k1 * a) * sin(k2 * b) - k2 * cos(k1 * a) * cos(k2 * b)


def _fixed_pinned(k1: float, k2: float, a: float, b: float) -> float:
    s1, c1, s2, c2 = sin(k1 * a), cos(k1 * a), sin(k2 * b), cos(k2 * b)
    length = a + b
    return s2 * (c1 + length * k1 * s1) - k2 * c2 * (length * c1 - s1 / k1)


def _fixed_guided(k1: float, k2: float, a: float, b: float) -> float:
    return k1 * sin(k1 * a) * cos(k2 * b) + k2 * cos(k1 * a) * sin(k2 * b)


def _fixed_fixed(k1: float, k2: float, a: float, b: float) -> float:
    s1, c1, s2, c2 = sin(k1 * a), cos(k1 * a), sin(k2 * b), cos(k2 * b)
    length = a + b
    sway = length * c2 - s1 / k1 - s2 / k2
    return (c2 - c1) * (c2 - c1 + length * k2 * s2) - sway * (k1 * s1 + k2 * s2)


_EQUATIONS: dict[str, Callable[[float, float, float, float], float]] = {
    "pinned_pinned": _pinned_pinned,
    "fixed_free": _fixed_free,
    "fixed_pinned": _fixed_pinned,
    "fixed_guided": _fixed_guided,
    "fixed_fixed": _fixed_fixed,
}


def _bisect(value: Callable[[float], float], lo: float, hi: float, positive: bool) -> float:
    """Root between lo, where the sign is ``positive``, and hi, to the last digits that matter."""
    for _ in range(44):
        middle = (lo + hi) / 2
        if (value(middle) > 0) == positive:
            lo = middle
        else:
            hi = middle
    return (lo + hi) / 2
