"""What the trade does, as common practice (no source), and areas by hand."""

from math import pi
from pathlib import Path

import pytest

from drafting.model.load import checked, load
from drafting.replacing.judge import compare
from drafting.replacing.known import subject
from drafting.told.short import quantity
from tests.replacing.offers import judged, row

IN, PSI = 25.4, 0.006894757293168361


def test_two_inches_more_stroke_reach_two_inches_further():
    c = judged(cylinder__stroke="26")
    assert row(c, "cylinder.stroke").verdict == "changes"
    assert row(c, "cylinder.stroke").difference == pytest.approx(2 * IN)
    assert "2 in farther" in row(c, "cylinder.stroke").answer.why
    assert row(c, "cylinder.retracted").verdict == "same"
    opened = row(c, "cylinder.extended")
    assert (opened.verdict, opened.answer.do) == ("not known", "measure hard stop: > 62")
    assert c.verdict == "not known"


def test_a_larger_bore_is_slower_by_the_ratio_of_areas_and_stronger_by_it():
    c = judged(cylinder__bore="4", cylinder__barrel_outside=None)
    ratio = (4 / 3) ** 2
    push, out = row(c, "push"), row(c, "time_out")
    assert push.old == pytest.approx(2500 * PSI * pi / 4 * (3 * IN) ** 2)
    assert push.new / push.old == pytest.approx(ratio)
    assert out.new / out.old == pytest.approx(ratio)
    flow = 11 * 3.785411784 / 60 * 1e6
    assert out.old == pytest.approx(pi / 4 * (3 * IN) ** 2 * 24 * IN / flow)
    pull = (4**2 - 2**2) / (3**2 - 2**2)
    assert row(c, "pull").new / row(c, "pull").old == pytest.approx(pull)


def test_one_relief_cannot_keep_both_forces_and_the_job_says_so():
    c = judged(cylinder__bore="4", cylinder__barrel_outside=None)
    keeps_push = 2500 * (3 / 4) ** 2
    keeps_pull = 2500 * (3**2 - 2**2) / (4**2 - 2**2)
    assert row(c, "relief").new == pytest.approx(keeps_push * PSI)
    (job,) = row(c, "relief").answer.jobs
    assert f"{keeps_push:,.0f} psi keeps the push" in job.text
    assert f"{keeps_pull:,.0f} psi" in job.text
    assert "no one setting restores both" in job.text
    assert "main relief feels it" in job.text


def test_a_one_inch_tube_on_a_three_quarter_pin_is_sleeved():
    ears = {"base_ears.pin": 0.75 * IN}
    found = row(judged(ears), "body_mount.pin")
    assert found.verdict == "works with"
    assert "sleeve" in found.answer.jobs[0].text
    wall = (1.016 * IN - 0.75 * IN - 0.2) / 2  # 0.2 mm running clearance, common practice
    assert f"{wall / IN:.3f}".lstrip("0") in found.answer.jobs[0].text


def test_a_sleeve_without_a_wall_is_none():
    found = row(judged({"base_ears.pin": 0.95 * IN}), "body_mount.pin")
    assert found.verdict == "not known"
    assert "no sleeve" in found.answer.why


def test_an_o_ring_port_against_an_npt_port_is_an_adapter_and_the_hose_end_stays():
    c = judged({"hoses.base": "3/4-16 37 flare"}, base_port__thread="1/2 NPT")
    (job,) = row(c, "base_port.thread").answer.jobs
    assert job.text.startswith("base port: adapter, 1/2 NPT male to SAE-8 female")
    assert "the hose end (3/4-16 37 flare) stays" in job.text


def test_a_pair_is_replaced_as_a_pair():
    c = judged({"pair.count": 2.0}, cylinder__bore="3 1/4", cylinder__barrel_outside="3 3/4")
    (job,) = row(c, "pair").answer.jobs
    assert "replace both" in job.text
    apart = 24 * (1 - (3 / 3.25) ** 2)
    assert f"{apart:.2f} in apart" in job.text


def test_a_narrow_tube_is_shimmed_on_each_side_and_a_wide_one_ground_within_a_limit():
    narrow = row(judged(body_mount__width="2 3/4"), "body_mount.width")
    assert "two shims 1/8 in, one each side" in narrow.answer.jobs[0].text
    wide = row(judged(rod_mount__width="2 5/8"), "rod_mount.width")
    assert "grind 1/16 in off one side" in wide.answer.jobs[0].text
    assert row(judged(rod_mount__width="3"), "rod_mount.width").verdict == "does not fit"


def test_a_pin_over_thick_shims_is_judged_in_bending_once_the_ear_is_known():
    thick = row(judged(body_mount__width="1 1/2"), "body_mount.width")
    assert thick.verdict == "not known"
    assert "ear" in thick.answer.do
    known = row(judged({"base_ears.ear": 0.5 * IN}, body_mount__width="1 1/2"), "body_mount.width")
    force = 2500 * PSI * pi / 4 * (3 * IN) ** 2
    moment = force / 2 * (0.25 + 0.75 + 1.5 / 4) * IN
    stress = 32 * moment / (pi * (1 * IN) ** 3)
    best = 655.0  # MPa, yield of the best usual pin steel: 4140 quenched and tempered, table
    assert known.verdict == "does not fit"
    assert f"to {best / stress:.1f} on yield" in known.answer.why


def test_half_round_comes_before_anything_else_and_a_welded_boss_does_not_turn():
    both = judged(base_port__clock="6:00", rod_port__clock="6:00")
    assert [j.short for j in row(both, "ports.clock").answer.jobs] == ["turn half round"]
    one = judged(base_port__clock="3:00", rod_port__clock="12:00")
    assert "does not turn" in row(one, "ports.clock").answer.why


def test_another_kind_is_said_first():
    from drafting.replacing.summary import summary

    c = judged(rod_mount__mount="plain", rod_mount__pin=None, rod_mount__hole=None,
               rod_mount__width=None, rod_mount__outside=None)  # fmt: skip
    assert summary(c).startswith("does not fit: another kind: rod mount: plain")
    assert row(c, "push").verdict == "same"


def test_a_machine_answers_what_two_cylinders_cannot():
    room = {
        "distance.closest": 36.5 * IN,
        "distance.farthest": 59 * IN,
        "distance.hard_closest": 35 * IN,
        "distance.hard_farthest": 61 * IN,
    }
    c = judged(room, cylinder__stroke="26")
    opened = row(c, "cylinder.extended")
    assert opened.verdict == "works with"
    assert "a spacer 1 in long inside" in opened.answer.jobs[0].text
    assert row(c, "cylinder.retracted").verdict == "same"
    assert c.verdict == "fits with work"
    too_long = judged(room, cylinder__retracted="37")
    assert row(too_long, "cylinder.retracted").verdict == too_long.verdict == "does not fit"
    assert row(judged(room, cylinder__stroke="22"), "cylinder.extended").verdict == "does not fit"


def test_end_for_end_is_found_where_it_fits_better():
    from drafting.replacing.turned import end_for_end
    from tests.replacing.offers import cylinder

    old = cylinder(rod_mount__mount="clevis", rod_mount__gap="1 1/4", rod_mount__width="2 1/2")
    swapped = {
        "body_mount__mount": "clevis",
        "body_mount__gap": "1 1/4",
        "body_mount__width": "2 1/2",
        "rod_mount__mount": "cross tube",
        "rod_mount__width": "3",
        "rod_mount__gap": None,
    }
    straight = compare(subject(old), subject(cylinder(**swapped)))
    assert straight.verdict == "does not fit"
    back = end_for_end(straight)
    assert back is not None
    assert back.verdict == "fits"
    assert end_for_end(judged(rod_mount__width="2 1/4")) is None


def test_a_thinner_rod_alone_leaves_the_relief_where_it_is():
    found = row(judged(cylinder__rod="1 3/4"), "relief")
    keeps = 2500 * (3**2 - 2**2) / (3**2 - 1.75**2)
    assert (found.verdict, found.answer.jobs) == ("changes", ())
    assert f"{keeps:,.0f} psi on its own side keeps the pull" in found.answer.why


ADAPTED = {"base_port__thread": "1/2 NPT"}


def test_what_an_adapter_adds_is_held_against_the_room_straight_out_of_the_port():
    """11/16 in of drilled depth for -8 (SAE J1926-1), and a hexagon of 10 mm (memory)."""
    asked = row(judged(**ADAPTED), "base_port.room")
    assert asked.verdict == "not known"
    more = 17.48 + 10.0
    sixteenths = 18 / 16 * IN
    assert 17 / 16 * IN < more < sixteenths
    assert (
        asked.answer.do
        == f"measure straight out from the hose's end: {inch(sixteenths)} free or more"
    )
    roomy = row(judged({"hoses.base_free": more + 1.0}, **ADAPTED), "base_port.room")
    assert roomy.verdict == "works"
    tight = row(judged({"hoses.base_free": more - 1.0}, **ADAPTED), "base_port.room")
    assert tight.verdict == "works with"
    assert "elbow adapter" in tight.answer.jobs[0].text


def test_a_thicker_barrel_carries_the_adapter_farther_out():
    free = {"hoses.base_free": 17.48 + 11.0}
    thicker = judged(free, cylinder__barrel_outside="3 3/4", **ADAPTED)
    assert row(judged(free, **ADAPTED), "base_port.room").verdict == "works"
    assert row(thicker, "base_port.room").verdict == "works with"


def test_an_adapter_that_looks_at_the_ear_asks_where_the_ear_ends():
    aside = {**ADAPTED, "base_port__clock": "3:00", "base_port__position": "2",
             "base_port__height": "1/2"}  # fmt: skip
    asked = row(judged({"hoses.base_free": 50.0}, **aside), "base_port.room")
    assert asked.verdict == "not known"
    assert "the ear must end before" in asked.answer.do
    passed = {"hoses.base_free": 50.0, "base_ears.gap": 2 * IN, "base_ears.ear": 0.5 * IN}
    assert row(judged(passed, **aside), "base_port.room").verdict == "works"


THIN = {"rod_mount__pin": "3/4", "rod_mount__hole": ".766", "rod_mount__outside": None}


def test_a_thinner_pin_is_judged_in_bending_and_not_in_shear_alone():
    """F = 2500 psi on 3 in: sheared 20 ksi, bent 187 ksi between ears of 1/2 in; by hand."""
    asked = row(judged(**THIN), "rod_mount.pin")
    assert asked.verdict == "not known"
    assert f"bent {(1 / 0.75) ** 3:.1f} times as hard" in asked.answer.why
    assert "thickness of one ear" in asked.answer.do
    found = row(judged({"rod_ears.ear": 0.5 * IN}, **THIN), "rod_mount.pin")
    force = 2500 * PSI * pi / 4 * (3 * IN) ** 2
    moment = force / 2 * (0.25 + 2.5 / 4) * IN
    stress = 32 * moment / (pi * (0.75 * IN) ** 3)
    best = 655.0  # MPa, as above
    assert found.verdict == "does not fit"
    assert f"bends: factor {best / stress:.1f}" in found.answer.why


def test_a_thinner_pin_that_holds_is_bushed_to():
    low = {**THIN, "cylinder__working_pressure": "150 psi"}
    ears = {"rod_ears.ear": 0.25 * IN, "supply.pressure": 150 * PSI}
    found = row(judged(ears, **low), "rod_mount.pin")
    assert found.verdict == "works with"
    assert "bending" in found.answer.jobs[0].text


def test_what_breaks_by_itself_does_not_fit():
    """A wall of 1/8 in at 2500 psi under a 3 1/4 in bore; the old one's wall of 1/4 in holds."""
    c = judged(cylinder__bore="3 1/4", cylinder__barrel_outside="3 1/2")
    assert row(c, "strength").verdict == c.verdict == "does not fit"
    assert "Barrel wall" in row(c, "strength").answer.why


def test_a_trunnion_that_stands_elsewhere_has_its_reach_reckoned():
    path = Path("specs/penstock-gate.toml")
    text = path.read_text(encoding="utf-8")
    longer = text.replace("= 30", "= 34").replace("= 25\n", "= 27\n").replace("-16.6875", "-18.5")
    old, new = (subject(load(checked(t.encode(), "t.toml"))) for t in (text, longer))
    found = row(compare(old, new), "body_mount.position")
    assert found.verdict == "not known"
    assert isinstance(found.difference, float)
    assert found.difference > 25.4
    assert row(compare(old, old), "body_mount.position").verdict == "same"


def inch(mm: float) -> str:
    return quantity(mm, "mm", "in")
