"""Which part carries a port: its boss and holes belong to that one and to no other.

A barrel of 120 mm, a gland of 150 mm of which 70 mm show at 140 mm outside. Everything is worked
by hand.
"""

import pytest

from drafting.shape.frame import X, Z
from drafting.shape.pieces import extent
from drafting.solids.build import build_part
from drafting.told.facts import facts
from tests.agree.shapes import solids
from tests.model.mount_specs import metal, settled

TEXT = """
title = "Trial"
units = "mm"
[cylinder]
construction = "{construction}"
bore = 100
rod = 56
stroke = 400
retracted = 1100
{more}
clock_seen_from = "rod"
[body_mount]
mount = "none"
[rod_mount]
mount = "plain"
[base_port]
thread = "G 1/4"
clock = 12
[rod_port]
thread = "G 1/4"
clock = 12
{port}
"""
WELDED = "barrel_outside = 120\ngland_length = 150\ngland_projection = 70\ngland_outside = 140"


def cylinder(port="", construction="welded", more=WELDED):
    return settled(TEXT.format(port=port, construction=construction, more=more))


def part(c, name):
    return next(p for p in c.parts if p.name == name)


def owners(c, table):
    return {p.name for p in c.parts for q in p.pieces if q.name.startswith(f"{table}.")}


def test_ports_sit_where_their_end_says():
    c = cylinder()
    assert (owners(c, "base_port"), owners(c, "rod_port")) == ({"barrel"}, {"barrel"})
    c = cylinder(construction="tie rod", more="")
    assert (owners(c, "base_port"), owners(c, "rod_port")) == ({"cap"}, {"head"})


def test_a_port_over_what_shows_of_the_gland_is_the_glands():
    x = cylinder().stations.barrel_end + 35.0
    c = cylinder(f"position = {x}\nheight = 12")
    assert owners(c, "rod_port") == {"gland"}
    gland = part(c, "gland")
    boss = next(p for p in gland.pieces if p.name == "rod_port.boss")
    assert extent(boss, Z)[1] == pytest.approx(70 + 12)
    middle = sum(extent(boss, X)) / 2
    assert middle == pytest.approx(x)
    # G 1/4 is 13.157 mm: open at its axis, metal beside it; the rod's bore is left whole.
    assert metal(gland, (x, 0, 81), (x, 7, 81)) == [False, True]
    assert metal(gland, (x, 0, 29)) == [True]
    assert solids(build_part(gland)) == 1
    assert {f.code for f in c.findings if f.field == "rod_port.position"} == {"port-in-gland"}


def test_at_the_barrels_edge_it_is_the_barrels():
    x = cylinder().stations.barrel_end - 15.0
    assert owners(cylinder(f"position = {x}"), "rod_port") == {"barrel"}


@pytest.mark.parametrize(("side", "sign"), [("rod", 1.0), ("base", -1.0)])
@pytest.mark.parametrize(("turned", "y", "z"), [(0, 0, 1), (90, 1, 0), (180, 0, -1), (270, -1, 0)])
def test_a_port_turns_with_its_cap_unless_its_clock_is_typed(side, sign, turned, y, z):
    """90 degrees clockwise as the clocks are read: from the rod end +Y, from the base -Y."""
    text = TEXT.replace('clock_seen_from = "rod"', f'clock_seen_from = "{side}"')
    more = f"cap_turned = {turned}"
    text = text.format(port="", construction="tie rod", more=more)
    c = settled(text.replace("clock = 12\n", "", 1))
    base, rod = c.ports
    assert base.direction == (0.0, sign * y, z)
    assert rod.direction == (0.0, 0.0, 1.0)
    said = dict(facts(c)).get("Cap")
    assert said == (f"turned {turned} deg against the head" if turned else None)
    typed = settled(text)
    assert typed.ports[0].direction == (0.0, 0.0, 1.0)


@pytest.mark.parametrize("spare", [0.0, 0.6])
def test_rounding_its_place_pushes_no_spotface_over_the_caps_face(spare):
    """G 1/4 has a spotface of 21 mm (20.7, up); the trunnion puts the datum at an odd place."""
    cap = f"base_thickness = {21 + spare}\nbarrel_outside = 120"
    trunnion = 'mount = "trunnion"\nposition = 200.3'
    text = TEXT.replace('mount = "none"', trunnion)
    c = settled(text.format(port="", construction="tie rod", more=cap))
    s, wide = c.stations, c.ports[0].sizes.boss
    assert wide == pytest.approx(21.0)
    assert s.closed_end - 1e-6 <= c.ports[0].x - wide / 2
    assert c.ports[0].x + wide / 2 <= s.oil_side + 1e-6
    assert "boss-over-end" not in {f.code for f in c.findings}
