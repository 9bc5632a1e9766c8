"""The wishes of one view with all their ways: what stands where, and what each way would cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.compact import without_room
from drafting.drawing.dimension.costs import HARD, Scene, text_quads
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.known import Known, known
from drafting.drawing.dimension.ways import Label
from drafting.drawing.sheet.explode import Exploded, explode
from drafting.drawing.sheet.on_paper import Box, hull, union
from drafting.drawing.sheet.sheet import Dimension
from drafting.drawing.sheet.strokes import Point2
from drafting.records import dataclass
from drafting.settle.wishes import Length

_TABLES = 4
"""So many tables are kept with a ground: a page tries a view with fewer and briefer words."""
_EQUAL = 1e-9
_TANGLED = 20.0
"""Words that stand by so much worse than alone stand badly: as where they cross two other lines."""
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
class Chosen:
    """The way that a wish takes: what it costs, which one, and whether it ``touches`` something."""

    cost: float
    way: int
    touches: bool = False


class Table:
    """The wishes of a view with their ways, what stands, and what is chosen so far.

    ``cheapest`` is what a wish costs where nothing stands, ``floor`` what among the strokes alone.
    What ways were found to cost among each other is true whatever room the page has.
    """

    def __init__(self, some: Sequence[Known], ground: Ground) -> None:
        self.ways, self.ground = [ways for ways, _ in some], ground
        self.scene = Scene(self.ways, [costs for _, costs in some], ground.picture.name == "end")
        self.chosen: dict[int, Chosen] = {}
        self.built: dict[tuple[int, int], tuple[Dimension, Exploded]] = {}
        self.cheapest: dict[int, float] = {}
        self.floor: dict[int, float] = {}
        self.beyond = np.zeros(0)
        self.within: Box | None = None

    def begin(self, within: Box | None) -> None:
        """Begin anew, with nothing placed, on a page that has no room beyond a box."""
        self.clear()
        self.scene.plan(())
        if self.cheapest and within == self.within:
            return
        self.within = within
        self.beyond = np.concatenate([without_room(w, within) for w in self.ways])
        self.scene.own = np.concatenate([w.costs for w in self.ways]) + self.beyond
        some = [i for i, w in enumerate(self.ways) if len(w.costs)]
        self.cheapest = {i: float(self.scene.own[self.scene.rows(i)].min()) for i in some}
        self.floor = {i: float(self.scene.costs(i).min()) for i in some}

    def extra(self, i: int) -> float:
        """Give what the chosen way costs more than the cheapest would where nothing stands."""
        return self.chosen[i].cost - self.cheapest[i]

    def best(self, i: int) -> Chosen | None:
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
        return self.at(i, way)

    def at(self, i: int, way: int) -> Chosen:
        """Give a way as it would be taken now."""
        cost = self.scene.cost(i, way)
        return Chosen(cost, way, cost - float(self.beyond[self.scene.rows(i)][way]) >= HARD)

    def drawn(self, i: int, choice: Chosen) -> tuple[Dimension, Exploded]:
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

    def put(self, i: int, choice: Chosen) -> None:
        """Place a wish by one of its ways."""
        self.chosen[i] = choice
        self.scene.put(i, choice.way, self.drawn(i, choice)[1])


def table_of(ordered: Sequence[Item], ground: Ground) -> Table:
    """Give the table of some wishes, which is kept with the ground."""
    wanted = tuple((item.choice.wish, item.label) for item in ordered)
    if wanted not in ground.tables:
        if len(ground.tables) >= _TABLES:
            ground.tables.clear()
        ground.tables[wanted] = Table(known(wanted, ground), ground)
    found: Table = ground.tables[wanted]
    return found


def order(item: Item) -> tuple[float, int, str]:
    """Give the key by which the wishes of a view are ordered."""
    wish = item.choice.wish
    rank = wish.rank if isinstance(wish, Length) else 0
    return (item.label.size, rank, wish.name)


@dataclass(frozen=True, slots=True)
class Placed:
    """The dimensions of one view, each in one of the ``boxes`` (paper mm from the view's origin).

    ``tangled`` are the names of words that stand much worse than they would alone. ``ways`` are
    those that the wishes took, by name; ``extra`` is by how much the worst words stand worse than
    alone.
    """

    dimensions: tuple[Dimension, ...]
    boxes: tuple[Box, ...]
    clashes: int
    tangled: tuple[str, ...] = ()
    ways: tuple[tuple[str, int], ...] = ()
    extra: float = 0.0

    @property
    def box(self) -> Box | None:
        """Give the box that holds all of them."""
        return union(list(self.boxes)) if self.boxes else None


NOTHING = Placed((), (), 0)
"""The dimensions of a view that has none."""


def placed_of(ordered: Sequence[Item], table: Table, found: Mapping[int, Chosen]) -> Placed:
    """Give what becomes of the ways that were found."""
    shown = [table.drawn(i, found[i]) for i in sorted(found)]
    worse = {i: c.cost - table.cheapest[i] for i, c in found.items() if ordered[i].is_words}
    return Placed(
        tuple(dimension for dimension, _ in shown),
        tuple(_box(drawn) for _, drawn in shown),
        sum(c.touches for c in found.values()),
        tuple(ordered[i].choice.wish.name for i in sorted(worse) if worse[i] > _TANGLED),
        tuple((ordered[i].choice.wish.name, found[i].way) for i in sorted(found)),
        max(worse.values(), default=0.0),
    )


def _box(d: Exploded) -> Box:
    boxes = [hull(s) for s in d.segments] + [hull(a) for a in d.arrows]
    return union([*boxes, *(hull(q) for q in text_quads(d))])
