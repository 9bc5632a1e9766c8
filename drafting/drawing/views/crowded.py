"""Circles round one centre that would run together on paper are not all drawn.

Lines stand at least 0.7 mm apart on paper (ISO 128-2, from memory), measured between their edges;
a small port or ball drawn with all its rims is a black spot. The outermost rim stays, and the hole
where there is room between them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import dist, pi

from drafting.drawing.sheet.strokes import Arc, Curve, Point2, Stroke

_APART = 1.2
"""Between the middles of two wide lines (paper mm)."""
_ONE = 0.05
"""Centres nearer than this (view mm) are one."""


def crowded(strokes: Iterable[Stroke], scale: float, measured: Sequence[float]) -> frozenset[Curve]:
    """Give the visible full circles that have no room of their own at a scale.

    Those of ``measured`` diameters (mm) stay.
    """
    curves = (s.curve for s in strokes if s.visible)
    full = [c for c in curves if isinstance(c, Arc) and c.a1 - c.a0 > 2 * pi - 1e-6]
    return frozenset(
        c
        for rims in _round_one_centre(full)
        for c in _too_near(rims, scale)
        if all(abs(2 * c.radius - d) > _ONE for d in measured)
    )


def _round_one_centre(circles: Sequence[Arc]) -> Iterator[list[Arc]]:
    """Give circles by their centre, the largest first."""
    groups: list[tuple[Point2, list[Arc]]] = []
    for c in sorted(circles, key=lambda c: -c.radius):
        mine = next((g for at, g in groups if dist(at, c.centre) < _ONE), None)
        if mine is None:
            groups.append((c.centre, [c]))
        else:
            mine.append(c)
    return (g for _, g in groups)


def _too_near(rims: Sequence[Arc], scale: float) -> Iterator[Arc]:
    """Give the rims between the first and the last that stand too near to what stays."""
    if len(rims) < 2:
        return
    first, *between, last = rims
    if (first.radius - last.radius) * scale < _APART:
        yield last
    kept = first
    for rim in between:
        if min(kept.radius - rim.radius, rim.radius - last.radius) * scale < _APART:
            yield rim
        else:
            kept = rim
