"""Sections: what is cut away, the faces laid open, and the hatch lines on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, cos, floor, hypot, inf, radians, sin

import numpy as np

from drafting.drawing.project.carriers import Run
from drafting.drawing.project.flatten import Flat
from drafting.drawing.project.join import merged
from drafting.drawing.sheet.on_paper import box as curve_box
from drafting.drawing.sheet.on_paper import union
from drafting.drawing.sheet.strokes import Curve, EllipseArc, Hatch, Line, Look, Point2, Poly
from drafting.errors import OutputFailed
from drafting.records import dataclass
from drafting.shape.body import body
from drafting.shape.candidates import SECTION
from drafting.shape.edges import part_edges
from drafting.shape.faces import part_faces
from drafting.shape.frame import Frame, Vec, add, dot, scale
from drafting.shape.pieces import Part, Piece, Prism, bounds, box, extent
from drafting.shape.space_curves import Curves

MARGIN = 10.0
"""How far the cutting box reaches past the part (mm)."""
GAP = 1e-6
"""Ends of boundary curves nearer than this (mm) meet; hatch rays run this far behind the plane."""
SPECK = 0.05
"""A boundary shorter than this (mm) is seen at no scale, and may be open."""
STYLES = ((45.0, 1.0), (135.0, 1.0), (45.0, 0.6), (135.0, 0.6), (60.0, 0.8), (120.0, 0.8))
"""Angle (degrees) and share of the pitch, in the order in which touching parts take them."""


@dataclass(frozen=True, slots=True)
class Section:
    """A cut square to a look: all metal nearer to the eye than ``depth`` is taken away.

    ``depth`` is the distance (mm) of the plane from the origin towards the eye. With ``above`` set,
    only what lies above that height on paper is taken: a half section. With ``beyond`` set, only
    what lies to the right of that place is taken. Parts that are not hatched (rod, pin, ball) stay
    whole.
    """

    look: Look
    depth: float = 0.0
    above: float | None = None
    beyond: float | None = None

    def applied(self, parts: Sequence[Part]) -> tuple[Part, ...]:
        """Give the parts with one cut more where they are cut, without what is taken away."""
        found = (self.cut(p) if p.hatched else self.cleared(p) for p in parts)
        return tuple(p for p in found if p is not None)

    def cleared(self, part: Part) -> Part | None:
        """Give a part that is not cut without the pieces before the plane; None without any left.

        A bolt through the plane stays whole, one before it is taken away with the rest.
        """
        bottom = -inf if self.above is None else self.above
        kept = tuple(
            p
            for p in part.pieces
            if p.cut
            or extent(p, self.look.toward_eye)[0] < self.depth
            or extent(p, self.look.up)[0] < bottom
        )
        return replace(part, pieces=kept) if any(not p.cut for p in kept) else None

    def cut(self, part: Part) -> Part:
        """Give a part with the cut as its last piece; the part itself when nothing is cut."""
        lo, hi = bounds(part.pieces)
        right, up, eye = (
            _reach(lo, hi, d) for d in (self.look.right, self.look.up, self.look.toward_eye)
        )
        bottom = up[0] - MARGIN if self.above is None else self.above
        left = right[0] - MARGIN if self.beyond is None else max(self.beyond, right[0] - MARGIN)
        if eye[1] <= self.depth or up[1] <= bottom or right[1] <= left:
            return part
        outline = box(left, right[1] + MARGIN, bottom, up[1] + MARGIN)
        frame = Frame((0.0, 0.0, 0.0), self.look.right, self.look.up, self.look.toward_eye)
        away = Piece(SECTION, Prism(outline, self.depth, eye[1] + MARGIN), frame, cut=True)
        return replace(part, pieces=(*part.pieces, away))


def section_faces(parts: Sequence[Part], section: Section, pitch: float = 4.0) -> tuple[Hatch, ...]:
    """Give the cut face of every hatched part that the plane meets, in view millimetres.

    Loops are closed chains of exact curves, outer ones and holes. Parts whose boxes touch get
    different angles or pitches; ``pitch`` is the distance of hatch lines (mm) for the first.
    Raises ``OutputFailed`` when a boundary does not close.
    """
    cut = [(p, section.cut(p)) for p in parts if p.hatched]
    cut = [(whole, part) for whole, part in cut if part is not whole]
    styles: list[tuple[float, float]] = []
    out = []
    for k, (whole, part) in enumerate(cut):
        near = {styles[i] for i in range(k) if _touch(cut[i][0], whole)}
        angle, share = next((s for s in STYLES if s not in near), STYLES[k % len(STYLES)])
        styles.append((angle, share))
        loops = _loops(part, section.look)
        if loops:
            lines = _hatched(whole, section, angle, share * pitch)
            out.append(Hatch(part.name, loops, angle, share * pitch, lines))
    return tuple(out)


def _touch(a: Part, b: Part) -> bool:
    (alo, ahi), (blo, bhi) = bounds(a.pieces), bounds(b.pieces)
    return all(p <= s + 0.1 and r <= q + 0.1 for p, q, r, s in zip(alo, ahi, blo, bhi, strict=True))


def _reach(lo: Vec, hi: Vec, d: Vec) -> tuple[float, float]:
    corners = [
        dot((x, y, z), d) for x in (lo[0], hi[0]) for y in (lo[1], hi[1]) for z in (lo[2], hi[2])
    ]
    return min(corners), max(corners)


# --- boundary ----------------------------------------------------------------------------------


def _loops(part: Part, look: Look) -> tuple[tuple[Curve, ...], ...]:
    faces = part_faces(part)
    # The cut is the last piece, and the first face of a prism is its lower end: the plane.
    plane = next(k for k, f in enumerate(faces) if f.piece == len(part.pieces) - 1)
    own = [c for c in part_edges([part])[0] if plane in c.faces]
    if not own:
        return ()
    curves = Curves(own)
    flat = Flat(curves, look)
    runs = [Run(k, c.t0, c.t1, True, part.name, "", "section") for k, c in enumerate(own)]
    strokes = merged(flat, runs, [faces], [0] * len(own), look)
    return _chained([s.curve for s in strokes], part.name)


def _chained(curves: Sequence[Curve], part: str) -> tuple[tuple[Curve, ...], ...]:
    """Give closed loops; what is left of surfaces that all but touch is no loop."""
    loops = []
    left = list(curves)
    while left:
        loop = [left.pop(0)]
        start, end = _ends(loop[0])
        while not _same(start, end):
            near = (k for k, c in enumerate(left) if any(_same(p, end) for p in _ends(c)))
            if (k := next(near, None)) is None:
                break
            a, b = _ends(left[k])
            end = b if _same(a, end) else a
            loop.append(left.pop(k))
        if _same(start, end):
            loops.append(tuple(loop))
        elif not _is_speck(loop):
            raise OutputFailed(
                f"the section of {part} does not close near ({end[0]:.3f}, {end[1]:.3f})"
            )
    return tuple(loops)


def _is_speck(curves: Sequence[Curve]) -> bool:
    x0, y0, x1, y1 = union([curve_box(c) for c in curves])
    return hypot(x1 - x0, y1 - y0) < SPECK


def _same(a: Point2, b: Point2) -> bool:
    return hypot(a[0] - b[0], a[1] - b[1]) < GAP


def _ends(curve: Curve) -> tuple[Point2, Point2]:
    if isinstance(curve, Line):
        return curve.a, curve.b
    if isinstance(curve, Poly):
        return curve.points[0], curve.points[-1]
    if isinstance(curve, EllipseArc):
        return _swung(curve, curve.t0), _swung(curve, curve.t1)
    whole = EllipseArc(curve.centre, (curve.radius, 0.0), (0.0, curve.radius), curve.a0, curve.a1)
    return _ends(whole)


def _swung(e: EllipseArc, t: float) -> Point2:
    c, s = cos(t), sin(t)
    return (
        e.centre[0] + c * e.major[0] + s * e.minor[0],
        e.centre[1] + c * e.major[1] + s * e.minor[1],
    )


# --- hatch lines -------------------------------------------------------------------------------


def _hatched(
    part: Part, section: Section, angle: float, pitch: float
) -> tuple[tuple[Point2, Point2], ...]:
    """Give hatch lines through the cut metal; lines of one part lie on one grid."""
    look = section.look
    d2, n2 = (cos(radians(angle)), sin(radians(angle))), (-sin(radians(angle)), cos(radians(angle)))
    lo, hi = bounds(part.pieces)
    corners = [(x, y) for x in _reach(lo, hi, look.right) for y in _reach(lo, hi, look.up)]
    across = [n2[0] * x + n2[1] * y for x, y in corners]
    rows = range(ceil(min(across) / pitch), floor(max(across) / pitch) + 1)
    if not rows:
        return ()
    feet = [(n2[0] * k * pitch, n2[1] * k * pitch) for k in rows]
    plane = scale(look.toward_eye, section.depth - GAP)
    starts = [add(plane, _lifted(look, p)) for p in feet]
    runs = body(part).runs(np.array(starts), _lifted(look, d2))
    lines = []
    for (x, y), row in zip(feet, runs, strict=True):
        for a, b in row:
            a, b = _inside(section, (x, y), d2, a, b)
            if b - a > 0.01:
                ends = [(x + d2[0] * s, y + d2[1] * s) for s in (a, b)]
                lines.append((ends[0], ends[1]))
    return tuple(lines)


def _inside(section: Section, foot: Point2, d: Point2, a: float, b: float) -> tuple[float, float]:
    """Keep of a stretch of a hatch line (from ``foot`` along ``d``) what lies on the cut face."""
    if section.above is not None:
        a = max(a, (section.above - foot[1]) / d[1])
    if section.beyond is not None:
        at = (section.beyond - foot[0]) / d[0]
        a, b = (max(a, at), b) if d[0] > 0 else (a, min(b, at))
    return a, b


def _lifted(look: Look, p: Point2) -> Vec:
    return add(scale(look.right, p[0]), scale(look.up, p[1]))
