"""Plane curves placed, measured and cut.

Checked against plain sampling of the definition of each curve, independent of the formulas used.
"""

from itertools import pairwise
from math import cos, dist, hypot, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drafting.drawing.sheet import on_paper as plane
from drafting.drawing.sheet.strokes import Arc, EllipseArc, Line, Poly

size = st.floats(0.5, 60)
place = st.tuples(st.floats(-50, 50), st.floats(-50, 50))
start = st.floats(-10, 10)
sweep = st.floats(0.05, 2 * pi)
arcs = st.builds(lambda c, r, a, w: Arc(c, r, a, a + w), place, size, start, sweep)
ellipses = st.builds(
    lambda c, m, n, a, w: EllipseArc(c, m, n, a, a + w), place, place, place, start, sweep
).filter(
    lambda e: (
        abs(e.major[0] * e.minor[1] - e.major[1] * e.minor[0])
        > 0.05 * hypot(*e.major) * hypot(*e.minor)
        > 0.05
    )
)
lines = st.builds(Line, place, place).filter(lambda s: dist(s.a, s.b) > 1e-3)
polys = st.builds(lambda p: Poly(tuple(p)), st.lists(place, min_size=2, max_size=6))
curves = arcs | ellipses | lines | polys


def sampled(curve, n=720):
    """Points of a curve straight from its definition."""
    ts = [i / n for i in range(n + 1)]
    if isinstance(curve, Line):
        a, b = curve.a, curve.b
        return [(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in ts]
    if isinstance(curve, Poly):
        return [p for a, b in pairwise(curve.points) for p in sampled(Line(a, b), n // 5)]
    if isinstance(curve, Arc):
        (x, y), r = curve.centre, curve.radius
        angles = [curve.a0 + t * (curve.a1 - curve.a0) for t in ts]
        return [(x + r * cos(a), y + r * sin(a)) for a in angles]
    (x, y), m, n_ = curve.centre, curve.major, curve.minor
    angles = [curve.t0 + t * (curve.t1 - curve.t0) for t in ts]
    return [
        (x + cos(a) * m[0] + sin(a) * n_[0], y + cos(a) * m[1] + sin(a) * n_[1]) for a in angles
    ]


def far(points, others):
    """The largest distance of a point from the nearest of the others."""
    return max(min(dist(p, q) for q in others) for p in points)


@given(curves)
def test_box_holds_the_curve_and_no_more(curve):
    points = sampled(curve)
    x0, y0, x1, y1 = plane.box(curve)
    assert all(x0 - 1e-9 <= p[0] <= x1 + 1e-9 and y0 - 1e-9 <= p[1] <= y1 + 1e-9 for p in points)
    assert plane.hull(points) == pytest.approx((x0, y0, x1, y1), abs=0.02)


@given(curves)
def test_length(curve):
    points = sampled(curve, 1500)
    run = sum(dist(a, b) for a, b in pairwise(points))
    assume(not isinstance(curve, Poly) or len(curve.points) > 1)
    assert plane.length(curve) == pytest.approx(run, rel=1e-3, abs=1e-6)


@given(curves, place, size, size)
def test_clip_keeps_what_is_inside_and_nothing_else(curve, corner, wide, high):
    window = (corner[0], corner[1], corner[0] + wide, corner[1] + high)
    pieces = plane.clip(curve, window)
    for piece in pieces:
        assert all(plane.contains(window, p, 1e-6) for p in sampled(piece, 60))
    inside = [p for p in sampled(curve, 240) if plane.contains(window, p, -1e-3)]
    if inside:
        kept = [p for piece in pieces for p in sampled(piece, 720)]
        assert far(inside, kept) < 0.6


@given(arcs | ellipses)
def test_beziers_stay_on_the_curve(curve):
    pieces = plane.beziers(curve)
    assert pieces[0][0] == pytest.approx(plane.ends(curve)[0])
    assert pieces[-1][3] == pytest.approx(plane.ends(curve)[1])
    points = sampled(curve, 1440)
    reach = 2 * max(hypot(*plane.as_ellipse(curve).major), hypot(*plane.as_ellipse(curve).minor))
    for a, b, c, d in pieces:
        middle = tuple((a[i] + 3 * b[i] + 3 * c[i] + d[i]) / 8 for i in (0, 1))
        assert far([middle], points) < 0.004 * reach


@given(ellipses)
def test_principal_axes_draw_the_same_ellipse(e):
    p = plane.principal(e)
    long, short = hypot(*p.major), hypot(*p.minor)
    assert long >= short - 1e-9
    assert abs(p.major[0] * p.minor[0] + p.major[1] * p.minor[1]) < 1e-6 * long * long
    assert p.major[0] * p.minor[1] - p.major[1] * p.minor[0] > 0
    assert p.t1 - p.t0 == pytest.approx(e.t1 - e.t0)
    both = {tuple(round(c, 6) for c in q) for q in plane.ends(p)}
    for q in plane.ends(e):
        assert min(dist(q, r) for r in both) < 1e-5
    middle = plane.on_ellipse(p, (p.t0 + p.t1) / 2)
    assert middle == pytest.approx(plane.on_ellipse(e, (e.t0 + e.t1) / 2), abs=1e-6)


@given(arcs | ellipses, st.floats(0.001, 0.1))
def test_flattening_stays_within_its_error(curve, error):
    track = plane.points(curve, error)
    e, n = plane.as_ellipse(curve), len(track) - 1
    for i, (a, b) in enumerate(pairwise(track)):
        t = e.t0 + (i + 0.5) / n * (e.t1 - e.t0)
        bulge = (
            e.centre[0] + cos(t) * e.major[0] + sin(t) * e.minor[0],
            e.centre[1] + cos(t) * e.major[1] + sin(t) * e.minor[1],
        )
        chord = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        assert dist(bulge, chord) < error * 1.01 + 1e-9


def test_clip_area():
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    cut = plane.clip_area(square, (5, 5, 20, 8))
    assert plane.hull(cut) == (5, 5, 10, 8)
    assert plane.clip_area(square, (20, 20, 30, 30)) == []
