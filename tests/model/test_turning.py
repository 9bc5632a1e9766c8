"""Room for the rod's mount to turn; everything is worked by hand.

The barrel is 100 mm outside, a port tube along it has its centre 20 mm above that, at 70 mm from
the axis; -8 has a boss of 30 mm (SAE J1926-1: spotface 30.0 mm, witnessed in the table), so that
the tube lies from 55 to 85 mm and is 30 mm wide.
"""

import pytest

from drafting.errors import Refused
from drafting.model.overlaps import overlaps
from drafting.model.turning import judge_turning
from drafting.settle.ledger import Ledger
from drafting.shape.pieces import Part, Piece, Prism, box
from tests.model.mount_specs import settled, spec_text

TEXT = """
title = "Trial"
units = "mm"
[cylinder]
bore = 80
rod = 45
stroke = 500
retracted = 950
barrel_outside = 100
clock_seen_from = "rod"
{keyed}
[body_mount]
{body}
[rod_mount]
{rod}
[rod_port]
thread = "SAE-8"
clock = "{clock}"
facing = "rod"
height = 20
outlet_position = {outlet}
"""
TUBE = "mount = 'cross tube'\npin = 40\nhole = 40.1\noutside = 70\nwidth = {}"
WIDE = TUBE.format(140)
EYE = "mount = 'pin eye'\npin = 40\nhole = 40.1\noutside = 70\nwidth = 45"


def found(rod=WIDE, clock="12:00", outlet=930, keyed="", body=EYE):
    text = TEXT.format(rod=rod, clock=clock, outlet=outlet, keyed=keyed, body=body)
    codes = ("mount-hits", "turning-hits")
    return [(f.code, f.level, f.field) for f in settled(text).findings if f.code in codes]


def test_a_tube_of_the_rods_mount_swings_into_a_port_tube():
    """140 mm wide it reaches 70 mm to either side: past the port tube in line, into it across."""
    assert found() == [("turning-hits", "warning", "rod_port.position")]


@pytest.mark.parametrize(
    "changed",
    [
        {"rod": TUBE.format(80)},  # its corners reach hypot(40, 35) = 53 mm, below the port tube
        {"outlet": 900},  # the port tube ends before the eye of 70 mm begins at 915 mm
        {"keyed": "rod_keyed = true"},
        {"rod": WIDE + "\nheld = true"},
    ],
)
def test_with_room_or_without_turning_there_is_nothing_to_say(changed):
    assert found(**changed) == []


ANGLES = {
    "mount": "foot",
    "position": -1.25,
    "plate": [2, 7],
    "thickness": 0.75,
    "seat_height": 3.25,
}


@pytest.mark.parametrize(
    ("turned", "length", "said"),
    [(90, 6, ["parts-overlap"]), (0, 6, ["turning-hits"]), (90, 4, []), (0, 4, [])],
)
def test_a_foots_angle_ahead_of_the_head_is_in_the_way_of_a_long_tube(turned, length, said):
    """Its plate reaches from 23 to 25 in along, and lies 2.5 to 3.25 in below the axis.

    The tube of 2.25 in lies from 24.4 in on: 6 in long it reaches 3 in down when it stands across,
    4 in long 2 in, and hypot(2, 1.125) = 2.3 in at its corners.
    """
    foot = {**ANGLES, "bolts": {"count": 4, "hole": 0.656, "pitch": [24, 5.5]}}
    tube = {"pin": 1.25, "hole": 1.266, "outside": 2.25, "width": length, "turned": turned}
    cylinder = {
        "construction": "tie rod",
        "retracted": 25.5,
        "base_thickness": 2,
        "piston_length": 2,
        "gland_length": 2,
        "gland_projection": 0.5,
        "clock_seen_from": "rod",
    }
    try:
        c = settled(spec_text(("foot", foot), ("cross tube", tube), cylinder=cylinder))
        codes = [f.code for f in c.findings if f.code in ("mount-hits", "turning-hits")]
    except Refused as refused:
        codes = [f.code for f in refused.faults]
    assert codes == said


def test_what_the_rods_mount_only_meets_under_way_is_an_error():
    """Closed it ends at 250 mm, open it begins at 700: the plate at 300 to 320 lies between."""
    plate = Piece("body_mount.plate", Prism(box(300.0, 320.0, -40.0, 40.0), -40.0, 40.0))
    eye = Piece("rod_mount.eye", Prism(box(200.0, 250.0, -20.0, 20.0), -20.0, 20.0))
    book = Ledger(settled(TEXT.format(rod=EYE, clock=12, outlet=900, keyed="", body=EYE)).spec)
    parts = (Part("barrel", "body", (plate,)), Part("rod", "rod", (eye,)))
    assert list(overlaps(parts, 500.0)) == []
    judge_turning(book, parts, 500.0)
    assert [(f.code, f.level) for f in book.findings] == [("mount-hits", "error")]
