"""Sizes along and across a pin that is turned askew, said in words where no view shows them well.

The end view alone has those along it in true size. Seen from the other end the mount hides there,
and what they would be measured from lies on other parts: words in the view along the pin say them.
Flats that stand as the pin does are seen whole in a long view, but are measured in none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from math import cos, radians, sin
from typing import TypeGuard

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import texts
from drafting.drawing.dimension.length_ways import FLATS
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.sheet.strokes import Line
from drafting.settle.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import Vec, add, dot, scale

_ALONG = 1.0 - 1e-6
_IN_FRONT = {"rod": "rod_mount", "base": "body_mount"}
"""The mount that the end view sees from a side."""
_OFF_AXIS = 50.0
"""Where the words point at the outermost arc round the pin: degrees from the cylinder's axis."""


def said_across(job: Job, pictures: Sequence[Picture]) -> tuple[Wish, ...]:
    """Give the wishes of a job, those along a hidden pin as words in the view that looks along it.

    Sizes of one origin share their words: all were given, or none was. Flats that are askew are
    words too.
    """
    wishes = tuple(_flats(w, job, pictures[0]) if _is_askew(w) else w for w in job.wishes)
    pin = next((p for p in pictures if p.name == "pin"), None)
    if pin is None or pin.table == _IN_FRONT[job.clock_from]:
        return wishes
    some = [w for w in wishes if isinstance(w, Length) and _is_along(w, pin)]
    return (*(w for w in wishes if w not in some), *_words(some, job, pin))


def _is_askew(wish: Wish) -> TypeGuard[Length]:
    """Tell whether a size is across flats that face neither side nor top."""
    if not isinstance(wish, Length) or not wish.name.endswith(FLATS):
        return False
    return max(abs(c) for c in wish.direction) < _ALONG


def _flats(wish: Length, job: Job, side: Picture) -> Callout:
    """Say the size across flats on the outer edge of the one that the side view shows."""
    plain = replace(job, changed=frozenset(), was={})  # what changed is said of all words
    tip, out = wish.b, wish.direction
    if dot(out, side.look.toward_eye) < 0.0:
        tip, out = wish.a, scale(out, -1.0)
    seen = (s.curve for s in side.visible if s.piece.startswith(f"{wish.name}_"))
    level = [c for c in seen if isinstance(c, Line) and c.a[1] == c.b[1]]
    if level:
        z = max((c.a[1] for c in level), key=abs)
        tip = (tip[0], (dot(out, tip) - out[2] * z) / out[1], z)
    return Callout(wish.name, tip, out, texts(wish, plain))


def _is_along(wish: Length, pin: Picture) -> bool:
    along = abs(dot(wish.direction, pin.look.toward_eye)) > _ALONG
    return wish.pose == "retracted" and pin.shows(wish.name) and along


def _words(some: Sequence[Length], job: Job, pin: Picture) -> Iterator[Callout]:
    flags, (tip, *others) = job.flags, _tips(job.wishes, pin)

    def flag(wish: Length) -> str:
        return flags.get(wish.name, "")

    for _, group in groupby(sorted(some, key=flag), key=flag):
        wishes = list(group)
        parts = [_said(w, job) for w in wishes]
        lines = (*(f"{p}," for p in parts[:-1]), parts[-1])
        also = tuple(w.name for w in wishes[1:])
        eye = pin.look.toward_eye
        yield Callout(wishes[0].name, tip, eye, lines, others=tuple(others), also=also)


def _tips(wishes: Sequence[Wish], pin: Picture) -> list[Vec]:
    """Give two points of the outermost arc round the pin, on either side of the axis."""
    rounds = [w for w in wishes if isinstance(w, Diameter | Radius) and pin.shows(w.name)]
    sizes = [(w.radius if isinstance(w, Radius) else w.diameter / 2, w.centre) for w in rounds]
    radius, centre = max(sizes)
    a, look = radians(_OFF_AXIS), pin.look
    return [
        add(centre, add(scale(look.right, radius * cos(a)), scale(look.up, side * radius * sin(a))))
        for side in (1.0, -1.0)
    ]


def _said(wish: Length, job: Job) -> str:
    """Say a size with the words of its row on the data sheet."""
    ends = ((row.label, said) for row in job.data.held for said in (row.base, row.rod) if said)
    label = next(label for label, said in ends if wish.name in said.names)
    return f"{label.upper()} {' '.join(texts(replace(wish, note=''), job))}"
