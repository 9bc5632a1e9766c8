"""The barrel's wall.

Outside checks: Lamé's thick wall as printed in handbooks (hoop stress at the bore
p (D^2 + d^2) / (D^2 - d^2); Timoshenko, Strength of Materials II; recalled), which tends to the
thin-wall p d / (2 t); the factor of 4 on yield is the spec format's rule, common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.standards.table import table
from drafting.standards.tubes import FACTOR, hoop, tube_yield, wall_rule

PSI = 0.006894757


def test_lame_by_hand():
    """d = 200, D = 400, p = 30: hoop at the bore is 5/3 of the pressure, 50 MPa."""
    assert hoop(200, 400, 30) == pytest.approx(50.0)


def test_lame_tends_to_the_thin_wall():
    thin = 10 * 100 / (2 * 0.1)
    assert hoop(100, 100.2, 10) == pytest.approx(thin, rel=0.002)


def test_the_lightest_wall_that_carries():
    """3 1/2 bore, hoop stress over pressure, by hand.

    1/4: (16 + 12.25) / (16 - 12.25) = 7.533; 3/8: (18.0625 + 12.25) / 5.8125 = 5.215. With a
    quarter of 55 ksi, 13.75 ksi, the first carries 1825 psi, the second 2637 psi.
    """
    outside = [wall_rule(88.9, p * PSI).outside_mm / 25.4 for p in (1820, 1835, 2500, 2630)]
    assert outside == pytest.approx([4.0, 4.25, 4.25, 4.25])
    assert wall_rule(88.9, 2500 * PSI).carries is True
    too_much = wall_rule(88.9, 2650 * PSI)
    assert (too_much.carries, too_much.outside_mm) == (False, 107.95)
    assert "no row carries" in too_much.why


def test_without_a_pressure_the_heaviest_row():
    wall = wall_rule(88.9, None)
    assert (wall.wall_mm, wall.carries, wall.origin) == (9.525, None, "table")
    assert "no working pressure" in wall.why


def test_outside_the_table_a_tenth_of_the_bore():
    wall = wall_rule(77.0, 20.0)
    assert (wall.wall_mm, wall.origin, wall.source) == (7.7, "derived", "common practice")


def test_the_reason_names_material_factor_and_row():
    why = wall_rule(100.0, 16.0).why
    for word in ("factor of 4", "EN 10305-1", "E355", "355 MPa", "tube.csv:"):
        assert word in why
    assert "ASTM A513" in wall_rule(101.6, 16.0).why


def test_the_yields_are_specification_minimums():
    """ASTM A513 1020 stress relieved 55 ksi; EN 10305-1 E355 +N 355 MPa (supplier tables)."""
    for system, least in (("inch", 379), ("metric", 355)):
        row = tube_yield(system)
        assert row.required("yield_min_mpa") == least
        assert row.word("kind_of_value") == "specification minimum"
    assert tube_yield("inch").required("yield_min_ksi") == 55


BORES = sorted({r.required("id_mm") for r in table("tube").rows})


@given(st.sampled_from(BORES), st.floats(0.5, 60), st.floats(0.5, 60))
def test_more_pressure_never_thins_the_wall(bore, a, b):
    low, high = (wall_rule(bore, p) for p in sorted((a, b)))
    assert low.wall_mm <= high.wall_mm
    if high.carries:
        system = (
            "inch"
            if bore in {r.size("id") for r in table("tube").where(system="inch")}
            else "metric"
        )
        allowed = tube_yield(system).required("yield_min_mpa") / FACTOR
        assert hoop(bore, high.outside_mm, max(a, b)) <= allowed
