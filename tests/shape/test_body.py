"""Points, rays and boxes of parts drawn by lot, against what is reckoned from their definition."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from drafting.shape.body import Body
from drafting.shape.boxes import box_of
from drafting.shape.contact import holds
from drafting.shape.contact import meet as share_space
from drafting.shape.frame import X, Y, Z
from drafting.shape.pieces import Part, extent
from drafting.shape.reach import reach
from drafting.shape.volume import volume
from tests.shape.random_pieces import has, metal, part

SEEDS = range(10)
STEPS = 2401


def cloud(seed: int, n: int = 1500) -> np.ndarray:
    return np.random.default_rng(seed).uniform(-30.0, 30.0, (n, 3))


@pytest.mark.parametrize("seed", SEEDS)
def test_points_in_metal_are_those_in_a_material_and_in_no_cut(seed):
    some, points = part(Random(seed), square=seed % 2 == 0), cloud(seed)
    want = metal(some, points)
    assert (Body(some).inside(points) == want).all()
    assert want.any()
    for piece in some.pieces:
        mine = [holds(piece, tuple(p)) for p in points[:300].tolist()]
        assert mine == list(has(piece, points[:300]))


@pytest.mark.parametrize("seed", SEEDS)
def test_runs_along_rays_are_where_metal_is(seed):
    """Rays along an axis for every second part, where faces are parallel to them."""
    some = part(Random(seed), square=seed % 2 == 0)
    rng = np.random.default_rng(seed)
    d = np.array((X, Y, Z)[seed % 3]) if seed % 2 == 0 else rng.normal(size=3)
    d = d / np.linalg.norm(d)
    starts = rng.uniform(-15.0, 15.0, (8, 3)) - 60.0 * d
    way = tuple(map(float, d))
    t, step = np.linspace(0.0, 120.0, STEPS, retstep=True)
    runs = Body(some).runs(starts, way)
    lengths = Body(some).length(starts, way)
    later = Body(some).length(starts, way, 60.0)
    for k, start in enumerate(starts):
        want = metal(some, start + t[:, None] * d)
        mine = np.zeros(STEPS, bool)
        for a, b in runs[k]:
            mine |= (a <= t) & (t <= b)
        edges = np.flatnonzero(want != mine)
        assert all(min(abs(t[e] - x) for ab in runs[k] for x in ab) < 1e-3 for e in edges)
        assert lengths[k] == pytest.approx(sum(b - a for a, b in runs[k]), abs=1e-6)
        assert lengths[k] == pytest.approx(want.sum() * step, abs=12 * step)
        beyond = sum(max(b - max(a, 60.0), 0.0) for a, b in runs[k])
        assert later[k] == pytest.approx(beyond, abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_boxes_and_extents_just_hold_their_piece(seed):
    """The box is exact by quarter turns; an extent is reached by some point of the piece."""
    rng = np.random.default_rng(seed)
    for piece in part(Random(seed), square=True).pieces:
        box = box_of(piece)
        for k, axis in enumerate((X, Y, Z)):
            assert box[2 * k : 2 * k + 2] == pytest.approx(extent(piece, axis), abs=1e-9)
        lo, hi = np.array(box[::2]), np.array(box[1::2])
        points = lo + (hi - lo) * rng.uniform(-0.05, 1.05, (20_000, 3))
        inside = points[has(piece, points)]
        assert ((inside >= lo) & (inside <= hi)).all()
        for d in (*rng.normal(size=(4, 3)), *np.eye(3)):
            d = d / np.linalg.norm(d)
            a, b = extent(piece, tuple(map(float, d)))
            found = inside @ d
            assert a <= found.min() + 1e-9
            assert found.max() - 1e-9 <= b
            assert b - a < (found.max() - found.min()) * 1.25
        far = np.hypot(inside[:, 1], inside[:, 2]).max()
        assert far <= reach(piece) * (1 + 1e-5) <= far * 1.15
        assert reach(piece, 200.0) == 0.0


@pytest.mark.parametrize("seed", SEEDS)
def test_a_volume_is_the_share_of_points_in_metal(seed):
    some = part(Random(seed), square=seed % 2 == 0)
    points = np.random.default_rng(seed).uniform(-45.0, 45.0, (60_000, 3))
    share = metal(some, points).mean()
    noise = 4 * (share / len(points)) ** 0.5 * 90.0**3
    assert volume(some) == pytest.approx(share * 90.0**3, abs=noise)


@pytest.mark.parametrize("seed", SEEDS)
def test_pieces_share_space_where_points_lie_in_both(seed):
    """Asked with a least depth of 1 mm: no point in both, no sharing; deep in both, sharing."""
    pieces = part(Random(seed), square=True).pieces
    points = cloud(seed, 4000)
    for a in pieces:
        for b in pieces:
            common = points[has(a, points) & has(b, points)]
            for hollows in ((), pieces[:1]):
                open_ = common[~has(hollows[0], common)] if hollows else common
                found = share_space(a, b, (X, Y, Z), 1.0, hollows)
                if not len(open_):
                    continue
                if (np.ptp(open_, axis=0) > 8.0).all() and len(open_) > 80:
                    assert found
    first = pieces[0]
    assert not share_space(first, first, (X, Y, Z), 100.0)
    assert not share_space(first, first, (X, Y, Z), 1.0, (first,))
    assert volume(Part("", "body", (first,))) > 0.0
