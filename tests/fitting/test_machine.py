"""A machine file: what it may say, and how it is told what is wrong, with line and field."""

import pytest

from drafting.errors import Refused
from drafting.fitting.machine import Distance, Hinge, Slide
from tests.fitting.machines import PAIRS, SPECS, hinge, machine, weight


def faults(text):
    with pytest.raises(Refused) as refused:
        machine(text)
    return {(f.line, f.field, f.code) for f in refused.value.faults}


def test_the_samples_are_read():
    from drafting.fitting.machine import read_machine

    ways = [type(read_machine(str(SPECS / "machines" / f"{m}.toml")).way) for m in PAIRS]
    assert ways == [Hinge, Hinge, Slide, Hinge]


def test_inches_are_read_like_a_spec():
    m = machine('title = "F"\nunits = "in"\n[distance]\nclosest = "26 1/2"\nfarthest = 42.875\n')
    assert m.way == Distance(pytest.approx(673.1), pytest.approx(1089.025))


def test_a_force_has_its_unit_and_a_table():
    m = hinge((400, 0), (0, 300), 0, 60, '[[hinge.load]]\nforce = ["-2 kN", "0 N"]\n'
              'frame = "ground"\nat = [70, 2]\ntable = [[0, 1], [60, 0.5]]\n')  # fmt: skip
    (load,) = m.way.loads
    assert (load.force, load.turns, load.steps) == ((-2000.0, 0.0), False, ((0, 1), (60, 0.5)))


TOP = 'title = "F"\nunits = "mm"\n'
FLAP = "[hinge]\nat=[0,0]\nbase_pin=[400,0]\nrod_pin=[0,300]\nfrom=0\nto=60\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (TOP, (1, "", "no-way")),
        ('units = "mm"\n' + FLAP, (1, "title", "missing")),
        (TOP + FLAP + "[distance]\nclosest=1\nfarthest=2\n", (3, "hinge", "two-ways")),
        (TOP + "[distance]\nclosest=900\nfarthest=800\n", (5, "distance.farthest", "out-of-order")),
        (TOP + FLAP + "too = 3\n", (9, "hinge.too", "unknown-field")),
        (TOP + FLAP.replace("to=60", "to=-60"), (8, "hinge.to", "out-of-order")),
        (TOP + FLAP + "hard_to = 50\n", (8, "hinge.to", "out-of-order")),
        (TOP + FLAP.replace("[400,0]", "[0,0]"), (5, "hinge.base_pin", "no-lever")),
        (TOP + FLAP + "[[hinge.load]]\nat=[1,1]\n", (9, "hinge.load[1]", "no-load")),
        (TOP + FLAP + '[[hinge.load]]\nmass="9 kg"\n', (9, "hinge.load[1].at", "missing")),
        (TOP + FLAP + "[[hinge.load]]\nmass=9\nat=[1,1]\n",
         (10, "hinge.load[1].mass", "needs-unit")),
        (TOP + FLAP + "[pivot_friction]\nshare = 1.5\n",
         (10, "pivot_friction.share", "out-of-range")),
        (TOP + FLAP + "[supply]\npressure = 150\n", (10, "supply.pressure", "needs-unit")),
        (TOP + FLAP + "[model]\nstep='a.step'\nbase_pin=[1,2]\nrod_pin='x'\n",
         (11, "model.base_pin", "not-numbers")),
        (TOP + "[slide]\nbase_pin=[0,0]\nrod_pin=[9,0]\nalong=[0,0]\ntravel=5\n",
         (6, "slide.along", "not-a-direction")),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_at_its_place(text, expected):
    assert expected in faults(text)


def test_all_faults_of_a_file_at_once():
    bad = TOP + FLAP + weight("x", 1, 1) + "[supply]\nflow = 3\n"
    assert {f[1] for f in faults(bad)} == {"hinge.load[1].mass", "supply.flow"}
