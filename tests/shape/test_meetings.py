"""Where two faces meet: every point of a curve lies on both, and no common point is left out.

How far a point is from a plane, cylinder, cone or sphere is reckoned here (analytic geometry).
"""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from drafting.shape.faces import Face
from drafting.shape.meetings import crossing
from drafting.shape.space_curves import Curves
from tests.shape.random_faces import KINDS, LAYS, face, off

BOX = ((-40.0, -40.0, -40.0), (40.0, 40.0, 40.0))
PAIRS = [(a, b) for k, a in enumerate(KINDS) for b in KINDS[k:]]


def grid(f: Face) -> np.ndarray:
    """Give lines of points on a face (lines, points, 3), close along each line."""
    u, v, n, o = (np.array(w) for w in (f.u, f.v, f.n, f.o))
    if f.kind == "plane":
        a, b = np.meshgrid(np.linspace(-30, 30, 13), np.linspace(-30, 30, 241), indexing="ij")
        return o + a[..., None] * u + b[..., None] * v
    if f.kind == "sphere":
        a, b = np.meshgrid(np.linspace(0.1, 3.0, 13), np.linspace(0, 2 * np.pi, 241), indexing="ij")
        s, r = f.size * np.cos(a), f.size * np.sin(a)
    else:
        b, s = np.meshgrid(np.linspace(0, 6, 17), np.linspace(f.lo, f.hi, 241), indexing="ij")
        r = abs(f.size * s) if f.kind == "cone" else np.full_like(s, f.size)
    ring = np.cos(b)[..., None] * u + np.sin(b)[..., None] * v
    return o + s[..., None] * n + r[..., None] * ring


def on_face(f: Face, points: np.ndarray) -> np.ndarray:
    s = (points - np.array(f.o)) @ np.array(f.n)
    return (s > f.lo) & (s < f.hi) if f.kind in ("cylinder", "cone") else np.ones(len(s), bool)


@pytest.mark.parametrize("lay", LAYS)
@pytest.mark.parametrize(("a", "b"), PAIRS, ids=[" and ".join(p) for p in PAIRS])
def test_common_points_are_on_the_curves_and_the_curves_on_both_faces(a, b, lay):
    for seed in range(4):
        rng = Random(seed)
        f, g = face(a, rng, lay), face(b, rng, lay)
        if seed % 2:
            f, g = g, f
        curves = crossing(f, g, 0, 1, BOX, 0, "crossing")
        points = np.zeros((0, 3))
        many = Curves(curves)
        for k, c in enumerate(curves):
            t = np.linspace(c.t0, c.t1, 801)
            on = many.at(np.full(len(t), k), t)
            assert np.abs(off(f, on)).max() < 1e-5
            assert np.abs(off(g, on)).max() < 1e-5
            ahead = np.gradient(on, t, axis=0)[5:-5]
            tangent = many.tangent(np.full(len(t), k), t)[5:-5]
            assert np.allclose(ahead, tangent, atol=0.02 * np.abs(ahead).max() + 1e-3)
            points = np.vstack([points, on])
        lines = grid(f)
        side = off(g, lines.reshape(-1, 3)).reshape(lines.shape[:2])
        row, k = np.nonzero(side[:, :-1] * side[:, 1:] < 0.0)
        lo, hi = side[row, k][:, None], side[row, k + 1][:, None]
        common = (lines[row, k] * hi - lines[row, k + 1] * lo) / (hi - lo)
        seen = on_face(f, common) & on_face(g, common) & (np.abs(common).max(axis=1) < 40.0)
        for p in common[seen]:
            assert len(points), "no curve at all"
            away = np.linalg.norm(points - p, axis=1)
            near = int(away.argmin())
            step = np.linalg.norm(points[near] - points[near - 1 if near else 1])
            assert away[near] < 0.2 + 0.6 * step


@pytest.mark.parametrize("kind", KINDS)
def test_a_quadric_is_the_distance_close_to_its_face(kind):
    for seed in range(4):
        f = face(kind, Random(seed), "askew")
        points = grid(f)[:, 120:122].reshape(-1, 3) + 1e-4 * np.array([0.3, -0.5, 0.8])
        one = np.column_stack([points, np.ones(len(points))])
        level = np.einsum("ni,ij,nj->n", one, f.quadric, one)
        assert (np.sign(level) == np.sign(off(f, points))).all()
        assert (np.abs(level) < 1.5e-4).all()
