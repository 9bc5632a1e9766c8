"""Where a linear dimension may stand: strips along the four sides of a view, or right across it.

Paper millimetres from the view's origin. Each way comes with what it costs before anything else
stands there; the placer adds what it would touch.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import atan2, cos, degrees, radians, sin
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.across_ways import across_ways
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.linears import BESIDE, PER_SHIFT, linears, upright_cost
from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.dimension.shelved import shelved
from drafting.drawing.dimension.ways import Label, Ways, joined
from drafting.drawing.sheet.explode import label_depth, label_width
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass
from drafting.settle.wishes import Length

_LEVELS = 8
_NEAR = 3
"""Strips beside what a size stands on itself, where the view is lower there than at its widest."""
_PER_LEVEL = 0.6
_PER_REACH = 0.03
_FAR, _PER_FAR = 30.0, 2.0
"""So far (paper mm) from a view a size stands only where nearer ones are all taken."""
_CLOSE = (0.0, 4.0)
"""Beside a boss its height stands so much farther (paper mm) than the first strip would."""
_BEYOND_AXIS = 25.0
"""What it costs to write such a size on the other side of the axis: it seems to be the part's."""
_PER_LONG = 0.25
"""What each mm costs that such a size stands farther from it than sizes do from a view."""
_AIR = 1.5
"""Between a text and the extension lines on both sides (paper mm)."""
_OFF_GAP = 2.0
"""Between a text and a gap of its view (paper mm)."""
_FARTHER = (0.0, 4.0, 8.0, 13.0, 19.0, 26.0)
_CLEAR = 3.5
"""Between stacked texts of neighbouring dimension lines (paper mm)."""
_FAVOURED = {"side": -1.0, "top": 1.0, "end": -1.0, "extended": -1.0, "pin": 1.0, "small": -1.0}
_UNFAVOURED = {"side": 1.0, "top": 1.0, "end": 1.0, "extended": 16.0, "pin": 1.0, "small": 1.0}
_THROUGH = 20.0
"""What it costs to lead extension lines from an open half through the other one."""
_FROM_BEHIND, _ALL_THROUGH = 0.35, 26.0
"""A strip on the other side than what is measured, by so much of it; what it costs to lead an
extension line through all the metal to it."""
_ON, _COVERED = 0.05, 6.0
"""So near (paper mm) a point lies on a line; so far on may be the middle of what covers a line."""
_LEAST_RUN = 1.0
"""A shorter edge (mm) carries no arrow of a half dimension."""
FLATS = ".flats"
"""Flats are measured right across like a diameter: behind them lies the mount, as wide or wider."""
_OFF_FLATS = 12.0
"""What it costs to measure them off the rod's end all the same: it seems to be the mount's size."""
_ON_EDGES = 70.0
"""What it costs to put a plain size right across: where parts stand in the way on both sides."""


def length_ways(wish: Length, label: Label, ground: Ground) -> Ways:
    """Give the ways to show a length, in no order."""
    look = ground.picture.look
    a, b = (ground.paper(flat(look, p)) for p in (wish.a, wish.b))
    u = look.flat(wish.direction)
    angle = degrees(atan2(u[1], u[0])) % 180.0
    angle = 0.0 if abs(angle - 180.0) < 1e-9 else round(angle, 9)
    if _is_half(wish, ground.picture):
        return joined(across_ways(wish, label, ground, (a, b), True))
    some = _strips(wish, label, ground, (a, b), angle)
    if angle == 90.0:
        flats = wish.name.endswith(FLATS)
        dear = _ON_EDGES if wish.form == "plain" and not flats else 0.0
        across = across_ways(wish, label, ground, (a, b))
        some = [*_dearer(some, _OFF_FLATS * flats), *_dearer(across, dear)]
    return joined(some)


def _dearer(some: Sequence[Ways], more: float) -> Sequence[Ways]:
    return [replace(w, costs=w.costs + more) for w in some] if more else some


def _is_half(wish: Length, picture: Picture) -> bool:
    """Tell whether a half section shows only the upper end of a diameter."""
    if picture.section is None or wish.form == "plain":
        return False
    lower, upper = sorted((flat(picture.look, p) for p in (wish.a, wish.b)), key=lambda p: p[1])
    return (
        max((b - a for a, b in picture.level_runs([upper])[0]), default=0.0) > _LEAST_RUN
        and lower[1] < 0.0 < upper[1]
        and not picture.on_stroke(lower)
    )


def _strips(
    wish: Length, label: Label, ground: Ground, ends: tuple[Point2, Point2], angle: float
) -> list[Ways]:
    """Give the ways in strips on both sides, all in arrays: two cost twice as much as one."""
    style = ground.style
    turn = radians(angle)
    u = (1.0, 0.0) if angle == 0.0 else (0.0, 1.0) if angle == 90.0 else (cos(turn), sin(turn))
    sa, sb = (p[0] * u[0] + p[1] * u[1] for p in ends)
    fits = _fits_inside(abs(sb - sa), label, style)
    gaps = ground.gaps if angle == 0.0 else ()
    places, outside = _text_places(sa, sb, label, style, gaps)
    out = 2 * style.arrow if outside else 0.0
    reach = (min(sa, sb) - out, max(sa, sb) + out)
    one, other = (
        _strip(wish, label, ground, ends, (angle, u), side, reach) for side in (1.0, -1.0)
    )
    from_, to = (np.concatenate(p) for p in zip(one.points, other.points, strict=True))
    at, cost = np.concatenate([one.at, -other.at]), np.concatenate([one.cost, other.cost])
    left = (-u[1], u[0])
    reading = -1.0 if _reads_backwards(angle) else 1.0
    if _stands_up(sa, sb, angle):
        places = [(m, more + _BEYOND_AXIS * (m * sa < 0.0)) for m, more in places]
    middles, more = (np.tile(column, len(at)) for column in zip(*places, strict=True))
    on = np.repeat(np.arange(len(at)), len(places))
    lift = at * reading + style.text_gap
    lines = np.stack(_point(u, sa, left, at), 1)
    texts = np.stack(_point(u, middles, (left[0] * reading, left[1] * reading), lift[on]), 1)
    costs = cost[on] + more + (upright_cost(label, style) if angle == 90.0 and not fits else 0.0)
    found = [linears(wish, label, ground, (from_, to), angle, lines, on, texts, outside, costs)]
    if angle == 90.0 and not fits:
        turns = (reach[1], reach[0])
        found += shelved(wish, label, ground, (from_, to, lines[:, 0]), turns, outside, cost)
    return found


@dataclass(frozen=True, slots=True)
class _Side:
    """Dimension lines on one side.

    ``points`` are what each is for (k, 2 each), ``at`` says how far out it lies (k), ``cost`` what
    that costs (k).
    """

    points: tuple[Any, Any]
    at: Any
    cost: Any


def _stands_up(sa: float, sb: float, angle: float) -> bool:
    """Tell whether an upright size lies on one side of the axis, as that of a boss does."""
    return angle == 90.0 and sa * sb > 0.0


def _strip(
    wish: Length,
    label: Label,
    ground: Ground,
    ends: tuple[Point2, Point2],
    along: tuple[float, Point2],
    side: float,
    reach: tuple[float, float],
) -> _Side:
    """Give the lines of one side; with arrows and texts a size takes ``reach`` along itself."""
    style, (angle, u) = ground.style, along
    v = (-u[1] * side, u[0] * side)
    runs = [_run_on(p, v, ground) for p in ends]
    outward = [run[1] for run in runs]
    above, below = label_depth(label.texts, style)
    step = max(style.next, above + below + _CLEAR)
    favoured = angle != 0.0 or side == _favoured(wish, ground.picture)
    base = 0.0 if favoured else _unfavoured(wish, ground.picture)
    if wish.toward and float(np.dot(ground.picture.look.flat(wish.toward), v)) < -_FROM_BEHIND:
        base += _ALL_THROUGH
    whole = ground.support(v)
    near = ground.support_between(v, u, *reach, max(outward))
    first = max(style.first, below + 3.0)
    own = [n for n in range(_NEAR) if near + first + n * step < whole + first - step]
    sa, sb = (p[0] * u[0] + p[1] * u[1] for p in ends)
    stands_up = _stands_up(sa, sb, angle)
    top = outward[0] if abs(sa) > abs(sb) else outward[1]
    close = [top + first + more for more in _CLOSE if stands_up and top + more < near - step]
    level = np.array([*(0 for _ in close), *own, *range(_LEVELS)])
    at = np.array([*close, *(near + first + n * step for n in own),
                   *(whole + first + n * step for n in range(_LEVELS))])  # fmt: skip
    long = [np.maximum(at - p, 0.0) for p in outward]
    far = _PER_FAR * np.maximum(at - whole - _FAR, 0.0)
    far += _PER_LONG * np.maximum(at - top - _FAR, 0.0) * stands_up
    cost = base + far + level * _PER_LEVEL + _PER_REACH * (long[0] + long[1])
    # Where an edge runs on past the line, as the barrel's beside a boss, the arrow stands on it.
    a, b = (
        np.array(p) + (np.minimum(at, begin) - first)[:, None] * np.array(v)
        for p, (first, _, begin) in zip(ends, runs, strict=True)
    )
    return _Side((a, b), at, cost)


def _favoured(wish: Length, picture: Picture) -> float:
    """Give the side where a level size stands first; what a section lays open has it above."""
    return 1.0 if _opened(wish, picture) else _FAVOURED[picture.name]


def _unfavoured(wish: Length, picture: Picture) -> float:
    return _THROUGH if _opened(wish, picture) else _UNFAVOURED[picture.name]


def _opened(wish: Length, picture: Picture) -> bool:
    ends = (flat(picture.look, p) for p in (wish.a, wish.b))
    return picture.section is not None and all(y > 0.0 for _, y in ends)


def _reads_backwards(angle: float) -> bool:
    """Tell whether the text of this angle is read along the opposite direction."""
    return angle > 90.0


def _point(u: Point2, along: Any, v: Point2, across: Any) -> tuple[Any, Any]:
    return (u[0] * along + v[0] * across, u[1] * along + v[1] * across)


def _run_on(p: Point2, v: Point2, ground: Ground) -> tuple[float, float, float]:
    """Tell how far out a point lies towards the strip, and to where strokes or centre lines run on.

    The last is where they come out of what covers them: there the extension line begins.
    """
    across, out = ground.guides_along(v)
    side = p[1] * v[0] - p[0] * v[1]
    seen = begin = first = p[0] * v[0] + p[1] * v[1]
    near = folded(np.maximum, np.abs(across - side)) < _ON
    for lo, hi in sorted(map(sorted, out[near].tolist())):
        if lo <= seen + _ON:
            seen = max(seen, hi)
        if lo <= begin + _ON or _is_covered(p, v, (begin + lo) / 2 - first, ground):
            begin = max(begin, hi)
    return first, seen, begin


def _is_covered(p: Point2, v: Point2, on: float, ground: Ground) -> bool:
    """Tell whether the view covers what lies so far on from a point, as a port's pad its edge."""
    x, y = (np.array([c + on * d]) for c, d in zip(p, v, strict=True))
    return on < _COVERED and bool(ground.silhouette.covers(x, x, y, y)[0])


def _text_places(
    sa: float, sb: float, label: Label, style: Style, gaps: Sequence[tuple[float, float]]
) -> tuple[list[tuple[float, float]], bool]:
    """Give each (middle of the text along the line, cost), and whether arrows stand outside.

    In a view with ``gaps`` a text stands between two of them, or beside the whole line.
    """
    lo, hi = min(sa, sb), max(sa, sb)
    span, room = hi - lo, label_width(label.texts, label.flag, style)
    crossed = sorted(g for g in gaps if lo < g[1] and g[0] < hi)
    free = (span - room) / 2 - _AIR - style.arrow
    between = list(_between(crossed, ((lo + hi) / 2, free), room))
    inside = _fits_inside(span, label, style) and bool(between or not crossed)
    outside = span < 2 * style.arrow + (room + 1.0 if inside else 1.5)
    places = []
    if inside:
        middle, shift = (lo + hi) / 2, 3.0
        places.append((middle, 0.0))
        while shift <= free and shift < 90.0:
            places.append((middle + shift, PER_SHIFT * shift))
            places.append((middle - shift, PER_SHIFT * shift))
            shift *= 1.5
        places += between
    if gaps or not inside:
        away = (style.arrow + 1.0 if outside else 1.5) + room / 2
        for more in _FARTHER:
            places.append((hi + away + more, BESIDE + PER_SHIFT * more))
            places.append((lo - away - more, BESIDE + PER_SHIFT * more))
    return places, outside


def _between(
    gaps: Sequence[tuple[float, float]], line: tuple[float, float], room: float
) -> Iterator[tuple[float, float]]:
    """Give the places of a text between gaps that are nearest to a middle, and their costs.

    On its ``line`` it may be moved so far from the middle to either side.
    """
    middle, free = line
    starts = [middle - free - room / 2, *(hi + _OFF_GAP for _, hi in gaps)]
    ends = [*(lo - _OFF_GAP for lo, _ in gaps), middle + free + room / 2]
    for start, end in zip(starts, ends, strict=True) if gaps else ():
        if room <= end - start:
            at = min(max(middle, start + room / 2), end - room / 2)
            yield at, PER_SHIFT * abs(at - middle)


def _fits_inside(span: float, label: Label, style: Style) -> bool:
    """Tell whether a label has room between the ends of its line."""
    return label_width(label.texts, label.flag, style) + 2 * _AIR <= span
