"""Sections: what is cut away, the faces laid open, and the hatch lines on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.drawing.edges import SECTION
from drafting.drawing.strokes import Look
from drafting.model.frame import Frame, Vec, dot
from drafting.model.pieces import Part, Piece, Prism, bounds, box


@dataclass(frozen=True, slots=True)
class Section:
    """A cut square to a look: all metal nearer to the eye than ``depth`` is taken away.

    ``depth`` is the distance (mm) of the plane from the origin towards the eye. With ``above`` set,
    only what lies above that height on paper is taken: a half section. Parts that are not hatched
    (rod, pin, ball) stay whole.
    """

    look: Look
    depth: float = 0.0
    above: float | None = None

    def applied(self, parts: Sequence[Part]) -> tuple[Part, ...]:
        """Give the parts with one cut more where they are cut."""
        return tuple(self._cut(p) if p.hatched else p for p in parts)

    def _cut(self, part: Part) -> Part:
        lo, hi = bounds(part.pieces)
        right, up, eye = (
            _reach(lo, hi, d) for d in (self.look.right, self.look.up, self.look.toward_eye)
        )
        floor = up[0] - 10.0 if self.above is None else self.above
        if eye[1] <= self.depth or up[1] <= floor:
            return part
        outline = box(right[0] - 10.0, right[1] + 10.0, floor, up[1] + 10.0)
        frame = Frame((0.0, 0.0, 0.0), self.look.right, self.look.up, self.look.toward_eye)
        away = Piece(SECTION, Prism(outline, self.depth, eye[1] + 10.0), frame, cut=True)
        return replace(part, pieces=(*part.pieces, away))


def _reach(lo: Vec, hi: Vec, d: Vec) -> tuple[float, float]:
    corners = [
        dot((x, y, z), d) for x in (lo[0], hi[0]) for y in (lo[1], hi[1]) for z in (lo[2], hi[2])
    ]
    return min(corners), max(corners)
