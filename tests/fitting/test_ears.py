"""Mounts in the machine's ears: each number worked out by hand beside the check.

What is fair play between ears and what keeps a pin in is common practice; arithmetic is geometry.
"""

from math import atan, degrees, hypot

import pytest

from drafting.fitting.ears import ears
from drafting.fitting.subject import subject
from drafting.model.load import checked, load
from drafting.replacing.room import corner
from tests.fitting.machines import SPECS, cylinder, hinge, machine

GREASE = "grease        = true"
WAY = 'title = "F"\nunits = "mm"\n[distance]\nclosest = 630\nfarthest = 930\n'


def rows(c, text):
    m = machine(WAY + text)
    return {r.field: r for r in ears(subject(c, m), m)}


def changed(name, old, new, greased=None):
    """A sample with one line of its file in other words, and perhaps its line of grease."""
    text = (SPECS / f"{name}.toml").read_text()
    assert old in text
    return load(
        checked(text.replace(old, new, 1).replace(GREASE, greased or GREASE).encode(), "x.toml")
    )


def test_side_play_of_a_tenth_less_than_a_millimetre_needs_no_shim():
    base = rows(cylinder("tailboard-lift"), "[base_ears]\ngap = 30.9\npin = 30\n")
    assert base["body_mount.width"].verdict == "fits"
    assert base["body_mount.width"].margin == pytest.approx(0.9)
    wide = rows(cylinder("tailboard-lift"), "[base_ears]\ngap = 29\npin = 30\n")["body_mount.width"]
    assert wide.verdict in ("fits with work", "does not fit")  # 0.5 off each side, or not at all


def test_a_pin_must_go_through_both_ears_and_their_gap():
    """Gap 32 and two ears of 15: the pin goes through 62."""
    ears_ = "[base_ears]\ngap = 32\npin = 30\near = 15\n"
    asked = rows(cylinder("tailboard-lift"), ears_)["body_pin.length"]
    assert asked.verdict == "not known"
    assert "62 mm or more" in asked.do
    short = rows(cylinder("tailboard-lift"), ears_ + "pin_grip = 60\n")["body_pin.length"]
    assert short.verdict == "fits with work"
    assert "2 mm short" in short.why
    good = rows(cylinder("tailboard-lift"), ears_ + "pin_grip = 63\n")["body_pin.length"]
    assert good.verdict == "fits"
    loose = rows(cylinder("tailboard-lift"), ears_ + "pin_grip = 67\n")["body_pin.length"]
    assert "washers 5" in loose.jobs[0].short


def test_a_fork_goes_over_the_lug_and_its_throat_clears_the_lugs_swing():
    """Throat 0.8125 in = 20.64 mm: a lug that swings on 20 clears, one of 20.5 is too near."""
    latch = cylinder("gate-latch")
    free = rows(latch, "[base_ears]\nlug = 19.05\npin = 19.05\nlug_nose = 20\n")
    assert free["body_mount.throat"].verdict == "fits"
    assert free["body_mount.throat"].margin == pytest.approx(20.6375 - 20)
    assert free["body_mount.gap"].margin == pytest.approx(20.6375 - 19.05)
    near = rows(latch, "[base_ears]\nlug = 19.05\npin = 19.05\nlug_nose = 20.5\n")
    assert near["body_mount.throat"].verdict == "does not fit"
    thick = rows(latch, "[base_ears]\nlug = 27\npin = 19.05\n")["body_mount.gap"]
    assert thick.verdict == "does not fit"


def test_room_is_asked_with_its_bound_and_a_drawn_nose_proves_nothing():
    """Outside 70 was typed, so the nose is 35 and the eye turns within 35 of the pin."""
    said = rows(cylinder("tailboard-lift"), "[base_ears]\ngap = 32\npin = 30\n")
    assert "behind more than 35 mm" in said["body_mount.room"].do
    assert "around more than 35 mm" in said["body_mount.room"].do
    assert rows(cylinder("tailboard-lift"), "[base_ears]\nbehind = 34\n")[
        "body_mount.nose"].verdict == "does not fit"  # fmt: skip
    # The rod's eye has no typed size: drawn 34.5. Room for it decides nothing, too little does.
    assert not rows(cylinder("tailboard-lift"), "[rod_ears]\nbehind = 40\n")[
        "rod_mount.room"].decides  # fmt: skip
    drawn = rows(cylinder("tailboard-lift"), "[rod_ears]\nbehind = 30\n")["rod_mount.nose"]
    assert (drawn.verdict, drawn.decides) == ("not known", True)


def test_a_barrels_corner_swings_behind_its_pin():
    """A corner 40 up and 30 ahead lies 50 from the pin: behind it by 40 after a quarter turn."""
    assert corner(40, 30, 90) == pytest.approx(40)
    assert corner(40, 30, 0) == pytest.approx(-30)
    assert corner(40, 30, 90 + degrees(atan(30 / 40))) == pytest.approx(hypot(40, 30))
    assert corner(40, 30, 179) == pytest.approx(50)  # it went by its farthest on the way
    c = changed("tailboard-lift", "retracted        = 620",
                "retracted        = 620\nbarrel_outside   = 140")  # fmt: skip
    m = hinge((100, -500), (420, 40), 0, 65, "[base_ears]\nbehind = 71\n")
    swung = {r.field: r for r in ears(subject(c, m), m)}["body_mount.nose"]
    assert swung.verdict == "fits"  # 32 degrees of swing: 70 sin 32 - 60 cos 32 is below 0
    # Directions -57.7 to 100.2 degrees: the corner goes by its farthest, hypot(70, 60) = 92.2.
    for behind, verdict in ((92, "does not fit"), (93, "fits")):
        m = hinge((0, 300), (620, 300), -70, 70, f"[base_ears]\nbehind = {behind}\n")
        swung = {r.field: r for r in ears(subject(c, m), m)}["body_mount.nose"]
        assert swung.verdict == verdict
    assert "corner" not in swung.why


def test_a_ball_tilts_as_far_as_its_ring_lets_it():
    """Width 16 in a ball of 20: the sample's balls tilt 3.86 degrees. 480 mm closed.

    tan(3.857 deg) = 0.06742, so the ears may stand 42.48 mm beside each other at 630 between pins.
    """
    tipper = cylinder("orchard-tipper")
    both = "[base_ears]\ngap = 21\n{}[rod_ears]\ngap = 21\n"
    fine = rows(tipper, both.format(""))["body_mount.tilt"]
    assert fine.verdict == "fits"
    assert "42.48 mm beside" in fine.why
    # 40 aside and two plays of 1: atan(41 / 630) = 3.72 degrees; 42 aside: 3.90.
    assert rows(tipper, both.format("aside = 40\n"))["rod_mount.tilt"].verdict == "fits"
    far = rows(tipper, both.format("aside = 42\n"))["rod_mount.tilt"]
    assert far.verdict == "does not fit"
    assert "3.9 deg" in far.why


def test_plain_eyes_bind_where_side_play_does_not_take_it():
    """Plays of 2 and 2: the middles may stand 2 beside each other."""
    lift = cylinder("tailboard-lift")
    text = "[base_ears]\ngap = 32\naside = {}\n[rod_ears]\ngap = 27\n"
    assert rows(lift, text.format(1.9))["body_mount.in_line"].verdict == "fits"
    assert rows(lift, text.format(2.1))["body_mount.in_line"].verdict == "does not fit"
    assert rows(lift, "[base_ears]\naside = 1\n")["body_mount.in_line"].verdict == "not known"


def test_a_grease_fitting_that_no_gun_reaches_is_a_job():
    tipper = cylinder("orchard-tipper")
    job = rows(tipper, "[rod_ears]\ngrease_reach = false\n")["rod_mount.grease"]
    assert job.verdict == "fits with work"
    assert rows(tipper, "[rod_ears]\ngrease_reach = true\n")["rod_mount.grease"].verdict == "fits"
    asks = rows(tipper, "[rod_ears]\ngap = 21\n")["rod_mount.grease"]
    assert "see that a gun reaches it" in asks.why


def test_a_keyed_rod_with_its_ball_across_the_swing_takes_it_by_tilt():
    """A rod that turns by hand brings its ball in line; a keyed one swings 40 degrees in it."""
    turned = "grease        = true\nturned = 90"
    m = hinge((-60, -420), (230, -30), 0, 68, "[rod_ears]\ngap = 21\n")
    free = changed("orchard-tipper", GREASE, turned)
    assert {r.field: r for r in ears(subject(free, m), m)}["rod_mount.tilt"].verdict == "fits"
    keyed = changed("orchard-tipper", "[body_mount]", "rod_keyed = true\n\n[body_mount]", turned)
    found = {r.field: r for r in ears(subject(keyed, m), m)}["rod_mount.tilt"]
    assert found.verdict == "does not fit"
