"""Whole answers: cylinders in machines whose numbers are worked out by hand beside the check."""

from dataclasses import replace
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


IN, LBF = 25.4, 4.4482216152605
BY_HAND = {
    # Hinge: r to the rod pin, d to the base pin, g the angle between them. Law of cosines:
    # L^2 = r^2 + d^2 - 2 r d cos g; lever = r d sin g / L; force = sum of moments / lever.
    # r 421.900, d 509.902, g 84.130 and 149.130; 1400 kg x 9.80665 x 602.993 cos(5.711, 70.711).
    ("wagon-tailboard", 0.0): (627.6942, 340.9303, 24_162.1),
    ("wagon-tailboard", 65.0): (898.5013, 122.8480, 22_261.5),
    # r 8.06226 in, d 22.09072 in, g 65.450 and 135.450; 600 lbf x 23.7697 in x cos(67.751) and
    # cos(137.751).
    ("lock-latch", 0.0): (20.124612 * IN, 8.049845 * IN, 670.8204 * LBF),
    ("lock-latch", 70.0): (28.404954 * IN, 4.398687 * IN, -2_400.0418 * LBF),
    # r 231.948, d 424.264, g 90.699 and 158.699; half of 520 kg at 550.273 (19.094), and of 800 N,
    # at the end 160 N, at 721.110 (33.690).
    ("bin-arms", 0.0): (486.0041, 202.4674, 7_733.88),
    ("bin-arms", 68.0): (645.8861, 55.3483, 1_074.19),
    # Slide: L^2 = (32.5 + x)^2 + 4^2; lever = (32.5 + x) / L; force = 1500 lbf x share / lever.
    ("saw-carriage", 0.0): (32.745229 * IN, 0.992511, 604.5273 * LBF),
    ("saw-carriage", 12.0 * IN): (44.679414 * IN, 0.995984, 1_506.0476 * LBF),
    ("saw-carriage", 18.0 * IN): (50.658168 * IN, 0.996878, 1_504.6981 * LBF),
}


@pytest.mark.parametrize(("name", "at"), BY_HAND, ids=lambda x: str(x))
def test_four_machines_by_hand(fits, name, at):
    """Lengths between pins, levers and forces of the loads, reckoned apart from the project."""
    length, lever, force = BY_HAND[name, at]
    q = min(fits[name].positions, key=lambda q: abs(q.place.at - at))
    assert q.place.at == pytest.approx(at)
    assert q.place.length == pytest.approx(length, rel=1e-6)
    assert abs(q.place.arm) == pytest.approx(lever, rel=1e-5)
    assert q.asked == pytest.approx(force, rel=1e-5)


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


def test_a_model_in_which_nothing_moves_is_told():
    m = read_machine(str(SPECS / "machines" / "wagon-tailboard.toml"))
    still = replace(m, model=replace(m.model, moving=()))
    found = {x.code: x for x in fit(cylinder("tailboard-lift"), still).findings}
    assert "stands still" in found["nothing-moves"].message
    assert "nothing-moves" not in {x.code for x in fit(cylinder("tailboard-lift"), m).findings}


def test_the_report_says_first_where_it_is_tightest(fits):
    """Reach, force, column and clearance stand before any table, each with its place."""
    head = fit_text(fits["wagon-tailboard"]).partition("LENGTHS")[0]
    assert "closed 7.69 mm left, open 41.5 mm left" in head
    assert "28.29 kN of 46.76 kN, 61 % used, at 35.2 deg" in head
    assert "at full pressure, at 68.0 deg" in head
    assert "cylinder.barrel_outside to cross beam" in head
