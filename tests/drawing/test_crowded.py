"""Rims that would run together on paper: the outermost, the measured and those with room stay.

Least distance between lines 0.7 mm: ISO 128-2, from memory.
"""

from dataclasses import replace
from math import pi

import pytest

from drafting.drawing.sheet.strokes import Arc, EllipseArc, Poly, Stroke
from drafting.drawing.views.crowded import crowded


def _rims(*radii, centre=(3.0, 4.0)):
    return [Stroke(Arc(centre, r, 0.0, 2 * pi), True, "a", "b", "rim") for r in radii]


def _left(strokes, scale, measured=()):
    gone = crowded(strokes, scale, measured)
    return sorted(s.curve.radius for s in strokes if s.curve not in gone)


def test_at_full_size_all_stay():
    assert _left(_rims(10.0, 8.0, 6.0), 1.0) == [6.0, 8.0, 10.0]


def test_small_on_paper_the_outermost_and_the_hole_stay():
    assert _left(_rims(10.0, 8.0, 6.0), 0.4) == [6.0, 10.0]


def test_a_spot_keeps_its_outline_alone():
    assert _left(_rims(10.0, 8.0, 6.0), 0.1) == [10.0]


def test_what_is_measured_stays():
    assert _left(_rims(10.0, 8.0, 6.0), 0.1, [16.0]) == [8.0, 10.0]


def test_other_centres_and_arcs_do_not_count():
    other = _rims(9.5, centre=(3.5, 4.0))
    half = [Stroke(Arc((3.0, 4.0), 9.0, 0.0, pi), True, "a", "b", "rim")]
    assert _left([*_rims(10.0), *other, *half], 0.1) == [9.0, 9.5, 10.0]


def _ovals(*halves, centre=(3.0, 4.0), part="a", to=2 * pi):
    """Rims half as high as they are wide, by their larger half."""
    return [
        Stroke(EllipseArc(centre, (h, 0.0), (0.0, h / 2), 0.0, to), True, part, "b", "rim")
        for h in halves
    ]


def _ovals_left(strokes, scale):
    gone = crowded(strokes, scale, ())
    return sorted(s.curve.major[0] for s in strokes if s.curve not in gone)


def test_rims_seen_askew_stay_where_their_flat_sides_have_room():
    assert _ovals_left(_ovals(10.0, 6.0), 0.5) == [6.0, 10.0]  # 1 mm on paper
    assert _ovals_left(_ovals(10.0, 6.0), 0.28) == [10.0]  # 0.56 mm


def test_a_rim_deep_in_a_hole_runs_together_with_that_of_the_hole():
    deep = _ovals(5.9, centre=(3.0, 3.9), to=2.0)
    assert _ovals_left([*_ovals(10.0, 6.0), *deep], 0.5) == [6.0, 10.0]


def test_what_is_of_another_part_or_not_within_stays():
    beside = _ovals(9.0, centre=(8.0, 4.0))
    assert _ovals_left([*_ovals(10.0), *beside, *_ovals(9.5, part="c")], 0.1) == [9.0, 9.5, 10.0]
    assert _ovals_left(_ovals(10.0, to=3.0) + _ovals(9.0), 0.1) == [9.0, 10.0]  # no whole oval


def _halves(*radii, piece):
    return [
        Stroke(Arc((3.0, 4.0), r, pi, 2 * pi), True, "a", f"rod_port.{piece}", "rim") for r in radii
    ]


def test_rims_that_the_edge_of_a_cut_halves_count_where_they_are_of_a_port():
    halves = [*_halves(10.0, piece="boss"), *_halves(9.0, piece="thread")]
    assert crowded(halves, 0.5, (), halved=True) == {halves[1].curve}
    assert crowded(halves, 0.5, ()) == frozenset()
    eye = [replace(s, piece="body_mount.nose") for s in halves]
    assert crowded(eye, 0.5, (), halved=True) == frozenset()


@pytest.mark.parametrize(("scale", "shown"), [(0.9, True), (0.5, False)])
def test_the_far_end_of_a_drilling_seen_askew_goes_where_it_is_lower_than_two_lines(scale, shown):
    """It is 2 high."""
    far = Stroke(Poly(((0.0, 4.0), (3.0, 5.0), (6.0, 4.0), (3.0, 3.0))), True, "a", "b", "crossing")
    gone = crowded([*_ovals(10.0), far], scale, ())
    assert (far.curve not in gone) is shown


@pytest.mark.parametrize(
    ("outside", "left"), [(("b",), [10.0, 14.0, 30.0]), (("c",), [9.0, 14.0, 30.0])]
)
def test_of_a_thread_on_a_rod_the_crest_stays_and_the_chamfer_goes(outside, left):
    """They are 0.5 apart on paper; in a hole the smaller one is the hole."""
    rod = [replace(s, piece="d") for s in _rims(30.0, 14.0)]
    strokes = [*rod, *_rims(10.0, 9.0)]
    gone = crowded(strokes, 0.5, (), outside=outside)
    assert sorted(s.curve.radius for s in strokes if s.curve not in gone) == left


def test_a_chamfer_with_room_stays():
    strokes = _rims(10.0, 7.0)
    assert crowded(strokes, 0.5, (), outside=("b",)) == frozenset()


@pytest.mark.parametrize(
    ("rod", "scale", "left"),
    [(16.0, 0.3, [5.0, 8.0, 12.0]), (16.0, 0.2, [5.0, 12.0]), (10.0, 0.3, [5.0, 12.0])],
)
def test_the_rod_stays_between_gland_and_hole_where_there_is_white_beside_it(rod, scale, left):
    """It is 3 from its hole: 0.9 on paper, and 0.6."""
    strokes = _rims(12.0, 8.0, 5.0)
    gone = crowded(strokes, scale, (), rod=rod)
    assert sorted(s.curve.radius for s in strokes if s.curve not in gone) == left
