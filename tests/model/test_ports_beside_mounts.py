"""A port whose place nobody typed and a mount stand beside one another, not in each other's way.

A square cap or head grows for that, a trunnion at an end of a welded barrel goes past the port;
unless sizes were typed or nothing is left to give.
"""

import pytest

from drafting.told.drawn_by_rule import short_reason
from tests.model.test_ports_drawn import PLAIN, TIE, codes, port, settled, spec

PLATE = {"mount": '"flange"', "position": '"rod end"', "thickness": "25"}
PINS = {"mount": '"trunnion"', "position": '"base"', "pin": "50"}
HEAD_PINS = {**PINS, "position": '"rod end"'}
OVER_CAP = {"mount": '"flange"', "position": '"base"', "thickness": "30", "offset": "10"}
SMALL = {**TIE, "bore": "50", "rod": "28", "barrel_outside": "65", "square": "100"}
END = {"base": "base_thickness", "rod": "gland_length"}
CASES = [
    (PLATE, "rod", "3", "G 1/2"),
    (PLATE, "rod", "9", "flange 1/2 code 61"),
    (HEAD_PINS, "rod", "3", "SAE-8"),
    (PINS, "base", "3", "SAE-8"),
    (PINS, "base", "9", "flange 3/4 code 61"),
    (OVER_CAP, "base", "3", "SAE-8"),
    ({**PLATE, "position": "25"}, "base", "9", "SAE-8"),  # a typed place, over the whole cap
]


def beside(body, end, clock, thread, cylinder=SMALL, **typed):
    """A cylinder with one port, as text."""
    rod = {"mount": '"plain"'}
    return spec(cylinder, body, rod, **{f"{end}_port": port(thread, clock=clock, **typed)})


def on_port(text):
    """The codes of what is wrong with the port or its place."""
    return {c for c, f in codes(text) if "_port" in f} - {"to-confirm"}


@pytest.mark.parametrize(("body", "end", "clock", "thread"), CASES)
def test_a_derived_place_is_beside_the_mount(body, end, clock, thread):
    text = beside(body, end, clock, thread)
    c = settled(text)
    assert on_port(text) == {"no-port"}  # the other end's
    size = c.value(f"cylinder.{END[end]}")
    assert short_reason(size.why) == "for mount and port"
    (p,), s = c.ports, c.stations
    lo, hi = (s.closed_end, s.oil_side) if end == "base" else (s.gland_inner, s.barrel_end)
    assert lo + p.sizes.boss / 2 < p.x < hi - p.sizes.boss / 2
    assert "of what the mount leaves" in c.value(f"{p.table}.position").why


@pytest.mark.parametrize(("body", "end", "clock"), [case[:3] for case in CASES])
def test_what_was_typed_stands_and_is_told(body, end, clock):
    """A cap or head of 42 mm has no room for both: the port is in its middle, as if alone."""
    long = 42.0 if end == "base" else 42.0 + 6.0
    text = beside(
        body, end, clock, "SAE-8", {**SMALL, "gland_projection": "6", END[end]: str(long)}
    )
    c = settled(text)
    s, (p,) = c.stations, c.ports
    lo, hi = (s.closed_end, s.oil_side) if end == "base" else (s.gland_inner, s.barrel_end)
    assert hi - lo == pytest.approx(42.0)
    assert p.x == pytest.approx((lo + hi) / 2, abs=0.5)
    assert on_port(text) & {"port-blocked", "port-hemmed"}


@pytest.mark.parametrize(
    ("body", "end", "clock"), [(PINS, "base", "12"), (HEAD_PINS, "rod", "6"), (PLATE, "base", "12")]
)
def test_a_port_at_another_hour_or_end_lengthens_nothing(body, end, clock):
    with_port = settled(beside(body, end, clock, "SAE-8"))
    assert "port beside it" not in with_port.value(f"cylinder.{END[end]}").why
    assert with_port.value(f"{end}_port.position").why.startswith("in the middle of the ")


def test_a_plate_no_larger_than_the_square_is_in_nobodys_way():
    """Of 160 by 100 mm on a square of 100 mm: in the way at 3:00, not at 12:00."""
    plate = {**PLATE, "plate": "[160, 100]"}
    why = {
        clock: settled(beside(plate, "rod", clock, "SAE-8")).value("cylinder.gland_length").why
        for clock in ("3", "12")
    }
    assert "port beside it" in why["3"]
    assert "port beside it" not in why["12"]


def test_rather_a_port_in_the_way_than_no_cylinder():
    """The length closes with what the trunnion needs, not with the port beside it as well."""
    short = {**SMALL, "retracted": "580"}
    least = settled(beside(PINS, "base", "12", "SAE-8", short))
    assert least.value("cylinder.rod_stick_out").value < 25  # what gives way gave way
    assert "port-blocked" in on_port(beside(PINS, "base", "3", "SAE-8", short))


@pytest.mark.parametrize("thread", ["SAE-16", "G 1"])
def test_a_head_has_its_ports_room_without_what_shows_of_the_bush(thread):
    """A bore of 50 mm would have a head shorter than the spotface once the bush is taken off."""
    c = settled(spec(SMALL, rod_port=port(thread)))
    (p,) = c.ports
    assert c.stations.barrel_end - c.stations.gland_inner >= p.sizes.boss + 4
    assert "boss-over-end" not in {f.code for f in c.findings}


ROUND = {**PLAIN, "bore": "63", "rod": "36", "barrel_outside": "78"}
BY_RULE = {k: v for k, v in ROUND.items() if not k.endswith(("thickness", "length"))}
THIN = {"pin": "14"}
"""A boss of 21 mm, which reaches 12 mm each way."""


def at_end(end, clock, cylinder=BY_RULE, pins=(), **typed):
    place = '"base"' if end == "base" else '"rod end"'
    body = {"mount": '"trunnion"', "position": place, **dict(pins)}
    rod = {"mount": '"plain"'}
    return spec(cylinder, body, rod, **{f"{end}_port": port("G 3/8", clock=clock, **typed)})


def from_its_end(c, end):
    """How far the trunnion's centre line is from the barrel's end beside it."""
    return -c.stations.closed_end if end == "base" else c.stations.barrel_end


@pytest.mark.parametrize("gland", ["threaded", "bolted", "cap", "snap ring"])
@pytest.mark.parametrize("clock", ["3", '"10:30"', '"100 deg"', "9"])
@pytest.mark.parametrize("end", ["base", "rod"])
def test_a_trunnion_at_an_end_of_a_barrel_goes_past_a_port_at_its_hour(end, clock, gland):
    welded = {**BY_RULE, "gland": f'"{gland}"'}
    text = at_end(end, clock, welded)
    c = settled(text)
    assert on_port(text) == {"no-port"}
    (p,) = c.ports
    assert abs(p.x) > p.sizes.boss / 2 + c.value("body_mount.outside").value / 2
    assert (p.x < 0) is (end == "base")
    assert "clear of the port" in c.value("body_mount.from_closed_end").why
    above = settled(at_end(end, "12", welded))
    assert from_its_end(above, end) < from_its_end(c, end) - p.sizes.boss / 2
    assert "clear of the port" not in above.value("body_mount.from_closed_end").why


@pytest.mark.parametrize("end", ["base", "rod"])
def test_a_trunnion_that_the_port_is_clear_of_stays_at_its_end(end):
    """Cap and gland are typed so long that the port lies behind the whole boss."""
    c = settled(at_end(end, "3", {**ROUND, "base_thickness": "60"}, THIN))
    assert from_its_end(c, end) == pytest.approx(12.0)


@pytest.mark.parametrize("end", ["base", "rod"])
@pytest.mark.parametrize("away", [20.0, 70.0])
def test_a_port_typed_in_the_trunnions_way_or_beyond_it_moves_no_trunnion(end, away):
    """Within its reach of 26 mm there is no helping it; beyond, towards the middle, it is clear."""
    x = away if end == "base" else -away
    usual, typed = settled(at_end(end, "12")), at_end(end, "3", position=str(x))
    assert from_its_end(settled(typed), end) == pytest.approx(from_its_end(usual, end))
    blocked = {"port-blocked", "port-hemmed", "boss-hits-mount"}
    assert bool(on_port(typed) & blocked) is (away < 26)


@pytest.mark.parametrize("end", ["base", "rod"])
@pytest.mark.parametrize("body", [PLATE, PINS, HEAD_PINS])
def test_a_place_confirmed_as_it_was_drawn_changes_nothing(body, end):
    """What is to be confirmed is typed as the sheet has it: mount, cap and head stay."""
    for cylinder in (SMALL, BY_RULE):
        drawn = settled(beside(body, end, "3", "SAE-8", cylinder))
        x = f"{drawn.ports[0].x:.4f}"
        typed = settled(beside(body, end, "3", "SAE-8", cylinder, position=x))
        assert typed.stations == drawn.stations
        assert typed.ports[0].x == pytest.approx(drawn.ports[0].x, abs=1e-3)


def test_a_port_close_behind_a_flange_on_a_barrel_stands_a_little_back():
    """The gland begins 50 mm before the barrel's end: a boss of 25 mm would reach to 37.5 mm.

    The piston's relief of a quarter of 45 mm leaves the port open up to 61.25 mm before that end.
    """
    gland = {**BY_RULE, "gland_length": "57", "gland_projection": "7"}
    for thickness, most, blocked in ((36, -50, False), (42, -54.5, False), (52, -50, True)):
        plate = {"mount": '"flange"', "position": '"rod end"', "thickness": str(thickness)}
        text = beside(plate, "rod", "3", "G 3/8", gland)
        assert settled(text).ports[0].x == pytest.approx(most, abs=1.5)
        assert settled(text).ports[0].x <= most
        assert bool(on_port(text) & {"port-blocked", "port-hemmed"}) is blocked


def test_a_port_tube_along_the_barrel_over_the_trunnion_moves_nothing():
    """Past the port it would stand in the tube's way all the more."""
    tube = {"facing": '"rod"', "height": "40"}
    along = settled(at_end("base", "3", **tube))
    assert from_its_end(along, "base") == from_its_end(settled(at_end("base", "12")), "base")
    back = settled(at_end("base", "3", **{**tube, "facing": '"base"'}))
    assert from_its_end(back, "base") > from_its_end(along, "base")


def test_rather_a_trunnion_in_the_way_than_no_cylinder():
    """Between the trunnion at the head and the rod's end there is no length to go back."""
    short = {**BY_RULE, "retracted": "75"}
    assert "port-blocked" not in on_port(at_end("rod", "12", short))
    assert "port-blocked" in on_port(at_end("rod", "3", short))
    assert "port-blocked" not in on_port(at_end("rod", "3", {**short, "retracted": "95"}))
