"""From a spec to a cylinder: lengths close, datums lie where they were typed.

Published or common-practice values are named beside each test; the rest is arithmetic by hand.
"""

import pytest
from hypothesis import HealthCheck, given, settings

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load, read
from drafting.spec.check import read_spec
from tests.legal_specs import legal_specs

CLEVIS_BOTH = """
title = "Trial"
units = "in"
[cylinder]
bore = 1.5
rod = 0.75
{lengths}
[body_mount]
mount = "clevis"
pin = 0.5
hole = 0.5
gap = 0.6
width = 1.2
outside = 1
[rod_mount]
mount = "clevis"
pin = 0.5
hole = 0.5
gap = 0.6
width = 1.2
outside = 1
{rod}
"""


def cylinder(text):
    return load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))


def refused(text):
    with pytest.raises(Refused) as caught:
        cylinder(text)
    return caught.value.faults


def test_closed_and_open_length_give_the_stroke():
    """14 1/4 in closed and 18 1/4 in open between pin centres is a 4 in stroke: common practice."""
    c = cylinder(CLEVIS_BOTH.format(lengths='retracted = "14 1/4"\nextended = "18 1/4"', rod=""))
    assert c.lengths.stroke == pytest.approx(4 * 25.4)
    assert c.value("cylinder.stroke").origin == "computed"


def test_three_lengths_within_half_a_millimetre_leave_stroke_and_retracted_to_rule():
    lengths = 'stroke = 4\nretracted = "14 1/4"\nextended = "463.8 mm"'
    c = cylinder(CLEVIS_BOTH.format(lengths=lengths, rod=""))
    assert c.lengths.extended == pytest.approx(18.25 * 25.4)
    assert "lengths-off" in {f.code for f in c.findings if f.level == "note"}


def test_inside_is_outside_less_two_walls():
    """Common practice; here 4 in outside, 1/4 in wall, 3 1/2 in bore."""
    text = CLEVIS_BOTH.format(lengths="stroke = 4\nretracted = 20\nwall = 0.25", rod="")
    c = cylinder(text.replace("bore = 1.5", "bore = 3.5"))
    assert c.stations.barrel_outside == pytest.approx(4 * 25.4)


def test_a_length_too_short_is_refused_with_the_shortest_that_closes():
    faults = refused(CLEVIS_BOTH.format(lengths="stroke = 4\nretracted = 7", rod=""))
    assert [f.code for f in faults] == ["cannot-close"]
    shortest = faults[0].message.split("shortest that closes is ")[1].split(" in")[0]
    whole = sum(map(_inch, shortest.split()))
    again = cylinder(CLEVIS_BOTH.format(lengths=f"stroke = 4\nretracted = {whole + 1e-3}", rod=""))
    assert again.lengths.retracted == pytest.approx((whole + 1e-3) * 25.4)
    assert refused(CLEVIS_BOTH.format(lengths=f"stroke = 4\nretracted = {whole - 0.01}", rod=""))


def _inch(word):
    top, _, bottom = word.partition("/")
    return float(top) / float(bottom or 1)


def test_clocks_from_the_base_are_mirrored_and_12_and_6_are_not():
    """Seen from the rod end 3 o'clock is +Y, seen from the base it is -Y: the format's own rule."""
    text = CLEVIS_BOTH.format(
        lengths='stroke = 8\nretracted = 24\nclock_seen_from = "{side}"', rod=""
    )
    text += '[base_port]\nthread = "SAE-4"\nclock = {clock}\n'
    for side, clock, y, z in (
        ("rod", "3", 1, 0),
        ("base", "3", -1, 0),
        ("rod", "9", -1, 0),
        ("base", "9", 1, 0),
        ("rod", "12", 0, 1),
        ("base", "12", 0, 1),
        ("base", "6", 0, -1),
        ("base", '"30 deg"', -0.5, 0.75**0.5),
    ):
        c = cylinder(text.format(side=side, clock=clock))
        assert c.ports[0].direction == pytest.approx((0, y, z)), (side, clock)
        from_rod, from_base = (c.value(f"base_port.clock_from_{e}").value for e in ("rod", "base"))
        assert (from_rod + from_base) % 360 == pytest.approx(0)
        assert c.value(f"base_port.clock_from_{side}").value == c.value("base_port.clock").value


def test_turned_rod_pin_follows_the_clock():
    c = cylinder(CLEVIS_BOTH.format(lengths="stroke = 8\nretracted = 24", rod="turned = 90"))
    hole = next(p for part in c.parts for p in part.pieces if p.name == "rod_mount.hole")
    assert tuple(map(abs, hole.frame.x)) == pytest.approx((0, 0, 1))


def test_derived_interface_sizes_are_findings_and_carry_their_reason():
    text = CLEVIS_BOTH.format(lengths="stroke = 8\nretracted = 24", rod="")
    c = cylinder(text.replace("gap = 0.6\nwidth = 1.2\noutside = 1\n[rod", "outside = 1\n[rod"))
    unsure = {f.field for f in c.findings if f.code == "to-confirm"}
    assert {"body_mount.gap", "body_mount.width"} <= unsure
    for v in c.values:
        if v.origin in ("derived", "table"):
            assert v.why, v.name
            assert v.source, v.name


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(legal_specs())
def test_any_legal_spec_closes(text):
    c = cylinder(text)
    n = c.lengths
    assert n.extended - n.retracted == pytest.approx(n.stroke)
    s = c.stations
    faces = (s.closed_end, s.oil_side, s.piston_front, s.gland_inner, s.gland_face, s.rod_end)
    assert list(faces) == sorted(faces)
    assert s.rod_datum == pytest.approx(n.retracted)
    assert s.gland_inner - s.piston_front - s.stop_tube == pytest.approx(n.stroke)
    assert {p.owner for p in c.parts} == {"body", "rod"}


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(legal_specs(construction="tie rod"))
def test_any_legal_tie_rod_spec_closes(text):
    c = cylinder(text)
    assert {"cap", "tube", "head", "tie rods"} <= {p.name for p in c.parts}


def test_port_words_are_judged_with_the_other_slips_of_a_file(tmp_path):
    slips = 'color = "red"\n[base_port]\nthread = "3/4 ORB"'
    lengths = 'retracted = "14 1/4"\nextended = "18 1/4"'
    path = tmp_path / "gate.toml"
    path.write_text(CLEVIS_BOTH.format(lengths=lengths, rod=slips), encoding="utf-8")
    with pytest.raises(Refused) as caught:
        read(str(path))
    assert [f.code for f in caught.value.faults] == ["unknown-field", "port-two-meanings"]
