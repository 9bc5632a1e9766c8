"""Keep extension lines off parts that the size does not belong to: there it would be misread."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from drafting.arrays import folded
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.owners import Owners, group_of, is_port
from drafting.drawing.dimension.picture import flat
from drafting.drawing.dimension.ways import Ways
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.strokes import Point2
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec

_MISREAD = 130.0
_OVER, _MORE_OVER_MOUNT, _GRAZES = 8.0, 22.0, 0.5
"""What a leader costs that runs over another part, and what more if that is a mount or what keeps a
pin: their corners and holes read as what it points at; so does what it passes nearer than so (paper
mm)."""
_MOUNTS = ("body_mount", "rod_mount")
_OVER_PORT = 15.0
"""What an extension line costs in the end view that runs over a port: it seems to be the port's."""
_COVERS = 1.0
"""A port that reaches so far (paper mm) over a measured end has the line start at it."""
_PAST_ALL = 60.0
"""An extension line that runs so far (paper mm) along its view passes the other parts."""
_ALONG, _PER_MM_ALONG = 12.0, 0.15
"""Farther than so a level one runs along its view past parts that it does not measure."""
_NEAR, _BY, _PER_MM_PAST = 5.0, 2.0, 3.0
"""A level extension line that runs so near to another part (paper mm), and farther along it than
so, seems to be of that part: what each mm more costs."""
_IN_LINE = 0.05
"""So far (paper mm) an extension line may lie beside the end that it is for."""


def owners_of(ground: Ground) -> Owners:
    """Give the outlines of a view on paper, part by part."""
    return ground.picture.owners.scaled(ground.scale)


def off_foreign(some: Sequence[tuple[Wish, Ways]], ground: Ground) -> list[Ways]:
    """Make ways dear whose extension lines or leaders cross or pass the outlines of other parts.

    In the end view all parts lie behind each other, and only ports stand out of all.
    """
    owners = owners_of(ground)
    if ground.picture.name == "end":
        return [_off_ports(wish, ways, owners, ground.style.gap) for wish, ways in some]
    asked = [
        np.flatnonzero(w.thin) if isinstance(wish, Length) else np.arange(len(w.lines))
        for wish, w in some
    ]
    lines = [w.lines[rows] for (_, w), rows in zip(some, asked, strict=True)]
    met = owners.met(np.concatenate([segments([]), *lines]))  # of all at once: one call costs most
    ends = np.cumsum([len(rows) for rows in asked])
    return [
        _dearer(wish, ways, rows, met[end - len(rows) : end], ground, owners)
        for (wish, ways), rows, end in zip(some, asked, ends.tolist(), strict=True)
    ]


def _off_ports(wish: Wish, ways: Ways, owners: Owners, gap: float) -> Ways:
    """Make ways of a length dear of which an extension line runs over a port, or starts at one."""
    own = group_of(wish.name)
    ports = [g != own and is_port(g) for g in owners.parts]
    if not isinstance(wish, Length) or not any(ports) or not len(ways.costs):
        return ways
    over = np.zeros(len(ways.lines))
    rows = np.flatnonzero(ways.thin)
    lines = ways.lines.take(rows, 0)
    way = lines[:, 1] - lines[:, 0]
    lines[:, 0] -= (gap + _COVERS) * way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
    over[rows] = owners.met(lines)[:, ports].sum(1)
    return replace(ways, costs=ways.costs + _OVER_PORT * folded(np.add, over.take(ways.line_of)))


def _dearer(wish: Wish, ways: Ways, rows: Any, met: Any, ground: Ground, owners: Owners) -> Ways:
    """Weigh the lines ``rows`` of the ways of a wish, which met some parts (rows, parts)."""
    if not len(ways.costs):
        return ways
    look = ground.picture.look
    crossed = np.zeros(len(ways.lines))
    if isinstance(wish, Length):
        cost, lines = _MISREAD, ways.lines[rows]
        ends = [ground.paper(flat(look, p)) for p in (wish.a, wish.b)]
        for side, begun in _begun(lines, ends, ground.style.gap):
            wrong = [owners.wrong(wish.name, e, lines[side], met[side]) for e in (ends, begun)]
            crossed[rows[side]] = (wrong[0] | wrong[1]).sum(1)
        within = _within_view(lines, ground)
        crossed[rows] += within > _PAST_ALL
        level = np.abs(lines[:, 0, 1] - lines[:, 1, 1]) < _IN_LINE
        crossed[rows] += _PER_MM_ALONG * np.fmax(within - _ALONG, 0.0) * level / _MISREAD
        crossed[rows] += _PER_MM_PAST * _past(owners, wish.name, ends, lines) / _MISREAD
        crossed[rows] += _beyond(owners, wish.name, lines)
    else:
        cost = _OVER
        place: Vec = wish.tip if isinstance(wish, Callout) else wish.centre
        at = ground.paper(flat(look, place))
        crossed += owners.wrong(wish.name, [at], ways.lines, met).sum(1)
        crossed += _MORE_OVER_MOUNT * _over_mounts(wish.name, at, ways, owners) / _OVER
    return replace(ways, costs=ways.costs + cost * folded(np.add, crossed.take(ways.line_of)))


def _over_mounts(name: str, at: Point2, ways: Ways, owners: Owners) -> Any:
    """Count for each line the mounts and keepers that a leader wrongly runs over, or grazes."""
    count = np.zeros(len(ways.lines))
    leaders = ways.line_of[:, 0]
    foreign = {owners.parts[k] for k in np.flatnonzero(owners.foreign(name, [at]))}
    for mount in _MOUNTS:
        if mount in foreign:
            count[leaders] += owners.near(mount, ways.lines[leaders], _GRAZES)
    if len(owners.keepers) and not group_of(name).endswith("_pin"):
        count[leaders] += owners.near_keeper(ways.lines[leaders], _GRAZES)
    return count


def _past(owners: Owners, name: str, ends: Sequence[Point2], lines: Any) -> Any:
    """Give how far (mm) level extension lines (n, 2, 2) run close by what they do not belong to."""
    others = np.array(owners.boxes).reshape(-1, 4)[owners.foreign(name, ends)]
    x, y = np.sort(lines[:, :, 0], 1), lines[:, :, 1]
    level = np.abs(y[:, 0] - y[:, 1]) < _IN_LINE
    over = np.minimum(x[:, 1:], others[:, 2]) - np.maximum(x[:, :1], others[:, 0])
    near = (y[:, :1] > others[:, 1] - _NEAR) & (y[:, :1] < others[:, 3] + _NEAR)
    return (np.fmax(over - _BY, 0.0) * near).max(1, initial=0.0) * level


def _beyond(owners: Owners, name: str, lines: Any) -> Any:
    """Tell which level extension lines (n, 2, 2) of a tube or rod begin beyond its own end.

    There another part has the same height: a tube between square caps as high as itself.
    """
    own = [b for g, b in zip(owners.parts, owners.boxes, strict=True) if g == name]
    if not own or not len(lines):
        return np.zeros(len(lines))
    x, level = np.sort(lines[:, :, 0], 1), np.abs(lines[:, 0, 1] - lines[:, 1, 1]) < _IN_LINE
    off = np.maximum(own[0][0] - x[:, 1], x[:, 0] - own[0][2])
    return (off > _BY) & level


def _within_view(lines: Any, ground: Ground) -> Any:
    """Give how far (paper mm) lines run within the box of their view's outlines."""
    x0, y0, x1, y1 = (v * ground.scale for v in ground.picture.box)
    low = np.maximum(folded(np.minimum, lines), (x0, y0))
    high = np.minimum(folded(np.maximum, lines), (x1, y1))
    inside = folded(np.logical_and, high >= low - _IN_LINE)
    return np.hypot(*np.maximum(high - low, 0.0).T) * inside


def _begun(
    lines: Any, ends: Sequence[Point2], gap: float
) -> Iterator[tuple[Any, Sequence[Point2]]]:
    """Give the extension lines of each side, and where they begin: there the size is read."""
    way = lines[:, 1] - lines[:, 0]
    way = (way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]).round(6)
    for x, y in dict.fromkeys(map(tuple, way[folded(np.logical_and, np.isfinite(way))].tolist())):
        out = np.array((x, y))
        rows = np.flatnonzero((way[:, 0] == x) & (way[:, 1] == y))
        begins = lines[rows, 0] - gap * out
        aside = np.array((-out[1], out[0]))
        found = []
        for end in ends:
            off = np.abs((begins - end) @ aside)
            k = int(off.argmin())
            x, y = begins[k].tolist()
            found.append((x, y) if off[k] < _IN_LINE else end)
        yield rows, found
