"""Wishes of one view to placed dimensions: each takes the cheapest free way, then all try again.

The order is fixed (ranks, then lengths, then names), so equal input gives an equal drawing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.compact import without_room
from drafting.drawing.dimension.costs import HARD, Scene, text_quads
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.known import Known, known
from drafting.drawing.dimension.ways import Label
from drafting.drawing.sheet.clash import Segment
from drafting.drawing.sheet.explode import Exploded, explode
from drafting.drawing.sheet.on_paper import Box, hull, union
from drafting.drawing.sheet.sheet import Dimension
from drafting.drawing.sheet.strokes import Point2
from drafting.records import dataclass
from drafting.settle.wishes import Length

_SWEEPS = 2
_PROMOTIONS = 5
_TANGLED = 20.0
_CALM = 1.0
"""A dimension that costs only this more than in its favourite place stays where it is."""
_BEYOND = 30.0
"""How far (paper mm) the lines that are still to come are thought to run past their first strip."""
_TABLES = 4
"""So many tables are kept with a ground: a page tries a view with fewer and briefer words."""
_EQUAL = 1e-9
_ORIGIN: Point2 = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Item:
    """A wish with what will be printed on it; one that is ``spare`` may stay out of a full view."""

    choice: Choice
    label: Label
    spare: bool = False

    @property
    def is_words(self) -> bool:
        """Tell whether it stands on a leader."""
        return not isinstance(self.choice.wish, Length)


@dataclass(frozen=True, slots=True)
class Placed:
    """The dimensions of one view; ``box`` (paper mm from the view's origin) holds all of them.

    ``tangled`` are the names of words that stand much worse than they would alone.
    """

    dimensions: tuple[Dimension, ...]
    box: Box | None
    clashes: int
    tangled: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Chosen:
    """The way that a wish takes: what it costs, which one, and whether it ``touches`` something."""

    cost: float
    way: int
    touches: bool = False


class _Table:
    """The wishes of a view with their ways, what stands, and what is chosen so far.

    ``cheapest`` is what a wish costs where nothing stands, ``floor`` what among the strokes alone.
    What ways were found to cost among each other is true whatever room the page has.
    """

    def __init__(self, some: Sequence[Known], ground: Ground) -> None:
        self.ways, self.ground = [ways for ways, _ in some], ground
        self.scene = Scene(self.ways, [costs for _, costs in some], ground.picture.name == "end")
        self.chosen: dict[int, _Chosen] = {}
        self.built: dict[tuple[int, int], tuple[Dimension, Exploded]] = {}
        self.cheapest: dict[int, float] = {}
        self.floor: dict[int, float] = {}
        self.beyond = np.zeros(0)

    def begin(self, within: Box | None) -> None:
        """Begin anew, with nothing placed, on a page that has no room beyond a box."""
        self.clear()
        self.scene.plan(())
        self.beyond = np.concatenate([without_room(w, within) for w in self.ways])
        self.scene.own = np.concatenate([w.costs for w in self.ways]) + self.beyond
        some = [i for i, w in enumerate(self.ways) if len(w.costs)]
        self.cheapest = {i: float(self.scene.own[self.scene.rows(i)].min()) for i in some}
        self.floor = {i: float(self.scene.costs(i).min()) for i in some}

    def extra(self, i: int) -> float:
        """Give what the chosen way costs more than the cheapest would where nothing stands."""
        return self.chosen[i].cost - self.cheapest[i]

    def best(self, i: int) -> _Chosen | None:
        """Give the cheapest way; of equal ones the one that costs least by itself."""
        if not len(self.ways[i].costs):
            return None
        costs = self.scene.costs(i)
        (least,) = (costs <= costs.min() + _EQUAL).nonzero()
        way = int(
            least[0]
            if len(least) == 1
            else least[self.scene.own[self.scene.rows(i)][least].argmin()]
        )
        cost = float(costs[way])
        return _Chosen(cost, way, cost - float(self.beyond[self.scene.rows(i)][way]) >= HARD)

    def drawn(self, i: int, choice: _Chosen) -> tuple[Dimension, Exploded]:
        """Give what becomes of a way."""
        if (i, choice.way) not in self.built:
            dimension, g = self.ways[i].make(choice.way), self.ground
            self.built[i, choice.way] = dimension, explode(dimension, _ORIGIN, g.scale, g.style)
        return self.built[i, choice.way]

    def settle(self, i: int) -> None:
        """Place a wish where it is cheapest now."""
        found = self.best(i)
        if found:
            self.put(i, found)

    def drop(self, i: int) -> None:
        """Leave a wish out."""
        self.scene.take(i)
        del self.chosen[i]

    def clear(self) -> None:
        """Take all away; what ways were found to cost among each other is still true."""
        for i in self.chosen:
            self.scene.take(i)
        self.chosen.clear()

    def put(self, i: int, choice: _Chosen) -> None:
        self.chosen[i] = choice
        self.scene.put(i, choice.way, self.drawn(i, choice)[1])


def _table(ordered: Sequence[Item], ground: Ground) -> _Table:
    """Give the table of some wishes, which is kept with the ground."""
    wanted = tuple((item.choice.wish, item.label) for item in ordered)
    if wanted not in ground.tables:
        if len(ground.tables) >= _TABLES:
            ground.tables.clear()
        ground.tables[wanted] = _Table(known(wanted, ground), ground)
    found: _Table = ground.tables[wanted]
    return found


def place(items: Sequence[Item], ground: Ground, within: Box | None = None) -> Placed:
    """Place the dimensions of one view; the page has no room for words beyond ``within``."""
    if not items:
        return Placed((), None, 0)
    ordered = sorted(items, key=_order)
    words = [i for i, item in enumerate(ordered) if item.is_words]
    sizes = [i for i, item in enumerate(ordered) if not item.is_words]
    spare = [i for i, item in enumerate(ordered) if item.spare]
    with ground.lock:
        table = _table(ordered, ground)
        table.begin(within)
        found = first = _settled(table, sizes, (*words, *sizes), spare)
        for turns in ((*sizes, *words), (*words[::-1], *sizes[::-1]), (*sizes[::-1], *words)):
            if not any(_faults(found)):  # who comes later finds other places
                break
            table.clear()
            found = min(found, _settled(table, sizes, turns, spare), key=_faults)
        if _clashes(found):
            tried = _hard_first(table, sizes, (*words, *sizes), spare, first)
            found = min(found, tried, key=_clashes)
        shown = [table.drawn(i, found[i]) for i in sorted(found)]
        return Placed(
            tuple(dimension for dimension, _ in shown),
            union([_box(drawn) for _, drawn in shown]) if shown else None,
            _clashes(found),
            tuple(
                ordered[i].choice.wish.name
                for i in words
                if i in found and found[i].cost - table.cheapest[i] > _TANGLED
            ),
        )


def _settled(
    table: _Table, sizes: Sequence[int], turns: Sequence[int], spare: Sequence[int]
) -> dict[int, _Chosen]:
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
    table: _Table,
    sizes: Sequence[int],
    turns: tuple[int, ...],
    spare: Sequence[int],
    found: dict[int, _Chosen],
) -> dict[int, _Chosen]:
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


def _sweep(table: _Table, turns: Sequence[int]) -> None:
    """Let each that could stand better try again, the badly placed ones first."""
    for _ in range(_SWEEPS):
        for i in turns:
            if i in table.chosen and table.extra(i) > _CALM:
                table.scene.take(i)
                table.settle(i)
        _untangle(table)


def _faults(found: Mapping[int, _Chosen]) -> tuple[int, int]:
    """Count what touches something, and what does or stands where the page has no room."""
    return _clashes(found), sum(c.cost >= HARD for c in found.values())


def _clashes(found: Mapping[int, _Chosen]) -> int:
    return sum(c.touches for c in found.values())


def _untangle(table: _Table) -> None:
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
            if sum(table.scene.least_without(*pair) for pair in ((i, j), (j, i))) > least:
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


def _order(item: Item) -> tuple[float, int, str]:
    wish = item.choice.wish
    rank = wish.rank if isinstance(wish, Length) else 0
    return (item.label.size, rank, wish.name)


def _plan(sizes: Sequence[Exploded]) -> list[Segment]:
    """Give the extension lines that sizes would have if nothing else were there."""
    planned: list[Segment] = []
    for a, b in (line for drawn in sizes for line in drawn.extensions):
        d = ((b[0] - a[0]), (b[1] - a[1]))
        size = max((d[0] ** 2 + d[1] ** 2) ** 0.5, 1e-9)
        far = (b[0] + d[0] / size * _BEYOND, b[1] + d[1] / size * _BEYOND)
        planned.append((a, far))
    return planned


def _box(d: Exploded) -> Box:
    boxes = [hull(s) for s in d.segments] + [hull(a) for a in d.arrows]
    return union([*boxes, *(hull(q) for q in text_quads(d))])
