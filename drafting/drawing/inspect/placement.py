"""Faults of placing that no contact shows: a size read on another part, a leader to the wrong one.

Codes: ``sheet-foreign-outline``, ``sheet-tip-off-piece``, ``sheet-which-end``,
``sheet-leader-across``, ``sheet-bare-tick``, ``sheet-far-away``, ``sheet-said-twice``,
``sheet-words-on-metal``. A leader over a nut or a tie rod's end is none: on a full page it may have
no other way, so that it costs in the placing alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from math import dist

import numpy as np

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.owners import Owners, group_of
from drafting.drawing.sheet.clash import Segment, crossings
from drafting.drawing.sheet.clash import segments as as_segments
from drafting.drawing.sheet.on_paper import Box, box, points, union
from drafting.drawing.sheet.paper import PaperView, text_box
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, Sheet, View
from drafting.drawing.sheet.silhouette import Silhouette
from drafting.drawing.sheet.strokes import Arc
from drafting.values import Finding

_CHORD = 0.05
_ON = 0.4
"""A tip this near (paper mm) to a line of its piece lies on it."""
_SAME = 0.01
"""Two circles are one within this (paper mm)."""
_EDGES = ("outline", "hidden")
_FAR = 40.0
_STACK = 3
"""Behind so many others a size may stand farther away."""


def placing(sheet: Sheet, views: Sequence[PaperView], job: Job | None) -> Iterable[Finding]:
    """Give the faults of placing of one sheet; ``views`` are its views on the paper."""
    ports = {p.table: p for p in job.ports} if job else {}
    for raw, view in zip(sheet.views, views, strict=True):
        marks = _tracks(view)
        owners = Owners([(m.name, s) for m, s in marks if m.role == "outline"], raw.at[1])
        yield from _foreign(raw, view, owners)
        yield from _tips(raw, view, marks)
        yield from _ticks(view, ports)
        yield from _far(raw, view)
        yield from _ends(raw, len(ports), job.ends if job else {})
        yield from _on_metal(raw, view, marks)
    yield from _across(views)
    yield from _twice(sheet)


def _found(code: str, name: str, message: str) -> Finding:
    return Finding(f"sheet-{code}", "warning", name, f"on the drawing {message}")


def _tracks(view: PaperView) -> list[tuple[Mark, list[Segment]]]:
    return [(m, list(pairwise(points(m.curve, _CHORD)))) for m in view.marks]


def _foreign(raw: View, view: PaperView, owners: Owners) -> Iterable[Finding]:
    """Find extension lines that cross the outline of a part that the size does not belong to."""
    for d, drawn in zip(raw.dimensions, view.dimensions, strict=False):
        if not isinstance(d, Linear) or raw.name == "end":  # there all parts lie behind each other
            continue
        ends = [_on_paper(raw, p) for p in (d.a, d.b)]
        lines = as_segments(drawn.extensions)
        for group in owners.crossed(d.name, ends, lines):
            yield _found(
                "foreign-outline",
                d.name,
                f"an extension line of {d.name} crosses the outline of {group}",
            )


def _on_paper(raw: View, p: tuple[float, float]) -> tuple[float, float]:
    return (raw.at[0] + raw.scale * p[0], raw.at[1] + raw.scale * p[1])


def _tips(
    raw: View, view: PaperView, marks: Sequence[tuple[Mark, list[Segment]]]
) -> Iterable[Finding]:
    """Find leaders whose tip lies on nothing of their own piece."""
    for d, drawn in zip(raw.dimensions, view.dimensions, strict=False):
        if isinstance(d, Linear) or not drawn.arrows:
            continue
        own = [s for m, track in marks if _is_own(m, d, raw) for s in track]
        tip = drawn.arrows[0][0]
        if own and not _near(tip, own):
            yield _found("tip-off-piece", d.name, f"the leader of {d.name} points at another piece")


def _is_own(mark: Mark, d: Round | Note, view: View) -> bool:
    """Tell whether a mark on paper is of the piece of a size, or the very circle that it tells.

    The room of a port's fitting is no piece.
    """
    if group_of(mark.name) == group_of(d.name):
        return mark.role != "phantom"
    if isinstance(d, Note) or mark.role not in _EDGES or not isinstance(mark.curve, Arc):
        return False
    off = dist(mark.curve.centre, _on_paper(view, d.centre))
    return off < _SAME and abs(mark.curve.radius - view.scale * d.radius) < _SAME


def _near(p: tuple[float, float], track: Sequence[Segment]) -> bool:
    for (x0, y0), (x1, y1) in track:
        dx, dy = x1 - x0, y1 - y0
        t = max(0.0, min(1.0, ((p[0] - x0) * dx + (p[1] - y0) * dy) / ((dx * dx + dy * dy) or 1.0)))
        if (p[0] - x0 - t * dx) ** 2 + (p[1] - y0 - t * dy) ** 2 <= _ON * _ON:
            return True
    return False


def _ticks(view: PaperView, ports: Iterable[str]) -> Iterable[Finding]:
    """Find centre lines of a port of which nothing is seen."""
    seen = {group_of(m.name) for m in view.marks if m.role != "centre"}
    for mark in view.marks:
        table = group_of(mark.name)
        if mark.role == "centre" and table in ports and table not in seen:
            yield _found("bare-tick", mark.name, f"a tick stands for {table}, which is not seen")


def _far(raw: View, view: PaperView) -> Iterable[Finding]:
    """Find sizes far from the view, rooms of hoses and all, with nothing between."""
    outline = [box(m.curve) for m in view.marks if m.role in ("outline", "phantom")]
    if not outline:
        return
    whole = union(outline)
    distances = {d.name: _away(whole, d.lines[-1]) for d in view.dimensions}
    for d in raw.dimensions:
        away = distances.get(d.name, 0.0)
        nearer = sum(1 for other in distances.values() if 0.0 < other < away)
        if away > _FAR and nearer < _STACK:
            yield _found("far-away", d.name, f"{d.name} stands {away:.0f} mm from the outline")


def _away(whole: Box, line: tuple[tuple[float, float], ...]) -> float:
    x0, x1 = sorted(p[0] for p in line)
    y0, y1 = sorted(p[1] for p in line)
    return max(x0 - whole[2], whole[0] - x1, y0 - whole[3], whole[1] - y1, 0.0)


def _ends(raw: View, ports: int, words: Mapping[str, str]) -> Iterable[Finding]:
    """Find callouts of ports, and round sizes of both ends, that do not say which they mean."""
    if raw.name == "end":
        yield from _round_ends(raw, words)
    for d in raw.dimensions:
        if isinstance(d, Note) and "port" in d.name and ports > 1:
            first = d.texts[0]
            if not (
                first.startswith(("BASE PORT", "ROD PORT")) or first.partition("x")[0].isdigit()
            ):
                yield _found("which-end", d.name, f'"{first}" does not say which port is meant')


def _round_ends(raw: View, words: Mapping[str, str]) -> Iterable[Finding]:
    rounds = [
        (d, words.get(d.name.partition(".")[0], ""))
        for d in raw.dimensions
        if isinstance(d, Round) and d.kind == "diameter"
    ]
    if len({end for _, end in rounds} - {""}) > 1:
        for d, end in rounds:
            if end and end not in " ".join(d.texts).split():
                yield _found("which-end", d.name, f'"{d.texts[0]}" does not say which end it is of')


def _on_metal(
    raw: View, view: PaperView, marks: Sequence[tuple[Mark, list[Segment]]]
) -> Iterable[Finding]:
    """Find words on leaders that stand on the metal of their view."""
    outline = [s for m, track in marks if m.role == "outline" for s in track]
    if not outline:
        return
    covered = Silhouette(as_segments(outline))
    for d, drawn in zip(raw.dimensions, view.dimensions, strict=False):
        if isinstance(d, Linear):
            continue
        x0, y0, x1, y1 = np.array([text_box(t) for t in drawn.texts]).T
        if covered.covers(x0, x1, y0, y1).any():
            yield _found("words-on-metal", d.name, f'"{d.texts[0]}" stands on the metal')


def _across(views: Sequence[PaperView]) -> Iterable[Finding]:
    """Find leaders that run over another view."""
    for view in views:
        for other in views:
            if other is view:
                continue
            edges = as_segments([s for m, t in _tracks(other) if m.role == "outline" for s in t])
            for d in view.dimensions:
                if len(crossings(as_segments(d.lines), edges)[0]):
                    yield _found(
                        "leader-across",
                        d.name,
                        f"{d.name} runs over the {other.title or other.name}",
                    )


def _twice(sheet: Sheet) -> Iterable[Finding]:
    names = Counter(
        d.name for v in sheet.views for d in v.dimensions if isinstance(d, Linear | Round | Note)
    )
    for name, count in names.items():
        if count > 1:
            yield _found("said-twice", name, f"{name} is said {count} times")
