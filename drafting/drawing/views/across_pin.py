"""Sizes along a pin that is turned askew and hides behind the cylinder, said in words.

The end view alone has them in true size. Seen from the other end the mount hides there, and what
they would be measured from lies on other parts: words in the view along the pin say them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from math import cos, radians, sin

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import texts
from drafting.drawing.dimension.picture import Picture
from drafting.settle.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import Vec, add, dot, scale

_ALONG = 1.0 - 1e-6
_IN_FRONT = {"rod": "rod_mount", "base": "body_mount"}
"""The mount that the end view sees from a side."""
_OFF_AXIS = 50.0
"""Where the words point at the outermost arc round the pin: degrees from the cylinder's axis."""


def said_across(job: Job, pictures: Sequence[Picture]) -> tuple[Wish, ...]:
    """Give the wishes of a job, those along a hidden pin as words in the view that looks along it.

    Sizes of one origin share their words: all were given, or none was.
    """
    pin = next((p for p in pictures if p.name == "pin"), None)
    if pin is None or pin.table == _IN_FRONT[job.clock_from]:
        return job.wishes
    some = [w for w in job.wishes if isinstance(w, Length) and _is_along(w, pin)]
    return (*(w for w in job.wishes if w not in some), *_words(some, job, pin))


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
