"""Circles round one centre that would run together on paper are not all drawn.

Lines stand at least 0.7 mm apart on paper (ISO 128-2, from memory), measured between their edges;
a small port or ball drawn with all its rims is a black spot. The outermost rim stays, and the hole
where there is room between them. The same holds where they are seen askew, as ovals.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from math import dist, hypot, pi

from drafting.drawing.dimension.owners import is_port
from drafting.drawing.sheet.on_paper import box, on_ellipse
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Point2, Poly, Stroke

APART = 1.2
"""Between the middles of two wide lines (paper mm)."""
_ROD_APART = 0.75
"""Between those of the rod and another: half a line's white is better than no rod (paper mm)."""
ROOM = 0.6
"""Between those of two ovals, which are that near on their flat sides alone (paper mm)."""
_WHOLE = 2 * pi - 1e-6
_SAMPLES = 24
_ONE = 0.05
"""Centres nearer than this (view mm) are one."""


def crowded(
    strokes: Iterable[Stroke],
    scale: float,
    measured: Sequence[float],
    halved: bool = False,
    outside: Collection[str] = (),
    rod: float = 0.0,
) -> frozenset[Curve]:
    """Give the visible full circles that have no room of their own at a scale.

    Those of ``measured`` diameters (mm) stay. ``halved`` is a half section, the edge of whose cut
    leaves of the rims of a port what lies below it: they count there as if they were whole.
    Of the threads ``outside`` on a rod the crest stays, at which words point, not the chamfer.
    The circle of the ``rod`` (diameter, mm) needs less room than others.
    """
    strokes = [s for s in strokes if s.visible]
    cut = {s.curve for s in strokes if halved and is_port(s.piece)}
    curves = [s.curve for s in strokes]
    full = [c for c in curves if isinstance(c, Arc) and (c.a1 - c.a0 > _WHOLE or c in cut)]
    threads = {s.curve for s in strokes if s.piece in outside}
    round_ones = frozenset(
        c
        for rims in _round_one_centre(full)
        for c in _too_near(rims, threads, rod / 2, scale)
        if all(abs(2 * c.radius - d) > _ONE for d in measured)
    )
    parts = {s.part: [t.curve for t in strokes if t.part == s.part] for s in strokes}
    return round_ones.union(*(_crowded_ovals(own, cut, scale) for own in parts.values()))


def _crowded_ovals(
    curves: Sequence[Curve], cut: Collection[Curve], scale: float
) -> Iterator[Curve]:
    """Give the ovals of one part that run together with a larger one which they lie within.

    The larger one is whole, or one of those ``cut``. What is seen in it of a drilling's far end is
    no oval, and as good as one.
    """
    ovals = sorted((c for c in curves if isinstance(c, EllipseArc | Poly)), key=lambda c: -_flat(c))
    while ovals:
        outer, *ovals = ovals
        if isinstance(outer, Poly) or (outer.t1 - outer.t0 < _WHOLE and outer not in cut):
            continue
        within = [(c, room) for c in ovals if (room := _room(outer, c) * scale) > 0.0]
        gone = [c for c, room in within if room < ROOM or 2 * _flat(c) * scale < APART]
        yield from gone
        ovals = [c for c in ovals if c not in gone]


def _flat(c: EllipseArc | Poly) -> float:
    """Give the smaller half of an oval (view mm)."""
    if isinstance(c, Poly):
        x0, y0, x1, y1 = box(c)
        return min(x1 - x0, y1 - y0) / 2
    return min(hypot(*c.major), hypot(*c.minor))


def _room(outer: EllipseArc, c: EllipseArc | Poly) -> float:
    """Give the least room (view mm) between an oval and one within it; else nothing, or less."""
    (ax, ay), (bx, by) = outer.major, outer.minor
    least = 1.0
    for x, y in _track(c):
        x, y = x - outer.centre[0], y - outer.centre[1]
        along, across = (x * ax + y * ay) / hypot(ax, ay), (x * bx + y * by) / hypot(bx, by)
        least = min(least, 1.0 - hypot(along / hypot(ax, ay), across / hypot(bx, by)))
    return least * _flat(outer)


def _track(c: EllipseArc | Poly) -> Sequence[Point2]:
    if isinstance(c, Poly):
        return c.points
    return [on_ellipse(c, c.t0 + (c.t1 - c.t0) * k / _SAMPLES) for k in range(_SAMPLES + 1)]


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


def _too_near(
    rims: Sequence[Arc], threads: Collection[Curve], rod: float, scale: float
) -> Iterator[Arc]:
    """Give the rims between the first and the last that stand too near to what stays.

    The last is no chamfer of one of the ``threads`` that stands too near to its crest.
    """
    while len(rims) > 1 and {*rims[-2:]} <= {*threads} and _near(rims[-2], rims[-1], scale):
        *rims, chamfer = rims
        yield chamfer
    if len(rims) < 2:
        return
    first, *between, last = rims
    if _near(first, last, scale):
        yield last
    kept = first
    for rim in between:
        least = _ROD_APART if abs(rim.radius - rod) < _ONE else APART
        if _near(kept, rim, scale, least) or _near(rim, last, scale, least):
            yield rim
        else:
            kept = rim


def _near(outer: Arc, inner: Arc, scale: float, least: float = APART) -> bool:
    return (outer.radius - inner.radius) * scale < least
