"""Words of a page that is settled: those that stand badly take a good place, what is there yields.

When a view is placed first nobody knows what room it will have. On the page it has more, and what
stands badly is worth a look at what is in its way.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from drafting.drawing.dimension.costs import HARD
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.place import placed_anew
from drafting.drawing.dimension.table import (
    Chosen,
    Item,
    Placed,
    Table,
    order,
    placed_of,
    table_of,
)
from drafting.drawing.sheet.on_paper import Box

RESTLESS = 30.0
"""Where something stands by so much worse than alone, a view is worth another look."""
_BADLY = 8.0
"""What costs so much more than it would alone stands badly."""
_CALM = 1.0
_SWEEPS = 2
_BLOCKS, _PER_BLOCK = 10.0, 8.0
"""What costs a way so much is in its way; what each that yields is thought to cost more."""
_HOPE = 15.0
"""By so much may what yields seem to cost too much: others may come to rest better for it."""
_LEFT_OUT = 20.0
"""What it costs to leave a size out that a view may do without."""
_MOST, _OPENINGS = 4, 8
"""So many may yield at once, and so many ways are tried."""


def yielded(items: Sequence[Item], ground: Ground, placed: Placed, room: Box | None) -> Placed:
    """Give what was ``placed``, better where it can be within a ``room`` (paper mm).

    What was placed by no way yet is placed too. Where words still stand very badly then, all are
    placed anew for the room as well, and what comes out better is taken.
    """
    ordered = sorted(items, key=order)
    with ground.lock:
        table = table_of(ordered, ground)
        table.begin(room)
        table.scene.plan(ground.hours)
        _stand(table, ordered, dict(placed.ways))
        found, weight = _improved(table, ordered)
        better = placed_of(ordered, table, found)
        if better.tangled:
            table.clear()
            start = placed_anew(table, ordered)
            table.clear()
            for i, chosen in start.items():
                table.put(i, chosen)
            anew, other = _improved(table, ordered)
            if other < weight:
                return placed_of(ordered, table, anew)
        return better


def _stand(table: Table, ordered: Sequence[Item], ways: Mapping[str, int]) -> None:
    """Let all stand as they did, then place what is new."""
    new = []
    for i, item in enumerate(ordered):
        name = item.choice.wish.name
        if name in ways:
            table.put(i, table.at(i, ways[name]))
        elif not item.spare:
            new.append(i)
    for i in new:
        table.settle(i)


def _improved(table: Table, ordered: Sequence[Item]) -> tuple[dict[int, Chosen], tuple[int, float]]:
    """Improve what stands; give it, how much of it touches something and what it costs."""
    for _ in range(_SWEEPS):
        better = [
            _improve(table, i)
            for i in sorted(table.chosen)
            if ordered[i].is_words or table.at(i, table.chosen[i].way).cost >= RESTLESS
        ]
        if not any(better):
            break
    found = {i: table.at(i, c.way) for i, c in table.chosen.items()}
    touching, cost = _weight(table)
    return found, (touching, cost + _LEFT_OUT * (len(ordered) - len(found)))


def _improve(table: Table, i: int) -> bool:
    """Let one that stands badly stand where it would be good, if those in its way can yield."""
    now = table.at(i, table.chosen[i].way).cost
    if now - table.cheapest[i] < _BADLY:
        return False
    before, (touching, least) = dict(table.chosen), _weight(table)
    for way, others in _openings(table, i, now):
        stood = sum(table.at(j, before[j].way).cost for j in others)
        for j in others:
            table.scene.take(j)
        table.put(i, table.at(i, way))
        stand = table.chosen[i].cost + sum(float(table.scene.costs(j).min()) for j in others)
        if stand - stood < now + (HARD if now >= HARD else _HOPE):
            for j in others:
                table.settle(j)
            if others:
                _relax(table, i)
            touches, cost = _weight(table)
            if touches <= touching and cost < least - _CALM:
                return True
        for j, chosen in before.items():
            if table.chosen[j] is not chosen or j in others:
                table.put(j, chosen)
    return False


def _relax(table: Table, i: int) -> None:
    """Let all but one that stand badly now stand where it is cheapest."""
    for j in sorted(table.chosen):
        if j != i and table.at(j, table.chosen[j].way).cost - table.cheapest[j] >= _BADLY:
            table.scene.take(j)
            table.settle(j)


def _weight(table: Table) -> tuple[int, float]:
    """Count what touches something, and give what all costs, each pair once."""
    alone, among = table.scene.each()
    return int((among >= HARD).sum()), float((alone + among).sum() / 2)


def _openings(table: Table, i: int, now: float) -> list[tuple[int, tuple[int, ...]]]:
    """Give ways that would cost less than ``now`` but for what is in their way, with that."""
    others = [j for j in table.chosen if j != i]
    costs = table.scene.costs(i)
    among = table.scene.with_each(i, others) if others else np.zeros((0, len(costs)))
    blocks = among > _BLOCKS
    count, least = blocks.sum(0), costs - (among * blocks).sum(0)
    worth = np.where((least < now - _CALM) & (count <= _MOST), least + _PER_BLOCK * count, np.inf)
    found: dict[tuple[int, ...], int] = {}
    for way in worth.argsort(kind="stable").tolist():
        if worth[way] == np.inf or len(found) == _OPENINGS:
            break
        found.setdefault(tuple(others[k] for k in blocks[:, way].nonzero()[0]), way)
    return [(way, those) for those, way in found.items()]
