"""The ways of wishes on a ground and what they cost among its strokes, found once for each.

A view is placed again where its words have to keep nearer, or with one wish changed: what is known
of the others is still true.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from drafting.drawing.dimension.compact import compact
from drafting.drawing.dimension.costs import on_paper
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.in_another import behind_another
from drafting.drawing.dimension.leader_ways import note_ways, round_ways
from drafting.drawing.dimension.length_ways import FLATS, length_ways
from drafting.drawing.dimension.off_breaks import off_gaps
from drafting.drawing.dimension.off_foreign import off_foreign
from drafting.drawing.dimension.owners import group_of
from drafting.drawing.dimension.picture import Picture, flat
from drafting.drawing.dimension.ways import Label, Ways, joined
from drafting.settle.wishes import Callout, Diameter, Length, Wish

Said = tuple[Wish, Label]
"""A wish with what is printed on it."""
_LED = 3.0
"""What it costs to lead a size across flats to one of them: right across is read at once."""
_THICK = ".thickness"
_MOST = 400
"""What is known of more on one ground is forgotten: who types changes words often."""
_COVERED = 0.75
"""A hole of which less is seen than this share of what is of another one is covered."""
Known = tuple[Ways, Any]
"""The ways of a wish, and what each costs with what is drawn (tenths)."""


def known(wanted: Sequence[Said], ground: Ground) -> list[Known]:
    """Give what is known of each, in order; what is new is found, and kept with the ground."""
    if len(ground.found) > _MOST:
        ground.found.clear()
    new = [said for said in dict.fromkeys(wanted) if said not in ground.found]
    if new:
        each = [[(wish, label) for wish in _alike(whole, ground)] for whole, label in new]
        ways = [
            (w, off_gaps(_ways(w, label, ground), ground.gaps))
            for some in each
            for w, label in some
        ]
        weighed = iter(off_foreign(ways, ground))
        found = [compact(joined([next(weighed) for _ in some]), ground) for some in each]
        costs = on_paper(found, ground.strokes, ground.centre_marks, ground.hidden)
        ground.found.update(zip(new, zip(found, costs, strict=True), strict=True))
    return [ground.found[said] for said in wanted]


def _alike(wish: Wish, ground: Ground) -> list[Wish]:
    """Give a wish, and for each like feature that is seen the same words to that one.

    Of holes none is offered that another part covers more than it does another of them.
    The thickness of a foot, which both sides of an end view show, may be taken at either.
    A size across flats may be led to one of them too: what stands off the rod's end seems to be the
    thread's.
    """
    picture = ground.picture
    match wish:
        case Length() if wish.name.endswith(FLATS):
            return [wish, Callout(wish.name, wish.b, wish.direction, (), others=(wish.a,))]
        case Length() if picture.name == "end" and wish.name.endswith(_THICK):
            return [wish, *_across_the_axis(wish, picture)]
        case Callout():
            words = replace(wish, alike=())
            alike = [replace(words, name=n, tip=tip, others=()) for n, tip in wish.alike]
            if behind_another(wish.name, wish.tip, picture):
                return [w for w in alike if _is_clear(w, picture)] or [words]
            return [words, *(w for w in alike if group_of(w.name) in picture.tables)]
        case Diameter():
            r, some = wish.diameter / 2, (wish.centre, *wish.others)
            turns = [picture.seen_turn(flat(picture.look, p), r) for p in some]
            shown = [p for p, turn in zip(some, turns, strict=True) if turn > _COVERED * max(turns)]
            shown = shown or [wish.centre]
            rest = (tuple(q for q in shown if q != p) for p in shown)
            return [replace(wish, centre=p, others=q) for p, q in zip(shown, rest, strict=True)]
        case _:
            return [wish]


def _across_the_axis(wish: Length, picture: Picture) -> Iterator[Length]:
    """Give a size at the other side of the axis, where the same edges are seen there."""
    _, y, z = wish.direction
    if y * z == 0.0:
        a, b = ((p[0], p[1] * (1 if y else -1), p[2] * (1 if z else -1)) for p in (wish.a, wish.b))
        other = replace(wish, a=a, b=b)
        if other != wish and all(picture.on_stroke(flat(picture.look, p)) for p in (a, b)):
            yield other


def _is_clear(wish: Callout, picture: Picture) -> bool:
    """Tell whether a fitting is drawn where no other one is before it."""
    own = group_of(wish.name)
    drawn = picture.nearest_of(own, flat(picture.look, wish.tip)) is not None
    return drawn and not behind_another(wish.name, wish.tip, picture)


def _ways(wish: Wish, label: Label, ground: Ground) -> Ways:
    match wish:
        case Length():
            return length_ways(wish, label, ground)
        case Callout(name=name):
            led = note_ways(wish, label, ground)
            return replace(led, costs=led.costs + _LED) if name.endswith(FLATS) else led
        case _:
            return round_ways(wish, label, ground)
