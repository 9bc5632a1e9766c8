"""Metal in metal, against dense points reckoned from the definition and against lengths by hand."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from drafting.shape.frame import Frame
from drafting.shape.overlap import filled, overlap, shifted
from drafting.shape.pieces import Ball, Part, Piece, Prism, Turned, box, cylinder, polygon
from tests.shape.random_pieces import metal, part

FAR = Frame((310.0, -140.0, 75.0))
"""Places far off all three axes, where sums and differences of limits differ."""


def block(x: float, y: float, z: float, **more) -> Piece:
    """Give a block of three sizes with its least corner in the frame's origin."""
    return Piece("block", Prism(box(0.0, x, 0.0, y), 0.0, z), **more)


def one(*pieces: Piece) -> Part:
    return Part("one", "body", pieces)


def at(x: float, y: float, z: float) -> Frame:
    return FAR.moved(x, y, z)


def both_ways(a: Part, b: Part) -> list[float | None]:
    found = [overlap(filled(p), filled(q)) for p, q in ((a, b), (b, a))]
    return [f and f.along for f in found]


@pytest.mark.parametrize("seed", range(16))
def test_parts_drawn_by_lot_share_metal_where_points_lie_in_both(seed):
    a, b = (part(Random(f"{seed} {k}"), square=seed % 2 == 0) for k in "ab")
    points = np.random.default_rng(seed).uniform(-40.0, 40.0, (60_000, 3))
    common = points[metal(a, points) & metal(b, points)]
    for along in both_ways(a, b):
        if len(common) > 60:
            assert along is not None
            assert along > 0.5
        if along is None:
            assert len(common) < 60
    apart = overlap(filled(a), shifted(filled(b), 130.0))
    assert apart is None


def test_lots_do_share_and_do_not():
    """The test above would prove little if every pair were alike."""
    found = [both_ways(*(part(Random(f"{s} {k}"), square=s % 2 == 0) for k in "ab"))[0]
             for s in range(16)]  # fmt: skip
    assert any(f is not None for f in found)


@pytest.mark.parametrize(("dx", "dy", "dz", "along"), [
    (29.0, 0.0, 0.0, 1.0), (0.0, 17.5, 0.0, 30.0), (0.0, 0.0, 8.9, 30.0), (27.0, 17.0, 8.0, 3.0),
    (-26.0, -16.0, -7.0, 4.0), (30.0, 0.0, 0.0, None), (0.0, 18.0, 0.0, None),
    (0.0, 0.0, -9.0, None), (29.97, 0.0, 0.0, None), (29.9, 0.0, 0.0, 0.1),
])  # fmt: skip
def test_two_blocks_of_30_by_18_by_9_share_what_they_must(dx, dy, dz, along):
    found = both_ways(one(block(30, 18, 9, frame=FAR)), one(block(30, 18, 9, frame=at(dx, dy, dz))))
    assert found == ([None, None] if along is None else pytest.approx([along, along], abs=1e-6))


@pytest.mark.parametrize("corner", [(0, 0, 0), (1, 0, 0), (0, 1, 0), (1, 1, 1), (0, 0, 1)])
def test_a_ball_in_one_corner_of_a_long_block_is_found(corner):
    """Radius 9 in a block of 30 by 40 by 50: a part of each side only, so every ray must be right.

    The longest stretch along x runs from the corner to the ball's far side: 9 mm.
    """
    spot = at(*(c * s for c, s in zip(corner, (30.0, 40.0, 50.0), strict=True)))
    ball = Piece("ball", Turned((Ball(-9.0, 9.0, 0.0, 9.0),)), spot)
    for along in both_ways(one(block(30, 40, 50, frame=FAR)), one(ball)):
        assert along == pytest.approx(9.0, abs=0.5)


def _cut(outline) -> Part:
    return one(
        block(60, 60, 20, frame=at(-30, -30, -10)),
        Piece("room", Prism(outline, -11.0, 11.0), FAR, cut=True),
    )


ROOM = box(-20.0, 20.0, -12.0, 12.0)
DIAMOND = polygon(((20.0, 0.0), (0.0, 12.0), (-20.0, 0.0), (0.0, -12.0)))
CORNER = polygon(((-20, -12), (20, -12), (20, 4), (3, 4), (3, 12), (-20, 12)))


@pytest.mark.parametrize(("outline", "x", "y", "shares"), [
    (ROOM, 12.0, 7.0, False), (ROOM, 15.9, 7.9, False), (ROOM, 16.5, 7.0, True),
    (ROOM, 12.0, 8.5, True), (ROOM, -20.5, 0.0, True), (ROOM, 0.0, -12.5, True),
    (DIAMOND, 14.0, 6.0, True), (DIAMOND, -19.0, 7.0, True), (DIAMOND, -2.0, -2.0, False),
    (CORNER, 12.0, 6.0, True), (CORNER, -8.0, 6.0, False), (CORNER, 12.0, -8.0, False),
])  # fmt: skip
def test_a_peg_of_4_by_4_in_rooms_of_three_outlines(outline, x, y, shares):
    """A diamond's and an L's box reach further than they do."""
    peg = one(block(4, 4, 40, frame=at(x, y, -20.0)))
    for along in both_ways(_cut(outline), peg):
        assert (along is not None) is shares


def test_a_pin_through_its_hole_and_beside_it():
    hole = Piece("hole", cylinder(10.0, -40.0, 40.0), FAR, cut=True)
    lug = one(Piece("lug", Prism(box(-30.0, 30.0, -25.0, 25.0), -50.0, 50.0), FAR), hole)
    for radius, off, shares in ((10.0, 0.0, False), (9.0, 0.9, False), (9.0, 1.2, True),
                                (10.3, 0.0, True)):  # fmt: skip
        pin = one(Piece("pin", cylinder(radius, -60.0, 60.0), at(0.0, off, 0.0)))
        for along in both_ways(lug, pin):
            assert (along is not None) is shares
