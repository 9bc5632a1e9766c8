"""Where formulas must meet simpler ones: limits from theory, not from our own output.

Sources: Euler's uniform columns with K of theory; continuity and force balance; Lamé's equations
(radial stress equals the pressure on each face, forces on the wall balance); FED-STD-H28.
"""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.calc import column, euler, flow, force, lug, pin, stepped, thread, tierod, tube, weld

ENDS = tuple(stepped.LENGTH_FACTOR)
LENGTHS = st.floats(10.0, 3000.0)
STIFF = st.floats(1e9, 1e13)


@given(ends=st.sampled_from(ENDS), a=LENGTHS, b=LENGTHS, stiffness=STIFF)
def test_equal_sections_give_euler(ends, a, b, stiffness):
    ours = stepped.critical_load(ends, stiffness, a, stiffness, b)
    assert ours == pytest.approx(
        euler.euler_load(stiffness, a + b, stepped.LENGTH_FACTOR[ends]), rel=1e-7
    )


@given(ends=st.sampled_from(ENDS), a=LENGTHS, tube=STIFF, rod=STIFF)
def test_a_vanishing_section_leaves_the_other(ends, a, tube, rod):
    factor = stepped.LENGTH_FACTOR[ends]
    assert stepped.critical_load(ends, tube, a, rod, 0.0) == euler.euler_load(tube, a, factor)
    assert stepped.critical_load(ends, tube, 0.0, rod, a) == euler.euler_load(rod, a, factor)
    stiffer = max(tube, rod)
    nearly = stepped.critical_load(ends, stiffer, 1e-6 * a, rod, a)
    assert nearly == pytest.approx(euler.euler_load(rod, a, factor), rel=1e-4)


@given(
    ends=st.sampled_from(ENDS),
    a=LENGTHS,
    b=LENGTHS,
    rod=STIFF,
    ratio=st.floats(1.0, 100.0),
    more=st.floats(1.001, 3.0),
)
def test_a_stiffer_tube_never_lowers_the_load(ends, a, b, rod, ratio, more):
    soft = stepped.critical_load(ends, ratio * rod, a, rod, b)
    assert stepped.critical_load(ends, ratio * more * rod, a, rod, b) >= soft * (1 - 1e-9)
    assert soft >= euler.euler_load(rod, a + b, stepped.LENGTH_FACTOR[ends]) * (1 - 1e-9)


@given(a=LENGTHS, b=LENGTHS, tube=STIFF, rod=STIFF)
def test_ends_that_hold_more_carry_more(a, b, tube, rod):
    def load(ends):
        return stepped.critical_load(ends, tube, a, rod, b)

    rising = ("fixed_free", "fixed_guided", "fixed_fixed")
    assert load(rising[0]) < load(rising[1]) < load(rising[2])
    assert load("pinned_pinned") < load("fixed_pinned") < load("fixed_fixed")


@given(ends=st.sampled_from(ENDS), a=LENGTHS, b=LENGTHS, tube=STIFF, rod=STIFF)
def test_turned_round_it_is_the_same_column(ends, a, b, tube, rod):
    turned = "_".join(reversed(ends.split("_")))
    if turned in ENDS:
        assert stepped.critical_load(turned, rod, b, tube, a) == pytest.approx(
            stepped.critical_load(ends, tube, a, rod, b), rel=1e-9
        )


def test_johnson_meets_euler_with_value_and_slope():
    limit = euler.slenderness_limit(500.0)

    def by_euler(s):
        return pi**2 * 206_000.0 / s**2

    assert euler.johnson_stress(limit, 500.0) == pytest.approx(by_euler(limit), rel=1e-12)
    step = limit * 1e-6
    slope = (euler.johnson_stress(limit + step, 500.0) - euler.johnson_stress(limit, 500.0)) / step
    assert slope == pytest.approx(-2 * by_euler(limit) / limit, rel=1e-4)


def test_longest_stroke_and_smallest_rod_stand_on_the_edge():
    parts = ("pinned_pinned", 60.0, 50.0)
    stroke = column.longest_stroke(40_000.0, *parts, 90.0, 1.0, 28.0, 60.0, 500.0)
    load = column.column_load(*parts, 90.0 + stroke, 28.0, 60.0 + stroke, 500.0)
    assert load == pytest.approx(40_000.0, rel=1e-4)
    rod = column.smallest_rod(40_000.0, *parts, 90.0 + stroke, 60.0 + stroke, 500.0)
    assert rod == pytest.approx(28.0, rel=1e-4)
    assert column.longest_stroke(1e7, *parts, 90.0, 1.0, 28.0, 60.0, 500.0) == 0.0
    assert column.smallest_rod(1e9, *parts, 900.0, 800.0, 500.0) == 50.0


def test_a_trunnion_or_flange_is_only_another_pivot():
    assert column.column_lengths(400.0, 900.0, 1750.0) == (500.0, 850.0)
    assert column.column_lengths(950.0, 900.0, 1750.0) == (0.0, 800.0)


BORES = st.floats(20.0, 400.0)


@given(bore=BORES, share=st.floats(0.1, 0.95), p=st.floats(0.1, 40.0))
def test_one_pressure_on_both_sides_pushes_the_rod_out_alone(bore, share, p):
    rod = share * bore
    assert force.push_force(bore, rod, p, p) == pytest.approx(force.ram_force(rod, p), rel=1e-9)


def test_no_rod_no_difference():
    assert force.area_ratio(80.0, 0.0) == 1.0
    assert force.blocked_rod_pressure(80.0, 0.0, 16.0) == pytest.approx(16.0)
    assert force.pull_force(80.0, 0.0, 16.0) == pytest.approx(force.push_force(80.0, 0.0, 16.0))
    assert flow.return_flow(80.0, 0.0, 1e5) == 1e5


@given(bore=BORES, share=st.floats(0.1, 0.95), q=st.floats(1e3, 1e7))
def test_oil_in_is_oil_out(bore, share, q):
    rod = share * bore
    out = flow.extend_speed(bore, q) * force.annulus_area(bore, rod)
    assert out == pytest.approx(flow.rod_side_return_flow(bore, rod, q), rel=1e-9)
    total = flow.retract_volume(bore, rod, 100.0) + flow.rod_volume(rod, 100.0)
    assert total == pytest.approx(flow.extend_volume(bore, 100.0), rel=1e-9)
    # Regenerating, pump and rod side together fill the base side.
    velocity = flow.regenerative_speed(rod, q)
    back = velocity * force.annulus_area(bore, rod)
    assert velocity * force.cap_area(bore) == pytest.approx(q + back, rel=1e-9)


@given(inside=st.floats(20.0, 300.0), wall=st.floats(1.0, 60.0), p=st.floats(1.0, 50.0))
def test_lame_on_both_faces_and_in_balance(inside, wall, p):
    outside = inside + 2 * wall
    assert tube.radial_stress(inside, outside, p, inside) == pytest.approx(-p, rel=1e-6)
    assert tube.radial_stress(inside, outside, p, outside) == pytest.approx(0.0, abs=1e-6 * p)
    # Half the barrel: hoop stress summed over the wall (Simpson) holds the pressure on the bore.
    n = 200
    step = wall / n
    sums = sum(
        (1 if k in (0, n) else 4 if k % 2 else 2)
        * tube.hoop_stress(inside, outside, p, inside + 2 * step * k)
        for k in range(n + 1)
    )
    assert 2 * sums * step / 3 == pytest.approx(p * inside, rel=1e-4)
    assert tube.yield_pressure(
        inside, outside, tube.equivalent_stress(inside, outside, p)
    ) == pytest.approx(p, rel=1e-9)


def test_a_thin_wall_is_the_limit_of_a_thick_one():
    thick = tube.hoop_stress(1000.0, 1002.0, 1.0, 1000.0)
    assert thick == pytest.approx(tube.thin_wall_stress(1000.0, 1.0, 1.0), rel=2e-3)
    assert tube.barlow_pressure(1002.0, 1.0, 300.0) == pytest.approx(
        tube.thin_wall_pressure(1000.0, 1.0, 300.0), rel=3e-3
    )


def test_a_flat_cap_by_numbers():
    """Both caps against the plate's equation D (w'' + w'/r)' = p r / 2, stepped from the middle."""
    p, d, t, v = 20.0, 80.0, 20.0, 0.3
    rigidity = 206_000.0 * t**3 / (12 * (1 - v**2))
    n = 4000
    h = d / 2 / n
    # slope s = C r - p r^3 / (16 D); C from the edge: s = 0 (held) or s' + v s / r = 0 (free).
    for stress, c in (
        (tube.cap_stress_held(d, t, p), p * (d / 2) ** 2 / (16 * rigidity)),
        (tube.cap_stress_free(d, t, p), p * (d / 2) ** 2 * (3 + v) / (16 * rigidity * (1 + v))),
    ):
        slope = [c * k * h - p * (k * h) ** 3 / (16 * rigidity) for k in range(n + 2)]
        moments = []
        for k in range(1, n + 1):
            r, bend = k * h, (slope[k + 1] - slope[k - 1]) / (2 * h)
            moments += [
                rigidity * (bend + v * slope[k] / r),
                rigidity * (slope[k] / r + v * bend),
            ]
        assert 6 * max(map(abs, moments)) / t**2 == pytest.approx(stress, rel=1e-5)


@given(d=st.floats(10.0, 150.0), share=st.floats(0.02, 0.15), engaged=st.floats(5.0, 100.0))
def test_thread_shear_as_in_the_federal_handbook(d, share, engaged):
    """FED-STD-H28 at basic sizes: pi Le Kn (1/2 + 0.57735 (E - Kn)/P), and its female twin."""
    p = share * d
    minor, middle = d - 2 * 0.541266 * p, d - 2 * 0.324760 * p
    male = pi * engaged * minor * (0.5 + 0.57735 * (middle - minor) / p)
    female = pi * engaged * d * (0.5 + 0.57735 * (d - middle) / p)
    assert thread.male_shear_area(d, p, engaged) == pytest.approx(male, rel=1e-4)
    assert thread.female_shear_area(d, engaged) == pytest.approx(female, rel=1e-4)


@pytest.mark.parametrize(
    ("size", "pitch", "area"),
    [(6, 1.0, 20.1), (10, 1.5, 58.0), (16, 2.0, 157.0), (24, 3.0, 353.0), (36, 4.0, 817.0)],
)
def test_stress_areas_of_iso_898(size, pitch, area):
    """ISO 898-1, nominal stress areas in mm2; from memory."""
    assert thread.stress_area_metric(size, pitch) == pytest.approx(area, rel=2.5e-3)


@pytest.mark.parametrize(("size", "tpi", "area"), [(0.25, 20, 0.0318), (0.5, 13, 0.1419),
                                                   (1.0, 8, 0.606), (1.25, 12, 1.073)])  # fmt: skip
def test_stress_areas_of_unified_threads(size, tpi, area):
    """ASME B1.1, tensile stress areas in square inches; from memory."""
    ours = thread.stress_area_unified(25.4 * size, 25.4 / tpi) / 25.4**2
    assert ours == pytest.approx(area, rel=2.5e-3)


def test_tie_rods_open_where_they_say():
    share = tierod.load_share(2.5e5, 1.0e6)
    opens = tierod.separating_force(120_000.0, share)
    assert tierod.rod_force(120_000.0, share, opens) == pytest.approx(opens)
    assert tierod.rod_force(120_000.0, share, 2 * opens) == 2 * opens
    assert tierod.rod_force(120_000.0, share, 0.0) == 120_000.0


def test_a_round_eye_tears_as_it_pulls():
    assert lug.tear_out(3e4, 25.4, 25.4, 19.05) == lug.eye_tension(3e4, 50.8, 25.4, 19.05)


def test_a_groove_through_the_wall_is_the_wall():
    through = weld.ring_groove_stress(1e5, 7.5, 95.0)
    assert through == pytest.approx(1e5 / force.annulus_area(95.0, 80.0))


LOADS = st.floats(1e3, 1e6)
WIDTHS = st.floats(5.0, 200.0)


def moment_about(cut: float, loads: list[tuple[float, float, float]], pieces: int = 4000) -> float:
    """Sum what stands left of a cut: loads spread evenly (force, from, to), in small pieces."""
    total = 0.0
    for force_, lo, hi in loads:
        for k in range(pieces):
            x = lo + (k + 0.5) * (hi - lo) / pieces
            total += force_ / pieces * max(cut - x, 0.0)
    return total


@given(load=LOADS, eye=WIDTHS, ear=WIDTHS, gap=st.floats(0.0, 10.0))
@settings(max_examples=20)
def test_a_pin_in_a_fork_bends_as_its_spread_loads_say(load, eye, ear, gap):
    """Statics: the ears push up, half each, the eye down; the middle bears the greatest moment."""
    middle = ear + gap + eye / 2
    spread = [(load / 2, 0.0, ear), (-load, ear + gap, ear + gap + eye)]
    assert pin.bending_moment(load, eye, ear, gap) == pytest.approx(
        moment_about(middle, spread), rel=1e-4
    )


@given(load=LOADS, length=WIDTHS, gap=st.floats(0.0, 10.0))
@settings(max_examples=20)
def test_a_trunnion_pin_bends_as_its_spread_load_says(load, length, gap):
    spread = [(load, 0.0, length)]
    assert pin.cantilever_moment(load, length, gap) == pytest.approx(
        moment_about(length + gap, spread), rel=1e-4
    )


def test_oil_in_a_pressure_line_keeps_to_the_usual_speed():
    """Common practice, from memory: 6 m/s or 20 ft/s, which are the same to 2 %."""
    assert pytest.approx(20 * 304.8, rel=0.02) == flow.PRESSURE_LINE_SPEED
