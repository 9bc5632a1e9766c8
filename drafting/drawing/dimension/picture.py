"""One look at the cylinder before anything is dimensioned: strokes, and what may be told of them.

A picture is in model millimetres, whatever the scale will be.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import dist, hypot, pi
from typing import Any, Literal

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.owners import Owners, group_of
from drafting.drawing.project.section import Section
from drafting.drawing.sheet.clash import segments as as_segments
from drafting.drawing.sheet.on_paper import Box, box, points, union
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Look, Point2, Stroke
from drafting.settle.wishes import Pose
from drafting.shape.frame import Vec
from drafting.shape.pieces import Part

ViewName = Literal["side", "top", "end", "extended", "pin", "small"]
_MOUNTS = frozenset({"body_mount", "rod_mount"})
NUT_ROOM = "cylinder.nut_room"
"""What a mount over the nuts of tie rods is recessed for."""
_COARSE = 0.3
"""Error (mm) of the chords that tell what is crossed: a line slips through where fine ones meet."""
_ON = 0.05
"""A point this near (mm) to a stroke lies on it."""


@dataclass(frozen=True)
class Picture:
    """Strokes of one look. ``shift`` is how far the rod stands out (mm along x).

    A picture of one mount alone names its ``table`` (``rod_mount``) and shows only what is its.
    A picture in ``section`` has the whole parts that it cuts. One with a ``window`` is an enlarged
    detail: its strokes and marks end there.
    """

    name: ViewName
    title: str
    look: Look
    pose: Pose
    strokes: tuple[Stroke, ...]
    shift: float = 0.0
    table: str = ""
    section: Section | None = None
    cut: tuple[Part, ...] = ()
    window: Box | None = None

    def __hash__(self) -> int:
        """Give the same for equal pictures, without looking at every stroke."""
        return hash((self.name, self.title, self.table, len(self.strokes)))

    def shows(self, name: str) -> bool:
        """Tell whether a dotted name belongs here."""
        return not self.table or name.partition(".")[0] == self.table

    @cached_property
    def visible(self) -> tuple[Stroke, ...]:
        """Give what the eye sees."""
        return tuple(s for s in self.strokes if s.visible)

    @cached_property
    def tables(self) -> frozenset[str]:
        """Name the tables of which something is seen: ``base_port``, ``cylinder``."""
        return frozenset(s.piece.partition(".")[0] for s in self.visible)

    @cached_property
    def groups(self) -> frozenset[str]:
        """Name the parts of which something is seen: ``base_port``, ``cylinder.cushion_screw``."""
        return frozenset(group_of(s.piece) for s in self.visible)

    @cached_property
    def box(self) -> Box:
        """Give the box of what the eye sees."""
        return union([box(s.curve) for s in self.visible])

    @cached_property
    def segments(self) -> Any:
        """Give the visible strokes as segments (n, 2, 2), within 0.02 mm."""
        return as_segments([p for s in self.visible for p in _chords(s)])

    @cached_property
    def hidden_segments(self) -> Any:
        """Give the hidden strokes as segments (n, 2, 2)."""
        return as_segments([p for s in self.strokes if not s.visible for p in _chords(s)])

    @cached_property
    def rings(self) -> tuple[tuple[Point2, float, bool], ...]:
        """Give centre, radius (0 for an ellipse) and fullness of the visible round strokes."""
        out = []
        for s in self.visible:
            if isinstance(s.curve, Arc):
                full = s.curve.a1 - s.curve.a0 > 2 * pi - 1e-6
                out.append((s.curve.centre, s.curve.radius, full))
            elif isinstance(s.curve, EllipseArc):
                out.append((s.curve.centre, 0.0, False))
        return tuple(out)

    @cached_property
    def owners(self) -> Owners:
        """Give the outlines of the visible strokes, part by part."""
        tracks = ((s.piece, points(s.curve, _COARSE)) for s in self.visible)
        return Owners([(piece, list(pairwise(track))) for piece, track in tracks])

    def chords_of(self, stroke: Stroke) -> Any:
        """Give a stroke as segments (n, 2, 2)."""
        return as_segments(list(_chords(stroke)))

    def nearest_of(self, table: str, p: Point2) -> Point2 | None:
        """Give the nearest point to ``p`` on what is seen, else hidden, of a part; None of none."""
        for visible in (True, False):
            own = [s for s in self.strokes if s.visible is visible and group_of(s.piece) == table]
            if own:
                track = np.concatenate([self.chords_of(s) for s in own])
                return _nearest(np.array(p), track)
        return None

    def outmost_of(self, table: str, out: Point2) -> Point2 | None:
        """Give the middle of what is seen of a part farthest in a direction; None of none."""
        own = [s for s in self.visible if group_of(s.piece) == table]
        if not own:
            return None
        ends = np.concatenate([self.chords_of(s) for s in own]).reshape(-1, 2)
        far = ends @ np.array(out)
        x, y = ends[far > far.max() - _ON].mean(0).tolist()
        return (x, y)

    def on_own(self, table: str, p: Point2) -> bool:
        """Tell whether a point lies on what is seen of a part, or in the centre of its round."""
        own = [s for s in self.visible if group_of(s.piece) == table]
        rounds = (s.curve.centre for s in own if isinstance(s.curve, Arc | EllipseArc))
        if any(dist(p, c) < _ON for c in rounds):
            return True
        return any(_distance(np.array([p]), self.chords_of(s))[0] < _ON for s in own)

    def on_stroke(self, p: Point2) -> bool:
        """Tell whether a point lies on a visible stroke or in the centre of a round one."""
        return self.on_line(p) or any(dist(p, c) < _ON for c, _, _ in self.rings)

    def on_line(self, p: Point2) -> bool:
        """Tell whether a point lies on a visible stroke."""
        return bool(_distance(np.array([p]), self.segments)[0] < _ON)

    def on_circle(self, centre: Point2, radius: float, some: Sequence[Point2]) -> list[bool]:
        """Tell whether points lie on what is seen of a circle."""
        own = [
            self.chords_of(s)
            for s in self.visible
            if isinstance(c := s.curve, Arc)
            and dist(c.centre, centre) < _ON
            and abs(c.radius - radius) < _ON
        ]
        if not own:
            return [False] * len(some)
        found: list[bool] = (_distance(np.array(some), np.concatenate(own)) < _ON).tolist()
        return found

    def on_hidden(self, p: Point2) -> bool:
        """Tell whether a point lies on a hidden stroke."""
        return bool(_distance(np.array([p]), self.hidden_segments)[0] < _ON)

    def is_ring(self, centre: Point2) -> bool:
        """Tell whether a full circle is seen round a point."""
        return any(full and dist(centre, c) < _ON for c, _, full in self.rings)

    def has_circle(self, centre: Point2, radius: float) -> bool:
        """Tell whether a circle is seen, at least in part."""
        return any(dist(centre, c) < _ON and abs(r - radius) < _ON for c, r, _ in self.rings)

    def seen_turn(self, centre: Point2, radius: float) -> float:
        """Give how much of a circle is seen (radians)."""
        arcs = (s.curve for s in self.visible if isinstance(s.curve, Arc))
        return sum(
            c.a1 - c.a0
            for c in arcs
            if dist(centre, c.centre) < _ON and abs(radius - c.radius) < _ON
        )

    def widest_circle(self, centre: Point2) -> float:
        """Give the radius of the widest full circle round a centre, 0 without."""
        rings = (
            s.curve.radius
            for s in self.visible
            if isinstance(s.curve, Arc)
            and s.curve.a1 - s.curve.a0 > 2 * pi - 1e-6
            and dist(s.curve.centre, centre) < _ON
        )
        return max(rings, default=0.0)

    def level_runs(self, some: Sequence[Point2]) -> list[list[tuple[float, float]]]:
        """Give for each point the x-ranges of the level lines at its height.

        They are of the pieces that have such a line through one of the points; hidden ones count
        where nothing else is seen.
        """
        found, own = [], set()
        for p in some:
            level = []
            for s in self.strokes:
                if isinstance(s.curve, Line):
                    (x0, y0), (x1, y1) = sorted((s.curve.a, s.curve.b))
                    if abs(y0 - y1) < _ON and abs(y0 - p[1]) < _ON:
                        level.append((s, x0, x1))
            own |= {s.piece for s, x0, x1 in level if x0 - _ON < p[0] < x1 + _ON}
            found.append(level)
        return [
            [(x0, x1) for s, x0, x1 in level if s.piece in own and s.visible]
            or [(x0, x1) for s, x0, x1 in level if s.piece in own]
            for level in found
        ]

    def seen_level(self, piece: str, high: float) -> list[tuple[float, float]]:
        """Give the x-ranges of the level lines of a piece that are seen at a height."""
        lines = (s.curve for s in self.strokes if s.visible and s.piece == piece)
        return [
            (min(c.a[0], c.b[0]), max(c.a[0], c.b[0]))
            for c in lines
            if isinstance(c, Line) and max(abs(c.a[1] - high), abs(c.b[1] - high)) < _ON
        ]


def _chords(stroke: Stroke) -> Iterable[tuple[Point2, Point2]]:
    track = points(stroke.curve, 0.02)
    return pairwise(track)


def _nearest(p: Any, segments: Any) -> Point2:
    a, b = segments[:, 0], segments[:, 1]
    way = b - a
    size = np.maximum(folded(np.add, way * way), 1e-12)
    t = np.clip(folded(np.add, (p - a) * way) / size, 0.0, 1.0)
    feet = a + way * t[:, None]
    x, y = feet[int(np.argmin(folded(np.add, (feet - p) ** 2)))].tolist()
    return (x, y)


def _distance(some: Any, segments: Any) -> Any:
    """Give how far each point (n, 2) is from the nearest segment (m, 2, 2)."""
    if not len(segments):
        return np.full(len(some), np.inf)
    (ax, ay), (bx, by) = segments.transpose(1, 2, 0)
    dx, dy = bx - ax, by - ay
    wx, wy = some[:, :1] - ax, some[:, 1:] - ay
    t = np.clip((wx * dx + wy * dy) / np.maximum(dx * dx + dy * dy, 1e-12), 0.0, 1.0)
    return np.hypot(wx - t * dx, wy - t * dy).min(1)


def explains(strokes: Iterable[Stroke], parts: Iterable[Part]) -> tuple[Stroke, ...]:
    """Keep hidden strokes only where they explain what no section shows: holes in mounts.

    What a plate over the nuts of tie rods is recessed for is one.
    """
    cuts = {(p.name, q.name) for p in parts for q in p.pieces if q.cut and _of_mount(q.name)}
    return tuple(s for s in strokes if s.visible or (s.part, s.piece) in cuts)


def _of_mount(name: str) -> bool:
    return name.partition(".")[0] in _MOUNTS or name == NUT_ROOM


def without_hidden(
    strokes: Iterable[Stroke], groups: frozenset[str], rims: Collection[tuple[Point2, float]] = ()
) -> tuple[Stroke, ...]:
    """Keep what the eye sees, and hidden edges of what is dimensioned or pointed at here.

    So are circles of the centres and radii ``rims``, whatever lies on them too.
    """

    def is_rim(c: Curve) -> bool:
        return isinstance(c, Arc) and any(
            dist(c.centre, centre) < _ON and abs(c.radius - radius) < _ON for centre, radius in rims
        )

    return tuple(s for s in strokes if s.visible or group_of(s.piece) in groups or is_rim(s.curve))


def long_enough(stroke: Stroke, least: float) -> bool:
    """Tell whether a hidden stroke is long enough (mm) to be read as dashes."""
    x0, y0, x1, y1 = box(stroke.curve)
    return stroke.visible or hypot(x1 - x0, y1 - y0) >= least


def flat(look: Look, p: Vec, shift: float = 0.0) -> Point2:
    """Project a point that stands out by ``shift`` along x."""
    return look.flat((p[0] + shift, p[1], p[2]))
