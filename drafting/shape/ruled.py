"""Curves ruled on a cylinder or cone: where its rulings meet another quadric."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin, sqrt

import numpy as np

from drafting.arrays import Floats, Ints, folded
from drafting.shape.faces import Face


class Ruled:
    """Where the rulings of a cylinder or cone meet another quadric; one of the two branches.

    Open curves run over t in 0..pi with angle = mid - half cos(t), so that points crowd at the
    ends, where two branches join and the angle stands still; closed ones have t = angle.
    """

    def __init__(self, on: Face, other: Face, sign: float) -> None:
        self.sign = sign
        self.mid, self.half, self.closed = 0.0, 0.0, True
        self.t0, self.t1 = 0.0, pi
        across = on.u, on.v
        if on.kind == "cylinder":
            base, ring = on.o, on.size
            self.base = np.array([[*base, 1.0], *([*(ring * np.array(w)), 0.0] for w in across)])
            self.ruling = np.array([[*on.n, 0.0], [0.0] * 4, [0.0] * 4])
        else:
            self.base = np.array([[*on.o, 1.0], [0.0] * 4, [0.0] * 4])
            self.ruling = np.array(
                [[*on.n, 0.0], *([*(on.size * np.array(w)), 0.0] for w in across)]
            )
        m = other.quadric
        # The quadric along a ruling, a s^2 + 2 b s + c, as forms in (1, cos, sin).
        self.forms = np.hstack(
            [
                self.ruling @ m @ self.ruling.T,
                self.ruling @ m @ self.base.T,
                self.base @ m @ self.base.T,
            ]
        )
        self.rows = [self.forms[:, k : k + 3].tolist() for k in (0, 3, 6)]

    def solve(self, angle: Floats) -> tuple[Floats, Floats]:
        """Give the discriminant and s along the ruling at angles."""
        ring = np.column_stack([np.ones_like(angle), np.cos(angle), np.sin(angle)])
        forms = (ring @ self.forms).reshape(-1, 3, 3) * ring[:, None]
        a, b, c = folded(np.add, forms.swapaxes(1, 2)).T
        return _roots(a, b, c, self.sign)

    def run(self, t: float) -> float:
        """Give s along the ruling at one parameter; as ``solve``, without its arrays."""
        angle = t if self.closed else self.mid - self.half * cos(t)
        ring = (1.0, cos(angle), sin(angle))
        a, b, c = (
            sum(
                p * q * m
                for p, row in zip(ring, form, strict=True)
                for q, m in zip(ring, row, strict=True)
            )
            for form in self.rows
        )
        root = self.sign * sqrt(max(b * b - a * c, 0.0))
        top, bottom = (root - b, a) if self.sign * b <= 0.0 else (c, -b - root)
        return top / bottom if bottom else 1e9

    def angle(self, t: Floats) -> Floats:
        """Give the angle at parameters."""
        return t if self.closed else self.mid - self.half * np.cos(t)


class Rulings:
    """Many ruled curves as arrays, so that points on different ones are found in one call."""

    def __init__(self, some: Sequence[Ruled]) -> None:
        self.sign = np.array([r.sign for r in some])
        self.mid = np.array([r.mid for r in some])
        self.half = np.array([r.half for r in some])
        self.closed = np.array([r.closed for r in some], bool)
        self.forms = np.array([r.forms for r in some]).reshape(-1, 3, 9)
        self.base = np.array([r.base for r in some]).reshape(-1, 3, 4)[:, :, :3]
        self.ruling = np.array([r.ruling for r in some]).reshape(-1, 3, 4)[:, :, :3]

    def at(self, k: Ints, t: Floats) -> Floats:
        """Give the points (n, 3) of curves k at parameters t."""
        angle = np.where(self.closed[k], t, self.mid[k] - self.half[k] * np.cos(t))
        ring = np.stack([np.ones_like(angle), np.cos(angle), np.sin(angle)], 1)
        forms = np.einsum("ni,nij->nj", ring, self.forms.take(k, 0)).reshape(-1, 3, 3)
        a, b, c = folded(np.add, (forms * ring[:, None]).swapaxes(1, 2)).T
        s = _roots(a, b, c, self.sign[k])[1]
        base: Floats = np.einsum("ni,nij->nj", ring, self.base.take(k, 0))
        ruling: Floats = np.einsum("ni,nij->nj", ring, self.ruling.take(k, 0))
        return base + s[:, None] * ruling


def _roots(a: Floats, b: Floats, c: Floats, sign: Floats | float) -> tuple[Floats, Floats]:
    """Give the discriminant of a s^2 + 2 b s + c and the root of that sign; 1e9 for none."""
    disc = b * b - a * c
    root = sign * np.sqrt(np.maximum(disc, 0.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        s = np.where(sign * b <= 0.0, (root - b) / a, c / (-b - root))
    return disc, np.where(np.isfinite(s), s, 1e9)
