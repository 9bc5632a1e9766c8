"""Section faces reckoned by hand; source: plane geometry (area by Green's theorem)."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest

from drafting.drawing.project import section
from drafting.drawing.project.project import project
from drafting.drawing.project.section import Section, section_faces
from drafting.drawing.sheet.on_paper import points
from drafting.drawing.sheet.strokes import SIDE, Arc, Line
from drafting.errors import OutputFailed
from drafting.shape.frame import Frame, X, Y, Z
from drafting.shape.pieces import Part, Piece, Prism, circle, cylinder

TUBE = Part(
    "tube",
    "body",
    (
        Piece("tube", cylinder(30.0, 0.0, 100.0)),
        Piece("bore", cylinder(20.0, -1.0, 101.0), cut=True),
    ),
)
ROD = Part("rod", "rod", (Piece("rod", cylinder(20.0, -20.0, 130.0)),), hatched=False)
SLEEVE = Part(
    "sleeve",
    "body",
    (
        Piece("out", cylinder(35.0, 100.0, 120.0)),
        Piece("in", cylinder(20.0, 99.0, 121.0), cut=True),
    ),
)


def _area(loops) -> float:
    """Add up x dy - y dx, loops taken as they come, holes told by lying inside the first."""
    areas = []
    for loop in loops:
        points = _walk(loop)
        areas.append(abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(points)) / 2))
    return max(areas) - sum(sorted(areas)[:-1]) if len(loops) > 1 else areas[0]


def _walk(loop):
    chains = []
    for c in loop:
        if isinstance(c, Line):
            chains.append([c.a, c.b])
        else:
            assert isinstance(c, Arc)
            ts = [c.a0 + (c.a1 - c.a0) * k / 720 for k in range(721)]
            chains.append(
                [(c.centre[0] + c.radius * cos(t), c.centre[1] + c.radius * sin(t)) for t in ts]
            )
    points = chains[0]
    for chain in chains[1:]:
        near = hypot(points[-1][0] - chain[0][0], points[-1][1] - chain[0][1]) < 1e-6
        points = points + (chain if near else chain[::-1])
    assert points[0] == pytest.approx(points[-1], abs=1e-6)
    return points


def test_a_half_section_of_a_tube_is_one_wall():
    (face,) = section_faces([TUBE, ROD], Section(SIDE, above=0.0), pitch=4.0)
    assert face.part == "tube"
    assert len(face.loops) == 1
    assert _area(face.loops) == pytest.approx(100.0 * 10.0)
    for a, b in face.lines:
        assert all(20.0 - 1e-6 <= p[1] <= 30.0 + 1e-6 for p in (a, b))


def test_a_full_section_of_a_tube_is_two_walls():
    (face,) = section_faces([TUBE], Section(SIDE))
    assert len(face.loops) == 2
    assert {round(min(p[1] for p in _walk(loop)), 6) for loop in face.loops} == {-30.0, 20.0}


def test_hatch_lines_cover_the_face_evenly():
    """Length of lines times pitch is the area, for any pattern of parallel lines."""
    eye = Part(
        "eye",
        "body",
        (
            Piece("eye", Prism(circle(40.0), -10.0, 10.0), Frame((0.0, 0.0, 0.0), X, Z, Y)),
            Piece("pin", Prism(circle(15.0), -11.0, 11.0), Frame((0.0, 0.0, 0.0), X, Z, Y), True),
        ),
    )
    (face,) = section_faces([eye], Section(SIDE), pitch=0.5)
    length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in face.lines)
    assert length * face.pitch == pytest.approx(pi * (40.0**2 - 15.0**2), rel=1e-3)
    assert _area(face.loops) == pytest.approx(pi * (40.0**2 - 15.0**2), rel=1e-4)
    for a, b in face.lines:
        assert (b[1] - a[1]) == pytest.approx(b[0] - a[0])


def test_touching_parts_are_hatched_apart():
    first, second = section_faces([TUBE, SLEEVE, ROD], Section(SIDE, above=0.0))
    assert (first.angle, first.pitch) != (second.angle, second.pitch)


def test_what_the_plane_misses_is_not_hatched():
    assert section_faces([TUBE], Section(SIDE, depth=31.0)) == ()
    assert section_faces([ROD], Section(SIDE)) == ()


def test_a_half_section_shows_the_bore_above_and_hides_it_below():
    strokes = project([TUBE, ROD], SIDE, Section(SIDE, above=0.0))
    flat = [s for s in strokes if isinstance(s.curve, Line) and s.curve.a[1] == s.curve.b[1]]
    over = [s for s in flat if s.curve.a[0] <= 0.0 and s.curve.b[0] >= 100.0]
    assert {s.curve.a[1] for s in over if s.visible} == {-30.0, 20.0, 30.0}
    assert {s.curve.a[1] for s in flat if not s.visible} == {-20.0}
    assert not [
        s for s in strokes if isinstance(s.curve, Line) and s.curve.a[1] == s.curve.b[1] == 0.0
    ]


def test_what_all_but_touches_leaves_no_open_boundary():
    """A boss that stands 2 nm out of a tube where the plane cuts it: a speck 10 um long."""
    up = Frame((50.0, 0.0, 0.0), (0.0, 0.5, 0.75**0.5), (0.0, -(0.75**0.5), 0.5), (1.0, 0.0, 0.0))
    boss = Piece("boss", cylinder(15.0 + 1e-6, 20.0, 40.0), up)
    (face,) = section_faces([replace(TUBE, pieces=(*TUBE.pieces, boss))], Section(SIDE, above=0.0))
    assert len(face.loops) == 1
    assert all(abs(b[0] - a[0]) > 1.0 or abs(b[1] - a[1]) > 1.0 for a, b in _ends(face.loops[0]))


def test_a_boundary_that_does_not_close_is_refused():
    sides = [
        Line((0.0, 0.0), (9.0, 0.0)),
        Line((9.0, 0.0), (9.0, 9.0)),
        Line((9.0, 9.0), (0.0, 9.0)),
    ]
    with pytest.raises(OutputFailed, match="does not close"):
        section._chained(sides, "tube")
    assert len(section._chained([*sides, Line((0.0, 9.0), (0.0, 0.0))], "tube")) == 1


def _ends(loop):
    return [(track[0], track[-1]) for track in (points(c, 0.1) for c in loop)]
