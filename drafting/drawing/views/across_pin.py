"""Sizes across a pin that is turned askew and hides behind the cylinder, said in words.

The end view alone has them in true size. Seen from the other end the mount hides there, and what
they would be measured from lies on other parts: words in the view along the pin say them.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import texts
from drafting.drawing.dimension.picture import Picture
from drafting.settle.clock import hour, seen_from_rod
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec, dot, sub

_ALONG = 1.0 - 1e-6
_WORDS = {"width": "WIDTH", "gap": "GAP"}
"""What stands before a size across a pin whose wish has no note."""
_IN_FRONT = {"rod": "rod_mount", "base": "body_mount"}
"""The mount that the end view sees from a side."""


def said_across(job: Job, pictures: Sequence[Picture]) -> tuple[Wish, ...]:
    """Give the wishes of a job, those across a hidden pin as words in the view along that pin."""
    pin = next((p for p in pictures if p.name == "pin"), None)
    if pin is None or pin.table == _IN_FRONT[job.clock_from]:
        return job.wishes
    return tuple(
        _words(w, job, pin)
        if isinstance(w, Length) and pin.shows(w.name) and _is_along(w, pin.look.toward_eye)
        else w
        for w in job.wishes
    )


def _is_along(wish: Length, eye: Vec) -> bool:
    return wish.pose == "retracted" and abs(dot(wish.direction, eye)) > _ALONG


def _words(wish: Length, job: Job, pin: Picture) -> Callout:
    first, *rest = texts(wish, job)
    if not wish.note:
        word = _WORDS.get(wish.name.partition(".")[2])
        first = f"{word} {first}" if word else f"{first} {_to_face(wish, job)}"
    return Callout(wish.name, wish.a, pin.look.toward_eye, (first, *rest))


def _to_face(wish: Length, job: Job) -> str:
    """Say to which face a size goes that begins on the centre line, by its hour."""
    a, b = (p[1:] for p in (wish.a, wish.b))
    y, z = b if not any(a) else sub((0.0, *a), (0.0, *b))[1:]
    return f"TO {hour(round(seen_from_rod(degrees(atan2(y, z)), job.clock_from), 3))} FACE"
