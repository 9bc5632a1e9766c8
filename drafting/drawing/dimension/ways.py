"""All ways to show one wish as arrays: what they cost, the lines and text boxes each would bring.

The same geometry as ``explode``, for many ways at once and without an object for each; the tests
hold the two equal. Ways that differ only in the place of their text share lines. Paper millimetres
from the view's origin.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.sheet.clash import text_quad
from drafting.drawing.sheet.explode import (
    Base,
    label_pieces,
    label_width,
)
from drafting.drawing.sheet.sheet import Dimension, Text
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

AIR = 1.2
"""Free paper (mm) round every text."""


@dataclass(frozen=True, slots=True)
class Label:
    """The printed lines of a size."""

    texts: tuple[str, ...]
    flag: str
    size: float
    reference: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """Ways of one wish: n of them, with L different lines and T different texts.

    ``costs`` (n) are what they cost where nothing else stands. ``lines`` (L, 2, 2), of which
    ``thin`` (L) are extension lines and ``main`` (L) dimension lines of lengths; a line of NaN is
    none. ``texts`` (T, 4, 2) are boxes with air.
    Way i brings the lines ``line_of[i]`` and the texts ``text_of[i]``; ``make(i)`` builds it.
    """

    costs: Any
    lines: Any
    thin: Any
    main: Any
    line_of: Any
    texts: Any
    text_of: Any
    make: Callable[[int], Dimension]


def joined(some: Sequence[Ways]) -> Ways:
    """Put ways of one kind in a row."""
    if len(some) == 1:
        return some[0]
    most = max(w.line_of.shape[1] for w in some)
    some = [_widened(w, most) for w in some]
    first = np.cumsum([0, *(len(w.costs) for w in some)])
    line = np.cumsum([0, *(len(w.lines) for w in some)])
    text = np.cumsum([0, *(len(w.texts) for w in some)])

    def make(i: int) -> Dimension:
        k = int(np.searchsorted(first, i, side="right")) - 1
        return some[k].make(i - int(first[k]))

    return Ways(
        np.concatenate([w.costs for w in some]),
        np.concatenate([w.lines for w in some]),
        np.concatenate([w.thin for w in some]),
        np.concatenate([w.main for w in some]),
        np.concatenate([w.line_of + k for w, k in zip(some, line, strict=False)]),
        np.concatenate([w.texts for w in some]),
        np.concatenate([w.text_of + k for w, k in zip(some, text, strict=False)]),
        make,
    )


def _widened(ways: Ways, count: int) -> Ways:
    """Give ways that bring ``count`` lines each, the further ones none."""
    more = count - ways.line_of.shape[1]
    if not more:
        return ways
    none = np.full((len(ways.costs), more), len(ways.lines))
    return Ways(
        ways.costs,
        np.concatenate([ways.lines, np.full((1, 2, 2), np.nan)]),
        np.append(ways.thin, False),
        np.append(ways.main, False),
        np.concatenate([ways.line_of, none], 1),
        ways.texts,
        ways.text_of,
        ways.make,
    )


def linear_ways(
    label: Label,
    style: Style,
    base: Base,
    ends: tuple[Any, Any],
    levels: Any,
    on: Any,
    places: tuple[Any, Any],
    outside: bool,
    costs: Any,
    make: Callable[[int], Dimension],
) -> Ways:
    """Give the footprints of linear dimensions.

    Dimension line j of k lies at ``levels[j]`` across the base, between the two ``ends`` (each an
    array (k, 2) on paper). Way i takes line ``on[i]`` and has its text at ``places`` (n, n; along,
    across).
    """
    a, b = sorted((base.flat(p.T) for p in ends), key=lambda p: float(p[0][0]))
    middle, foot = places
    half, reach = label_width(label.texts, label.flag, style) / 2, 2 * style.arrow * outside
    lo, hi = a[0] - reach, b[0] + reach
    beside = np.flatnonzero((middle < a[0][on]) | (middle > b[0][on]))
    of, at = on[beside], middle[beside]
    longer = (np.minimum(lo[of], at - half), np.maximum(hi[of], at + half))  # on under the text
    mains = [
        _segments(base, lo, levels, hi, levels),
        _segments(base, longer[0], levels[of], longer[1], levels[of]),
    ]
    main = on.copy()
    main[beside] = len(levels) + np.arange(len(beside))
    texts, frame = _label(label, style, base, middle, foot, False)
    way = np.arange(len(on))
    own = [(np.concatenate(mains), main), *((side, way) for side in frame)]
    shared = _shared(base, [a, b], levels, outside, style)
    return Ways(costs, *_lines(own, shared, on), *_in_rows(texts), make)


def _shared(
    base: Base, points: Sequence[tuple[Any, Any]], levels: Any, outside: bool, style: Style
) -> list[Any]:
    """Give what ways on one line share: two extension lines, then the sides of two arrows."""
    x, y = np.stack([p[0] for p in points]), np.stack([p[1] for p in points])
    away = np.where(levels > y, 1.0, -1.0)
    away[np.abs(levels - y) <= style.gap] = np.nan
    extensions = _segments(base, x, y + away * style.gap, x, levels + away * style.overrun)
    inward = -style.arrow if outside else style.arrow
    x, back = np.repeat(x, 2, 0), np.array([inward, inward, -inward, -inward])[:, None]
    wing = np.array([1.0, -1.0, 1.0, -1.0])[:, None] * (style.arrow_width / 2)
    return [
        *extensions,
        *_segments(base, x, np.broadcast_to(levels, x.shape), x + back, levels + wing),
    ]


def _lines(
    own: Sequence[tuple[Any, Any]], shared: Sequence[Any], on: Any
) -> tuple[Any, Any, Any, Any]:
    """Give all lines in a row, which are thin, which main, and which of them each way brings.

    The ``own`` ones come with the index of what each way takes of them, the main ones first; of
    those that ways on one line share, the extension lines first, they take ``on``.
    """
    some = [*own, *((lines, on) for lines in shared)]
    first = np.cumsum([0, *(len(lines) for lines, _ in some)]).tolist()
    row, thin = np.arange(first[-1]), first[len(own) : len(own) + 3]
    return (
        np.concatenate([lines for lines, _ in some]),
        (row >= thin[0]) & (row < thin[2]),
        row < first[1],
        np.stack([index + k for (_, index), k in zip(some, first, strict=False)], 1),
    )


def shelf_ways(
    label: Label,
    style: Style,
    ends: tuple[Any, Any, Any],
    on: Any,
    knees: Any,
    sides: Any,
    outside: bool,
    costs: Any,
    make: Callable[[int], Dimension],
) -> Ways:
    """Give the footprints of upright dimensions whose text stands on a level shelf.

    Dimension line j of k lies at ``ends[2][j]`` (x) between the heights of the two points ``ends``
    (each k, 2). Way i takes line ``on[i]``, which turns at height ``knees[i]`` to ``sides[i]``.
    """
    a, b = sorted(ends[:2], key=lambda p: float(p[0][1]))
    xs = ends[2]
    x, low, high = xs[on], a[on, 1], b[on, 1]
    reach = 2 * style.arrow if outside else 0.0
    lo, hi = np.minimum(low - reach, knees), np.maximum(high + reach, knees)
    room = label_width(label.texts, label.flag, style) + 2 * style.text_gap
    base, level = Base(90.0), Base(0.0)
    texts, frame = _label(
        label, style, level, x + sides * room / 2, knees + style.text_gap, stacked=True
    )
    way = np.arange(len(on))
    upright = _segments(base, lo, -x, hi, -x)
    shelf = _segments(level, x, knees, x + sides * room, knees)
    own = [(lines, way) for lines in (upright, shelf, *frame)]
    points = [base.flat(p.T) for p in (a, b)]
    shared = _shared(base, points, -xs, outside, style)
    return Ways(costs, *_lines(own, shared, on), *_in_rows(texts), make)


def leader_ways(
    label: Label,
    style: Style,
    tips: Any,
    knees: Any,
    sides: Any,
    costs: Any,
    make: Callable[[int], Dimension],
) -> Ways:
    """Give the footprints of words on leaders: ``tips``, ``knees`` (n, 2), shelf to ``sides``."""
    room = label_width(label.texts, label.flag, style) + 2 * style.text_gap
    base, level = Base(0.0), knees[:, 1]
    ends = np.stack([knees[:, 0] + sides * room, level], 1)
    middle, foot = knees[:, 0] + sides * room / 2, level + style.text_gap
    texts, frame = _label(label, style, base, middle, foot, True)
    way = knees - tips
    way = way / np.sqrt(folded(np.add, way * way))[:, None]
    back = tips + way * style.arrow
    wing = np.stack([-way[:, 1], way[:, 0]], 1) * (style.arrow_width / 2)
    pairs = ((tips, knees), (knees, ends), (tips, back + wing), (tips, back - wing))
    lines, of = _in_rows([*(np.stack(p, 1) for p in pairs), *frame])
    none = np.zeros(len(lines), bool)
    return Ways(costs, lines, none, none, of, *_in_rows(texts), make)


def _in_rows(some: Sequence[Any]) -> tuple[Any, Any]:
    """Give arrays of n as one, and the index (n, len(some)) into it."""
    n = len(some[0])
    return np.concatenate(some), np.arange(n)[:, None] + n * np.arange(len(some))


def _segments(base: Base, x0: Any, y0: Any, x1: Any, y1: Any) -> Any:
    """Give segments (..., 2, 2) from places along and across a base, arrays of one shape."""
    out = np.empty((*np.shape(x0), 2, 2))
    out[..., 0, 0], out[..., 0, 1] = base.point(x0, y0)
    out[..., 1, 0], out[..., 1, 1] = base.point(x1, y1)
    return out


def _label(
    label: Label, style: Style, base: Base, middle: Any, foot: Any, stacked: bool
) -> tuple[list[Any], list[Any]]:
    """Give the boxes of the texts (n, 4, 2 each) and the frame of the flag (n, 2, 2 each)."""
    pieces, flag = label_pieces(label.texts, label.flag, style, stacked)
    texts = [_boxes(base, p.words, p.height, middle + p.along, foot + p.across) for p in pieces]
    if flag is None:
        return texts, []
    x0, x1, y0 = middle + flag[0], middle + flag[1], foot + flag[2]
    letter = ((x0 + x1) / 2, y0 + (style.text - style.small_text) / 2)
    texts.append(_boxes(base, label.flag, style.small_text, *letter))
    y1 = y0 + style.text
    x, y = np.stack([x0, x1, x1, x0]), np.stack([y0, y0, y1, y1])
    return texts, list(_segments(base, x, y, np.roll(x, -1, 0), np.roll(y, -1, 0)))


def _boxes(base: Base, words: str, high: float, along: Any, across: Any) -> Any:
    """Give the rectangles (n, 4, 2) of equal words, with air."""
    at_origin = text_quad(Text((0.0, 0.0), words, high, "middle", base.angle), AIR)
    x, y = base.point(along, across)
    return np.stack([x, y], 1)[:, None] + np.array(at_origin)
