"""A still picture of the parts from a corner, for where no 3D is shown: lines, no kernel."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import points
from drafting.drawing.sheet.strokes import Look
from drafting.shape.pieces import Part

CORNER = Look((0.8660254037844386, 0.5, 0.0), (-0.25, 0.4330127018922193, 0.8660254037844387))
"""From in front, to the left and above; right and up on paper are square to each other."""
_ERROR = 0.1
"""How far a line may leave its curve (mm)."""
_MARGIN = 0.03


def still(parts: Sequence[Part]) -> str:
    """Give an SVG element with the visible edges."""
    tracks = [points(s.curve, _ERROR) for s in project(parts, CORNER) if s.visible]
    xs, ys = ([p[k] for t in tracks for p in t] for k in (0, 1))
    size = max(max(xs) - min(xs), max(ys) - min(ys))
    margin = _MARGIN * size
    box = (min(xs) - margin, -max(ys) - margin, max(xs) - min(xs) + 2 * margin,
           max(ys) - min(ys) + 2 * margin)  # fmt: skip
    path = "".join("M" + "L".join(f"{x:.1f} {-y:.1f}" for x, y in t) for t in tracks)
    return (
        f'<svg viewBox="{" ".join(f"{v:.1f}" for v in box)}" role="img" '
        'aria-label="the cylinder from a corner, retracted"><path fill="none" '
        f'stroke="currentColor" stroke-width="{size / 600:.2f}" stroke-linecap="round" '
        f'd="{path}"/></svg>'
    )
