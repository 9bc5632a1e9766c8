"""What touches what, against plain linear algebra on random figures."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.sheet.clash import (
    TOUCH,
    crossings,
    in_quads,
    lies_on,
    quads,
    quads_meet,
    segments,
    text_quad,
)
from drafting.drawing.sheet.sheet import Text


def test_crossings_as_solved_one_by_one():
    rng = np.random.default_rng(7)
    one, other = rng.uniform(0, 10, (40, 2, 2)), rng.uniform(0, 10, (50, 2, 2))
    expected = set()
    for i, (a, b) in enumerate(one):
        for j, (c, d) in enumerate(other):
            t, u = np.linalg.solve(np.array([b - a, c - d]).T, c - a)
            s, v = TOUCH / np.hypot(*(b - a)), TOUCH / np.hypot(*(d - c))
            if s < t < 1 - s and v < u < 1 - v:
                expected.add((i, j))
    assert expected
    assert set(zip(*crossings(one, other), strict=True)) == expected


def test_touching_ends_do_not_cross():
    assert not len(crossings(segments([((0, 0), (4, 0))]), segments([((2, 0), (2, 5))]))[0])
    assert len(crossings(segments([((0, 0), (4, 0))]), segments([((2, -1), (2, 5))]))[0])


def test_lines_beside_one_another():
    base = segments([((0, 0), (10, 0))])
    assert len(lies_on(base, segments([((2, 1), (20, 1))]))[0])
    assert not len(lies_on(base, segments([((2, 4), (20, 4))]))[0])
    assert not len(lies_on(base, segments([((10, 0), (20, 0))]))[0])  # a chain only touches
    assert not len(lies_on(base, segments([((2, 1), (4, 3))]))[0])


@settings(max_examples=60)
@given(
    st.tuples(st.floats(-9, 9), st.floats(-9, 9)),
    st.tuples(st.floats(-9, 9), st.floats(-9, 9)),
    st.sampled_from([0.0, 90.0, 35.0]),
)
def test_rectangle_and_segment_as_sampled(a, b, turn):
    quad = text_quad(Text((0.0, 0.0), "Ø31.75", 3.5, "middle", turn))
    o, p, _, q = (np.array(c) for c in quad)
    track = np.linspace(a, b, 4001)
    x = (track - o) @ (p - o) / ((p - o) @ (p - o))
    y = (track - o) @ (q - o) / ((q - o) @ (q - o))
    depth = np.minimum(np.minimum(x, 1 - x), np.minimum(y, 1 - y)).max()
    hit = bool(len(in_quads(quads([quad]), segments([(a, b)]))[0]))
    if abs(depth) > 0.01:
        assert hit == (depth > 0)


@pytest.mark.parametrize(("x", "meet"), [(0.0, True), (17.0, True), (23.0, False)])
def test_rectangles(x, meet):
    one = text_quad(Text((0.0, 0.0), "Ø31.75", 3.5))
    other = text_quad(Text((x, 0.0), "(12)", 3.5, turn=90.0))
    assert bool(len(quads_meet(quads([one]), quads([other]))[0])) is meet


def test_turned_rectangles_miss_one_another_although_their_boxes_meet():
    one = text_quad(Text((0.0, 0.0), "EXTENDED", 3.5, turn=45.0))
    other = text_quad(Text((9.0, 0.0), "EXTENDED", 3.5, turn=45.0))
    assert not len(quads_meet(quads([one]), quads([other]))[0])


@settings(max_examples=60)
@given(
    st.tuples(st.floats(-25, 25), st.floats(-9, 9)),
    st.sampled_from([0.0, 90.0]),
    st.sampled_from([0.0, 90.0]),
)
def test_upright_rectangles_meet_as_turned_ones_do(at, turn, other_turn):
    """A slanted one among them makes the general test decide for all."""
    one = quads([text_quad(Text((0.0, 0.0), "Ø31.75", 3.5, turn=turn))])
    other = quads([text_quad(Text(at, "(12)", 3.5, turn=other_turn))])
    slanted = quads([text_quad(Text((0.0, 0.0), "Ø31.75", 3.5, turn=turn + 45.0))])
    _, j = quads_meet(one, np.concatenate([other, slanted]))
    assert 1 in j
    assert bool(len(quads_meet(one, other)[0])) == (0 in j)
