"""Volumes against the formulas of solid geometry (Bronshtein, Handbook of Mathematics, stereometry,
from memory: frustum, spherical segment; Steinmetz solid 16 r^3 / 3)."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from drafting.shape.frame import MIRROR_X, Z, along
from drafting.shape.pieces import (
    Ball,
    Part,
    Piece,
    Prism,
    Turned,
    box,
    cylinder,
    hexagon,
    stepped,
    tongue,
)
from drafting.shape.volume import outline_area, volume


def _volume(*pieces: Piece) -> float:
    return volume(Part("part", "body", pieces))


def test_coaxial_parts_are_exact():
    frustum = pi * 30.0 * (20.0**2 + 20.0 * 10.0 + 10.0**2) / 3
    assert _volume(Piece("cone", stepped((0.0, 20.0), (30.0, 10.0)))) == pytest.approx(frustum)
    bored = _volume(
        Piece("tube", cylinder(30.0, 0.0, 100.0)),
        Piece("bore", cylinder(20.0, -101.0, -10.0), MIRROR_X, cut=True),
        Piece("beside", cylinder(20.0, 10.0, 101.0), MIRROR_X, cut=True),
    )
    assert bored == pytest.approx(pi * (900.0 * 100.0 - 400.0 * 90.0))
    napkin = _volume(
        Piece("ball", Turned((Ball(-25.0, 25.0, 0.0, 25.0),))),
        Piece("h", cylinder(15.0, -30.0, 30.0), cut=True),
    )
    assert napkin == pytest.approx(pi * 40.0**3 / 6), (
        "what is left of a bored ball: its height alone"
    )


def test_a_single_prism_is_exact():
    assert _volume(Piece("hex", Prism(hexagon(30.0), 0.0, 12.0))) == pytest.approx(
        12.0 * sqrt(3) / 2 * 900.0
    )
    assert outline_area(tongue(20.0, 50.0)) == pytest.approx(pi * 200.0 + 50.0 * 40.0)
    assert outline_area(box(0.0, 2.0, 1.0, 4.0)) == pytest.approx(6.0)


@pytest.mark.parametrize("r", [10.0, 20.0])
def test_crossed_cylinders_overlap_in_the_steinmetz_solid(r):
    long = 8 * r
    crossed = _volume(
        Piece("a", cylinder(r, -long / 2, long / 2)),
        Piece("b", cylinder(r, -long / 2, long / 2), along(Z)),
    )
    assert crossed == pytest.approx(2 * pi * r * r * long - 16 * r**3 / 3, rel=1e-3)


def test_overlapping_boxes_count_once():
    a = Piece("a", Prism(box(0.0, 10.0, 0.0, 10.0), 0.0, 10.0))
    b = Piece("b", Prism(box(5.0, 15.0, 0.0, 10.0), 0.0, 10.0))
    assert _volume(a, b) == pytest.approx(1500.0, rel=2e-3)
