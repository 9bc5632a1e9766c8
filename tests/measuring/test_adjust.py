"""Uncertainties carried through against the ``uncertainties`` package, fits against numpy.

Formulas: law of propagation of uncertainty, JCGM 100:2008 (GUM) 5.1 and 5.2; chi-square points from
printed tables (99 %: 6.63, 9.21, 11.34, 23.21 for 1, 2, 3, 10 degrees of freedom).
"""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import correlated_values, ufloat

from drafting.measuring.adjust import Observation, adjust, chi_square, judge_readings
from drafting.measuring.tools import limit, of_mean

SIZE = st.floats(5.0, 900.0)
U = st.floats(0.02, 2.0)


@given(SIZE, SIZE, SIZE, SIZE, U, U, U, U)
def test_lengths_over_edges_are_propagated_with_their_correlation(a, b, d1, d2, ua, ub, u1, u2):
    """Closed and open share both holes: the stroke between them does not feel the holes at all."""
    edges = {"H1": 0.5, "H2": 0.5}
    found = adjust(
        [
            Observation("A_outer", a, ua, {"A": 1.0, **edges}),
            Observation("B_outer", b, ub, {"B": 1.0, **edges}),
            Observation("H1", d1, u1, {"H1": 1.0}),
            Observation("H2", d2, u2, {"H2": 1.0}),
        ]
    )
    over_a, over_b, hole_1, hole_2 = (
        ufloat(x, u) for x, u in ((a, ua), (b, ub), (d1, u1), (d2, u2))
    )
    closed = over_a - hole_1 / 2 - hole_2 / 2
    opened = over_b - hole_1 / 2 - hole_2 / 2
    for terms, theirs in (
        ({"A": 1.0}, closed),
        ({"B": 1.0}, opened),
        ({"B": 1.0, "A": -1.0}, opened - closed),
        ({"A": 2.0, "H1": 1.0}, 2 * closed + hole_1),
    ):
        assert found.value(terms) == pytest.approx(theirs.nominal_value, abs=1e-6)
        assert found.sigma(terms) == pytest.approx(theirs.std_dev, rel=1e-6)


@given(SIZE, SIZE, U, U)
def test_a_bore_from_outside_less_two_walls(d, wall, ud, uw):
    found = adjust(
        [
            Observation("D", d, ud, {"C": 1.0, "F": 2.0}),
            Observation("F", wall, uw, {"F": 1.0}),
        ]
    )
    theirs = ufloat(d, ud) - 2 * ufloat(wall, uw)
    assert found.value({"C": 1.0}) == pytest.approx(theirs.nominal_value, abs=1e-6)
    assert found.sigma({"C": 1.0}) == pytest.approx(theirs.std_dev, rel=1e-6)


@given(st.lists(SIZE, min_size=5, max_size=5), st.lists(U, min_size=5, max_size=5))
def test_too_many_readings_are_fitted_as_numpy_fits_them(values, us):
    terms = [
        {"A": 1.0, "H": 0.5},
        {"A": 1.0, "H": -0.5},
        {"H": 1.0},
        {"B": 1.0, "A": -1.0},
        {"B": 1.0, "H": 0.5},
    ]
    names = ("A", "H", "B")
    found = adjust([Observation(str(k), v, u, t) for k, (v, u, t) in
                    enumerate(zip(values, us, terms, strict=True))])  # fmt: skip
    design = np.array([[t.get(n, 0.0) for n in names] for t in terms]) / np.array(us)[:, None]
    theirs, rest, *_ = np.linalg.lstsq(design, np.array(values) / us, rcond=None)
    covariance = np.linalg.inv(design.T @ design)
    joint = correlated_values(theirs, covariance)
    assert [found.sizes[n] for n in names] == pytest.approx(list(theirs), rel=1e-6, abs=1e-6)
    assert found.sigma({"A": 1.0, "B": 2.0}) == pytest.approx(
        (joint[0] + 2 * joint[2]).std_dev, rel=1e-6
    )
    assert found.misfit == pytest.approx(float(rest[0]), rel=1e-5, abs=1e-6)
    assert found.spare == 2


def test_what_readings_do_not_determine_is_left_out():
    found = adjust(
        [
            Observation("A_outer", 500.0, 1.0, {"A": 1.0, "H1": 0.5}),
            Observation("E", 40.0, 0.03, {"E": 1.0}),
        ]
    )
    assert found.sizes == {"E": 40.0}
    assert found.value({"A": 1.0}) is None


def test_an_outlier_is_named_only_where_others_check_each_other():
    good = [
        Observation("A_outer", 530.0, 0.5, {"A": 1.0, "H": 1.0}),
        Observation("A_inner", 470.0, 0.5, {"A": 1.0, "H": -1.0}),
        Observation("A_same", 500.0, 0.5, {"A": 1.0}),
        Observation("H", 30.0, 0.05, {"H": 1.0}),
    ]
    assert judge_readings(good).outlier == ""
    assert not judge_readings(good).conflict
    slipped = [Observation("A_outer", 555.4, 0.5, {"A": 1.0, "H": 1.0}), *good[1:]]
    assert judge_readings(slipped).outlier == "A_outer"
    assert judge_readings(slipped).adjusted.value({"A": 1.0}) == pytest.approx(500.0, abs=0.1)


def test_three_lengths_that_disagree_are_a_conflict_without_a_name():
    found = judge_readings(
        [
            Observation("A", 500.0, 0.5, {"A": 1.0}),
            Observation("B", 900.0, 0.5, {"B": 1.0}),
            Observation("S", 410.0, 0.5, {"B": 1.0, "A": -1.0}),
        ]
    )
    assert found.outlier == ""
    assert set(found.conflict) == {"A", "B", "S"}


@pytest.mark.parametrize(("freedom", "point"), [(1, 6.63), (2, 9.21), (3, 11.34), (10, 23.21)])
def test_chi_square(freedom, point):
    assert chi_square(freedom) == pytest.approx(point, rel=0.02)


def test_a_display_is_finer_than_the_truth():
    assert limit("caliper", 0.01, "rod", 40.0) == 0.05
    assert limit("caliper", 0.01, "bore", 40.0) == 0.1
    assert limit("caliper", 0.2, "rod", 40.0) == 0.2
    assert limit("tape", 25.4 / 16, "length", 0.0) == 25.4 / 16
    assert limit("tape", 1.0, "length", 500.0, guessed=True) == 25.4 / 8


def test_repeats_help_down_to_half_and_no_further():
    assert of_mean(1.0, 1) == 1.0
    assert of_mean(1.0, 2) == pytest.approx(2**-0.5)
    assert of_mean(1.0, 4) == of_mean(1.0, 400) == 0.5


def test_a_size_half_way_between_two_printed_ones_is_the_same_everywhere():
    """Readings of 3.001 and 3.002 in: the order that they are summed in is as a processor's."""
    read = [
        Observation(f"A{k}", v * 25.4, 0.05, {"A": 1.0}) for k, v in enumerate((3.001, 3.002) * 3)
    ]
    found = {adjust(list(some)).sizes["A"] for some in permutations(read)}
    assert found == {round(3.0015 * 25.4, 9)}
