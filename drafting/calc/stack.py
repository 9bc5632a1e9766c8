"""Chains of sizes: what tolerances add up to."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.units import Mm


def worst_case(tolerances: Iterable[Mm]) -> Mm:
    """Greatest departure of a chain, the sum of |t|.

    Symbols: plus-minus tolerance t of each size in the chain (mm).
    Holds: always, when each size keeps its tolerance.
    Source: arithmetic.

    >>> worst_case([0.5, 0.25, 0.25])
    1.0
    """
    return sum(abs(t) for t in tolerances)


def root_sum_square(tolerances: Iterable[Mm]) -> Mm:
    """Likely departure of a chain, sqrt(sum of t^2).

    Symbols: plus-minus tolerance t of each size in the chain (mm).
    Holds: for sizes that scatter round their middle and do not depend on each other: some 99.7 %
    of chains when each t is three standard deviations. Not for a safety figure.
    Source: statistics of independent sums.

    >>> root_sum_square([0.3, 0.4])
    0.5
    """
    total: Mm = sum(t**2 for t in tolerances) ** 0.5
    return total
