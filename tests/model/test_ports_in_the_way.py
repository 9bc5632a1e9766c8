"""Ports in wrong places, and what is in the way of them or of their fittings; by hand, in mm."""

from types import SimpleNamespace

import pytest

from drafting.model.ports.space import Taken, space_of
from drafting.settle.ledger import Ledger
from drafting.shape.contact import holds, meet
from drafting.shape.frame import X, Y, Z
from drafting.shape.pieces import Ball, Piece, Prism, Turned, box, cylinder, extent, tongue
from drafting.shape.reach import reach
from tests.model.mount_specs import metal
from tests.model.test_ports_drawn import EYE, PLAIN, TIE, codes, port, settled, spec


def test_a_port_that_everything_leaves_alone_has_nothing_said_of_it():
    text = spec(base_port=port(position="100"), rod_port=port(position="575"))
    assert {f for _, f in codes(text) if "_port" in f} == set()


@pytest.mark.parametrize(
    ("tables", "wanted"),
    [
        ({"base_port": port(position="40")}, ("port-off-barrel", "base_port.position")),
        ({"base_port": port(position="55")}, ("port-over-edge", "base_port.position")),
        ({"base_port": port(position="62")}, ("boss-over-end", "base_port.position")),
        ({"base_port": port(position="75")}, ("port-in-cap", "base_port.position")),
        ({"base_port": port(position="128")}, ("port-covered", "base_port.position")),
        ({"base_port": port(position="300")}, ("port-wrong-side", "base_port.position")),
        ({"rod_port": port(position="300")}, ("port-wrong-side", "rod_port.position")),
        ({"rod_port": port(position="610")}, ("port-in-gland", "rod_port.position")),
        ({"rod_port": port(position="615")}, ("parts-overlap", "rod_port.position")),
        ({"rod_port": port(position="625")}, ("port-over-edge", "rod_port.position")),
        (
            {"base_port": port(position="100"), "rod_port": port(position="110")},
            ("ports-overlap", "rod_port.position"),
        ),
        (
            {
                "base_port": port(position="100"),
                "extra_port": [{"end": '"base"', **port(position="125")}],
            },
            ("bosses-overlap", "extra_port[1].position"),
        ),
        (
            {"base_port": port("flange 3/4 code 61", facing='"rod"')},
            ("flange-along-barrel", "base_port.facing"),
        ),
        (
            {"base_port": port("SAE-8", facing='"base"', height="5")},
            ("port-tube-in-barrel", "base_port.height"),
        ),
    ],
)
def test_a_port_in_a_wrong_place_is_named(tables, wanted):
    assert wanted in codes(spec(**tables))


@pytest.mark.parametrize("end", ["base", "rod"])
def test_a_port_of_a_displacement_ram_moves_it_from_either_side_of_its_guide(end):
    ram = {**PLAIN, "action": '"push"', "piston": '"displacement"'}
    there = {f"{end}_port": port(position="300")}
    assert not {c for c, _ in codes(spec(ram, **there)) if c.startswith("port-")}


def test_a_boss_over_the_end_of_a_barrel_with_the_gland_inside_is_named():
    inside = {**PLAIN, "gland": '"snap ring"'}
    end = settled(spec(inside)).stations
    at = port(position=f"{end.barrel_end - 10:.2f}")
    assert ("boss-over-gland", "rod_port.position") in codes(spec(inside, rod_port=at))


def test_a_pad_is_not_wider_than_its_seat():
    """Code 61: 1 in has 26.2 + 2.2 x 10 = 48.2 mm, 1 1/2 in 35.7 + 2.2 x 12 = 62.1 mm of pad.

    0.9 of a 65 mm barrel is 58.5 mm.
    """
    small = {**PLAIN, "bore": "50", "rod": "28", "barrel_outside": "65", "gland_length": "60"}
    wide = ("port-too-wide", "base_port.thread")
    assert wide in codes(spec(small, base_port=port("flange 1 1/2 code 61")))
    assert wide not in codes(spec(small, base_port=port("flange 1 code 61")))


def test_a_pad_over_a_trunnion_is_named_and_beside_it_is_not():
    """Bosses of 60 mm at x = 0 and clock 3: a pad of 47.6 + 2.2 x 10 mm reaches 35 mm each way."""
    body = {"mount": '"trunnion"', "pin": "40", "outside": "60", "shoulders": "150", "width": "230"}
    body["position"] = "150"
    pad = port("flange 3/4 code 61", clock="3")
    # The closed end lies at -150, the oil from -110.
    assert ("port-blocked", "base_port.position") in codes(
        spec(body=body, base_port={**pad, "position": "-20"})
    )
    found = codes(spec(body=body, base_port={**pad, "position": "-60"}))
    assert ("boss-hits-mount", "base_port.position") in found
    turned = codes(spec(body=body, base_port={**pad, "position": "-60", "clock": "12"}))
    assert not {f for _, f in turned if f.startswith("base_port")}


def test_a_foot_and_a_flange_are_in_the_way_of_a_fitting():
    foot = {"mount": '"foot"', "position": '"base"', "clock": "6"}
    hits = codes(spec(body=foot, base_port=port(clock="6")))
    assert {c for c, f in hits if f == "base_port.position"} & {"port-blocked", "boss-hits-mount"}
    plate = {"mount": '"flange"', "position": "60", "plate": "[240, 240]", "thickness": "30"}
    at = settled(spec(body={**plate, "position": "60"})).stations.oil_side
    hits = codes(spec(body=plate, base_port=port(position=f"{at:.2f}")))
    assert ("port-blocked", "base_port.position") in hits


def test_a_thread_opens_into_no_bolt_hole():
    """Holes of 20 mm on a circle of 150 mm: at 12 o'clock from 65 to 85 mm, a port's face at 85."""
    flange = {"mount": '"flange"', "position": "60", "plate": "200", "thickness": "30"}
    bolts = "{{count = 4, hole = 20, circle = 150, first_hole = '{}'}}"
    at = settled(spec(body={**flange, "bolts": bolts.format("on")})).stations.closed_end + 60 - 15
    up = {"base_port": port(position=f"{at:.2f}", height="25")}
    hit = ("port-opens", "base_port.position")
    assert hit in codes(spec(body={**flange, "bolts": bolts.format("on")}, **up))
    assert hit not in codes(spec(body={**flange, "bolts": bolts.format("astride")}, **up))


def test_a_grease_fitting_has_its_own_place():
    """An eye of 120 mm has its fitting at 60 to 70 mm; a tube's lower side lies at 75 - 15 mm."""
    eye = {**EYE, "outside": "120", "grease": "true"}
    tube = port(facing='"base"', position="110", height="15", outlet_position="-20")
    hit = ("port-hits", "base_port.position")
    assert hit in codes(spec(body=eye, base_port=tube))
    assert hit not in codes(spec(body={**eye, "grease": "false"}, base_port=tube))


def test_a_thread_that_meets_a_tie_rod_is_refused():
    """M8 rods round a 65 mm tube in a 75 mm square lie 29 mm off both axes.

    2 in NPT is 60.3 mm, half of it 30.2: it cuts into them. 1 1/4 in NPT is 42.2 mm and does not.
    """
    small = {**TIE, "bore": "50", "rod": "28", "barrel_outside": "65", "tie_rod": '"M8x1.25"'}
    small["square"] = "75"
    hit = ("port-hits", "base_port.position")
    assert hit in codes(spec(small, base_port=port("2 NPT")))
    assert hit not in codes(spec(small, base_port=port("1 1/4 NPT")))


def test_a_port_tube_that_reaches_the_rods_mount_is_refused():
    """Closed at 850 mm, an eye of 190 mm begins at 777 mm where the tube runs out at 790."""
    short = {**PLAIN, "retracted": "850"}
    tube = port(facing='"rod"', position="560", height="15", outlet_position="790")
    hit = ("port-hits", "rod_port.position")
    assert hit in codes(spec(short, rod={**EYE, "outside": "190"}, rod_port=tube))
    assert hit not in codes(spec(short, rod={**EYE, "outside": "100"}, rod_port=tube))


def test_flange_bolts_end_before_the_oil():
    shallow = port("flange 1 1/2 code 61", height="3")
    assert ("bolts-open", "base_port.position") in codes(spec(base_port=shallow))
    assert "bolts-open" not in {c for c, _ in codes(spec(base_port=port("flange 1 1/2 code 61")))}


# --- room -----------------------------------------------------------------------------------------


def room_findings(room, **tables):
    cylinder = {**PLAIN, "largest_outside": str(room)}
    found = settled(spec(cylinder, **tables)).findings
    return {f.field for f in found if f.code == "beyond-room"}


def test_the_room_counts_bosses_pads_and_the_widest_reach_of_mounts():
    """Barrel 120 mm; a boss face at 60 + 20; a cross tube of 200 mm by 90 reaches 109.7 mm."""
    assert room_findings(121) == set()
    assert room_findings(119) == {"cylinder.largest_outside"}
    boss = {"base_port": port(height="20")}
    assert room_findings(170, **boss) == set()
    assert room_findings(158, **boss) == {"base_port.height"}
    tube = {"mount": '"cross tube"', "pin": "50", "hole": "50", "width": "200", "outside": "90"}
    corner = (100**2 + 45**2) ** 0.5
    assert room_findings(2 * corner + 0.2, body=tube) == set()
    assert room_findings(2 * corner - 0.2, body=tube) == {"body_mount.mount"}


def test_reach_is_the_farthest_corner():
    assert reach(Piece("p", Prism(box(-30, 30, -40, 40), 0, 10))) == pytest.approx(
        (40**2 + 10**2) ** 0.5, rel=1e-5
    )
    assert reach(Piece("p", cylinder(25, 0, 10))) == pytest.approx(25)
    assert reach(Piece("p", cylinder(25, 0, 10)), beyond=40) == 0


# --- the test of shared space ---------------------------------------------------------------------


def test_points_in_pieces():
    ball = Piece("b", Turned((Ball(-10, 10, 0, 10),)))
    assert holds(ball, (0, 7, 7))
    assert not holds(ball, (0, 7.2, 7.2))
    eye = Piece("e", Prism(tongue(10, 30), -5, 5))
    assert holds(eye, (29, 9, 0))
    assert holds(eye, (-9.9, 0, 4.9))
    assert not holds(eye, (-8, 8, 0))
    assert not holds(eye, (29, 9, 5.1))


def test_two_pieces_share_space_only_where_both_are():
    """Two rods whose boxes overlap but which pass each other on the diagonal."""
    a, b = Piece("a", cylinder(10, 0, 100)), Piece("b", cylinder(10, 0, 100))
    from drafting.shape.frame import Frame

    past = Piece("b", cylinder(10, 0, 100), Frame((0.0, 16.0, 16.0)))
    close = Piece("b", cylinder(10, 0, 100), Frame((0.0, 12.0, 12.0)))
    assert meet(a, b, (X, Y, Z), 0.5)
    assert meet(a, close, (X, Y, Z), 0.5)
    assert not meet(a, past, (X, Y, Z), 0.5)


def test_the_way_in_starts_at_the_face():
    c = settled(spec(base_port=port(height="20")))
    space = space_of(c.ports[0])
    assert extent(space.way, Z)[0] == pytest.approx(80.5)
    assert extent(space.holes[0], Z)[1] == pytest.approx(80)


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        ("body_mount.shoulders_right", "the right shoulder of the base end mount"),
        ("body_mount.plate1", "the plate of the base end mount"),
        ("rod_mount.jam_nut", "the jam nut of the rod end mount"),
        ("cylinder.gland", "the gland"),
    ],
)
def test_a_piece_in_the_way_is_named_as_people_say_it(piece, said):
    taken, book = Taken(SimpleNamespace(name=piece), "part", "body", None), Ledger(None)
    assert taken.words(book) == said


@pytest.mark.parametrize(("sizes", "seat", "end"), [(PLAIN, 60, "rod"), (TIE, 75, "base")])
def test_a_breather_is_open_to_the_bore(sizes, seat, end):
    """12 mm across, 10 mm high on barrel or cap; its passage is 0.4 of that and reaches the oil."""
    action = {"rod": '"push"', "base": '"pull"'}[end]
    c = settled(spec({**sizes, "action": action, "return": '"load"'}))
    own = [p for p in c.parts if any(q.name == "cylinder.breather" for q in p.pieces)]
    (x,) = {
        round(sum(extent(q, X)) / 2, 6)
        for p in own
        for q in p.pieces
        if q.name == "cylinder.breather"
    }
    inside = c.stations.bore / 2 - 0.5 if end == "rod" else 0.3 * c.stations.bore - 0.5
    assert metal(own[0], (x, 0, seat + 9.5), (x, 2.3, seat + 9.5), (x, 0, inside)) == [False] * 3
    assert metal(own[0], (x, 2.5, seat + 9.5), (x, 5.9, seat + 9.5)) == [True, True]
    told = c.value("cylinder.breather")
    assert (told.value, told.origin, told.why) == (12.0, "derived", "builder's choice")
    both = settled(spec(sizes))
    assert both.value("cylinder.breather") is None
