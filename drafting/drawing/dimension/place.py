"""Wishes of one view to placed dimensions: each takes the cheapest free way, then all try again.

The order is fixed (ranks, then lengths, then names), so equal input gives an equal drawing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.drawing.dimension.costs import HARD
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.table import (
    NOTHING,
    Chosen,
    Item,
    Placed,
    Table,
    order,
    placed_of,
    table_of,
)
from drafting.drawing.sheet.clash import Segment
from drafting.drawing.sheet.explode import Exploded
from drafting.drawing.sheet.on_paper import Box

_SWEEPS = 2
_PROMOTIONS = 5
_TANGLED = 20.0
_CALM = 1.0
"""A dimension that costs only this more than in its favourite place stays where it is."""
_BEYOND = 30.0
"""How far (paper mm) the lines that are still to come are thought to run past their first strip."""


def place(items: Sequence[Item], ground: Ground, within: Box | None = None) -> Placed:
    """Place the dimensions of one view; the page has no room for words beyond ``within``."""
    if not items:
        return NOTHING
    ordered = sorted(items, key=order)
    with ground.lock:
        table = table_of(ordered, ground)
        table.begin(within)
        return placed_of(ordered, table, placed_anew(table, ordered))


def placed_anew(table: Table, ordered: Sequence[Item]) -> dict[int, Chosen]:
    """Place all wishes of a table on which nothing stands."""
    words = [i for i, item in enumerate(ordered) if item.is_words]
    sizes = [i for i, item in enumerate(ordered) if not item.is_words]
    spare = [i for i, item in enumerate(ordered) if item.spare]
    found = first = _settled(table, sizes, (*words, *sizes), spare)
    for turns in ((*sizes, *words), (*words[::-1], *sizes[::-1]), (*sizes[::-1], *words)):
        if not any(_faults(found)):  # who comes later finds other places
            break
        table.clear()
        found = min(found, _settled(table, sizes, turns, spare), key=_faults)
    if _clashes(found):
        tried = _hard_first(table, sizes, (*words, *sizes), spare, first)
        found = min(found, tried, key=_clashes)
    return found


def _settled(
    table: Table, sizes: Sequence[int], turns: Sequence[int], spare: Sequence[int]
) -> dict[int, Chosen]:
    """Place all wishes, each in its turn; ``sizes`` are those with extension lines to come.

    A ``spare`` one that finds no good place is left out.
    """
    hours = table.ground.hours
    likely = [table.drawn(i, best)[1] for i in sizes if (best := table.best(i))]
    table.scene.plan([*_plan(likely), *hours])
    for i in turns:
        table.settle(i)
    table.scene.plan(hours)
    _sweep(table, turns)
    crowded = [i for i in spare if i in table.chosen and table.chosen[i].cost > _TANGLED]
    for i in crowded:
        table.drop(i)
    if crowded:
        _sweep(table, turns)
    return dict(table.chosen)


def _hard_first(
    table: Table,
    sizes: Sequence[int],
    turns: tuple[int, ...],
    spare: Sequence[int],
    found: dict[int, Chosen],
) -> dict[int, Chosen]:
    """Place all anew, and each time that one touches something let it come before all others.

    Begins with what was ``found`` when they came in these ``turns``; gives the best.
    """
    best, tried = found, {turns}
    for _ in range(_PROMOTIONS):
        hard = tuple(i for i in turns if i in found and found[i].touches)
        turns = (*hard, *(i for i in turns if i not in hard))
        if not hard or turns in tried:  # what came in these turns would come again
            break
        tried.add(turns)
        table.clear()
        found = _settled(table, sizes, turns, spare)
        best = min(best, found, key=_clashes)
    return best


def _sweep(table: Table, turns: Sequence[int]) -> None:
    """Let each that could stand better try again, the badly placed ones first."""
    for _ in range(_SWEEPS):
        for i in turns:
            if i in table.chosen and table.extra(i) > _CALM:
                table.scene.take(i)
                table.settle(i)
        _untangle(table)


def _faults(found: Mapping[int, Chosen]) -> tuple[int, int]:
    """Count what touches something, and what does or stands where the page has no room."""
    return _clashes(found), sum(c.cost >= HARD for c in found.values())


def _clashes(found: Mapping[int, Chosen]) -> int:
    return sum(c.touches for c in found.values())


def _untangle(table: Table) -> None:
    """Let each badly placed dimension go first, together with each that may be in its way."""
    chosen = table.chosen
    for i in sorted(chosen):
        for j in sorted(chosen):
            if i == j or table.extra(i) < _TANGLED:
                continue
            before = chosen[i], chosen[j]
            least = before[0].cost + before[1].cost - _CALM
            if table.floor[i] + table.floor[j] > least:  # it is the strokes that they are dear for
                continue
            alone = table.scene.least_without(i, j)
            if alone + table.floor[j] > least or alone + table.scene.least_without(j, i) > least:
                continue
            table.scene.take(i)
            table.scene.take(j)
            if first := table.best(i):
                table.put(i, first)
                second = table.best(j)
                if second and first.cost + second.cost <= least:
                    table.put(j, second)
                    continue
            table.put(i, before[0])
            table.put(j, before[1])


def _plan(sizes: Sequence[Exploded]) -> list[Segment]:
    """Give the extension lines that sizes would have if nothing else were there."""
    planned: list[Segment] = []
    for a, b in (line for drawn in sizes for line in drawn.extensions):
        d = ((b[0] - a[0]), (b[1] - a[1]))
        size = max((d[0] ** 2 + d[1] ** 2) ** 0.5, 1e-9)
        far = (b[0] + d[0] / size * _BEYOND, b[1] + d[1] / size * _BEYOND)
        planned.append((a, far))
    return planned
