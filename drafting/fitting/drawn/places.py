"""Where a pin could go: the region hatched, the best places numbered, the best one drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot

from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Dimension, Mark
from drafting.drawing.sheet.strokes import Line
from drafting.fitting.drawn.labels import Paper, noted
from drafting.fitting.drawn.scene import Scene, cross, cylinder_marks, ends
from drafting.fitting.machine import Hinge
from drafting.fitting.suggest import moved
from drafting.fitting.suggestion import Suggestions
from drafting.fitting.travel import place
from drafting.told.short import size

FINEST = 1.2
"""Squares of the region are no smaller on paper, mm."""


def place_marks(s: Scene, places: Suggestions) -> Iterator[Mark]:
    """Give hinge, arm and cylinder at the best place, closed and open, over the region."""
    way = s.fit.machine.way
    assert isinstance(way, Hinge)
    pitch = max(places.step, FINEST / s.k)
    half, cells = pitch / 2, {(round(x / pitch), round(y / pitch)) for x, y in places.region}
    for x, y in sorted((i * pitch, j * pitch) for i, j in cells):
        yield Mark(Line((x - half, y - half), (x + half, y + half)), "hatch", "region")
    near, _, far = ends(s.fit)
    for p in (near, far):
        yield Mark(Line(p.base, p.rod), "centre", "as it is")
    yield from cross(way.at, 4.0 / s.k, "hinge")
    if places.best:
        best = moved(way, places.pin, places.best[0].place)
        for p, role in ((place(best, far.at), "phantom"), (place(best, near.at), "thread")):
            yield Mark(Line(way.at, p.rod), role, "arm")  # type: ignore[arg-type]
            yield from cylinder_marks(s.fit, p, role)  # type: ignore[arg-type]
    for one in places.best:
        yield from cross(one.place, 3.0 / s.k, "suggested", "outline")


def place_labels(
    s: Scene, room: Box, marks: Sequence[Mark], places: Suggestions
) -> tuple[Dimension, ...]:
    """Give numbers at the best places, and where the pins are now."""
    way, units = s.fit.machine.way, s.fit.machine.units
    assert isinstance(way, Hinge)
    paper = Paper(s.k, room, marks)
    found: list[Dimension] = []
    for n, one in enumerate(places.best, 1):
        x, y = (size(v, units) for v in one.place)
        found.append(noted(s, paper, one.place, (f"{n}  ({x}, {y})",)))
    now = way.base_pin if places.pin == "base" else way.rod_pin
    if all(hypot(now[0] - b.place[0], now[1] - b.place[1]) > 1.0 for b in places.best):
        found.append(noted(s, paper, now, ("AS IT IS",)))
    found.append(noted(s, paper, way.at, ("HINGE",)))
    return tuple(found)
