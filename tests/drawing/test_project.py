"""Strokes of shapes simple enough to be reckoned by hand; source: plane and solid geometry."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.project.project import project
from drafting.drawing.sheet.strokes import (
    FROM_ROD,
    SIDE,
    TOP,
    Arc,
    EllipseArc,
    Line,
    Look,
    Poly,
    Stroke,
)
from drafting.shape.frame import MIRROR_X, WORLD, Frame, X, Y, Z, about_x, along
from drafting.shape.pieces import (
    Ball,
    Part,
    Piece,
    Prism,
    Turned,
    box,
    circle,
    cylinder,
    polygon,
    stepped,
)


def _part(*pieces: Piece, name: str = "part") -> Part:
    return Part(name, "body", pieces)


def _lines(strokes: tuple[Stroke, ...], visible: bool) -> set[tuple[tuple[float, float], ...]]:
    return {
        tuple(sorted((s.curve.a, s.curve.b)))
        for s in strokes
        if isinstance(s.curve, Line) and s.visible is visible
    }


def test_a_cylinder_is_a_rectangle_from_the_side_and_a_circle_from_the_end():
    rod = _part(Piece("rod", cylinder(10.0, 5.0, 45.0)))
    side = project([rod], SIDE)
    assert _lines(side, True) == {
        ((5.0, -10.0), (5.0, 10.0)),
        ((45.0, -10.0), (45.0, 10.0)),
        ((5.0, -10.0), (45.0, -10.0)),
        ((5.0, 10.0), (45.0, 10.0)),
    }
    assert len(side) == 4
    assert {s.kind for s in side} == {"rim", "contour"}
    (end,) = project([rod], FROM_ROD)
    assert end.curve == Arc((0.0, 0.0), 10.0, 0.0, 2 * pi)
    assert (end.visible, end.part, end.piece) == (True, "part", "rod")


def test_a_box_with_a_hole():
    plate = _part(
        Piece("plate", Prism(box(0.0, 60.0, -20.0, 20.0), -5.0, 5.0), Frame(WORLD.origin, X, Z, Y)),
        Piece(
            "hole", Prism(circle(8.0, (25.0, 3.0)), -6.0, 6.0), Frame(WORLD.origin, X, Z, Y), True
        ),
    )
    side = project([plate], SIDE)
    assert len(side) == 5
    (hole,) = (s for s in side if isinstance(s.curve, Arc))
    assert hole.curve == Arc((25.0, 3.0), 8.0, 0.0, 2 * pi)
    assert hole.visible
    assert hole.piece == "hole"
    top = project([plate], TOP)
    assert _lines(top, False) == {((17.0, -5.0), (17.0, 5.0)), ((33.0, -5.0), (33.0, 5.0))}
    assert len(_lines(top, True)) == 4


def test_a_blind_hole_from_behind_is_hidden():
    block = _part(
        Piece("block", Prism(box(-20.0, 20.0, -20.0, 20.0), 0.0, 30.0)),
        Piece("hole", Prism(circle(5.0), 10.0, 31.0), cut=True),
    )
    (above,) = (s for s in project([block], TOP) if isinstance(s.curve, Arc))
    below = Look(X, (0.0, -1.0, 0.0))
    (under,) = (s for s in project([block], below) if isinstance(s.curve, Arc))
    assert above.visible
    assert not under.visible


def test_a_tilted_rim_is_an_ellipse():
    disc = _part(Piece("disc", cylinder(10.0, 0.0, 4.0), along((0.0, 0.6, 0.8))))
    ellipses = [s for s in project([disc], TOP) if isinstance(s.curve, EllipseArc)]
    for stroke in ellipses:
        e = stroke.curve
        assert hypot(*e.major) == pytest.approx(10.0)
        assert hypot(*e.minor) == pytest.approx(8.0)
    full = [s for s in ellipses if s.curve.t1 - s.curve.t0 == pytest.approx(2 * pi)]
    assert [s.visible for s in full] == [True]
    assert full[0].curve.centre == (0.0, pytest.approx(2.4))
    halves = [s for s in ellipses if s not in full]
    assert sorted(s.visible for s in halves) == [False, True]
    for s in halves:
        assert s.curve.t1 - s.curve.t0 == pytest.approx(pi)


@pytest.mark.parametrize("boss_radius", [10.0, 16.0, 25.0])
def test_a_boss_on_a_barrel_meets_it_on_the_saddle_of_the_books(boss_radius):
    """On the common curve of cylinders R along x and r along z: z = sqrt(R^2 - y^2)."""
    barrel, r = 40.0, boss_radius
    part = _part(
        Piece("barrel", cylinder(barrel, 0.0, 200.0)),
        Piece("boss", cylinder(r, 0.0, 60.0), replace(along(Z), origin=(100.0, 0.0, 0.0))),
    )
    chains = [s for s in project([part], SIDE) if isinstance(s.curve, Poly)]
    assert all(s.visible for s in chains), "the rear half of the saddle lies behind the front one"
    assert chains
    points = [p for s in chains for p in s.curve.points]
    for x, z in points:
        assert z == pytest.approx(sqrt(barrel**2 - max(r**2 - (x - 100.0) ** 2, 0.0)), abs=1e-6)
    assert min(z for _, z in points) == pytest.approx(sqrt(barrel**2 - r**2), abs=1e-9)
    assert max(z for _, z in points) == pytest.approx(barrel, abs=1e-6)
    for s in chains:
        for (x0, z0), (x1, z1) in zip(s.curve.points, s.curve.points[1:], strict=False):
            x = (x0 + x1) / 2
            true = sqrt(barrel**2 - max(r**2 - (x - 100.0) ** 2, 0.0))
            assert abs((z0 + z1) / 2 - true) < 0.02, "chords keep near the curve"
    # From above the saddle is the boss's own circle; from the end it is the barrel's.
    assert not [s for look in (TOP, FROM_ROD) for s in project([part], look) if _is_poly(s)]


def _is_poly(stroke: Stroke) -> bool:
    return isinstance(stroke.curve, Poly)


def test_equal_cylinders_meet_in_two_straight_lines():
    """Equal radii: the curves are plane ellipses, seen from the side as lines at 45 degrees."""
    tee = _part(
        Piece("run", cylinder(20.0, -60.0, 60.0)),
        Piece("branch", cylinder(20.0, 0.0, 60.0), along(Z)),
    )
    slanted = {
        s
        for s in project([tee], SIDE)
        if isinstance(s.curve, Line) and s.kind == "crossing" and s.visible
    }
    ends = {tuple(sorted((s.curve.a, s.curve.b))) for s in slanted}
    assert ends == {((-20.0, 20.0), (0.0, 0.0)), ((0.0, 0.0), (20.0, 20.0))}


def test_flush_joints_of_one_part_leave_no_line():
    plate = Prism(box(0.0, 30.0, 0.0, 10.0), 0.0, 10.0)
    flush = Prism(box(20.0, 60.0, 0.0, 10.0), 0.0, 10.0)
    joined = project([_part(Piece("a", plate), Piece("b", flush))], TOP)
    assert not [
        s for s in joined if isinstance(s.curve, Line) and 1.0 < s.curve.a[0] == s.curve.b[0] < 59.0
    ]
    apart = [
        _part(Piece("a", plate), name="one"),
        _part(Piece("b", flush).within(Frame((10.0, 0.0, 0.0))), name="two"),
    ]
    assert ((30.0, 0.0), (30.0, 10.0)) in _lines(project(apart, TOP), True)


def test_a_round_end_runs_smoothly_into_its_flanks():
    from drafting.shape.pieces import tongue

    eye = _part(Piece("eye", Prism(tongue(20.0, 50.0), 0.0, 10.0)))
    top = project([eye], TOP)
    assert len(top) == 4
    assert sum(isinstance(s.curve, Arc) for s in top) == 1


def test_nothing_is_seen_through_touching_parts():
    """Rod and bore of equal diameter, piston and barrel alike: no rounding lets light through."""
    rod = Part("rod", "rod", (Piece("rod", cylinder(20.0, -50.0, 150.0)),), hatched=False)
    gland = _part(
        Piece("gland", cylinder(45.0, 0.0, 60.0)),
        Piece("bore", cylinder(20.0, -1.0, 61.0), cut=True),
    )
    for look in (SIDE, TOP, Look(X, (0.0, 0.6, 0.8))):
        strokes = project([gland, rod], look)
        inside = [
            s
            for s in strokes
            if isinstance(s.curve, Line)
            and s.visible
            and 0.0 < (s.curve.a[0] + s.curve.b[0]) / 2 < 60.0
        ]
        assert {abs(s.curve.a[1]) for s in inside} == {45.0}
        hidden = [s for s in strokes if not s.visible]
        assert _lines(tuple(hidden), False) == {((0.0, y), (60.0, y)) for y in (-20.0, 20.0)}


def test_a_mirrored_frame_draws_the_mirror_image():
    one = _part(Piece("cone", stepped((0.0, 20.0), (30.0, 10.0), (50.0, 10.0))))
    other = _part(Piece("cone", one.pieces[0].shape, MIRROR_X))
    mirrored = {
        tuple(sorted(((-a[0], a[1]), (-b[0], b[1])))) for a, b in _lines(project([one], SIDE), True)
    }
    assert _lines(project([other], SIDE), True) == mirrored


def test_a_ball_is_a_circle_from_everywhere():
    ball = _part(Piece("ball", Turned((Ball(-10.0, 10.0, 0.0, 10.0),))))
    for look in (SIDE, TOP, FROM_ROD, Look((0.8, 0.6, 0.0), Z)):
        (only,) = project([ball], look)
        assert isinstance(only.curve, Arc)
        assert only.curve.radius == pytest.approx(10.0)


@given(
    clock=st.sampled_from([0.0, 35.0, 90.0, 200.0, 311.0]),
    r=st.floats(3.0, 30.0),
    far=st.floats(1.0, 40.0),
)
@settings(max_examples=40, deadline=None)
def test_strokes_are_never_empty_and_never_doubled(clock, r, far):
    part = _part(
        Piece("barrel", cylinder(35.0, 0.0, 120.0)),
        Piece("bore", cylinder(28.0, 10.0, 121.0), cut=True),
        Piece(
            "boss", Prism(circle(r), 0.0, 35.0 + far), about_x(clock).within(Frame((60.0, 0, 0)))
        ),
        Piece(
            "port",
            Prism(circle(r / 2), 15.0, 80.0),
            about_x(clock).within(Frame((60.0, 0, 0))),
            True,
        ),
        Piece(
            "foot",
            Prism(polygon(((0, -50), (30, -50), (30, 0), (0, 0))), -20.0, 20.0),
            Frame((0, 0, 0), X, Z, Y),
        ),
    )
    for look in (SIDE, TOP, FROM_ROD):
        lines = []
        for s in project([part], look):
            c = s.curve
            if isinstance(c, Line):
                assert hypot(c.b[0] - c.a[0], c.b[1] - c.a[1]) > 1e-6
                lines.append(c)
            elif isinstance(c, Arc):
                assert 0.0 < c.a1 - c.a0 <= 2 * pi + 1e-12
        flat = [c for c in lines if c.a[1] == c.b[1]]
        for i, c in enumerate(flat):
            for d in flat[i + 1 :]:
                if c.a[1] == d.a[1]:
                    (a0, a1), (b0, b1) = sorted((c.a[0], c.b[0])), sorted((d.a[0], d.b[0]))
                    assert min(a1, b1) - max(a0, b0) < 1e-6
