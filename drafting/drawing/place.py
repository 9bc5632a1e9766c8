"""Wishes of one view to placed dimensions: each takes the cheapest free way, then all try again.

The order is fixed (ranks, then lengths, then names), so equal input gives an equal drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drafting.drawing.assign import Choice
from drafting.drawing.clash import as_array
from drafting.drawing.explode import Drawn, explode
from drafting.drawing.leaders import note_ways, round_ways
from drafting.drawing.plane import Box, hull, union
from drafting.drawing.scene import HARD, Scene, quads
from drafting.drawing.sheet import Dimension, Text
from drafting.drawing.strips import Ground, Label, Way, ways
from drafting.drawing.strokes import Point2
from drafting.model.wishes import Callout, Length

_SWEEPS = 2
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


def place(items: Sequence[Item], ground: Ground, texts: Sequence[Text]) -> Placed:
    """Place the dimensions of one view. ``texts`` already stand there (paper, from the origin)."""
    ordered = sorted(items, key=_order)
    options = [sorted(_ways(item, ground), key=lambda w: w[0]) for item in ordered]
    scene = Scene(ground.strokes, ground.centres, texts)
    scene.planned = _plan(ordered, options, scene, ground)
    chosen: dict[int, tuple[float, Dimension]] = {}
    words = [i for i, item in enumerate(ordered) if item.is_words]
    sizes = [i for i, item in enumerate(ordered) if not item.is_words]
    for i in (*words, *sizes):
        _settle(i, options[i], scene, ground, chosen)
    scene.planned = as_array([])
    for _ in range(_SWEEPS):
        for i in (*words, *sizes):
            if i in chosen:
                scene.take(i)
                _settle(i, options[i], scene, ground, chosen)
    drawn = [scene.placed[i] for i in sorted(chosen)]
    clashes = sum(1 for i in chosen if chosen[i][0] >= HARD)
    return Placed(
        tuple(chosen[i][1] for i in sorted(chosen)),
        union([_box(d) for d in drawn]) if drawn else None,
        clashes,
    )


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
    items: Sequence[Item], options: Sequence[list[Way]], scene: Scene, ground: Ground
) -> object:
    """Give the extension lines that the sizes would have if nothing else were there."""
    planned = []
    for item, mine in zip(items, options, strict=True):
        if item.is_words or not mine:
            continue
        found = _best(mine, scene, ground)
        if found:
            for a, b in found[2].extensions:
                d = ((b[0] - a[0]), (b[1] - a[1]))
                size = max((d[0] ** 2 + d[1] ** 2) ** 0.5, 1e-9)
                far = (b[0] + d[0] / size * _BEYOND, b[1] + d[1] / size * _BEYOND)
                planned.append((a, far))
    return as_array(planned)


def _settle(
    i: int,
    options: list[Way],
    scene: Scene,
    ground: Ground,
    chosen: dict[int, tuple[float, Dimension]],
) -> None:
    found = _best(options, scene, ground)
    if found:
        chosen[i] = (found[0], found[1])
        scene.put(i, found[2])


def _best(
    options: list[Way], scene: Scene, ground: Ground
) -> tuple[float, Dimension, Drawn] | None:
    best: tuple[float, Dimension, Drawn] | None = None
    for base, dimension in options:
        if best is not None and base >= best[0]:
            break
        drawn = explode(dimension, _ORIGIN, ground.scale, ground.style)
        cost = base + scene.cost(drawn)
        if best is None or cost < best[0]:
            best = (cost, dimension, drawn)
    return best


def _box(d: Drawn) -> Box:
    boxes = [hull(s) for s in d.segments] + [hull(a) for a in d.arrows]
    return union([*boxes, *(hull(q) for q in quads(d))])
