"""Wishes of one view to placed dimensions: each takes the cheapest free way, then all try again.

The order is fixed (ranks, then lengths, then names), so equal input gives an equal drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drafting.drawing.assign import Choice
from drafting.drawing.clash import Segment
from drafting.drawing.explode import Drawn, explode
from drafting.drawing.leaders import note_ways, round_ways
from drafting.drawing.plane import Box, hull, union
from drafting.drawing.scene import HARD, Batch, Scene, text_quads
from drafting.drawing.sheet import Dimension
from drafting.drawing.strips import Ground, Label, Way, ways
from drafting.drawing.strokes import Point2
from drafting.model.wishes import Callout, Length

_SWEEPS = 2
_TANGLED = 60.0
_FIRST_BATCH, _BATCH = 8, 32
_CALM = 1.0
"""A dimension that costs only this more than in its favourite place stays where it is."""
_BEYOND = 30.0
"""How far (paper mm) the lines that are still to come are thought to run past their first strip."""
_ORIGIN: Point2 = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Item:
    """A wish with what will be printed on it."""

    choice: Choice
    label: Label

    @property
    def is_words(self) -> bool:
        """Tell whether it stands on a leader."""
        return not isinstance(self.choice.wish, Length)


@dataclass(frozen=True, slots=True)
class Placed:
    """The dimensions of one view; ``box`` (paper mm from the view's origin) holds all of them."""

    dimensions: tuple[Dimension, ...]
    box: Box | None
    clashes: int


class _Options:
    """All ways of one wish, the cheapest first, taken apart a batch at a time."""

    def __init__(self, found: Iterable[Way], ground: Ground) -> None:
        self.ways = sorted(found, key=lambda w: w[0])
        self.ground = ground
        self.batches: dict[int, Batch] = {}

    @property
    def least(self) -> float:
        """Give what the cheapest way costs where nothing else stands."""
        return self.ways[0][0]

    def batch(self, start: int) -> Batch:
        """Give a batch of ways from a place in the row."""
        if start not in self.batches:
            ground = self.ground
            some = self.ways[start : start + (_FIRST_BATCH if start == 0 else _BATCH)]
            self.batches[start] = Batch(
                [explode(d, _ORIGIN, ground.scale, ground.style) for _, d in some]
            )
        return self.batches[start]


def place(items: Sequence[Item], ground: Ground) -> Placed:
    """Place the dimensions of one view."""
    ordered = sorted(items, key=_order)
    options = [_Options(_ways(item, ground), ground) for item in ordered]
    scene = Scene(ground.strokes, ground.centres)
    scene.plan(_plan(ordered, options, scene, ground))
    chosen: dict[int, tuple[float, Dimension]] = {}
    words = [i for i, item in enumerate(ordered) if item.is_words]
    sizes = [i for i, item in enumerate(ordered) if not item.is_words]
    for i in (*words, *sizes):
        _settle(i, options[i], scene, ground, chosen)
    scene.plan(())
    for _ in range(_SWEEPS):
        for i in (*words, *sizes):
            if i in chosen and chosen[i][0] > _CALM + options[i].least:
                scene.take(i)
                _settle(i, options[i], scene, ground, chosen)
        _untangle(options, scene, ground, chosen)
    drawn = [scene.placed[i] for i in sorted(chosen)]
    return Placed(
        tuple(chosen[i][1] for i in sorted(chosen)),
        union([_box(d) for d in drawn]) if drawn else None,
        sum(1 for cost, _ in chosen.values() if cost >= HARD),
    )


def _untangle(
    options: Sequence[_Options],
    scene: Scene,
    ground: Ground,
    chosen: dict[int, tuple[float, Dimension]],
) -> None:
    """Let each badly placed dimension go first, together with each that may be in its way."""
    for i in sorted(chosen):
        for j in sorted(chosen):
            if i == j or chosen[i][0] < _TANGLED + options[i].least:
                continue
            before = {k: (chosen[k], scene.placed[k]) for k in (i, j)}
            for k in (i, j):
                scene.take(k)
            for k in (i, j):
                _settle(k, options[k], scene, ground, chosen)
            if chosen[i][0] + chosen[j][0] > sum(b[0][0] for b in before.values()) - _CALM:
                for k, (choice, drawn) in before.items():
                    chosen[k] = choice
                    scene.put(k, drawn)


def _order(item: Item) -> tuple[float, int, str]:
    wish = item.choice.wish
    rank = wish.rank if isinstance(wish, Length) else 0
    return (item.label.size, rank, wish.name)


def _ways(item: Item, ground: Ground) -> Iterable[Way]:
    match item.choice.wish:
        case Length() as wish:
            return ways(wish, item.label, ground)
        case Callout() as wish:
            return note_ways(wish, item.label, ground)
        case wish:
            return round_ways(wish, item.label, ground)


def _plan(
    items: Sequence[Item], options: Sequence[_Options], scene: Scene, ground: Ground
) -> list[Segment]:
    """Give the extension lines that the sizes would have if nothing else were there."""
    planned: list[Segment] = []
    for item, mine in zip(items, options, strict=True):
        if item.is_words or not mine.ways:
            continue
        found = _best(mine, scene)
        if found:
            for a, b in found[2].extensions:
                d = ((b[0] - a[0]), (b[1] - a[1]))
                size = max((d[0] ** 2 + d[1] ** 2) ** 0.5, 1e-9)
                far = (b[0] + d[0] / size * _BEYOND, b[1] + d[1] / size * _BEYOND)
                planned.append((a, far))
    return planned


def _settle(
    i: int,
    options: _Options,
    scene: Scene,
    ground: Ground,
    chosen: dict[int, tuple[float, Dimension]],
) -> None:
    found = _best(options, scene)
    if found:
        chosen[i] = (found[0], found[1])
        scene.put(i, found[2])


def _best(options: _Options, scene: Scene) -> tuple[float, Dimension, Drawn] | None:
    """Give the cheapest way; a batch whose cheapest is dearer than the best is not looked at."""
    best: tuple[float, Dimension, Drawn] | None = None
    start = 0
    while start < len(options.ways) and (best is None or options.ways[start][0] < best[0]):
        batch = options.batch(start)
        costs = scene.costs(batch)
        for k in range(batch.count):
            base, dimension = options.ways[start + k]
            cost = base + float(costs[k])
            if best is None or cost < best[0] - 1e-9:
                best = (cost, dimension, batch.drawn[k])
        start += batch.count
    return best


def _box(d: Drawn) -> Box:
    boxes = [hull(s) for s in d.segments] + [hull(a) for a in d.arrows]
    return union([*boxes, *(hull(q) for q in text_quads(d))])
