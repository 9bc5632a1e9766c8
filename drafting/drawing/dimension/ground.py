"""What the ways of one view stand on: its picture on paper, and how far that reaches.

Paper millimetres from the view's origin.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from math import dist, inf
from threading import Lock
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.clash import Segment, Things
from drafting.drawing.sheet.on_paper import at_place
from drafting.drawing.sheet.silhouette import Silhouette
from drafting.drawing.sheet.strokes import Point2
from drafting.drawing.sheet.style import Style

Rim = tuple[str, Point2, float]
"""The part, the centre and the radius (view mm) of a circle."""
_ON = 0.05


@dataclass(frozen=True)
class Ground:
    """What the ways of one view stand on: the picture at its scale, its centre lines, the style.

    ``edge`` holds the points (n, 2) that strips keep clear of, ``phantoms`` the lines (n, 2, 2) of
    what is no metal, which words keep clear of too; ``gaps`` are the gaps of a broken view (x from,
    to), which level lines alone may cross; ``rims`` are the full circles as they are drawn. Words
    keep off lines through ``hours`` where they can. No extension line follows ``circles``, the
    centre circles (n, 2, 2). A half diameter stands beside ``springs``, where (x) the words of a
    spring point at its middle. What was found along a direction is kept: most sizes lie along
    two. So is what placing has ``found`` out about each wish, and the ``tables`` of all of a
    view: it may be placed again, nearer or with one of them changed. Tables change while they are
    used: who places holds the ``lock``.
    """

    picture: Picture
    scale: float
    style: Style
    centres: Any
    edge: Any
    phantoms: Any = None
    gaps: tuple[tuple[float, float], ...] = ()
    rims: tuple[Rim, ...] = ()
    hours: tuple[Segment, ...] = ()
    circles: Any = None
    springs: tuple[float, ...] = ()
    found: dict[object, Any] = field(default_factory=dict)
    tables: dict[object, Any] = field(default_factory=dict)
    lock: Lock = field(default_factory=Lock)
    _guides: dict[Point2, tuple[Any, Any]] = field(default_factory=dict)
    _supports: dict[Point2, float] = field(default_factory=dict)
    _spans: dict[tuple[Point2, Point2], tuple[Any, Any, Any]] = field(default_factory=dict)

    @cached_property
    def strokes(self) -> Any:
        """Give the visible strokes on paper (n, 2, 2), phantoms with them."""
        own = self.picture.segments * self.scale
        return own if self.phantoms is None else np.concatenate([own, self.phantoms])

    @cached_property
    def centre_marks(self) -> Any:
        """Give centre lines and circles (n, 2, 2), which no words may stand on."""
        return (
            self.centres if self.circles is None else np.concatenate([self.centres, self.circles])
        )

    @cached_property
    def boxes(self) -> Things:
        """Give the visible strokes with their boxes."""
        return Things(self.strokes)

    @cached_property
    def silhouette(self) -> Silhouette:
        """Give what the metal covers."""
        return Silhouette(self.picture.segments * self.scale)

    @cached_property
    def hidden(self) -> Any:
        """Give the hidden strokes on paper (n, 2, 2)."""
        return self.picture.hidden_segments * self.scale

    @cached_property
    def guides(self) -> Any:
        """Give what an extension line may follow before it begins: strokes and centre lines."""
        return np.concatenate([self.strokes, self.centres])

    def rim(self, part: str, centre: Point2) -> float:
        """Give the radius (view mm) of a part's widest full circle round a centre, 0 without."""
        near = (r for name, at, r in self.rims if name == part and dist(at, centre) < _ON)
        return max(near, default=0.0)

    def guides_along(self, v: Point2) -> tuple[Any, Any]:
        """Give where the guides' ends lie across a direction (to its left) and along it (n, 2)."""
        if v not in self._guides:
            x, y = self.guides[:, :, 0], self.guides[:, :, 1]
            self._guides[v] = y * v[0] - x * v[1], x * v[0] + y * v[1]
        return self._guides[v]

    def support(self, normal: Point2) -> float:
        """Give how far the view reaches in a direction."""
        if normal not in self._supports:
            self._supports[normal] = float((self.edge @ np.array(normal)).max())
        return self._supports[normal]

    def support_between(
        self, normal: Point2, along: Point2, lo: float, hi: float, least: float
    ) -> float:
        """Give how far the view reaches in a direction between two places along it."""
        if (normal, along) not in self._spans:
            x, y = self.strokes @ np.array(along), self.strokes @ np.array(normal)
            ends = folded(np.minimum, x), folded(np.maximum, x)
            self._spans[normal, along] = *ends, folded(np.maximum, y)
        start, end, out = self._spans[normal, along]
        near = (end >= lo) & (start <= hi)
        return max(float(out[near].max()), least) if near.any() else least

    def paper(self, p: Point2) -> Point2:
        """Give a point of the view on paper."""
        return at_place(p, (0.0, 0.0), self.scale)

    def model(self, p: Point2) -> Point2:
        """Give a point on paper in view millimetres."""
        return (p[0] / self.scale, p[1] / self.scale)

    def reach(self, x0: Any, x1: Any) -> tuple[Any, Any]:
        """Give tops and bottoms of the outline between stations (n each); 0 where is none."""
        (left, low), (right, high) = self.boxes.lo, self.boxes.hi
        near = (right >= x0[:, None]) & (left <= x1[:, None])
        top, bottom = np.where(near, high, -inf).max(1), np.where(near, low, inf).min(1)
        top[top == -inf] = 0.0
        bottom[bottom == inf] = 0.0
        return top, bottom
