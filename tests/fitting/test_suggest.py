"""Suggested pins, each held against the whole of ``fit`` at that place."""

from dataclasses import replace

import numpy as np
import pytest

from drafting.fitting.asked import asked
from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.fitting.probe import measured, probe
from drafting.fitting.subject import subject
from drafting.fitting.suggest import moved, suggest
from drafting.fitting.suggestion import PINS
from drafting.fitting.travel import place, pressure_angle
from tests.fitting.machines import SPECS, cylinder, hinge, weight


@pytest.fixture(scope="module")
def tailboard():
    return cylinder("tailboard-lift")


@pytest.fixture(scope="module")
def wagon():
    return replace(read_machine(str(SPECS / "machines" / "wagon-tailboard.toml")), model=None)


def verdicts(f):
    fields = ("cylinder.retracted", "cylinder.extended", "push", "pull", "travel.dead_centre")
    return {r.verdict for r in f.rows if r.field in fields}


@pytest.mark.parametrize("pin", PINS)
def test_every_suggestion_fits_by_the_full_rules(tailboard, wagon, pin):
    found = suggest(subject(tailboard, wagon), wagon, pin)
    assert len(found.best) == 3
    for one in found.best:
        there = replace(wagon, way=moved(wagon.way, pin, one.place))
        f = fit(tailboard, there)
        assert verdicts(f) == {"fits"}, one
        rows = {r.field: r for r in f.rows}
        ends = (rows["cylinder.retracted"].margin, rows["cylinder.extended"].margin)
        assert min(ends) == pytest.approx(one.margin)


def test_the_region_is_where_it_fits_and_nowhere_else(tailboard, wagon):
    """A sample of the grid, in the region and beside it, is judged one by one."""
    found = suggest(subject(tailboard, wagon), wagon)
    inside = found.region[:: max(1, len(found.region) // 15)]
    for base in inside:
        f = fit(tailboard, replace(wagon, way=replace(wagon.way, base_pin=base)))
        lengths = [r for r in f.rows if r.field in ("cylinder.retracted", "cylinder.extended")]
        # At the rim own weight, and turns between two places, may take the last of it.
        assert min(r.margin for r in lengths) > -0.5
        assert not [r for r in f.rows if r.field == "travel.dead_centre" and
                    r.verdict == "does not fit"]  # fmt: skip
    (x0, y0), (x1, y1) = (min(found.region), max(found.region))
    for base in ((x0 - 3 * found.step, y0), (x1 + 3 * found.step, y1)):
        f = fit(tailboard, replace(wagon, way=replace(wagon.way, base_pin=base)))
        assert verdicts(f) - {"fits"}, base


def test_the_first_leaves_more_than_a_random_place_of_the_region(tailboard, wagon):
    """By what is met least: length, spare force, angle, each in the measure that ranks them."""

    def least(f):
        rows = {r.field: r for r in f.rows}
        ends = min(rows[n].margin for n in ("cylinder.retracted", "cylinder.extended"))
        spare = min(q.push / q.most_push for q in f.positions)
        return min(ends / 10.0, (spare - 1.1) / 0.2)

    found = suggest(subject(tailboard, wagon), wagon)
    first = fit(tailboard, replace(wagon, way=replace(wagon.way, base_pin=found.best[0].place)))
    for base in found.region[:: max(1, len(found.region) // 10)]:
        other = fit(tailboard, replace(wagon, way=replace(wagon.way, base_pin=base)))
        angle = (found.best[0].angle - 15.0) / 10.0
        assert min(least(first), angle) >= min(least(other), angle) - 0.15


@pytest.mark.parametrize("pin", PINS)
def test_many_places_at_once_measure_what_one_place_does(tailboard, wagon, pin):
    """The arrays against the closed forms of one mechanism, at random places of either pin."""
    s = subject(tailboard, wagon)
    rng = np.random.default_rng(18)
    points = rng.uniform(-900, 900, (40, 2))
    got = measured(probe(s, wagon, pin), points)
    for k, p in enumerate(points):
        way = moved(wagon.way, pin, (float(p[0]), float(p[1])))
        ps = [place(way, at) for at in np.linspace(way.start, way.end, 19)]
        assert got.near[k] == pytest.approx(min(q.length for q in ps) - s.closed)
        assert got.far[k] == pytest.approx(s.open - max(q.length for q in ps))
        if all(q.arm > 0 for q in ps) or all(q.arm < 0 for q in ps):
            assert got.angle[k] == pytest.approx(min(pressure_angle(q, way) for q in ps))
        else:
            assert got.angle[k] < 0.0
        asked_ = [asked(way, q) * (1 + wagon.friction) for q in ps]
        assert got.need_push[k] == pytest.approx(max(0.0, *asked_), rel=1e-6)
        assert got.need_pull[k] == pytest.approx(max(0.0, *(-a for a in asked_)), rel=1e-6)


def test_standard_sizes_do_what_they_say(tailboard, wagon):
    """Each from ISO 4393's strokes as they are recalled in the table; forces and lengths by hand.

    The rod as a bar over the whole length: Euler, pi^2 E I / L^2, factor 4.
    """
    s = subject(tailboard, wagon)
    found = suggest(s, wagon).stock
    assert found
    for one in found:
        assert one.stroke in (25, 50, 80, 100, 125, 160, 200, 250, 320, 400, 500, 630, 800, 1000)
        way = moved(wagon.way, "base", one.place)
        ps = [place(way, at) for at in np.linspace(0, 65, 66)]
        closed = (s.closed - 320) + one.stroke
        assert min(q.length for q in ps) > closed - 1.0
        assert max(q.length for q in ps) < closed + one.stroke + 1.0
        need = [asked(way, q) * 1.05 for q in ps]
        assert max(need) <= 15 * np.pi / 4 * one.bore**2 / 1.1 * 1.01
        assert -min(need) <= 15 * np.pi / 4 * (one.bore**2 - one.rod**2) / 1.1 * 1.01
        bar = np.pi**2 * 206_000 * np.pi / 64 * one.rod**4 / max(q.length for q in ps) ** 2
        assert max(need) <= bar / 4 * 1.05


def test_a_place_that_fits_by_less_than_its_tolerance_says_so(tailboard, wagon):
    """A tolerance of 30 on the lengths: 7.7 mm left at the tighter end is not sure."""
    s = replace(subject(tailboard, wagon), off=(30.0, 30.0))
    found = suggest(s, wagon)
    assert found.best
    assert all(one.unsure and "not sure to fit" in one.why for one in found.best)


def test_none_is_said_with_its_reason(tailboard):
    m = hinge((100, -500), (2000, 0), 0, 120, weight(10, 600, 0))
    found = suggest(subject(tailboard, m), m)
    assert found.best == ()
    assert "farther than the cylinder is long" in found.why_none
    heavy = hinge((100, -500), (420, 40), 0, 65, weight(30000, 600, 0))
    text = suggest(subject(tailboard, heavy), heavy).why_none
    assert "times the force asked" in text
