"""Kernel solids against solid geometry and against the volume of their pieces."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from drafting.errors import OutputFailed
from drafting.shape.frame import MIRROR_X, Frame, X, Y, Z, along
from drafting.shape.pieces import (
    Ball,
    Part,
    Piece,
    Prism,
    Turned,
    circle,
    cylinder,
    stepped,
    tongue,
)
from drafting.shape.volume import volume
from drafting.solids.build import build_part, kernel_volume


def _faces(shape) -> dict[str, int]:
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.TopAbs import TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    found: dict[str, int] = {}
    walk = TopExp_Explorer(shape, TopAbs_FACE)
    while walk.More():
        kind = BRepAdaptor_Surface(TopoDS.Face_s(walk.Current())).GetType().name
        found[kind] = found.get(kind, 0) + 1
        walk.Next()
    return found


def test_a_gland_is_one_revolve_with_one_face_for_each_zone():
    gland = Part(
        "gland",
        "body",
        (
            Piece("gland", stepped((0.0, 50.0), (40.0, 50.0), (60.0, 40.0))),
            Piece("more", cylinder(50.0, 10.0, 30.0)),
            Piece("bore", cylinder(20.0, -1.0, 61.0), MIRROR_X.moved(x=60.0), cut=True),
        ),
    )
    shape = build_part(gland)
    assert _faces(shape) == {"GeomAbs_Plane": 2, "GeomAbs_Cylinder": 2, "GeomAbs_Cone": 1}
    assert kernel_volume(shape) == pytest.approx(volume(gland), rel=1e-9)


def test_a_bored_ball_has_the_volume_of_its_height():
    ball = Part(
        "ball",
        "rod",
        (
            Piece("b", Turned((Ball(-25.0, 25.0, 0.0, 25.0),))),
            Piece("h", cylinder(15.0, -30.0, 30.0), cut=True),
        ),
    )
    assert kernel_volume(build_part(ball)) == pytest.approx(pi * 40.0**3 / 6, rel=1e-6)


def test_a_left_handed_frame_gives_a_solid_right_side_out():
    mirrored = Frame((0.0, 0.0, 0.0), X, Z, Y)
    eye = Part(
        "eye",
        "body",
        (
            Piece("eye", Prism(tongue(20.0, 50.0), -10.0, 10.0), mirrored),
            Piece("pin", Prism(circle(8.0), -11.0, 11.0), mirrored, cut=True),
        ),
    )
    exact = (pi * 200.0 + 50.0 * 40.0 - pi * 64.0) * 20.0
    assert kernel_volume(build_part(eye)) == pytest.approx(exact, rel=1e-9)


@pytest.mark.parametrize("change", [0.0, 3e-4, -3e-4])
def test_a_boss_that_touches_a_step_is_still_a_solid(change):
    """The boss wall touches the flank of the flange at x = 18: the kernel's fuse fails on it."""
    place = replace(along(Z, hint=X), origin=(34.0, 0.0, 0.0))
    part = Part(
        "barrel",
        "body",
        (
            Piece("tube", stepped((0.0, 46.0), (18.0, 46.0), (18.0, 44.0), (260.0, 44.0))),
            Piece("boss", cylinder(16.0 + change, 0.0, 56.0), place),
        ),
    )
    assert kernel_volume(build_part(part)) == pytest.approx(volume(part), rel=2e-3)


def test_a_part_cut_away_whole_is_refused():
    gone = Part(
        "gone",
        "body",
        (Piece("a", cylinder(5.0, 0.0, 9.0)), Piece("b", cylinder(6.0, -1.0, 10.0), cut=True)),
    )
    with pytest.raises(OutputFailed, match="no metal is left of gone"):
        build_part(gone)
