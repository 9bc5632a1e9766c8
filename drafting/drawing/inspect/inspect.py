"""The sheet looks at itself: what touches, what is missing.

Codes: ``sheet-text-on-text``, ``sheet-line-through-text``, ``sheet-dimension-lines-crossing``,
``sheet-dimension-lines-close``, ``sheet-dimension-on-line``, ``sheet-outside-frame``,
``sheet-view-on-view``, ``sheet-missing-size``; those of ``labels.py``, ``placement.py`` and
``shown_best.py`` too.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import dist

from drafting.drawing.dimension.asked import asked, is_spare, is_too_small
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.owners import is_port
from drafting.drawing.inspect.labels import labels
from drafting.drawing.inspect.placement import placing
from drafting.drawing.inspect.shown_best import shown_best
from drafting.drawing.lists.papers import PAPERS
from drafting.drawing.sheet.clash import (
    APART,
    Quad,
    Segment,
    crossings,
    in_quads,
    lies_on,
    quads,
    quads_meet,
    text_quad,
)
from drafting.drawing.sheet.clash import segments as as_segments
from drafting.drawing.sheet.explode import Exploded
from drafting.drawing.sheet.on_paper import Box, hull, points
from drafting.drawing.sheet.paper import PaperView, on_paper, paper_box
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Sheet, Text
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at
from drafting.records import dataclass
from drafting.settle.wishes import Callout
from drafting.told.flags import MEANINGS
from drafting.values import Finding

_SLACK = -0.1
"""Boxes of lettering may share this much of their margin (mm)."""
_CHORD = 0.02
_OUT = 0.3
_ON_LINE = 1.0
"""A dimension line nearer than this (mm) to an edge along it lies on it; a shorter edge is none."""


@dataclass(frozen=True, slots=True)
class _Word:
    text: Text
    quad: Quad
    owner: str


def inspect(sheet: Sheet, job: Job | None = None) -> tuple[Finding, ...]:
    """Give what is wrong with a sheet and those that follow; ``job`` adds what the model knows."""
    sheets = (sheet, *sheet.following)
    found = [f for s in sheets for f in inspect_page(s, job)]
    return (*found, *(_missing(sheets, job) if job else ()))


def inspect_page(sheet: Sheet, job: Job | None) -> tuple[Finding, ...]:
    """Give what is wrong on one page as it stands, whatever may be missing."""
    style = Style()
    views = [on_paper(v, style) for v in sheet.views]
    words = [_Word(t, text_quad(t, _SLACK), "") for t in sheet.texts]
    for view in views:
        words += [_Word(t, text_quad(t, _SLACK), "") for t in view.texts]
        words += [
            _Word(t, text_quad(t, _SLACK), f"{view.name}/{d.name}")
            for d in view.dimensions
            for t in d.texts
        ]
    return (
        *_texts_on_texts(words),
        *_lines_through_texts(sheet, views, words),
        *_crossing_dimensions(views),
        *_close_dimensions(sheet, views),
        *_dimensions_on_lines(sheet, views),
        *_outside(sheet, views, words),
        *_views_on_views(views),
        *labels(sheet, job),
        *placing(sheet, views, job),
        *shown_best(sheet, views),
    )


def _found(code: str, field: str, message: str) -> Finding:
    return Finding(code, "warning", field, message)


def _texts_on_texts(words: Sequence[_Word]) -> Iterable[Finding]:
    boxes = quads([w.quad for w in words])
    for i, j in zip(*quads_meet(boxes, boxes), strict=True):
        if i < j:
            a, b = words[i].text, words[j].text
            yield _found(
                "sheet-text-on-text",
                a.name,
                f'on the drawing "{a.text}" and "{b.text}" overlap: a larger sheet gives them room',
            )


def _lines_through_texts(
    sheet: Sheet, views: Sequence[PaperView], words: Sequence[_Word]
) -> Iterable[Finding]:
    lines: list[Segment] = []
    owners: list[tuple[str, str]] = []

    def add(owner: str, what: str, some: Iterable[Segment]) -> None:
        for s in some:
            lines.append(s)
            owners.append((owner, what))

    for mark in sheet.marks:
        add("", mark.role, _chords(mark))
    for view in views:
        for mark in view.marks:
            add("", mark.role, _chords(mark))
        for part, lines_in in view.hatches:
            add(part, "hatch", lines_in)
        for d in view.dimensions:
            add(f"{view.name}/{d.name}", "dimension line", (*d.lines, *d.extensions, *_edges(d)))
            add(f"{view.name}/{d.name} flag", "dimension line", d.flag)
    told: set[tuple[int, str]] = set()
    table = in_quads(quads([w.quad for w in words]), as_segments(lines))
    for i, j in zip(*table, strict=True):
        word, (owner, what) = words[i], owners[j]
        own_flag = owner == f"{word.owner} flag" and word.text.text in MEANINGS
        if own_flag or (i, what) in told:
            continue
        told.add((i, what))
        yield _found(
            "sheet-line-through-text",
            word.text.name,
            f'on the drawing a line ({what} {owner}) runs through "{word.text.text}"',
        )


def _edges(d: Exploded) -> Iterable[Segment]:
    return ((a[0], b) for a in d.arrows for b in a[1:])


def _chords(mark: Mark) -> Iterable[Segment]:
    return pairwise(points(mark.curve, _CHORD))


def _crossing_dimensions(views: Sequence[PaperView]) -> Iterable[Finding]:
    for view in views:
        lines = [s for d in view.dimensions for s in d.lines]
        owners = [k for k, d in enumerate(view.dimensions) for _ in d.lines]
        table = as_segments(lines)
        hits = {
            (owners[i], owners[j])
            for found in (crossings(table, table), lies_on(table, table, 0.5))
            for i, j in zip(*found, strict=True)
            if owners[i] < owners[j]
        }
        for a, b in sorted(hits):
            one, other = view.dimensions[a].name, view.dimensions[b].name
            yield _found(
                "sheet-dimension-lines-crossing",
                one,
                f"on the drawing the dimension lines of {one} and {other} cross in the "
                f"{view.title or view.name}",
            )


def _close_dimensions(sheet: Sheet, views: Sequence[PaperView]) -> Iterable[Finding]:
    for view, sizes in _lengths(sheet, views):
        table = as_segments([d.lines[0] for d in sizes])
        on = set(zip(*lies_on(table, table, 0.5), strict=True))
        for i, j in zip(*lies_on(table, table, APART), strict=True):
            if i < j and (i, j) not in on:
                one, other = sizes[i].name, sizes[j].name
                yield _found(
                    "sheet-dimension-lines-close",
                    one,
                    f"on the drawing the dimension lines of {one} and {other} are less than 6 mm "
                    f"apart in the {view.title or view.name}",
                )


def _dimensions_on_lines(sheet: Sheet, views: Sequence[PaperView]) -> Iterable[Finding]:
    for view, sizes in _lengths(sheet, views):
        edges = [c for m in view.marks if m.role in ("outline", "hidden") for c in _chords(m)]
        edges = [(a, b) for a, b in edges if dist(a, b) >= _ON_LINE]
        table = as_segments([d.lines[0] for d in sizes])
        for i in sorted(set(lies_on(table, as_segments(edges), _ON_LINE)[0].tolist())):
            yield _found(
                "sheet-dimension-on-line",
                sizes[i].name,
                f"on the drawing the dimension line of {sizes[i].name} lies on an edge of the "
                f"{view.title or view.name}",
            )


def _lengths(
    sheet: Sheet, views: Sequence[PaperView]
) -> Iterable[tuple[PaperView, Sequence[Exploded]]]:
    """Give the views with their linear dimensions."""
    for raw, view in zip(sheet.views, views, strict=True):
        own = {d.name for d in raw.dimensions if isinstance(d, Linear)}
        yield view, [d for d in view.dimensions if d.name in own]


def _outside(sheet: Sheet, views: Sequence[PaperView], words: Sequence[_Word]) -> Iterable[Finding]:
    frame = next(
        (p.frame for p in PAPERS if p.name == sheet.size_name and p.width == sheet.width),
        (0.0, 0.0, sheet.width, sheet.height),
    )
    for view in views:
        box = paper_box(view)
        if box and not _holds(frame, box):
            yield _found(
                "sheet-outside-frame",
                view.name,
                f"the {view.title or view.name} reaches beyond the frame of sheet "
                f"{sheet.size_name}: choose a larger sheet or a smaller scale",
            )
    paper = (0.0, 0.0, sheet.width, sheet.height)
    for word in words:
        if not _holds(paper, hull(word.quad)):
            yield _found(
                "sheet-outside-frame",
                word.text.name,
                f'"{word.text.text}" reaches beyond the edge of sheet {sheet.size_name}',
            )


def _holds(outer: Box, inner: Box) -> bool:
    return (
        outer[0] - _OUT <= inner[0]
        and outer[1] - _OUT <= inner[1]
        and inner[2] <= outer[2] + _OUT
        and inner[3] <= outer[3] + _OUT
    )


def _views_on_views(views: Sequence[PaperView]) -> Iterable[Finding]:
    boxes = [(v, b) for v in views if (b := paper_box(v))]
    for n, (one, a) in enumerate(boxes):
        for other, b in boxes[n + 1 :]:
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                yield _found(
                    "sheet-view-on-view",
                    one.name,
                    f"the {one.title or one.name} and the {other.title or other.name} overlap on "
                    "the drawing",
                )


def _missing(sheets: Sequence[Sheet], job: Job) -> Iterable[Finding]:
    all_shown = [d for s in sheets for v in s.views for d in v.dimensions]
    shown = {d.name for d in all_shown}
    shown |= {name for d in all_shown if isinstance(d, Note) for name in d.also}
    scales = [v.scale for s in sheets for v in s.views if v.name in ("side", "top")]
    pins = [w for pin in job.pins for w in pin.wishes]
    for wish in sorted((*asked(job).wishes, *pins), key=lambda w: w.name):
        name = wish.name
        alike = [n for n, _ in wish.alike] if isinstance(wish, Callout) else []
        if is_spare(name, job) or not shown.isdisjoint((name, *alike)):
            continue
        if any(is_too_small(wish, job, k) for k in scales):
            continue
        if is_port(name) and name in _in_table(job):
            continue
        yield _found("sheet-missing-size", name, f"the drawing does not show {name}")


def _in_table(job: Job) -> frozenset[str]:
    """Name the words of ports that no view has a place for: the PORTS table says them."""
    return look_at(replace(job, wishes=asked(job).wishes)).in_table
