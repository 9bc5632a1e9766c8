"""Outlines cut into convex cells: areas by the shoelace formula and by circular segments.

Formulas: r^2 (a - sin a) / 2 for a segment, half the cross product for a triangle (Bronshtein,
Handbook of Mathematics, planimetry, from memory).
"""

from __future__ import annotations

from math import cos, pi, sin
from random import Random

import numpy as np
import pytest

from drafting.shape.convex import convex_cells, halved
from drafting.shape.pieces import Arc2, Line2, Outline, circle, hexagon, polygon, tongue
from drafting.shape.volume import outline_area

L_SHAPE = ((0.0, 0.0), (7.0, 0.0), (7.0, 2.0), (3.0, 2.0), (3.0, 5.0), (0.0, 5.0))
SLOTTED = (*((x, 0.0) for x in (0.0, 4.0)), (4.0, 3.0), (6.0, 3.0), (6.0, 0.0), (11.0, 0.0),
           (11.0, 8.0), (0.0, 8.0))  # fmt: skip


def shoelace(points: list[tuple[float, float]]) -> float:
    after = [*points[1:], points[0]]
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, after, strict=True)) / 2


def star(seed: int) -> list[tuple[float, float]]:
    """Give a star-shaped polygon off the origin with 5 to 12 corners, at uneven angles."""
    rng = Random(seed)
    angles = sorted(rng.uniform(0, 2 * pi) for _ in range(rng.randint(5, 12)))
    return [(17.0 + r * cos(a), -9.0 + r * sin(a)) for a in angles for r in [rng.uniform(2, 20)]]


def corners(cell: Outline) -> list[tuple[float, float]]:
    """Give a cell's corners, with points along its arcs close enough to judge turns by."""
    out = []
    for e in cell:
        out += [e.a] if isinstance(e, Line2) else [e.at(t) for t in np.linspace(e.a0, e.a1, 17)]
    return out


def turns(cell: Outline) -> list[float]:
    """Give twice the area of each three corners in a row, doubled corners left out."""
    c = np.array(corners(cell))
    c = c[np.hypot(*(c - np.roll(c, 1, axis=0)).T) > 1e-9]
    d = c - np.roll(c, 1, axis=0)
    after = np.roll(d, -1, axis=0)
    return (d[:, 0] * after[:, 1] - d[:, 1] * after[:, 0]).tolist()


def inside(cell: Outline, points: np.ndarray) -> np.ndarray:
    """Tell which points lie in a convex cell: left of every one of its sides."""
    c = np.array(corners(cell))
    d = np.roll(c, -1, axis=0) - c
    rel = points[:, None, :] - c[None]
    return (d[None, :, 0] * rel[..., 1] - d[None, :, 1] * rel[..., 0] > 1e-7).all(axis=1)


@pytest.mark.parametrize("points", [L_SHAPE, SLOTTED, *map(star, range(40))])
def test_cells_of_a_polygon_are_convex_and_lie_side_by_side(points):
    cells = convex_cells(polygon(points))
    assert all(min(turns(cell)) > -1e-9 for cell in cells)
    assert sum(map(outline_area, cells)) == pytest.approx(shoelace(list(points)), rel=1e-12)
    cloud = np.random.default_rng(3).uniform((-5, -30), (40, 12), (3000, 2))
    assert sum(inside(cell, cloud).astype(int) for cell in cells).max() == 1


@pytest.mark.parametrize("outline", [hexagon(30.0), circle(8.0, (3.0, 4.0)), tongue(20.0, 50.0),
                                     tongue(20.0, 50.0, 9.0), polygon(star(0)[:3])])  # fmt: skip
def test_what_is_convex_comes_back_whole(outline):
    assert convex_cells(outline) == (outline,)


def test_an_eye_that_widens_to_its_root_is_cut_and_keeps_its_area():
    """Sides leave the circle at a tangent to a root of 45 mm: bent inwards where they meet none."""
    outline = (
        Arc2((0.0, 0.0), 20.0, pi / 3, 5 * pi / 3),
        Line2((10.0, -17.320508075688775), (40.0, -45.0)),
        Line2((40.0, -45.0), (40.0, 45.0)),
        Line2((40.0, 45.0), (10.0, 17.320508075688775)),
    )
    turn = 4 * pi / 3
    segment = 400.0 * (turn - sin(turn)) / 2
    trapeze = 30.0 * (17.320508075688775 + 45.0)
    cells = convex_cells(outline)
    assert len(cells) > 1
    assert all(min(turns(cell)) > -1e-6 for cell in cells)
    assert sum(map(outline_area, cells)) == pytest.approx(segment + trapeze, rel=1e-9)


def test_an_arc_of_more_than_half_a_turn_is_halved_and_one_of_half_a_turn_is_not():
    more, half = Arc2((1.0, 2.0), 5.0, 0.5, 4.1), Arc2((1.0, 2.0), 5.0, 0.5, 0.5 + pi)
    assert halved((half,)) == [half]
    a, b = halved((more,))
    assert (a.a0, a.a1, b.a0, b.a1) == pytest.approx((0.5, 2.3, 2.3, 4.1))
    assert {a.centre, b.centre} == {(1.0, 2.0)}
    assert a.radius == b.radius == 5.0


@pytest.mark.parametrize("points", [L_SHAPE, SLOTTED])
def test_an_outline_that_runs_clockwise_is_refused(points):
    with pytest.raises(ValueError, match="clockwise"):
        convex_cells(polygon(points[::-1]))
