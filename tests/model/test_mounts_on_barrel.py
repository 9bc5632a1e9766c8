"""Where mounts that sit on the barrel lie, worked by hand from the spec format's own words.

The cylinder is 16 in of stroke with a 1 in base cap, a 2 in piston and a 3 in gland of which 1 in
shows: its visible barrel is 1 + 2 + 16 + 3 - 1 = 21 in long.
"""

from __future__ import annotations

import numpy as np
import pytest

from drafting.errors import Refused
from drafting.settle.wishes import Callout, Length
from drafting.shape.frame import clock_direction, dot
from drafting.told.codes import iso_6099
from drafting.told.drawn_by_rule import short_reason
from tests.model.mount_specs import INCH, at_end, metal, on_tie_rods, settled, spec_text, wish

FIXED = {"base_thickness": 1, "piston_length": 2, "gland_length": 3, "gland_projection": 1}

PIN = {"pin": 1, "hole": 1}

CLOSED_END = [
    ("none", {}, 0.0),
    ("pin eye", {**PIN, "offset": 2}, 2.0),
    ("clevis", {**PIN, "offset": 2.5}, 2.5),
    ("cross tube", {**PIN, "outside": 2}, 1.0),
    ("ball swivel", {**PIN, "outside": 3}, 1.5),
    ("trunnion", {"position": "middle", "outside": 2}, -10.5),
    ("trunnion", {"position": 5}, -5.0),
    ("trunnion", {"position": "base", "outside": 2}, -1.125),  # 0.55 of it, at the next sixteenth
    ("trunnion", {"position": "rod end", "outside": 2}, -(21 - 1.125)),
    ("flange", {"position": "base", "thickness": 0.75}, 0.75),
    ("flange", {"position": "base", "thickness": 0.75, "offset": 0.25}, 0.25),
    ("flange", {"position": "rod end"}, -21.0),
    ("flange", {"position": "middle"}, -10.5),
    ("flange", {"position": 8}, -8.0),
    ("foot", {"position": "base", "plate": [2, 7]}, -1.0),
    ("foot", {"position": 3, "plate": [2, 7]}, -3.0),
    (
        "foot",
        {
            "position": "rod end",
            "plate": [2, 7],
            "bolts": {"count": 2, "hole": 0.5, "pitch": [1, 5.5]},
        },
        -20.0,
    ),
    (
        "foot",
        {
            "position": "base",
            "plate": [5, 7],
            "bolts": {"count": 4, "hole": 0.5, "pitch": [3, 5.5]},
        },
        -1.0,
    ),
]


@pytest.mark.parametrize(("word", "fields", "inches"), CLOSED_END, ids=lambda v: str(v)[:24])
def test_the_closed_end_lies_where_the_datum_says(word, fields, inches):
    s = at_end("body", word, fields, cylinder=FIXED).stations
    assert s.closed_end == pytest.approx(inches * INCH)
    assert s.barrel_end - s.closed_end == pytest.approx(21 * INCH)


def test_middle_is_of_the_barrel_without_what_shows_of_the_gland():
    shown = at_end("body", "trunnion", {"position": "middle"}, cylinder=FIXED).stations
    assert -shown.closed_end == pytest.approx((shown.barrel_end - shown.closed_end) / 2)
    assert shown.gland_face - shown.barrel_end == pytest.approx(1 * INCH)


def test_stop_tube_lengthens_the_barrel_ahead_of_a_middle_trunnion():
    plain, stopped = (
        at_end("body", "trunnion", {}, cylinder={**FIXED, "stop_tube": t}).stations for t in (0, 2)
    )
    assert plain.closed_end - stopped.closed_end == pytest.approx(1 * INCH)


def test_a_second_foot_never_moves_the_datum():
    bolts = {"hole": 0.5, "pitch": [12, 5.5]}
    one, two = (
        at_end(
            "body",
            "foot",
            {
                "position": 4,
                "plate": [2, 7],
                "bolts": {**bolts, "count": n, "pitch": [1 if n == 2 else 12, 5.5]},
            },
        ).stations
        for n in (2, 4)
    )
    assert one.closed_end == two.closed_end == pytest.approx(-4 * INCH)


@pytest.mark.parametrize("seat", ["base side", "rod side"])
@pytest.mark.parametrize(("position", "plate"), [("base", (0.0, 1.0)), ("rod end", (-1.0, 0.0))])
def test_a_flange_bears_on_the_face_that_was_named_whichever_is_the_datum(seat, position, plate):
    c = at_end("body", "flange", {"position": position, "thickness": 1, "seat": seat})
    low, high = plate[0] * INCH, plate[1] * INCH
    face = wish(c, "body_mount.seat")
    assert isinstance(face, Callout)
    assert face.tip[0] == pytest.approx(low if seat == "base side" else high)
    assert face.normal == ((-1.0 if seat == "base side" else 1.0), 0.0, 0.0)
    assert seat.upper() in " ".join(face.lines)
    edge = face.tip[2]
    inside = low + 1.0 if seat == "base side" else high - 1.0
    outside = low - 1.0 if seat == "base side" else high + 1.0
    assert metal(c.parts[0], (inside, 0, edge), (outside, 0, edge)) == [True, False]


def test_trunnion_pins_begin_at_the_shoulders():
    c = at_end("body", "trunnion", {"pin": 1.5, "shoulders": 5, "width": 8, "outside": 2.25})
    r, boss = 0.75 * INCH, 1.125 * INCH
    for side in (1, -1):
        y = side * 2.5 * INCH
        points = [
            (0, y - side * 0.5, boss - 0.5),
            (0, y + side * 0.5, boss - 0.5),
            (0, y + side * 0.5, r - 0.5),
            (0, side * (4 * INCH - 0.5), 0),
            (0, side * (4 * INCH + 0.5), 0),
        ]
        assert metal(c.parts[0], *points) == [True, False, True, True, False]


@pytest.mark.parametrize(("position", "part"), [("rod end", "head"), ("middle", "mount block")])
def test_trunnion_pins_stand_straight_on_a_square_as_wide_as_the_shoulders(position, part):
    """No bosses: nothing is asked of them, and the pins have their place as if there were some."""
    square = {"construction": "tie rod", "square": 6, **FIXED}
    sizes = {"pin": 1.5, "position": position}
    flush, bossed = (
        at_end("body", "trunnion", {**sizes, "shoulders": sh}, cylinder=square) for sh in (6, 6.5)
    )
    own = next(p for p in flush.parts if p.name == part)
    y, out = 3 * INCH, 1.0
    points = [(0, y + out, 0), (0, y + out, 0.75 * INCH + 0.5), (0, -y - out, 0), (0, y - out, 0)]
    assert metal(own, *points) == [True, False, True, True]
    assert not any("shoulders" in q.name for p in flush.parts for q in p.pieces)
    assert flush.value("body_mount.outside") is None
    assert all(w.name != "body_mount.outside" for w in flush.wishes)
    assert flush.stations.closed_end == pytest.approx(bossed.stations.closed_end)


def test_nothing_welded_on_the_barrel_stands_in_its_bore():
    bore = 3.5 * INCH / 2 - 0.2
    for word, fields in (
        ("trunnion", {"outside": 5}),
        ("foot", {"position": "middle"}),
        ("flange", {"position": "middle"}),
    ):
        c = at_end("body", word, fields)
        ring = [
            (x, bore * np.sin(a), bore * np.cos(a))
            for x in np.linspace(c.stations.oil_side + 1, c.stations.gland_inner, 60)
            for a in np.linspace(0, 6.28, 40)
        ]
        assert not any(metal(c.parts[0], *ring)), word


@pytest.mark.parametrize(
    ("clock", "seen", "degrees"),
    [("6:00", "rod", 180), ("3:00", "rod", 90), ("3:00", "base", 270), ("35 deg", "rod", 35)],
)
def test_a_foots_seat_faces_its_hour(clock, seen, degrees):
    sizes = {"clock": clock, "seat_height": 2.75, "plate": [2, 7], "position": "base"}
    c = at_end("body", "foot", sizes, cylinder={"clock_seen_from": seen})
    out = clock_direction(degrees)
    seat = wish(c, "body_mount.seat_height")
    assert isinstance(seat, Length)
    assert dot(seat.b, out) == pytest.approx(2.75 * INCH)
    face = wish(c, "body_mount.clock")
    assert face.normal == pytest.approx(out)
    near, far = (tuple(k * INCH * v for v in out) for k in (2.7, 2.8))
    assert metal(c.parts[0], near, far) == [True, False]


def test_an_angle_behind_the_closed_end_stands_on_its_leg():
    bolts = {"count": 2, "hole": 0.6, "pitch": [1, 5.5]}
    sizes = {"position": -1.25, "plate": [2.5, 7], "thickness": 0.75, "seat_height": 2.5}
    c = at_end("body", "foot", {**sizes, "bolts": bolts})
    face = c.stations.closed_end
    assert face == pytest.approx(1.25 * INCH)
    points = [(face - 1, 0, -1.5 * INCH), (face + 3, 0, -2.2 * INCH), (0, 0, -1.5 * INCH)]
    assert metal(c.parts[0], *points) == [True, False, False]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ({"mount": "trunnion", "end": "body", "position": "rod end"}, "MT1"),
        ({"mount": "trunnion", "end": "body", "position": "base"}, "MT2"),
        ({"mount": "trunnion", "end": "body", "position": "middle"}, "MT4"),
        ({"mount": "trunnion", "end": "body"}, "MT4"),
        ({"mount": "flange", "end": "body", "position": "rod end", "plate": "rectangular"}, "MF1"),
        ({"mount": "flange", "end": "body", "position": "base", "plate": "round"}, "MF4"),
        ({"mount": "flange", "end": "body", "plate": "round"}, None),
        ({"mount": "flange", "end": "body", "position": "base", "plate": "square"}, "MF6"),
        ({"mount": "flange", "end": "body", "position": "rod end", "plate": "round"}, "MF3"),
        ({"mount": "clevis", "end": "body"}, "MP1"),
        ({"mount": "pin eye", "end": "body"}, "MP3"),
        ({"mount": "ball swivel", "end": "body"}, "MP5"),
        ({"mount": "clevis", "end": "rod"}, None),
        ({"mount": "clevis", "end": "rod", "threaded": True}, "AP2"),
        ({"mount": "cross tube", "end": "body"}, None),
    ],
)
def test_iso_6099_codes(words, code):
    """ISO 6099, from memory: MT1 head, MT2 cap, MT4 between; MF odd at head, even at cap."""
    assert iso_6099(**words) == code


def test_a_place_that_nobody_typed_is_not_cited_as_typed():
    """A flange at its usual place with an offset; a port tube whose port has its usual place."""
    for sizes, words in (
        ({"offset": 0.5}, "stands at the rod end, the usual place; leave offset out, or type"),
        ({"offset": 0.5, "position": "middle"}, "stands in the middle; leave offset out"),
        ({"offset": 0.5, "position": 4}, "stands at a distance; leave offset out"),
    ):
        with pytest.raises(Refused, match=words):
            at_end("body", "flange", sizes)
    tube = '[base_port]\nthread = "SAE-8"\nclock = 12\nfacing = "rod"\noutlet_position = {}\n'
    with pytest.raises(
        Refused, match=r"port at [^,]*\(not typed: its usual place\), not at .* mm\)$"
    ):
        at_end("body", "none", {}, more=tube.format(0.5))


@pytest.mark.parametrize(
    ("position", "own"), [("rod end", False), ("middle", True), ("base", True)]
)
def test_the_bodys_length_is_said_once_where_it_is_the_way_to_the_datum(position, own):
    """A tie-rod body ends at the flange face ahead of its head, so both would be one number."""
    c = on_tie_rods("flange", position=position, seat="rod side")
    along = [w for w in c.wishes if isinstance(w, Length) and w.pose != "extended"]
    spans = [sorted((w.a[0], w.b[0])) for w in along if w.reference and w.direction[0]]
    assert len({(round(a, 6), round(b, 6)) for a, b in spans}) == len(spans)
    assert any(w.name == "cylinder.body_length" for w in along) is own
    assert c.stations.closed_end in {x for span in spans for x in span}


def _tilted(position, *, pin=1.0, **cylinder):
    """A trunnion on tie rods: 0.55 of a boss of 1.5 of the pin, at the next sixteenth, each way."""
    sizes = {"construction": "tie rod", "square": 6, "piston_length": 2, "gland_projection": 1}
    mount = {"pin": pin, "shoulders": 6.5, "position": position}
    return at_end("body", "trunnion", mount, cylinder={**sizes, **cylinder})


@pytest.mark.parametrize(
    ("position", "pin", "field", "inches"),
    [
        ("base", 2.0, "base_thickness", 3.375),  # both reaches: 0.55 of 3 is 1.65, drawn as 1 11/16
        ("base", 2.5, "base_thickness", 4.125),
        (1.75, 2.0, "base_thickness", 3.4375),  # its own place and one reach
        ("rod end", 2.0, "gland_length", 4.375),  # the head, and 1 that shows
    ],
)
def test_a_square_drawn_by_rule_is_as_long_as_its_trunnion_needs(position, pin, field, inches):
    c = _tilted(position, pin=pin)
    size = c.value(f"cylinder.{field}")
    assert size.value == pytest.approx(inches * INCH)
    assert short_reason(size.why) == "as trunnion needs"
    assert not any(f.code.startswith("past-") for f in c.findings)


def test_a_trunnion_that_has_room_lengthens_nothing():
    size = _tilted("base", pin=0.5).value("cylinder.base_thickness")
    assert "trunnion" not in size.why


@pytest.mark.parametrize(
    ("position", "cylinder", "found"),
    [
        # To 1 11/16 and half of a boss of 3: 3 3/16, of which the cap has 2.25.
        (
            "base",
            {"base_thickness": 2.25},
            ("past-cap", "cylinder.base_thickness", "15/16 in", "3 3/16"),
        ),
        # Beyond the cap by 0.75, so that the boss begins 0.75 before its inner face.
        (3.0, {"base_thickness": 2.25}, ("past-cap", "body_mount.position", "2 1/4 in", "3/4 in")),
        # The head is 3 - 1 long; the boss ends 3/16 before the barrel's end.
        (
            "rod end",
            {"gland_length": 3},
            ("past-head", "cylinder.gland_length", "1 3/16 in", "4 3/16"),
        ),
        ("middle", {"gland_length": 3}, None),  # a block of its own
    ],
)
def test_a_trunnion_past_a_cap_or_head_that_was_typed_is_told(position, cylinder, found):
    past = [f for f in _tilted(position, pin=2.0, **cylinder).findings if f.code[:5] == "past-"]
    assert [(f.code, f.field) for f in past] == ([found[:2]] if found else [])
    for f in past:
        assert f.level == "warning"
        assert f"reach {found[2]}" in f.message
        assert found[3] in f.message


def test_the_shortest_length_counts_the_cap_that_a_trunnion_needs():
    text = spec_text(
        ("trunnion", {"pin": 2, "shoulders": 6.5, "position": "base"}),
        ("plain", {}),
        cylinder={"construction": "tie rod", "square": 6, "retracted": 17},
    )
    with pytest.raises(Refused) as refused:
        settled(text)
    assert "base cap 3 3/8 in (85.725 mm) (least)" in refused.value.faults[0].message
