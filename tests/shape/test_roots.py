"""Roots of curves on quadrics, against numpy's roots of polynomials and angles by hand."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from drafting.shape.body import Body
from drafting.shape.faces import faces_of
from drafting.shape.frame import Frame
from drafting.shape.meetings import crossing
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder, stepped
from drafting.shape.space_curves import LINE, RULED, Curve3, Curves, meet, trig_roots
from tests.shape.random_faces import KINDS, LAYS, face, off
from tests.shape.random_pieces import metal

BOX = ((-90.0, -90.0, -90.0), (90.0, 90.0, 90.0))
CONE = Piece("cone", stepped((0.0, 0.0), (40.0, 30.0)))
"""Its point in the origin; a side rises 3 on 4."""


def plane(origin, normal, along):
    """Give one side of a thin plate as a face: through a point, across a direction."""
    n, x = (np.array(v) / np.linalg.norm(v) for v in (normal, along))
    f = Frame(origin, tuple(x), tuple(np.cross(n, x)), tuple(n))
    plate = Piece("plate", Prism(box(-80.0, 80.0, -80.0, 80.0), -5.0, 0.0), f)
    return min(
        (g for g in faces_of(plate, 0) if abs(np.dot(g.n, n)) > 0.999),
        key=lambda g: abs(np.dot(np.subtract(g.o, origin), n)),
    )


def cone_face():
    return next(f for f in faces_of(CONE, 0) if f.kind == "cone")


@pytest.mark.parametrize("order", [1, -1])
@pytest.mark.parametrize("side", [(0.0, 1.0), (1.0, 0.0), (0.6, 0.8)])
def test_a_plane_that_touches_a_cone_along_a_side_crosses_nothing(side, order):
    y, z = side
    ruling, normal = (0.8, 0.6 * y, 0.6 * z), (-0.6, 0.8 * y, 0.8 * z)
    faces = [cone_face(), plane((0.0, 0.0, 0.0), normal, ruling)][::order]
    assert crossing(*faces, 0, 1, BOX, 0, "crossing") == ()


@pytest.mark.parametrize(("rise", "lines"), [(0.2, 2), (0.7, 2), (0.76, 0), (1.4, 0)])
def test_a_plane_through_a_cones_point_gives_two_of_its_sides_or_none(rise, lines):
    """The plane z = rise times x: steeper than 3 on 4 it leaves the cone in its point alone."""
    found = crossing(cone_face(), plane((0.0, 0.0, 0.0), (-rise, 0.0, 1.0), (1.0, 0.0, rise)),
                     0, 1, BOX, 0, "crossing")  # fmt: skip
    assert [c.form for c in found] == [LINE] * lines
    for c in found:
        _, y, z = np.array(c.a) / c.a[0]
        assert z == pytest.approx(rise)
        assert np.hypot(y, z) == pytest.approx(0.75)


@pytest.mark.parametrize("seed", range(12))
def test_waves_have_the_roots_of_their_polynomial(seed):
    """With u = e^it the sum times u^2 is a polynomial of degree 4: its roots on the unit circle."""
    rng = np.random.default_rng(seed)
    c0, c1, s1, c2, s2 = rng.uniform(-3.0, 3.0, (5, 6))
    if seed % 3 == 0:
        c2 = s2 = np.zeros(6)
    row, t = trig_roots(c0, c1, s1, c2, s2)
    for k in range(6):
        u = np.roots([(c2[k] - 1j * s2[k]) / 2, (c1[k] - 1j * s1[k]) / 2, c0[k],
                      (c1[k] + 1j * s1[k]) / 2, (c2[k] + 1j * s2[k]) / 2])  # fmt: skip
        want = np.sort(np.angle(u[np.abs(np.abs(u) - 1) < 1e-7]) % (2 * np.pi))
        assert np.sort(t[row == k] % (2 * np.pi)) == pytest.approx(want, abs=1e-6)


@pytest.mark.parametrize(("height", "roots"), [
    (0.0, (-10.0, 10.0)), (6.0, (-8.0, 8.0)), (8.0, (-6.0, 6.0)), (10.0, (0.0, 0.0)),
    (10.001, ()), (-9.6, (-2.8, 2.8)), (9.99999999, (-0.00044721, 0.00044721)),
])  # fmt: skip
def test_a_line_across_a_round_of_10_at_a_height(height, roots):
    """Half the chord is the square root of r^2 - h^2; at a touch both places are the one."""
    round_ = next(f for f in faces_of(Piece("r", cylinder(10.0, -50.0, 50.0)), 0)
                  if f.kind == "cylinder")  # fmt: skip
    line = Curve3(LINE, (3.0, 0.0, height), (0.0, 1.0, 0.0), (0.0,) * 3, -99.0, 99.0, (0, 1), 0,
                  "crossing")  # fmt: skip
    row, t = meet(Curves([line]), np.array([0]), np.array([round_.quadric]))
    assert row.tolist() == [0] * len(roots)
    assert np.sort(t) == pytest.approx(roots, abs=1e-8)


@pytest.mark.parametrize("lift", [-7.0, -2.0, 0.5, 3.0, 11.0])
@pytest.mark.parametrize("turn", [1.0, -1.0])
def test_a_ray_that_runs_beside_a_cones_side_meets_it_once(lift, turn):
    """Beside a side the quadric has no square in it: one root, and the ray is in from there on."""
    way = np.array([0.8, 0.0, 0.6]) * turn
    start = np.array([5.0, 0.0, 3.75 + lift]) - 70.0 * way
    t = np.linspace(0.0, 140.0, 28001)
    want = t[metal(Part("c", "body", (CONE,)), start + t[:, None] * way)]
    (runs,) = Body(Part("c", "body", (CONE,))).runs(start[None], tuple(way))
    if not len(want):
        assert sum(b - a for a, b in runs) < 0.01
    else:
        assert len(runs) == 1
        assert runs[0] == pytest.approx((want[0], want[-1]), abs=0.006)


@pytest.mark.parametrize("order", [1, -1])
def test_parallel_rounds_of_10_and_17_at_21_meet_8_high(order):
    """A triangle of sides 10, 17 and 21 has the height 8 over its side of 21, 6 from its end."""
    faces = [
        next(f for f in faces_of(Piece("r", cylinder(r, -50.0, 50.0), Frame((0.0, y, 0.0))), 0)
             if f.kind == "cylinder")
        for r, y in ((10.0, 0.0), (17.0, 21.0))
    ][::order]  # fmt: skip
    found = crossing(*faces, 0, 1, BOX, 0, "crossing")
    places = sorted((round(c.c[1], 9), round(c.c[2], 9)) for c in found)
    assert places == [(6.0, -8.0), (6.0, 8.0)]
    assert all(c.form == LINE and abs(c.a[0]) == pytest.approx(1.0) for c in found)


@pytest.mark.parametrize("lay", LAYS)
@pytest.mark.parametrize("seed", range(30))
def test_curves_meet_a_third_face_where_they_change_sides(seed, lay):
    """Lines, ellipses and ruled curves; 6,001 points along each tell where it goes through."""
    rng = Random(seed)
    f, g, h = (face(rng.choice(KINDS), rng, lay) for _ in range(3))
    curves = crossing(f, g, 0, 1, BOX, 0, "crossing")
    if not curves:
        return
    many = Curves(curves)
    every = np.arange(len(curves))
    row, found = meet(many, every, np.repeat(np.array(h.quadric)[None], len(every), axis=0))
    for k, c in enumerate(curves):
        t = np.linspace(c.t0, c.t1, 6001)
        p = many.at(np.full(len(t), k), t)
        d = off(h, p)
        if h.kind == "cone":
            d *= np.sign((p - np.array(h.o)) @ np.array(h.n))
        if np.abs(d).max() < 1e-6:
            continue
        turns = np.flatnonzero((d[:-1] * d[1:] < 0.0) & (np.abs(d[:-1]) + np.abs(d[1:]) < 1.0))
        mine = found[row == k]
        if c.form != LINE and c.t1 - c.t0 > 6.28:
            mine = c.t0 + (mine - c.t0) % (2 * np.pi)
        step = t[1] - t[0]
        for n in turns:
            assert np.abs(mine - (t[n] + t[n + 1]) / 2).min() <= step
        if c.form != RULED:  # along a ruled one places that come near are given too
            here = mine[(mine > c.t0 + 1e-6) & (mine < c.t1 - 1e-6)]
            level = np.abs(off(h, many.at(np.full(len(here), k), here)))
            assert (level < 1e-4).all()
