"""Near misses, touches, clashes and containment whose answer is a line of school geometry.

The cylinder lies along the model's x and only its rod moves, so that what stands beside the barrel
keeps its distance: of a ball, a bar along or across, a ring about it, a plate.
"""

import cadquery as cq
import numpy as np
import pytest

from drafting.fitting import clash
from drafting.fitting.meshes import faces_of, triangles_of
from drafting.fitting.room import look
from drafting.fitting.step_file import Solids
from drafting.fitting.subject import subject
from drafting.shape.frame import WORLD
from drafting.shape.pieces import Ball, Part, Piece, Turned
from drafting.solids.build import build_part, kernel_volume
from tests.fitting.machines import cylinder, machine

TEXT = """
title = "Bench"
units = "mm"
[distance]
closest = 630
farthest = 900
[model]
step = "none.step"
base_pin = [0, 0, 0]
rod_pin = [630, 0, 0]
axis = [0, -1, 0]
up = [0, 0, 1]
clearance = 0
"""
GAPS = (-2.0, -0.5, -0.1, -0.03, 0.0, 0.03, 0.2, 1.0, 3.0, 7.0)
FAR = 250.0
"""Where along the barrel: ports and gland are far off."""


def ball(radius, gap):
    return cq.Workplane("XY").sphere(20.0).translate((FAR, radius + 20.0 + gap, 0.0))


def along(radius, gap):
    bar = cq.Workplane("YZ", origin=(FAR - 30, 0, 0)).circle(11.0).extrude(60.0)
    return bar.translate((0.0, 0.6 * (radius + 11.0 + gap), -0.8 * (radius + 11.0 + gap)))


def across(radius, gap):
    bar = cq.Workplane("XZ", origin=(FAR, 90, 0)).circle(13.0).extrude(180.0)
    return bar.translate((0.0, 0.0, -(radius + 13.0 + gap)))


def ring(radius, gap):
    torus = cq.Workplane(cq.Solid.makeTorus(radius + gap + 6.0, 6.0))
    return torus.rotate((0, 0, 0), (0, 1, 0), 90).translate((FAR, 0.0, 0.0))


def plate(radius, gap):
    made = cq.Workplane("XY").box(80.0, 120.0, 9.0).translate((FAR, 5.0, -radius - 4.5 - gap))
    return made.rotate((0, 0, 0), (1, 0, 0), 20.0)


KINDS = (ball, along, across, ring, plate)


@pytest.fixture(scope="module")
def bench():
    m = machine(TEXT)
    s = subject(cylinder("tailboard-lift"), m)
    radius = s.numbers.barrel_outside.value / 2
    shapes = {f"{k.__name__} {g}": k(radius, g) for k in KINDS for g in GAPS}
    wall = (s.numbers.bore.value / 2 + radius) / 2
    shapes["bead"] = cq.Workplane("XY").sphere(1.5).translate((FAR, -wall, 0.0))
    shapes["in the oil"] = cq.Workplane("XY").sphere(3.0).translate((FAR, -25.0, 0.0))
    shapes["block"] = cq.Workplane("XY").box(4000, 4000, 4000)
    wrapped = tuple(w.val().wrapped for w in shapes.values())
    found = look(s, m, Solids(tuple(shapes), wrapped, {}))
    return s, found


@pytest.mark.parametrize("kind", KINDS)
def test_gaps_and_clashes_are_those_of_geometry(bench, kind):
    """A hundredth of a millimetre decides between touching and clashing."""
    _, found = bench
    for gap in GAPS:
        mine = [c for c in found.clearances if c.solid == f"{kind.__name__} {gap}"]
        (c,) = [c for c in mine if c.piece == "cylinder.barrel_outside"]
        if gap < 0.0:
            assert c.clash > 0.0, (kind, gap)
            assert c.deep <= -gap / 2 + 1e-6  # no ball of more than the overlap fits into it
        else:
            assert c.clash == 0.0, (kind, gap)
            assert c.gap == pytest.approx(gap, abs=0.002 if c.confirmed else 0.2)
            assert not c.doubt
        assert c.never <= max(gap, 0.0) + 1e-6
        assert c.step == 0.0  # nothing moves: sure for the whole travel


def test_what_is_swallowed_whole_is_told_with_its_volume(bench):
    s, found = bench
    (bead,) = [c for c in found.clearances if c.solid == "bead" and c.clash]
    assert bead.clash == pytest.approx(4 / 3 * np.pi * 1.5**3, rel=0.05)
    (oil,) = [c for c in found.clearances if c.solid == "in the oil" and c.clash]
    assert oil.piece == "cylinder.barrel_outside"
    assert oil.clash == pytest.approx(4 / 3 * np.pi * 3.0**3, rel=0.05)
    inside = [c for c in found.clearances if c.solid == "block" and c.clash]
    assert len(inside) >= len([p for p in s.cylinder.parts if p.name in ("barrel", "gland", "rod")])


def test_the_volume_shared_by_ball_and_plane_is_that_of_the_cap():
    """h deep into a ball of radius r: pi h^2 (r - h / 3)."""
    part = Part("ball", "body", (Piece("ball", Turned((Ball(-30.0, 30.0, 0.0, 30.0),)), WORLD),))
    sphere = clash.Metal(build_part(part), part)
    box = clash.Metal(cq.Workplane("XY").box(200, 200, 50).translate((0, 0, -25)).val().wrapped)
    for h in (0.5, 4.0, 12.0):
        pose = np.eye(4)
        pose[2, 3] = 30.0 - h
        found = clash.struck(sphere, box, pose)
        assert found is not None
        cap = np.pi * h * h * (30.0 - h / 3)
        assert found.volume == pytest.approx(cap, rel=0.01 + 0.12 / h)  # triangles lie inside
        assert box.holds(np.array(found.at))
        assert np.linalg.norm(np.array(found.at) - [0, 0, 30.0 - h]) < 30.0
        assert found.deep <= h / 2 + 1e-9


@pytest.mark.parametrize("name", ["tailboard-lift", "gate-latch", "hay-shuttle"])
def test_triangles_have_the_area_of_their_faces_and_close(name):
    """Against the kernel's own area and volume; flat faces exactly, round ones from inside."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    for part in cylinder(name).parts:
        shape = build_part(part)
        at, corners, bare = triangles_of(faces_of(shape))
        assert bare == 0
        sides = at[corners[:, 1]] - at[corners[:, 0]], at[corners[:, 2]] - at[corners[:, 0]]
        area = np.linalg.norm(np.cross(*sides), axis=1).sum() / 2
        props = GProp_GProps()
        BRepGProp.SurfaceProperties_s(shape, props)
        assert area == pytest.approx(props.Mass(), rel=0.02)
        made = clash.Metal(shape, part).mesh
        assert made is not None, part.name
        assert made.volume() == pytest.approx(kernel_volume(shape), rel=0.02)
