"""Rims that would run together on paper: the outermost, the measured and those with room stay.

Least distance between lines 0.7 mm: ISO 128-2, from memory.
"""

from math import pi

from drafting.drawing.sheet.strokes import Arc, Stroke
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
