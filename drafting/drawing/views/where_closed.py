"""Where the rod's end stands closed, in the view that shows it open: there the stroke begins.

A mount stands there in phantom, by its outlines. A bare end is its face across the rod, and so is a
mount that has not moved off its own place: two outlines within each other could not be read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Line, Look
from drafting.settle.wishes import Length
from drafting.shape.pieces import Part

_MOUNT = "rod_mount."
_END = "rod_mount.end"
_SAME = 1e-6


def closed_marks(job: Job, picture: Picture) -> tuple[Mark, ...]:
    """Give what stands in phantom of the closed rod; nothing where another cylinder does."""
    if picture.name != "extended" or job.beneath[1]:
        return ()
    mount = _mount(job.retracted)
    if not mount:
        return _face(outlines_of(_rod(job.retracted), picture.look))
    outlines = outlines_of(mount, picture.look)
    x0, y0, x1, y1 = union([box(m.curve) for m in outlines])
    stroke = job.lengths[0]
    if x1 - x0 <= stroke:
        return outlines
    at = [w.a[0] for w in job.wishes if isinstance(w, Length) and w.name == "cylinder.stroke"]
    return tuple(Mark(Line((x, y0), (x, y1)), "phantom", _END) for x in at)


@lru_cache(maxsize=8)
def outlines_of(phantoms: tuple[Part, ...], look: Look) -> tuple[Mark, ...]:
    """Give the outlines of what stands elsewhere or is no metal, by what is seen of it alone."""
    strokes = project(phantoms, look, hidden=False)
    return tuple(Mark(s.curve, "phantom", s.piece) for s in strokes)


def _mount(retracted: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(
        replace(p, pieces=pieces)
        for p in retracted
        if (pieces := tuple(q for q in p.pieces if q.name.startswith(_MOUNT)))
        and not all(q.cut for q in pieces)
    )


def _rod(retracted: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(p for p in retracted if p.owner == "rod")


def _face(marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Give the outermost upright edge: the end of a bare rod."""
    end = max((box(m.curve)[2] for m in marks), default=0.0)
    own = [b for m in marks if (b := box(m.curve))[0] > end - _SAME]
    if not own:
        return ()
    _, y0, _, y1 = union(own)
    return (Mark(Line((end, y0), (end, y1)), "phantom", _END),)
