"""The extended view in half section against the kernel: its solids, cut by its own boolean.

The drawing cuts in its own list of pieces and projects that; here the solids are built whole, a
quarter of space is taken from them by the kernel, and its hidden-line view is made of the rest.
What stays whole by convention (rod, bolts through the plane, mounts) is taken from the picture;
tests/drawing/test_half_section.py holds it. What is seen through the mouth of a port is not yet
taken out of it.
"""

from __future__ import annotations

from typing import Any

from drafting.drawing.dimension.picture import Picture
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.views.looks import at_crest, pictures_of
from drafting.model.cylinder import Cylinder
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from tests.agree.compare import Difference, visible_differences
from tests.agree.oracle import eased

SPACE = 20_000.0
"""Half the side (mm) of what is taken away: larger than every case."""


def extended_half(c: Cylinder) -> tuple[Picture, list[Part]]:
    """Give the drawn picture, and the parts that it shows, uncut, tapped holes at their crest."""
    job = sheet_job(c)
    picture = next(p for p in pictures_of(job) if p.name == "extended")
    return picture, [at_crest(p, job.symbols) for p in job.extended]


def half_differences(
    picture: Picture,
    parts: list[Part],
    fixed: tuple[str, ...],
    aside: float = 0.0,
    court: bool = True,
) -> list[Difference]:
    """Compare the visible lines both ways; ``aside`` moves the kernel's cut, for tests of this."""
    section = picture.section
    assert section is not None
    own = {p.name for p in parts if any(q.name.startswith("cylinder.") for q in p.pieces)}
    left = -SPACE if section.beyond is None else section.beyond
    shapes = []
    for part in parts:
        thin = part if part.name in fixed else eased(part)
        if part in picture.cut:
            shapes.append(_cut(build_part(thin), left, aside))
        elif part.name not in own:
            shapes.append(build_part(thin))
        elif (kept := section.cleared(thin)) is not None:
            shapes.append(build_part(kept))
    strokes = [s for s in picture.strokes if s.visible]
    return visible_differences(strokes, shapes, picture.look, 0.0, court)


def _cut(shape: Any, left: float, aside: float) -> Any:
    """Take away what lies right of ``left``, nearer than the axis (-Y) and above it (+Z)."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    corner, other = gp_Pnt(left, -SPACE, 0.0), gp_Pnt(SPACE, aside, SPACE)
    done = BRepAlgoAPI_Cut(shape, BRepPrimAPI_MakeBox(corner, other).Shape())
    assert done.IsDone()
    return done.Shape()
