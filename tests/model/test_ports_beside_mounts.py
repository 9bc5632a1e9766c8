"""On a square cap or head a port whose place nobody typed stands beside the mount, not in its way.

Cap and head grow for that, unless they were typed or nothing is left to give.
"""

import pytest

from drafting.told.drawn_by_rule import short_reason
from tests.model.test_ports_drawn import TIE, codes, port, settled, spec

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


def beside(body, end, clock, thread, cylinder=SMALL):
    """A cylinder with one port, as text."""
    rod = {"mount": '"plain"'}
    return spec(cylinder, body, rod, **{f"{end}_port": port(thread, clock=clock)})


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
