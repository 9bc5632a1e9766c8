"""Whole answers: cylinders in machines whose numbers are worked out by hand beside the check."""

from math import pi

import pytest

from drafting.errors import Refused
from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.reports.fitting import fit_json, fit_text, why_exit
from tests.fitting.machines import PAIRS, SPECS, cylinder, hinge, machine, weight


@pytest.fixture(scope="module")
def fits():
    return {
        m: fit(cylinder(c), read_machine(str(SPECS / "machines" / f"{m}.toml")))
        for m, c in PAIRS.items()
    }


def row(f, field):
    return next(r for r in f.rows if r.field == field)


def test_the_tailboard_by_hand(fits):
    """At 0 degrees: base (100, -500), rod pin (420, 40), 1400 kg at (600, 60), all in mm.

    Between pins sqrt(320^2 + 540^2) = 627.694; lever (420 x 540 - 40 x 320) / 627.694 = 340.931;
    moment 1400 x 9.80665 x 600 = 8,237,586 N mm, so 24,162 N by the load. Push there is
    15 MPa x pi/4 x 63^2 = 46,759 N.
    """
    f = fits["wagon-tailboard"]
    q = f.positions[0]
    assert q.place.length == pytest.approx(627.694, abs=1e-3)
    assert q.place.arm == pytest.approx(340.931, abs=1e-3)
    assert q.asked == pytest.approx(24162.0, abs=1.0)
    assert q.push == pytest.approx(15 * pi / 4 * 63**2)
    assert q.pull == pytest.approx(15 * pi / 4 * (63**2 - 36**2))
    assert row(f, "cylinder.retracted").margin == pytest.approx(7.694, abs=1e-3)
    assert f.verdict == "fits with work"
    assert q.own == pytest.approx(0.0, abs=150.0)  # some 20 kg, half of it on the pin
    assert q.own > 0.0


def test_oil_and_time_by_hand(fits):
    """Out: pi/4 x 63^2 x (898.501 - 627.694) = 0.8442 l; at 20 l/min 2.533 s."""
    out, back, t_out, t_back = fits["wagon-tailboard"].oil
    assert out == pytest.approx(0.8442, abs=1e-4)
    assert t_out == pytest.approx(2.5325, abs=1e-3)
    assert back / out == pytest.approx(1 - (36 / 63) ** 2)
    assert t_back / t_out == pytest.approx(back / out)


def test_a_latch_passes_over_and_needs_both_valves(fits):
    """Over the hinge when the weight at (9, 22) stands above it: atan(9/22) = 22.249 degrees."""
    f = fits["lock-latch"]
    assert row(f, "over_centre").at == pytest.approx(22.249, abs=0.6)  # own weight shifts it
    assert sum("holding valve" in j.short for j in f.jobs) == 2


def test_two_share_and_one_alone_takes_all(fits):
    f = fits["bin-arms"]
    worst = max(max(q.most_push, q.most_pull) for q in f.positions)
    assert row(f, "pair.alone").machine == pytest.approx(2 * worst)


@pytest.mark.parametrize("name", PAIRS)
def test_reports_are_plain_and_narrow_and_json_has_what_the_contract_asks(fits, name):
    f = fits[name]
    for full in (False, True):
        text = fit_text(f, full)
        assert text.isascii()
        assert max(map(len, text.splitlines())) <= 100
    d = fit_json(f)
    assert len(d["positions"]) >= 10
    at = "at_mm" if name == "saw-carriage" else "at_deg"
    assert {at, "length_mm", "arm_mm", "asked_n", "asked_out_n", "asked_in_n", "push_n", "pull_n",
            "column_factor"} <= d["positions"][0].keys()  # fmt: skip
    assert {"field", "machine_mm", "cylinder_mm", "margin_mm", "verdict", "do", "why",
            "source"} <= d["rows"][0].keys()  # fmt: skip
    assert {r["verdict"] for r in d["rows"]} <= {"fits", "fits with work", "does not fit",
                                                 "not known"}  # fmt: skip


def test_pins_that_never_come_apart_far_enough():
    f = fit(cylinder("tailboard-lift"), hinge((200, 0), (0, 150), 0, 60, weight(50, 300, 0)))
    assert f.verdict == "does not fit"
    assert "never goes in" in row(f, "cylinder.retracted").why


def test_a_travel_through_a_dead_centre_is_refused_and_no_number_is_endless():
    m = hinge((100, -500), (420, 40), 0, 120, weight(300, 600, 60))
    f = fit(cylinder("tailboard-lift"), m)
    assert row(f, "travel.dead_centre").verdict == "does not fit"
    at = [q for q in fit_json(f)["positions"] if q["asked_n"] is None]
    assert [q["at_deg"] for q in at] == [pytest.approx(95.87, abs=0.01)]


def test_a_stop_that_the_piston_does_not_reach_is_a_job():
    m = machine(
        'title = "F"\nunits = "mm"\n[distance]\nclosest = 630\nfarthest = 930\n'
        "hard_farthest = 950\nhard_closest = 625\n"
    )
    f = fit(cylinder("tailboard-lift"), m)
    assert row(f, "stop.farthest").verdict == "fits with work"
    assert row(f, "stop.farthest").margin == pytest.approx(-10)
    assert row(f, "stop.closest").verdict == "fits"


def test_a_foot_cannot_follow_an_arm():
    f = fit(cylinder("hay-shuttle"), hinge((100, -700), (420, 60), 0, 40, weight(50, 600, 0)))
    assert row(f, "body_mount.mount").verdict == "does not fit"
    assert row(f, "rod_mount.mount").verdict == "does not fit"


def test_a_supply_above_the_rating_is_refused():
    text = '[supply]\npressure = "200 bar"\n'
    with pytest.raises(Refused, match="above-rating"):
        fit(cylinder("tailboard-lift"), hinge((100, -500), (420, 40), 0, 65, text))


def test_too_weak_does_not_fit_and_almost_is_not_known():
    c = cylinder("tailboard-lift")
    supply = '[supply]\npressure = "{} bar"\n'
    m = hinge((100, -500), (420, 40), 0, 65, weight(1400, 600, 60) + supply.format(80))
    assert row(fit(c, m), "push").verdict == "does not fit"
    m = hinge((100, -500), (420, 40), 0, 65, weight(1400, 600, 60) + supply.format(90))
    assert row(fit(c, m), "push").verdict == "not known"
    m = hinge((100, -500), (420, 40), 0, 65, weight(1400, 600, 60) + supply.format(100))
    assert row(fit(c, m), "push").verdict == "fits"


def test_only_what_is_wholly_known_gives_nothing_to_say():
    """Distances alone, and no word of ears or loads: the lengths fit, the rest is told as open."""
    text = 'title = "F"\nunits = "mm"\n[distance]\nclosest = 630\nfarthest = 930\n'
    f = fit(cylinder("tailboard-lift"), machine(text))
    assert {r.verdict for r in f.rows if r.chapter == "lengths"} == {"fits"}
    assert "not known" in why_exit(f)
