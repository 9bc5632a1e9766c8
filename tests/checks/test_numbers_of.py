"""What the checks are told of a cylinder: each number with its origin, from the file's own words.

Ratings of flanges: 345 bar of the 3/4 and 276 bar of the 1 1/4 of code 61 (SAE J518, ISO 6162-1).
"""

import pytest

from drafting.checks.numbers_of import cylinder_numbers
from drafting.checks.steels import steel
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

EYE = {"mount": '"pin eye"', "pin": "40", "hole": "40.5", "width": "62"}
TIED = {"construction": '"tie rod"', "tie_rod": '"M16x1.5"', "square": "160"}


def numbers(body=EYE, end=EYE, duty=None, extra="", **cylinder):
    tables = {
        "cylinder": {"bore": "100", "rod": "56", "stroke": "500", "retracted": "1000",
                     "barrel_outside": "121", "clock_seen_from": '"rod"', **cylinder},
        "body_mount": body, "rod_mount": end, "duty": duty or {},
    }  # fmt: skip
    lines = ['title = "Trial"', 'units = "mm"']
    for name, fields in tables.items():
        lines += [f"[{name}]", *(f"{k} = {v}" for k, v in fields.items())]
    text = "\n".join(lines) + "\n" + extra
    return cylinder_numbers(load(read_spec(text.encode(), mounts=mounts_by_end(), file="t.toml")))


@pytest.mark.parametrize(
    ("turned", "axis"), [(0, "y"), (90, "z"), (180, "y"), (-90, "z"), (45, "skew"), (30, "skew")]
)
def test_a_pin_lies_as_it_is_turned(turned, axis):
    n = numbers(end={**EYE, "turned": str(turned)})
    assert (n.body.axis, n.rod_end.axis) == ("y", axis)


def test_ends_that_turn_every_way_or_not_at_all():
    ball = {"mount": '"ball swivel"', "pin": "40", "hole": "40.02"}
    n = numbers(body=ball, end={"mount": '"male thread"', "thread": '"M42x2"'})
    assert (n.body.axis, n.rod_end.axis) == ("ball", None)


PORT = '\n[base_port]\nthread = "flange 3/4 code 61"\nclock = "12:00"\n'
WEAKER = '[[extra_port]]\nend = "base"\nthread = "flange 1 1/4 code 61"\nclock = "6:00"\n'


def test_the_weakest_flange_of_an_end_rates_it():
    big = {"bore": "200", "rod": "110", "barrel_outside": "240", "retracted": "1400"}
    one, two = numbers(extra=PORT, **big), numbers(extra=PORT + WEAKER, **big)
    assert {e: r.value for e, r in one.port_ratings.items()} == {"base": 34.5}
    assert {e: r.value for e, r in two.port_ratings.items()} == {"base": 27.6}
    assert two.port_ratings["base"].name == "extra_port[1].thread"
    assert numbers(extra=PORT.replace("flange 3/4 code 61", "G 1/2")).port_ratings == {}
    assert set(one.port_bores) == {"base"}


def test_steels_by_part():
    n = numbers(pin_material='"520 MPa"', barrel_material='"E355"')
    assert n.steels["pin"].strength == (520.0, 520.0)
    assert n.steels["barrel"].typed
    assert n.steels["rod"].strength == steel("", "rod", None).strength
    assert n.steels["body_mount"] is n.steels["rod_mount"] is n.steels["mount"]


def test_a_tie_rod_cylinders_cap_may_be_cast_unless_a_steel_is_typed():
    n = numbers(**TIED)
    assert n.steels["body_mount"].strength == steel("", "cap", None).strength
    assert n.steels["rod_mount"].strength == steel("", "mount", None).strength
    typed = numbers(**TIED, mount_material='"S355"')
    assert typed.steels["body_mount"].typed
    assert typed.steels["body_mount"] == typed.steels["rod_mount"]
    iron = numbers(**TIED, mount_material='"ductile iron 65-45-12"')
    assert not iron.steels["rod_mount"].typed
    assert iron.steels["body_mount"].typed


def test_threads_and_lengths_of_tie_rods():
    n = numbers(**TIED)
    assert (n.construction, n.tie_rod.major, n.tie_rod.pitch) == ("tie rod", 16.0, 1.5)
    assert 500 < n.tie_rod_length < 1000
    assert numbers().tie_rod is None
    gland = numbers(gland='"threaded"', gland_thread='"M106x2"')
    assert (gland.gland, gland.gland_thread.field) == ("threaded", "cylinder.gland_thread")
    assert (gland.gland_thread.major, gland.gland_thread.metric) == (106.0, True)


def test_typed_sizes_are_given_and_others_are_not():
    n = numbers(end={**EYE, "ear": "30"})
    assert (n.bore.origin, n.bore.value, n.bore.name) == ("given", 100.0, "cylinder.bore")
    assert n.sizes["rod_mount.ear"].value == 30.0
    assert not n.sizes["cylinder.base_thickness"].firm
    assert n.gland_face.firm
    assert n.body_pivot.value == 0.0
    assert n.rod_pivot.value == 1000.0
    assert {"cylinder.rod_stick_out"} <= set(n.rod_reach)
    assert "body_mount.pin" in n.said
    assert "cylinder.base_thickness" not in n.said


def test_where_a_typed_size_came_from_is_kept():
    text = '[[origin]]\nfield = "{}"\nfrom = "{}"\n'
    guess = numbers(extra=text.format("cylinder.retracted", "open"))
    assert (guess.rod_pivot.origin, guess.rod_pivot.firm, guess.old) == ("open", False, False)
    read = numbers(extra=text.format("cylinder.bore", "measured"))
    assert (read.bore.origin, read.bore.firm, read.old) == ("measured", True, True)


def test_the_duty_in_its_own_units():
    n = numbers(
        duty={"push": '"30 kN"', "mass": '"2 t"', "flow": '"30 L/min"', "orientation": '"vertical"',
              "load_guided": "false", "lifts_people": "true", "rod_side": '"metered"',
              "safety_factor": "3", "angle": "12", "friction": "0.1"},
        body={**EYE, "held": "true"},
    )  # fmt: skip
    d = n.duty
    assert (d.push.value, d.mass.value, d.flow.value) == pytest.approx((30_000.0, 2000.0, 0.5))
    assert (d.orientation, d.rod_side, d.angle.value) == ("vertical", "metered", 12.0)
    assert (d.load_guided, d.lifts_people) == (False, True)
    assert (n.body.held, n.rod_end.held) == (True, None)
    bare = numbers().duty
    assert (bare.push, bare.load_guided, bare.lifts_people, bare.rod_side) == (
        None,
        None,
        False,
        "",
    )
