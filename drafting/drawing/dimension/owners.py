"""Which part an outline belongs to, and which parts a size has nothing to do with."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Any

import numpy as np

from drafting.drawing.sheet.clash import crossings, segments
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.strokes import Point2

_SLACK = 0.5
"""Paper mm by which a point may lie outside of a part that it stands on."""
_WHOLE = frozenset({"cylinder.retracted", "cylinder.extended", "cylinder.stroke"})
_BODY = frozenset({"cylinder"})


def group_of(name: str) -> str:
    """Name the part of a dotted name: the table of a mount or port, of the cylinder the piece."""
    table, _, _ = name.partition(".")
    return name if table in _BODY else table


class Owners:
    """The outlines of a view on paper, part by part."""

    def __init__(self, some: Iterable[tuple[str, Sequence[Any]]]) -> None:
        tracks: dict[str, list[Any]] = {}
        for name, track in some:
            if name:
                tracks.setdefault(group_of(name), []).extend(track)
        self.tracks = {g: segments(t) for g, t in tracks.items() if t}
        self.boxes: dict[str, Box] = {g: _box(t) for g, t in self.tracks.items()}
        self.every = np.concatenate([segments([]), *self.tracks.values()])
        self.part = np.repeat(np.arange(len(self.tracks)), [len(t) for t in self.tracks.values()])

    def segments(self, group: str) -> Any:
        """Give the outline of a part (n, 2, 2)."""
        return self.tracks[group]

    def crossed(self, lines: Any, groups: Collection[str]) -> Any:
        """Count for each line (n, 2, 2) the parts among ``groups`` whose outline it crosses."""
        wanted = np.array([g in groups for g in self.tracks], bool)
        own = np.flatnonzero(wanted[self.part])
        i, j = crossings(lines, self.every[own])
        once = np.unique(i * len(wanted) + self.part[own[j]])
        return np.bincount(once // max(len(wanted), 1), minlength=len(lines))

    def foreign(self, name: str, ends: Sequence[Point2]) -> tuple[str, ...]:
        """Name the parts that a size has nothing to do with: neither its own nor under its ends."""
        if name in _WHOLE:
            return ()
        own = group_of(name)
        return tuple(
            g for g, b in self.boxes.items() if g != own and not any(_in(b, p) for p in ends)
        )


def _box(track: Any) -> Box:
    x, y = track[:, :, 0], track[:, :, 1]
    return (float(x.min()), float(y.min()), float(x.max()), float(y.max()))


def _in(b: Box, p: Point2) -> bool:
    return b[0] - _SLACK <= p[0] <= b[2] + _SLACK and b[1] - _SLACK <= p[1] <= b[3] + _SLACK
