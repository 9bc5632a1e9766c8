"""Loose pins: what goes with which mount, lengths by hand, and rows of published tables.

ISO 2341 type B (clevis pin 30 mm: head 44 x 8, split pin hole 8, hole to end 10; 20 mm: hole 5)
as one open fastener data set has it: witnessed once. ISO 1234 (pins over 29 up to 44 mm:
8 mm split pin) and ASME B18.8.1 (1 in pin: 11/64 in hole) are from memory, and so marked in the
table. Lengths are plain sums.
"""

import numpy as np
import pytest

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.model.pins.details import pin_details
from drafting.model.pins.rules import beyond_rule, hole_rule
from drafting.settle.wishes import Diameter, Length
from drafting.shape.body import body
from drafting.shape.frame import X, Y, Z
from drafting.shape.pieces import extent
from drafting.shape.volume import volume
from drafting.spec.check import read_spec
from drafting.told.facts import facts, part_rows

EYES = {
    "clevis": "pin = 30\nhole = 30.1\ngap = 32\nwidth = 72\nthroat = 33\noutside = 60",
    "pin eye": "pin = 30\nhole = 30.1\nwidth = 36\noutside = 60",
    "cross tube": "pin = 30\nhole = 30.1\nleft = 40\nright = 20\noutside = 54",
    "ball swivel": "pin = 30\nhole = 30\nwidth = 18\nball_width = 22",
    "trunnion": "pin = 30\nposition = 'middle'\nshoulders = 120\nwidth = 180",
    "flange": "position = 'base'",
    "none": "",
}


def spec(body="clevis", tables="", units="mm", mounts=EYES):
    return f"""
title = "Trial"
units = "{units}"
[cylinder]
bore = {"80" if units == "mm" else "3"}
rod = {"45" if units == "mm" else "1.5"}
stroke = {"300" if units == "mm" else "10"}
retracted = {"750" if units == "mm" else "28"}
[body_mount]
mount = "{body}"
{mounts[body]}
[rod_mount]
mount = "pin eye"
{mounts["pin eye"]}
turned = 90
{tables}
"""


def cylinder(text):
    return load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))


def refused(text):
    with pytest.raises(Refused) as caught:
        cylinder(text)
    return [(f.code, f.field, f.line) for f in caught.value.faults]


def value(c, name):
    return c.value(f"body_pin.{name}").value


def part(c, name):
    return next(p for p in c.parts if p.name == name)


def span(pieces, axis):
    ends = [extent(p, axis) for p in pieces if not p.cut]
    return pytest.approx((min(a for a, _ in ends), max(b for _, b in ends)))


def test_head_and_cotter_on_a_clevis_by_hand():
    """Grip: 72 over the ears, 0.5 play: 73. Length: head 8, grip 73, half hole 4, end 10."""
    c = cylinder(spec(tables="[body_pin]\nretention = 'cotter'\nsupplied = true"))
    assert (value(c, "grip"), value(c, "length"), value(c, "hole")) == (73, 95, 8)
    assert (value(c, "head_diameter"), value(c, "head_height")) == (44, 8)
    assert value(c, "hole_at") == 77
    assert value(c, "hole_to_end") == 10
    assert "witnessed-1" in c.value("body_pin.hole").why
    pin = part(c, "body pin")
    assert (pin.owner, pin.hatched) == ("body", False)
    assert span(pin.pieces, Y) == (36.5 - 87, 36.5 + 8)
    shank = [p for p in pin.pieces if p.name.endswith("shank")]
    assert span(shank, X) == (-15, 15)
    assert span(shank, Z) == (-15, 15)


def test_two_cotters_lie_even_about_an_uneven_eye():
    """The tube lies from -20 to 40, its middle at 10; 75 of grip, 14 beyond it at either end."""
    text = spec("cross tube", "[body_pin]\ngrip = 75\nretention = 'two cotters'\nsupplied = true")
    c = cylinder(text)
    assert value(c, "length") == 75 + 2 * 14
    assert value(c, "hole_pitch") == 75 + 8
    assert value(c, "hole_at") == 10
    assert span(part(c, "body pin").pieces, Y) == (10 - 51.5, 10 + 51.5)


def test_a_pin_moves_with_its_mount_and_turns_with_it():
    c = cylinder(spec(tables="[rod_pin]\ngrip = 60\nretention = 'cotter'\nsupplied = true"))
    pin = part(c, "rod pin")
    assert pin.owner == "rod"
    shank = [p for p in pin.pieces if p.name.endswith("shank")]
    assert span(shank, X) == (750 - 15, 750 + 15)
    assert span(shank, Y) == (-15, 15)
    out = next(p for p in c.at(300.0) if p.name == "rod pin")
    assert span([p for p in out.pieces if "shank" in p.name], X) == (1050 - 15, 1050 + 15)


@pytest.mark.parametrize(
    ("pin", "hole", "said"),
    [
        (20.0, 5.0, "witnessed-1"),
        (30.0, 8.0, "witnessed-1"),
        (25.4, 4.366, "memory"),  # ASME B18.8.1, 11/64 in
        (31.75, 8.0, "memory"),  # ISO 1234, over 29 up to 44
        (44.45, 10.0, "memory"),  # ISO 1234, over 44 up to 69
    ],
)
def test_the_hole_is_the_published_row(pin, hole, said):
    rule = hole_rule(pin)
    assert rule.value == hole
    assert said in rule.why


def test_beyond_the_tables_a_hole_must_be_typed():
    assert hole_rule(161.0) is None
    assert beyond_rule(31.75, 8.0).value == 10  # the 33 mm row of ISO 2341
    assert beyond_rule(150.0, 16.0).value == 24


def test_unknown_ears_of_the_machine_are_to_be_confirmed_and_typed_ones_are_not():
    asked = "[body_pin]\nretention = 'cotter'\nsupplied = true\n"
    c = cylinder(spec("pin eye", asked))
    assert value(c, "grip") == 36 + 2 * 18 + 1  # two ears of 0.6 of the pin, play to the next mm
    assert ("to-confirm", "body_pin.grip") in {(f.code, f.field) for f in c.findings}
    c = cylinder(spec("pin eye", asked + "grip = 80"))
    assert "body_pin.grip" not in {f.field for f in c.findings}
    c = cylinder(spec("pin eye", asked + "length = 100"))
    assert value(c, "grip") == 100 - 8 - 14
    assert "body_pin.grip" not in {f.field for f in c.findings}


@pytest.mark.parametrize("body", ["trunnion", "flange", "none"])
def test_a_mount_without_a_loose_pin_refuses_one(body):
    text = spec(body, "[body_pin]\nsupplied = true")
    line = text.splitlines().index("[body_pin]") + 1
    assert ("no-loose-pin", "body_pin", line) in refused(text)


@pytest.mark.parametrize(
    ("table", "code"),
    [
        ("retention = 'cotter'\nhead = false", "pin-held-at-one-end"),
        ("retention = 'spring clip'\nhead = false", "pin-held-at-one-end"),
        ("retention = 'two cotters'\nhead = true", "head-and-two-cotters"),
        ("retention = 'keeper plate'\nhole = 6", "hole-and-keeper"),
        ("retention = 'cotter'\ngrip = 70", "pin-too-short"),
        ("retention = 'cotter'\nlength = 80", "pin-too-short"),
        ("retention = 'cotter'\nhole = 29", "hole-through-pin"),
    ],
)
def test_what_cannot_hold_is_refused(table, code):
    assert code in {f[0] for f in refused(spec(tables=f"[body_pin]\n{table}"))}


@pytest.mark.parametrize(
    ("table", "code"),
    [
        ("retention = 'cotter'\nlength = 91", "short-end"),
        ("retention = 'cotter'\nhole = 12", "thick-hole"),
        ("retention = 'cotter'\ngrip = 100", "loose-grip"),
        ("grip = 73", "to-confirm"),
        ("retention = 'cotter'", "pin-supplied"),
        ("retention = 'keeper plate'", "keeper-plate"),
    ],
)
def test_what_can_be_built_but_needs_a_look_is_found(table, code):
    fields = {f.code for f in cylinder(spec(tables=f"[body_pin]\n{table}")).findings}
    assert code in fields
    sound = "[body_pin]\nretention = 'cotter'\nsupplied = true"
    assert code not in {f.code for f in cylinder(spec(tables=sound)).findings}


def test_the_data_table_says_who_supplies_the_pins():
    c = cylinder(spec(tables="[body_pin]\nsupplied = false\nretention = 'cotter'"))
    rows = dict(facts(c))
    assert rows["Base end pin"] == "not supplied"
    assert rows["Rod end pin"] == "open"
    assert "body pin" not in {p.name for p in c.parts}
    assert pin_details(c.pins) == ()
    c = cylinder(spec(tables="[body_pin]\nretention = 'cotter'"))
    assert dict(facts(c))["Base end pin"] == "supplied, see parts"
    assert part_rows(c)[0][1].startswith("base end pin, 30 mm (1.181 in) x 95 mm")
    assert "Base end pin" not in dict(facts(cylinder(spec("trunnion"))))


@pytest.mark.parametrize("retention", ["spring clip", "cotter", "two cotters", "keeper plate"])
@pytest.mark.parametrize("body", ["clevis", "pin eye", "cross tube", "ball swivel"])
def test_every_detail_measures_what_its_values_say(body, retention):
    c = cylinder(spec(body, f"[body_pin]\nretention = '{retention}'"))
    (detail,) = pin_details(c.pins)
    (alone,) = detail.parts
    assert volume(alone) == pytest.approx(volume(part(c, "body pin")), rel=2e-3)
    for w in detail.wishes:
        assert c.value(w.name) is not None, w.name
        if isinstance(w, Length):
            measured = sum((b - a) * d for a, b, d in zip(w.a, w.b, w.direction, strict=True))
            assert measured == pytest.approx(c.value(w.name).value), w.name
        elif isinstance(w, Diameter):
            assert w.diameter == c.value(w.name).value
    names = {w.name.partition(".")[2] for w in detail.wishes}
    assert {"diameter", "length", "retention"} <= names
    assert names & {"grip", "slot_at"} == {"slot_at" if retention == "keeper plate" else "grip"}
    assert ("slot_width" in names) is (retention == "keeper plate")
    assert ("hole_at" in names) is (retention != "keeper plate")
    follow = {w.name for w in detail.wishes if isinstance(w, Length) and w.reference}
    assert follow == {f"body_pin.{n}" for n in names & {"hole_at", "hole_pitch"}}


def test_a_keeper_plate_lies_in_the_slot_with_its_screws_beside_the_pin():
    """Clevis of 72 mm: the grip of 73 mm ends at 36.5 mm to one side, where the plate begins.

    A 30 mm pin has a slot 0.2 wide and 0.12 deep of it, to the next mm: 6 and 4. So the plate lies
    11 mm from the pin's axis, over the ear; its screws stand 37.5 mm apart, within the ear of 60.
    """
    c = cylinder(spec(tables="[body_pin]\nretention = 'keeper plate'\nsupplied = true"))
    assert (value(c, "slot_width"), value(c, "slot_depth")) == (6, 4)
    keeper = part(c, "body keeper plate")
    assert (keeper.owner, keeper.hatched) == ("body", False)
    plate, *screws = keeper.pieces
    assert span([plate], Y) == (-36.5 - 6, -36.5)
    assert span([plate], X) == (11, 11 + 21)
    assert span([plate], Z) == (-28.5, 28.5)
    assert len(screws) == 2
    assert {round(sum(extent(s, Z)) / 2, 6) for s in screws} == {18.75, -18.75}
    # A hexagon head is 0.6 to 0.9 of half its width high (ISO 4017, memory: M10 has 6.4 on 16).
    for screw in screws:
        (low, high), (out, _) = extent(screw, Z), extent(screw, Y)
        assert 0.59 <= (-42.5 - out) / ((high - low) / 2) <= 0.9
    pin = part(c, "body pin")
    inside = [(11.5, -39.5, z) for z in (-9.0, 0.0, 9.0)]
    assert not body(pin).inside(np.array(inside)).any()
    assert body(keeper).inside(np.array(inside)).all()
    assert body(pin).inside(np.array([(10.5, -39.5, 0.0)])).all()


def test_a_slot_is_placed_from_an_end_of_the_pin_that_is_there():
    """Where the grip begins nothing is to be seen of a pin without a head: there the words say it.

    A rim of 0.15 of the pin, 4.5 mm, is drawn as 4: the slot begins at 4 + 73 mm.
    """
    c = cylinder(spec(tables="[body_pin]\nretention = 'keeper plate'\ngrip = 73"))
    (detail,) = pin_details(c.pins)
    lengths = {w.name: (w.a[0], w.b[0]) for w in detail.wishes if isinstance(w, Length)}
    assert lengths["body_pin.slot_at"] == (-4.0, 73.0)
    assert lengths["body_pin.length"][0] == -4.0
    (words,) = (w for w in detail.wishes if w.name == "body_pin.retention")
    assert (words.lines, words.sizes) == (("KEEPER PLATE, GRIP {}",), (73.0,))
    headed = cylinder(spec(tables="[body_pin]\nretention = 'keeper plate'\nhead = true"))
    (detail,) = pin_details(headed.pins)
    assert {"body_pin.grip"} == {w.name for w in detail.wishes} & {
        "body_pin.grip",
        "body_pin.slot_at",
    }


def test_only_a_keeper_plate_is_a_part_beside_its_pin_and_only_with_a_supplied_one():
    for table in ("retention = 'cotter'", "retention = 'keeper plate'\nsupplied = false"):
        names = {p.name for p in cylinder(spec(tables=f"[body_pin]\n{table}")).parts}
        assert "body keeper plate" not in names


def test_a_rod_pins_keeper_plate_moves_with_the_rod():
    c = cylinder(spec(tables="[rod_pin]\nretention = 'keeper plate'\nsupplied = true"))
    keeper = part(c, "rod keeper plate")
    assert keeper.owner == "rod"
    # An eye: the plate lies over the machine's ear, beyond the pin.
    assert span(keeper.pieces[:1], X) == (750 + 11, 750 + 11 + 21)


def test_inch_pins_take_inch_steps():
    """1 in pin, 2 1/2 in over the ears: grip 2 9/16 in (play of 0.5 mm to the next 1/16)."""
    inch = {
        "clevis": "pin = 1\nhole = 1.01\ngap = 1.25\nwidth = 2.5\nthroat = 1.2\noutside = 2",
        "pin eye": "pin = 1\nhole = 1.01\nwidth = 1.25\noutside = 2",
    }
    c = cylinder(spec("clevis", "[body_pin]\nretention = 'cotter'", "in", inch))
    assert value(c, "grip") == pytest.approx((2 + 9 / 16) * 25.4)
    steps = value(c, "length") / 25.4 * 16
    assert steps == pytest.approx(round(steps))
