"""Pieces to strokes: what a look at parts shows, visible and hidden, without a solid kernel.

A stretch of an edge between two meetings on paper is visible as a whole or hidden as a whole. One
point of it tells: rays towards the eye, one on either side of the stroke, so close that only the
stroke lies between; when both run into metal the stretch is hidden. Grazing rays never decide, so
faces of different parts may touch (rod in gland, piston in bore).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import numpy as np

from drafting.arrays import Flags, Floats, Hits, Ints, folded
from drafting.drawing.project.carriers import Run
from drafting.drawing.project.flatten import Flat
from drafting.drawing.project.join import merged
from drafting.drawing.project.section import Section
from drafting.drawing.sheet.strokes import Look, Stroke
from drafting.shape.body import body
from drafting.shape.candidates import SECTION
from drafting.shape.edges import contours, inner, part_edges, split_stretches
from drafting.shape.faces import Face, part_faces
from drafting.shape.frame import dot
from drafting.shape.pieces import Part
from drafting.shape.space_curves import LINE, Curve3, Curves, meet

ASIDE = 1e-5
"""How far beside the stroke (mm) the two rays start."""
AHEAD = 0.01
"""How far in front of the stroke (mm) the rays start, clear of its own faces."""
THICK = 1e-3
"""Metal thinner than this along the ray (mm) hides nothing."""


def project(
    parts: Sequence[Part],
    look: Look,
    section: Section | None = None,
    hidden: bool = True,
) -> tuple[Stroke, ...]:
    """Give the strokes of the parts in a look, in view millimetres; ``hidden`` ones if asked for.

    Exact lines, arcs and ellipse arcs; other crossings as points within 0.005 mm of the curve.
    Nothing is drawn twice: where strokes coincide the visible one stays. Edges of a section plane
    that is not square to the look are left out (the centre line stands there by convention).
    """
    if section is not None:
        parts = section.applied(parts)
    curves, owner = _gathered(parts, look)
    if not len(curves):
        return ()
    every = np.arange(len(curves))
    flat = Flat(curves, look)
    row, t = flat.meetings()
    faces = [part_faces(p) for p in parts]
    turn_row, turn_t = _turnings(curves, faces, owner, look)
    row, t = np.concatenate([row, turn_row]), np.concatenate([t, turn_t])
    row, t0, t1 = split_stretches(curves, every, curves.t0, curves.t1, row, t)
    seen = _seen(flat, row, inner(t0, t1), parts, look)
    runs = []
    drawn = [_is_drawn(c, parts[o], faces[o], look) for c, o in zip(curves.all, owner, strict=True)]
    for i, a, b, visible in _joined(row, t0, t1, seen):
        if drawn[i] and (visible or hidden):
            part, curve = parts[owner[i]], curves.all[i]
            runs.append(Run(i, a, b, visible, part.name, part.pieces[curve.piece].name, curve.kind))
    return merged(flat, runs, faces, owner, look)


def _gathered(parts: Sequence[Part], look: Look) -> tuple[Curves, list[int]]:
    """Give the stretches of edges and contours of all parts, and the part of each."""
    curves: list[Curve3] = []
    owner: list[int] = []
    eye = look.toward_eye
    both = zip(part_edges(parts), contours([(p, eye) for p in parts]), strict=True)
    for k, (edges, turns) in enumerate(both):
        own = [
            c for c in (*edges, *turns) if not (c.form == LINE and abs(dot(c.a, eye)) > 1 - 1e-14)
        ]
        curves += own
        owner += [k] * len(own)
    return Curves(curves), owner


def _is_drawn(curve: Curve3, part: Part, own: Sequence[Face], look: Look) -> bool:
    """Tell whether a section's edge lies on the plane that faces the eye."""
    if curve.kind != "section":
        return True
    faces = [own[k] for k in curve.faces]
    return any(
        part.pieces[f.piece].name == SECTION and abs(dot(f.n, look.toward_eye)) > 1 - 1e-9
        for f in faces
    ) and not all(part.pieces[f.piece].name == SECTION for f in faces)


def _turnings(
    curves: Curves, faces: Sequence[Sequence[Face]], owner: list[int], look: Look
) -> Hits:
    """Give (row, t) where a face beside a bent edge turns away from the eye."""
    rows: list[int] = []
    quadrics: list[Floats] = []
    for row in np.flatnonzero(curves.form != LINE).tolist():
        for k in set(curves.all[row].faces):
            face = faces[owner[row]][k]
            if face.kind != "plane":
                rows.append(row)
                quadrics.append(face.quadric)
    if not rows:
        return np.zeros(0, int), np.zeros(0)
    w = np.array(quadrics)[:, :, :3] @ np.array(look.toward_eye)
    size = np.sqrt(folded(np.add, w[:, :3] ** 2))
    turned = size > 1e-12
    index, w, size = np.array(rows)[turned], w[turned], size[turned]
    planes = np.zeros((len(w), 4, 4))
    planes[:, 3, :3] = planes[:, :3, 3] = w[:, :3]
    planes[:, 3, 3] = 2 * w[:, 3]
    at, t = meet(curves, index, planes / size[:, None, None])
    return index[at], t


def _seen(flat: Flat, row: Ints, t: Floats, parts: Sequence[Part], look: Look) -> Flags:
    """Tell for points of stretches whether an eye far away sees them."""
    p = flat.curves.at(row, t)
    d = flat.curves.tangent(row, t) @ flat.paper
    d /= np.maximum(np.hypot(*d.T), 1e-300)[:, None]
    side = ASIDE * (d[:, :1] * np.array(look.up) - d[:, 1:] * np.array(look.right))
    one, other = _free(np.concatenate([p + side, p - side]), parts, look).reshape(2, -1)
    return one | other


def _free(p: Floats, parts: Sequence[Part], look: Look) -> Flags:
    free = np.ones(len(p), bool)
    paper = np.array([look.right, look.up]).T
    eye = np.array(look.toward_eye)
    (x, y), away = (p @ paper).T, p @ eye
    for part in parts:
        solid = body(part)
        corners = np.array([*product(*zip(solid.lo, solid.hi, strict=True))])
        flat = corners @ paper
        (x0, y0), (x1, y1) = flat.min(0).tolist(), flat.max(0).tolist()
        near = free & (away < (corners @ eye).max())
        near &= (x >= x0) & (x <= x1) & (y >= y0) & (y <= y1)
        (rows,) = near.nonzero()
        if len(rows):
            free[rows] = ~solid.hides(p.take(rows, 0), look.toward_eye, AHEAD, THICK)
    return free


def _joined(row: Ints, t0: Floats, t1: Floats, seen: Flags) -> list[tuple[int, float, float, bool]]:
    out: list[tuple[int, float, float, bool]] = []
    for i, a, b, s in zip(row.tolist(), t0.tolist(), t1.tolist(), seen.tolist(), strict=True):
        if out and out[-1][0] == i and out[-1][3] == s:
            out[-1] = (i, out[-1][1], b, s)
        else:
            out.append((i, a, b, s))
    return out
