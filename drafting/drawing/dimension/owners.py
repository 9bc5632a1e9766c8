"""Which part an outline belongs to, and which parts a size has nothing to do with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.sheet.clash import TOUCH, Things, crossings, segments
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.strokes import Point2

_SLACK = 0.5
"""Paper mm by which a point may lie outside of a part that it stands on."""
_SAME = 0.05
"""So near (paper mm) two places along the axis are one."""
_OVERLAP = 2 * TOUCH
"""By so much (paper mm) chords of one curve overlap."""
_WHOLE = frozenset({"cylinder.retracted", "cylinder.extended", "cylinder.stroke"})
_BODY = frozenset({"cylinder"})
_SHOWN_BY = {"cylinder.gland_projection": "cylinder.gland_outside"}
"""The piece at which a size of another is seen."""
_KNOBS = frozenset({"cylinder.breather", "cylinder.cushion_screw"})
_STREWN = frozenset({"cylinder.tie_rod", "cylinder.nut", "cylinder.gland_bolt"})
"""Parts whose pieces stand apart, each with an outline: the box round them all tells nothing."""
_KEEPER = "_pin.keeper_"
_TUBE = "cylinder.barrel_outside"
"""What is inside of it is so on both sides of the axis, where a part may cover one of them."""
_POSITION, _DATUM = (".position", ".outlet_position"), "body_mount"
_BEND, _STRAIGHT = 0.5, 1.0 - 1e-9
"""Chords that meet are of one curve where the cosine of their turn lies between these."""


def group_of(name: str) -> str:
    """Name the part of a dotted name: the table of a mount or port, of the cylinder the piece."""
    table, _, _ = name.partition(".")
    return _SHOWN_BY.get(name, name) if table in _BODY else table


def is_port(name: str) -> bool:
    """Tell whether a dotted name is of a port: ``base_port.thread``, ``extra_port[1].boss``."""
    table = name.partition(".")[0]
    return table.endswith("_port") or table.startswith("extra_port")


def is_fitting(name: str) -> bool:
    """Tell whether a dotted name is of a port, a cushion screw or a breather."""
    return is_port(name) or is_knob(name)


def is_knob(name: str) -> bool:
    """Tell whether a dotted name is of a cushion screw or a breather."""
    return name in _KNOBS


class Owners:
    """The outlines of a view on paper, part by part; the cylinder's ``axis`` is at that height.

    A part that is strewn over the cylinder has one for each piece: ``parts`` names the part of each
    of the ``outlines`` (n, 2, 2), ``boxes`` has the box round it. ``keepers`` (n, 2, 2) are the
    outlines of what keeps pins, beside the holes that these are in.
    """

    def __init__(self, some: Iterable[tuple[str, Any]], axis: float = 0.0) -> None:
        tracks: dict[str, list[Any]] = {}
        keepers: list[Any] = []
        for name, track in some:
            if name:
                tracks.setdefault(group_of(name), []).extend(track)
            if _KEEPER in name:
                keepers.extend(track)
        each = [
            (g, outline)
            for g, track in tracks.items()
            if track
            for outline in (_apart(segments(track)) if g in _STREWN else [segments(track)])
        ]
        parts, outlines = [g for g, _ in each], [outline for _, outline in each]
        self._take(parts, outlines, segments(keepers), axis)

    def _take(self, parts: list[str], outlines: list[Any], keepers: Any, axis: float) -> None:
        self.parts, self.outlines, self.keepers, self.axis = parts, outlines, keepers, axis
        self.boxes = [
            _round(_box(t), axis) if g == _TUBE else _box(t)
            for g, t in zip(parts, outlines, strict=True)
        ]
        self.every = np.concatenate([segments([]), *map(_closed_up, outlines)])
        self.of = np.repeat(np.arange(len(outlines)), [len(t) for t in outlines])

    def scaled(self, k: float) -> Owners:
        """Give the same outlines, ``k`` times as large."""
        larger = Owners.__new__(Owners)
        outlines = [outline * k for outline in self.outlines]
        larger._take(self.parts, outlines, self.keepers * k, self.axis * k)
        return larger

    def segments(self, group: str) -> Any:
        """Give the outline of a part (n, 2, 2)."""
        own = [t for g, t in zip(self.parts, self.outlines, strict=True) if g == group]
        return np.concatenate(own)

    def met(self, lines: Any) -> Any:
        """Tell which lines (n, 2, 2) cross which outlines (n, outlines)."""
        i, j = crossings(lines, self.every, Things(lines).pairs(Things(self.every)))
        found = np.zeros((len(lines), len(self.outlines)), bool)
        found[i, self.of[j]] = True
        return found

    def near(self, group: str, lines: Any, by: float) -> Any:
        """Tell which lines (n, 2, 2) cross the outline of a part, or pass it nearer than ``by``."""
        return self._by(self.segments(group), lines, by)

    def near_keeper(self, lines: Any, by: float) -> Any:
        """Tell the same of the plates that keep pins, and of their screws."""
        return self._by(self.keepers, lines, by)

    def _by(self, outline: Any, lines: Any, by: float) -> Any:
        out = lines[:, 1] - lines[:, 0]
        out = out[:, ::-1] * (-by, by) / np.maximum(np.hypot(*out.T), 1e-9)[:, None]
        both = np.concatenate([lines - out[:, None], lines + out[:, None]])
        i, _ = crossings(both, outline)
        found = np.zeros(len(both), bool)
        found[i] = True
        return found[: len(lines)] | found[len(lines) :]

    def by_strewn(self, lines: Any, by: float) -> bool:
        """Tell whether a line (n, 2, 2) passes a nut, tie rod or bolt head nearer than ``by``."""
        return any(self.near(g, lines, by).any() for g in _STREWN.intersection(self.parts))

    def wrong(self, name: str, ends: Sequence[Point2], lines: Any, met: Any) -> Any:
        """Tell which lines (n, 2, 2) of a size wrongly cross outlines that they met (n, outlines).

        What a position is measured from, its first end, belongs to the mount on the body; and what
        stands at the same place along the axis has the same position. What stands round the axis
        as nuts do a line from between them has to pass, unless it is level.
        """
        found = met & self.foreign(name, ends)
        steep = abs(folded(np.subtract, lines[:, :, 1])) > _SAME
        found &= ~np.outer(steep, self._amid_strewn(ends))
        if name.endswith(_POSITION) and len(lines):
            datum = folded(np.logical_and, abs(lines[:, :, 0] - ends[0][0]) < _SLACK)
            found &= ~np.outer(datum, [g == _DATUM for g in self.parts])
            for k in np.flatnonzero(found.any(0)).tolist():
                middles = _middles(self.outlines[k])
                found[:, k] &= (abs(lines[:, :, :1] - middles) > _SAME).any(1).all(1)
        return found

    def hits(self, name: str, ends: Sequence[Point2], lines: Any) -> Any:
        """Tell which lines (n, 2, 2) of a size wrongly cross which outlines (n, outlines)."""
        return self.wrong(name, ends, lines, self.met(lines))

    def bare_of_strewn(self, run: tuple[float, float]) -> tuple[float, float]:
        """Give the longest stretch of a run along the axis that none of them stands beside."""
        strewn = [b for g, b in zip(self.parts, self.boxes, strict=True) if g in _STREWN]
        marks, start = [], run[0]
        for lo, _, hi, _ in sorted(strewn):
            marks.append((start, min(lo, run[1])))
            start = max(start, hi)
        return max((*marks, (start, run[1])), key=lambda r: r[1] - r[0])

    def crossed(self, name: str, ends: Sequence[Point2], lines: Any) -> list[str]:
        """Name the parts that lines (n, 2, 2) of a size wrongly cross."""
        some = self.hits(name, ends, lines).any(0)
        return [*dict.fromkeys(g for g, hit in zip(self.parts, some, strict=True) if hit)]

    def foreign(self, name: str, ends: Sequence[Point2]) -> Any:
        """Tell of each outline whether a size has nothing to do with it.

        Then it is not its own, nor are its ends under it. Between two ports it has to pass one: the
        lower is then none of them.
        """
        own = {group_of(name), *self._passed(ends)}
        each = zip(self.parts, self.boxes, strict=True)
        found = [g not in own and not any(_in(b, p) for p in ends) for g, b in each]
        return np.array(found, bool) & (name not in _WHOLE)

    def _amid_strewn(self, ends: Sequence[Point2]) -> Any:
        """Tell of each outline whether it stands round the axis with an end amidst."""
        each = zip(self.parts, self.boxes, strict=True)
        found = (g in _STREWN and any(_in(_round(b, self.axis), p) for p in ends) for g, b in each)
        return np.fromiter(found, bool, len(self.parts))

    def _passed(self, ends: Sequence[Point2]) -> Iterator[str]:
        """Name the fittings below the axis that bar an end's way out which one above bars too."""
        each = zip(self.parts, self.outlines, strict=True)
        fittings = [(g, t) for g, t in each if is_fitting(g)]
        for x, y in ends:
            there = [(g, _heights_at(t, x)) for g, t in fittings]
            if any((h > y).any() for _, h in there):
                below = min(y, self.axis)
                yield from (g for g, h in there if len(h) and (h <= below + _SLACK).all())


def _heights_at(track: Any, x: float) -> Any:
    """Give the heights of an outline's chords about a place along the axis."""
    there = (track[:, :, 0].min(1) <= x + _SLACK) & (track[:, :, 0].max(1) >= x - _SLACK)
    return track[there, :, 1].ravel()


def _closed_up(track: Any) -> Any:
    """Lengthen the chords of curves where they meet: a line through such a point crosses too."""
    way = track[:, 1] - track[:, 0]
    way = way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
    bend = folded(np.add, way[1:] * way[:-1])
    meet = folded(np.logical_and, track[1:, 0] == track[:-1, 1])
    meet &= (bend > _BEND) & (bend < _STRAIGHT)
    more = np.zeros((len(track), 2, 1))
    more[1:, 0, 0][meet] = -_OVERLAP
    more[:-1, 1, 0][meet] = _OVERLAP
    return track + more * way[:, None]


def _apart(track: Any) -> list[Any]:
    """Part an outline (n, 2, 2) into those of the pieces that it is of: what does not touch."""
    low, high = folded(np.minimum, track) - _SAME / 2, folded(np.maximum, track) + _SAME / 2
    touch = (low[:, None] <= high).all(2)
    touch &= touch.T
    of = np.arange(len(track))
    while True:
        least = np.where(touch, of, len(of)).min(1)
        if (least == of).all():
            return [track[of == k] for k in np.unique(of)]
        of = least


def _middles(track: Any) -> Any:
    """Give the middles along the axis of the bodies that an outline is of."""
    runs: list[list[float]] = []
    for lo, hi in sorted(zip(track[:, :, 0].min(1), track[:, :, 0].max(1), strict=True)):
        if runs and lo <= runs[-1][1] + _SAME:
            runs[-1][1] = max(runs[-1][1], hi)
        else:
            runs.append([lo, hi])
    return np.array(runs).mean(1)


def _box(track: Any) -> Box:
    x, y = track[:, :, 0], track[:, :, 1]
    return (float(x.min()), float(y.min()), float(x.max()), float(y.max()))


def _round(b: Box, axis: float) -> Box:
    """Give the box of what is round an axis, seen on one side of it or on both."""
    reach = max(abs(b[1] - axis), abs(b[3] - axis))
    return (b[0], axis - reach, b[2], axis + reach)


def _in(b: Box, p: Point2) -> bool:
    return b[0] - _SLACK <= p[0] <= b[2] + _SLACK and b[1] - _SLACK <= p[1] <= b[3] + _SLACK
