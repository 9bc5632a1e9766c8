"""Suggested pins, each held against the whole of ``fit`` at that place."""

from dataclasses import replace

import pytest

from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.fitting.subject import subject
from drafting.fitting.suggest import suggest
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


def test_every_suggestion_fits_by_the_full_rules(tailboard, wagon):
    found = suggest(subject(tailboard, wagon), wagon)
    assert len(found.best) == 3
    for one in found.best:
        there = replace(wagon, way=replace(wagon.way, base_pin=one.place))
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


def test_none_is_said_with_its_reason(tailboard):
    m = hinge((100, -500), (2000, 0), 0, 120, weight(10, 600, 0))
    found = suggest(subject(tailboard, m), m)
    assert found.best == ()
    assert "farther than the cylinder is long" in found.why_none
    heavy = hinge((100, -500), (420, 40), 0, 65, weight(30000, 600, 0))
    text = suggest(subject(tailboard, heavy), heavy).why_none
    assert "times the force asked" in text
