"""A port that no long view shows is drawn hidden in the side view, by the rim of its face.

What a callout points at and a position is measured to has to be seen; so have a cushion screw and a
breather. An end view shows of them an edge at most. A port in a flat side that faces down or up is
seen along that side: there its thread, or a flange's bore, is two lines, even where the top view
shows it, if its place is measured here. Bolt holes would leave sizes no room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from math import dist, hypot

from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.owners import group_of, is_fitting, is_knob, is_port
from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.strokes import Arc, Curve, Line, Look, Point2, Stroke
from drafting.drawing.views.mouths import RAISED
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import X, sub
from drafting.shape.pieces import Part, extent

_KEPT = 8
_ON = 0.05
_LONG = ("side", "top")
_Knob = tuple[str, float, float]
"""The name of a cushion screw or breather, and from where to where along the axis it lies."""


def with_unseen(
    pictures: Sequence[Picture], parts: tuple[Part, ...], wishes: Iterable[Wish]
) -> tuple[Picture, ...]:
    """Give the pictures, with what callouts are of and no long one shows of retracted ``parts``."""
    long = [p for p in pictures if p.name in _LONG]
    seen = frozenset[str]().union(*(p.groups for p in long))
    unseen = [c for c in _each(wishes) if group_of(c.name) not in seen]
    drawn = (_with_rims(p, unseen, parts) for p in pictures)
    return tuple(_with_knobs(p, _unseen_knobs(long, parts), parts) for p in drawn)


def _unseen_knobs(long: Sequence[Picture], parts: Iterable[Part]) -> list[_Knob]:
    """Give where knobs lie along the axis of which the long views show nothing.

    The ends may each have one, of one name.
    """
    seen = [s for p in long for s in p.visible if is_knob(s.piece)]
    knobs = (q for p in parts for q in p.pieces if is_knob(q.name) and not q.cut)
    places = {(q.name, *extent(q, X)) for q in knobs}
    return [knob for knob in sorted(places) if not any(_is_of(s, knob) for s in seen)]


def _is_of(stroke: Stroke, knob: _Knob) -> bool:
    name, low, high = knob
    x0, _, x1, _ = box(stroke.curve)
    return stroke.piece == name and low - _ON < x0 and x1 < high + _ON


def _with_knobs(picture: Picture, some: Sequence[_Knob], parts: tuple[Part, ...]) -> Picture:
    if picture.name != "side" or not some:
        return picture
    hidden = (s for s in _strokes(parts, picture.look) if s.kind != "crossing")
    own = (s for s in hidden if any(_is_of(s, knob) for knob in some))
    return replace(picture, strokes=(*picture.strokes, *own))


def with_measured(
    pictures: Sequence[Picture], parts: tuple[Part, ...], choices: Sequence[Choice]
) -> tuple[Picture, ...]:
    """Give the pictures, with the ports of which the side view shows nothing but place or words."""
    there = [c.wish for c in choices if c.picture.name == "side"]
    measured = {group_of(w.name) for w in there if isinstance(w, Length)}
    measured |= {group_of(c.name) for c in _each(there)}
    drawn = {group_of(s.piece) for p in pictures if p.name == "side" for s in p.strokes}
    bare = [c for c in _each(c.wish for c in choices) if group_of(c.name) in measured - drawn]
    return tuple(_with_rims(p, bare, parts) for p in pictures)


def _with_rims(picture: Picture, some: Sequence[Callout], parts: tuple[Part, ...]) -> Picture:
    if picture.name != "side" or not some:
        return picture
    rims = _rims(some, picture.look, _strokes(parts, picture.look))
    return replace(picture, strokes=(*picture.strokes, *rims))


@lru_cache(maxsize=_KEPT)
def _strokes(parts: tuple[Part, ...], look: Look) -> tuple[Stroke, ...]:
    """Give the hidden strokes of all fittings in a look."""
    return tuple(s for s in project(parts, look) if not s.visible and is_fitting(s.piece))


def _each(wishes: Iterable[Wish]) -> Iterator[Callout]:
    """Give a callout for each port that one is of."""
    for w in wishes:
        if isinstance(w, Callout) and is_port(w.name):
            for name, tip in ((w.name, w.tip), *w.alike):
                yield replace(w, name=name, tip=tip, alike=())


def _rims(callouts: Iterable[Callout], look: Look, strokes: Sequence[Stroke]) -> Iterator[Stroke]:
    """Give what is drawn of each: what is raised, or in a flat side the widest of its hole."""
    for callout in callouts:
        own = [s for s in strokes if group_of(s.piece) == group_of(callout.name)]
        raised = [s for s in own if s.piece.endswith(RAISED)]
        if raised:
            yield from (s for s in raised if s.kind != "crossing")
            continue
        foot, tip = flat(look, sub(callout.tip, callout.normal)), flat(look, callout.tip)
        hole = [s for s in own if s.piece == callout.name]
        off = [_off_axis(s.curve, foot, tip) for s in hole]
        yield from (s for s, r in zip(hole, off, strict=True) if r and r > max(off) - _ON)


def _off_axis(curve: Curve, foot: Point2, tip: Point2) -> float:
    """Give how far from an axis a circle round it or a line along it is; 0 of anything else."""
    if isinstance(curve, Arc):
        return curve.radius if dist(curve.centre, tip) < _ON else 0.0
    along = (tip[0] - foot[0], tip[1] - foot[1])
    if not isinstance(curve, Line) or hypot(*along) < _ON:
        return 0.0
    x, y = along[0] / hypot(*along), along[1] / hypot(*along)
    one, other = ((p[0] - tip[0]) * y - (p[1] - tip[1]) * x for p in (curve.a, curve.b))
    return abs(one) if abs(one - other) < _ON else 0.0
