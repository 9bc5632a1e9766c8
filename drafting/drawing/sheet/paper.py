"""A view laid on the paper: what SVG, PDF and the inspector draw of it, all in paper millimetres.

A view with a window shows what lies inside: curves and hatch lines are cut at its border. A
dimension or a text belongs to the window that holds what it points at; one that does not is named
in ``left_out``, so that nothing gets lost in silence.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, dist, radians, sin

from drafting.drawing.sheet.explode import Exploded, Segment, explode
from drafting.drawing.sheet.letters import descent, width
from drafting.drawing.sheet.on_paper import (
    Box,
    at_place,
    box,
    clip,
    clip_area,
    clip_line,
    contains,
    ends,
    hull,
    placed,
    points,
    union,
)
from drafting.drawing.sheet.sheet import Dimension, Linear, Mark, Text, View
from drafting.drawing.sheet.strokes import Curve, Hatch, Point2, Poly
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

_AREA_ERROR = 0.01
"""View mm between a curved border and the polygon that stands for it where a window cuts it."""


@dataclass(frozen=True, slots=True)
class PaperView:
    """One view on the paper. ``hatches`` pairs each part with its hatch lines."""

    name: str
    title: str
    marks: tuple[Mark, ...]
    hatches: tuple[tuple[str, tuple[Segment, ...]], ...]
    dimensions: tuple[Exploded, ...]
    texts: tuple[Text, ...]
    left_out: tuple[str, ...]


def on_paper(view: View, style: Style) -> PaperView:
    """Lay a view on the paper."""
    at, k = view.at, view.scale
    cut = windowed(view)
    shown = {id(d) for d in cut.dimensions} | {id(t) for t in cut.texts}
    return PaperView(
        name=view.name,
        title=view.title,
        marks=tuple(replace(m, curve=placed(m.curve, at, k)) for m in cut.marks),
        hatches=tuple(
            (h.part, tuple((at_place(a, at, k), at_place(b, at, k)) for a, b in h.lines))
            for h in cut.hatches
        ),
        dimensions=tuple(explode(d, at, k, style) for d in cut.dimensions),
        texts=tuple(replace(t, at=at_place(t.at, at, k)) for t in cut.texts),
        left_out=tuple(
            d.name if not isinstance(d, Text) else d.name or d.text
            for d in (*view.dimensions, *view.texts)
            if id(d) not in shown
        ),
    )


def windowed(view: View) -> View:
    """Cut a view to its window; still in view millimetres. Without a window, the view itself."""
    window = view.window
    if window is None:
        return view
    return replace(
        view,
        marks=tuple(replace(m, curve=c) for m in view.marks for c in clip(m.curve, window)),
        hatches=tuple(h for h in (cut_hatch(h, window) for h in view.hatches) if h.loops),
        dimensions=tuple(d for d in view.dimensions if _belongs(d, window)),
        texts=tuple(t for t in view.texts if contains(window, t.at)),
    )


def cut_hatch(hatch: Hatch, window: Box) -> Hatch:
    """Cut a hatched face to a window; without loops when nothing of it is left."""
    loops = []
    for loop in hatch.loops:
        area = clip_area(outline_points(loop, _AREA_ERROR), window)
        if len(area) > 2:
            loops.append((Poly((*area, area[0])),))
    lines = (clip_line(a, b, window) for a, b in hatch.lines)
    return replace(hatch, loops=tuple(loops), lines=tuple(s for s in lines if s))


def outline_points(loop: tuple[Curve, ...], error: float) -> list[Point2]:
    """Flatten a closed loop of curves; the last point is the first."""
    track: list[Point2] = []
    for curve, backwards in in_order(loop):
        piece = points(curve, error)
        if backwards:
            piece.reverse()
        track += piece[1:] if track else piece
    return track


def in_order(loop: tuple[Curve, ...]) -> list[tuple[Curve, bool]]:
    """Tell for each curve of a closed loop whether the loop runs through it backwards."""
    if len(loop) == 1:
        return [(loop[0], False)]
    first, last = ends(loop[0])
    following = ends(loop[1])
    at = first if _gap(first, following) < _gap(last, following) - 1e-6 else last
    order = [(loop[0], at == first)]
    for curve in loop[1:]:
        start, end = ends(curve)
        backwards = dist(at, end) < dist(at, start)
        order.append((curve, backwards))
        at = start if backwards else end
    return order


def _gap(p: Point2, candidates: tuple[Point2, Point2]) -> float:
    return min(dist(p, q) for q in candidates)


def _belongs(d: Dimension, window: Box) -> bool:
    at = (d.a, d.b) if isinstance(d, Linear) else (d.tip,)
    return all(contains(window, p, 1e-6) for p in at)


def text_box(text: Text) -> Box:
    """Give the box of a line of lettering: capitals and what hangs below the base line."""
    wide = width(text.text, text.height, text.bold)
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * wide
    low = -descent(text.height)
    turn = radians(text.turn)
    c, s = cos(turn), sin(turn)
    corners = ((-back, low), (wide - back, low), (wide - back, text.height), (-back, text.height))
    return hull([(text.at[0] + x * c - y * s, text.at[1] + x * s + y * c) for x, y in corners])


def paper_box(view: PaperView) -> Box | None:
    """Give the box of everything that a view prints, to the middle of its lines."""
    boxes = [box(m.curve) for m in view.marks]
    boxes += [text_box(t) for t in view.texts]
    for d in view.dimensions:
        boxes += [hull(s) for s in (*d.segments, *d.arrows)]
        boxes += [text_box(t) for t in d.texts]
    return union(boxes) if boxes else None
