"""Where the rod's end stands closed, in the view that shows it open: there the stroke begins.

A mount stands there in phantom, by its outlines. Of one that has not moved off its own place they
are drawn as far as the mount does not lie over them, as two outlines within each other could not be
read; the hole and a line across it tell where the stroke is measured from. A bare end is its face
across the rod.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import box, clip, union
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import Arc, Line, Look
from drafting.settle.wishes import Length
from drafting.shape.pieces import Part, Piece
from drafting.shape.space_curves import TURN

_MOUNT = "rod_mount."
_END = "rod_mount.end"
_ROOT = "rod_mount.root"
"""What of a mount is buried in the rod, and alone would stand out of its face."""
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
    holes = [m for x in at for m in _hole(outlines, x)]
    free = [
        replace(m, curve=c)
        for m in outlines
        if m not in holes
        for c in clip(m.curve, (x0, y0, x0 + stroke, y1))
    ]
    return (*free, *holes, *(Mark(Line((x, y0), (x, y1)), "phantom", _END) for x in at))


@lru_cache(maxsize=8)
def outlines_of(phantoms: tuple[Part, ...], look: Look) -> tuple[Mark, ...]:
    """Give the outlines of what stands elsewhere or is no metal, by what is seen of it alone."""
    strokes = project(phantoms, look, hidden=False)
    return tuple(Mark(s.curve, "phantom", s.piece) for s in strokes)


def _hole(outlines: Sequence[Mark], x: float) -> list[Mark]:
    """Give the smallest whole circle about ``x``, if there is one: the hole of a pin."""
    about = [
        (m.curve.radius, k)
        for k, m in enumerate(outlines)
        if isinstance(m.curve, Arc)
        and abs(m.curve.centre[0] - x) < _SAME
        and m.curve.a1 - m.curve.a0 > TURN - _SAME
    ]
    return [outlines[min(about)[1]]] if about else []


def _mount(retracted: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(
        replace(p, pieces=pieces)
        for p in retracted
        if (pieces := tuple(q for q in p.pieces if _stands(q))) and not all(q.cut for q in pieces)
    )


def _stands(piece: Piece) -> bool:
    return piece.name.startswith(_MOUNT) and not piece.name.startswith(_ROOT)


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
