"""Readings that hang together: weighted least squares, uncertainties carried through, outliers.

Every reading is a sum of sizes: over the outer edges of two holes, A + H1/2 + H2/2. So the law of
propagation of uncertainty (JCGM 100, first order) is exact here, correlations included: the
covariance of the sizes is the inverse of the normal matrix.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt

import numpy as np

from drafting.arrays import Floats
from drafting.records import dataclass

_TINY = 1e-9
_STEADY = 9
"""Decimals of a millimetre that are kept: far more than anybody reads, fewer than differ."""
ODDS = 2.326
"""Standard normal quantile of 99 %: readings that agree are called a conflict 1 time in 100."""


@dataclass(frozen=True, slots=True)
class Observation:
    """A reading ``value`` with standard uncertainty ``u`` (mm): the sum of ``terms`` (size: k)."""

    name: str
    value: float
    u: float
    terms: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Adjusted:
    """Sizes in mm that fit the readings best. ``misfit`` is the weighted sum of squares."""

    sizes: Mapping[str, float]
    covariance: Mapping[tuple[str, str], float]
    used: tuple[Observation, ...]
    misfit: float
    spare: int

    def value(self, terms: Mapping[str, float]) -> float | None:
        """Give a sum of sizes, None when one of them is not known."""
        if any(t not in self.sizes for t in terms):
            return None
        return sum(k * self.sizes[t] for t, k in terms.items())

    def sigma(self, terms: Mapping[str, float]) -> float:
        """Give the standard uncertainty of a sum of sizes."""
        total = sum(
            a * b * self.covariance[s, t] for s, a in terms.items() for t, b in terms.items()
        )
        return sqrt(max(total, 0.0))

    @property
    def agrees(self) -> bool:
        """Tell whether the readings agree within their uncertainties."""
        return self.spare == 0 or self.misfit <= chi_square(self.spare)


@dataclass(frozen=True, slots=True)
class Judged:
    """The readings adjusted, and what does not agree: one named outlier, or the whole conflict."""

    adjusted: Adjusted
    outlier: str = ""
    conflict: tuple[str, ...] = ()


def chi_square(freedom: int) -> float:
    """Give the 99 % point of chi-square (Wilson and Hilferty's approximation)."""
    k = 2 / (9 * freedom)
    return float(freedom * (1 - k + ODDS * sqrt(k)) ** 3)


def adjust(observations: Sequence[Observation]) -> Adjusted:
    """Give the sizes that fit best; sizes that the readings do not determine are left out."""
    used = list(observations)
    while True:
        names = tuple(dict.fromkeys(t for o in used for t in o.terms))
        solved = _solve(names, used)
        if not isinstance(solved, str):
            break
        used = [o for o in used if solved not in o.terms]
    inverse, sizes = solved
    misfit = sum(
        ((o.value - sum(k * sizes[t] for t, k in o.terms.items())) / o.u) ** 2 for o in used
    )
    covariance = {
        (a, b): float(inverse[i, j]) for i, a in enumerate(names) for j, b in enumerate(names)
    }
    return Adjusted(sizes, covariance, tuple(used), misfit, len(used) - len(names))


def judge_readings(observations: Sequence[Observation]) -> Judged:
    """Adjust, and look for what does not agree.

    An outlier is named only where the readings without it agree, still check each other, and no
    other single reading would explain it as well.
    """
    whole = adjust(observations)
    if whole.agrees:
        return Judged(whole)
    guilty = []
    for o in whole.used:
        rest = adjust([p for p in whole.used if p is not o])
        if rest.agrees and rest.sizes.keys() == whole.sizes.keys():
            guilty.append((o.name, rest))
    if len(guilty) == 1 and guilty[0][1].spare > 0:
        return Judged(guilty[0][1], outlier=guilty[0][0])
    involved = [name for name, _ in guilty] or [o.name for o in whole.used if len(o.terms) > 1]
    return Judged(whole, conflict=tuple(involved))


def _solve(
    names: Sequence[str], used: Sequence[Observation]
) -> tuple[Floats, dict[str, float]] | str:
    """Give inverse normal matrix and sizes, or the name of a size that is not determined."""
    place = {name: i for i, name in enumerate(names)}
    rows, values = np.zeros((len(used) + len(names), len(names))), np.zeros(len(used) + len(names))
    for row, o in enumerate(used):
        values[row] = o.value / o.u
        for name, k in o.terms.items():
            rows[row, place[name]] = k / o.u
    q, r = np.linalg.qr(rows)
    # What is left of a size's column once those before it are taken out.
    left = np.diag(r) ** 2 <= _TINY * (rows**2).sum(axis=0)
    if left.any():
        return names[int(left.argmax())]
    back = np.linalg.inv(r)
    # Processors differ in the last digits, and a size half between two that are printed would be
    # rounded up here and down there.
    sizes = np.round(back @ (q.T @ values), _STEADY).tolist()
    return np.round(back @ back.T, 2 * _STEADY), dict(zip(names, sizes, strict=True))
