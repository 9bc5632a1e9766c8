"""Where datums and faces of mounts lie, worked by hand from the spec format's own words.

The cylinder is 16 in of stroke with a 1 in base cap, a 2 in piston and a 3 in gland of which 1 in
shows: its visible barrel is 1 + 2 + 16 + 3 - 1 = 21 in long.
"""

from __future__ import annotations

import numpy as np
import pytest

from drafting.errors import Refused
from drafting.model.codes import iso_6099
from drafting.model.frame import clock_direction, dot
from drafting.model.mounts.ball_swivel import _tilt
from drafting.model.pieces import Ball, Part, bounds
from drafting.model.rays import body
from drafting.model.wishes import Callout, Length, Thread
from drafting.standards.table import table
from tests.model.mount_specs import INCH, at_end, settled, spec_text

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
    ("trunnion", {"position": "base", "outside": 2}, -1.1),
    ("trunnion", {"position": "rod end", "outside": 2}, -(21 - 1.1)),
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


ROD_END = [
    ("plain", {}, 0.0),
    ("female thread", {"thread": "M24x2", "thread_length": 1}, 0.0),
    ("male thread", {"thread": "M24x2", "thread_length": 1.5}, 1.5),
    ("male thread", {"thread": "M24x2", "thread_length": 1.5, "shoulder": 2}, 2.0),
    ("flange", {"thickness": 0.75}, 0.75),
    ("flange", {"thickness": 0.75, "offset": 0}, 0.0),
    ("pin eye", {**PIN, "offset": 2}, 2.0),
    ("pin eye", {**PIN, "offset": 3, "thread": "1-12 UNF", "thread_length": 1.5}, 3.0),
    ("clevis", {**PIN, "offset": 3, "thread": "1-12 UNF", "thread_length": 1.5}, 3.0),
]


@pytest.mark.parametrize(("word", "fields", "inches"), ROD_END, ids=lambda v: str(v)[:24])
def test_the_rod_ends_where_the_datum_says(word, fields, inches):
    s = at_end("rod", word, fields).stations
    assert s.rod_datum - s.rod_end == pytest.approx(inches * INCH)


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


# --- sizes that make wrong metal when they are mixed up ------------------------------------------


def wish(c, name):
    found = [w for w in c.wishes if w.name == name]
    assert len(found) == 1, name
    return found[0]


def metal(part: Part, *points: tuple[float, float, float]) -> list[bool]:
    return list(body(part).inside(np.array(points, float)))


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


@pytest.mark.parametrize(("seat", "x"), [("rod side", 30.0), ("base side", 29.25)])
def test_a_rod_flange_bears_on_its_outer_face_unless_said_otherwise(seat, x):
    c = at_end("rod", "flange", {"thickness": 0.75, "seat": seat})
    face = wish(c, "rod_mount.seat")
    assert face.tip[0] == pytest.approx(x * INCH)
    assert face.normal[0] == (1.0 if seat == "rod side" else -1.0)


def test_ball_and_ring_have_each_their_own_width():
    c = at_end("body", "ball swivel", {**PIN, "width": 0.75, "ball_width": 0.875})
    ball = next(p for p in c.parts if p.name == "base end ball")
    (_, low, _), (_, high, _) = bounds(ball.pieces)
    assert high - low == pytest.approx(0.875 * INCH)
    ring = next(p for p in c.parts[0].pieces if p.name == "body_mount.ring")
    (_, low, _), (_, high, _) = bounds([ring])
    assert high - low == pytest.approx(0.75 * INCH)
    for name, note, inches in (("ball_width", "BALL", 0.875), ("width", "RING", 0.75)):
        shown = wish(c, f"body_mount.{name}")
        assert shown.note == note
        assert shown.b[1] - shown.a[1] == pytest.approx(inches * INCH)


def test_the_ring_is_hollowed_by_the_ball():
    c = at_end("rod", "ball swivel", {**PIN, "width": 0.75, "ball_width": 0.875, "turned": 35})
    zones = [
        z
        for part in c.parts
        for p in part.pieces
        if p.name in ("rod_mount.hollow", "rod_mount.ball")
        for z in p.shape.zones
    ]
    assert len(zones) == 2
    assert all(isinstance(z, Ball) for z in zones)
    assert len({(z.radius, z.centre) for z in zones}) == 1
    # Its faces leave a land round the hole: half width and land make the radius (Pythagoras).
    land = (zones[0].radius ** 2 - (0.875 * INCH / 2) ** 2) ** 0.5 - INCH / 2
    assert land == pytest.approx(0.08 * INCH)


def test_the_tilt_of_a_listed_bearing_is_below_the_published_one():
    """The series of ISO 12240-1 state the tilt; a lug as wide as the ring allows a little less."""
    for row in table("spherical_bearing").rows:
        c, b, d = (row.number(f"{x}_mm") for x in "CBD")
        published = row.number("tilt_deg_conservative")
        assert 0.6 * published < _tilt(c, b, d) <= published, row.where


def test_a_ring_without_play_does_not_tilt():
    assert _tilt(20.0, 20.0, 60.0) == 0.0
    assert _tilt(0.0, 30.0, 60.0) == pytest.approx(30.0)


def test_thread_end_and_shoulder_are_told_apart():
    c = at_end("rod", "male thread", {"thread": "M24x2", "thread_length": 1.25, "shoulder": 2})
    for name in ("cylinder.retracted", "cylinder.extended"):
        assert wish(c, name).note == "TO END OF THREAD"
    assert wish(c, "cylinder.stroke").note == ""
    shoulder, thread = wish(c, "rod_mount.shoulder"), wish(c, "rod_mount.thread_length")
    end = c.stations.rod_datum
    assert {shoulder.a[0], thread.a[0]} == {end}
    assert shoulder.b[0] == pytest.approx(end - 2 * INCH)
    assert thread.b[0] == pytest.approx(end - 1.25 * INCH)
    line = next(s for s in c.symbols if isinstance(s, Thread) and not s.internal)
    assert (line.start[0], line.end[0]) == pytest.approx((end, end - 1.25 * INCH))
    assert line.major == pytest.approx(24.0)
    assert line.minor == pytest.approx(24 - 1.22687 * 2)  # d3 of ISO 724
    rod = next(p for p in c.parts if p.name == "rod")
    r = 1.75 * INCH / 2 - 0.5
    before, after = shoulder.b[0] - 0.5, shoulder.b[0] + 0.5
    assert metal(rod, (before, 0, r), (after, 0, r)) == [True, False]
    assert max(b[0] for b in bounds(rod.pieces)) == pytest.approx(end)


def test_only_a_male_thread_says_to_end_of_thread():
    c = at_end("rod", "female thread", {"thread": "M24x2"})
    assert wish(c, "cylinder.retracted").note == ""


def test_a_female_thread_is_metal_behind_its_drill_only():
    c = at_end("rod", "female thread", {"thread": "M24x2", "thread_length": 1})
    rod, end = next(p for p in c.parts if p.name == "rod"), c.stations.rod_datum
    deep = end - INCH - 6.0  # three pitches more are drilled
    assert metal(rod, (end - 1, 0, 11.9), (end - 1, 0, 12.1)) == [False, True]
    assert metal(rod, (deep + 1, 0, 10.8), (deep + 1, 0, 11)) == [False, True]  # D1 = 21.835
    assert metal(rod, (deep - 8, 0, 0)) == [True]


def test_throat_and_nose_are_the_clevis_own():
    c = at_end(
        "body",
        "clevis",
        {
            **PIN,
            "gap": 1.25,
            "width": 2.5,
            "throat": 1.5,
            "nose": 1.25,
            "outside": 2,
            "offset": 2.5,
        },
    )
    barrel = c.parts[0]
    assert bounds(barrel.pieces)[0][0] == pytest.approx(-1.25 * INCH)
    slot = 1.5 * INCH
    assert metal(barrel, (slot - 0.5, 0, 0), (slot + 0.5, 0, 0)) == [False, True]
    throat, nose = wish(c, "body_mount.throat"), wish(c, "body_mount.nose")
    assert throat.b[0] - throat.a[0] == pytest.approx(slot)
    assert nose.radius == pytest.approx(1.25 * INCH)
    ear = 1.25 * INCH / 2
    assert metal(barrel, (-20, ear - 0.5, 0), (-20, ear + 0.5, 0)) == [False, True]


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


# --- feet and clocks -----------------------------------------------------------------------------


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


# --- mounts that are screwed on ------------------------------------------------------------------

SCREWED = {"thread": "1-12 UNF", "thread_length": 2, "jam_nut": True, "adjustment": 0.25}


@pytest.mark.parametrize("word", ["clevis", "pin eye", "ball swivel"])
def test_a_screwed_on_mount_is_a_part_of_its_own_on_the_rods_thread(word):
    c = at_end("rod", word, {**PIN, "width": 1.5 if word == "pin eye" else 2.5, **SCREWED}
               if word != "ball swivel" else {**PIN, **SCREWED, "offset": 4})  # fmt: skip
    names = [p.name for p in c.parts if p.owner == "rod"]
    own = {"clevis": "rod end clevis", "pin eye": "rod end pin eye", "ball swivel": "rod end ring"}
    assert own[word] in names
    assert "rod end jam nut" in names
    rod = next(p for p in c.parts if p.name == "rod")
    nut = c.value("rod_mount.jam_nut_thickness").value
    assert min(bounds(rod.pieces)[1][0], 1e9) == pytest.approx(c.stations.rod_end + 2 * INCH)
    offset = c.value("rod_mount.offset").value
    assert c.stations.rod_datum - c.stations.rod_end == pytest.approx(offset + nut)
    assert c.value("rod_mount.engagement").value == pytest.approx(1.75 * INCH - nut)


def test_backing_off_lengthens_both_lengths_alike_and_never_the_stroke():
    c = at_end("rod", "pin eye", {**PIN, "width": 1.5, **SCREWED})
    for word in ("retracted", "extended"):
        longest = c.value(f"cylinder.{word}_longest").value
        assert longest - c.value(f"cylinder.{word}").value == pytest.approx(0.25 * INCH)
        assert "1/4 in (6.35 mm)" in wish(c, f"cylinder.{word}").note
    assert wish(c, "cylinder.stroke").note == ""
    assert c.lengths.stroke == pytest.approx(16 * INCH)
    assert "never the stroke" in next(f.message for f in c.findings if f.code == "adjustable")


def test_a_welded_mount_says_nothing_of_adjustment():
    c = at_end("rod", "pin eye", {**PIN, "width": 1.5})
    assert c.value("cylinder.retracted_longest") is None
    assert not any(p.name.startswith("rod end") for p in c.parts)


# --- bushings, fittings, flats -------------------------------------------------------------------


@pytest.mark.parametrize(("word", "count"), [("pin eye", 1), ("cross tube", 1), ("clevis", 2)])
def test_bushings_fill_their_holes_and_end_with_the_eye(word, count):
    sizes = {**PIN, "bushing": 1.25, "width": 3, "outside": 2.5}
    c = at_end("body", word, sizes | ({"gap": 1.5} if word == "clevis" else {}))
    found = [p for p in c.parts if "bushing" in p.name]
    assert len(found) == count
    reach = [bounds(p.pieces) for p in found]
    assert max(hi[1] for _, hi in reach) == pytest.approx(1.5 * INCH)
    assert min(lo[1] for lo, _ in reach) == pytest.approx(-1.5 * INCH)
    y = 1.2 * INCH
    at = [(0, y, 0.6 * INCH), (0, y, 0.64 * INCH)]
    assert metal(c.parts[0], *at) == [False, True]
    assert any(metal(p, at[0])[0] for p in found)


@pytest.mark.parametrize(
    ("word", "sizes", "count"),
    [
        ("pin eye", {**PIN, "width": 1.5}, 1),
        ("cross tube", {**PIN, "width": 1.5}, 1),
        ("ball swivel", PIN, 1),
        ("trunnion", {"pin": 1.5}, 2),
    ],
)
def test_grease_finds_its_way_from_the_fitting(word, sizes, count):
    c = at_end("body", word, {**sizes, "grease": True})
    found = [p for p in c.parts if "grease fitting" in p.name]
    assert len(found) == count
    (lo, hi) = bounds(found[0].pieces)
    root = [(a + b) / 2 for a, b in zip(lo, hi, strict=True)]
    axis = 1 if word == "trunnion" else 2
    root[axis] = lo[axis] - 1.0
    assert metal(c.parts[0], tuple(root)) == [False]


def test_a_port_in_the_way_of_a_fitting_is_named():
    # The cap is short and the port's boss reaches over the eye behind it.
    text = spec_text(
        ("pin eye", {**PIN, "width": 1.5, "outside": 5.5, "grease": True}),
        ("plain", {}),
        more="[base_port]\nthread = 'SAE-8'\nclock = '12:00'\nposition = {x}\n",
    )
    near = settled(text.replace("{x}", "3.2"))
    assert "boss-hits-mount" in {f.code for f in near.findings}
    far = settled(text.replace("{x}", "6"))
    assert "boss-hits-mount" not in {f.code for f in far.findings}


def test_flats_lie_between_rod_end_and_gland():
    c = at_end("rod", "male thread", {"thread": "M24x2", "flats": 1.5})
    rod, s = next(p for p in c.parts if p.name == "rod"), c.stations
    x, half = s.rod_end - 3.0, 0.75 * INCH
    assert metal(rod, (x, 0, half - 0.3), (x, 0, half + 0.3)) == [True, False]
    assert metal(rod, (s.rod_end - 0.5, 0, half + 0.3)) == [True]
    cuts = [p for p in rod.pieces if p.cut]
    assert all(s.gland_face < bounds([_solid(p)])[0][0] for p in cuts)


def _solid(piece):
    from dataclasses import replace

    return replace(piece, cut=False)


# --- codes ---------------------------------------------------------------------------------------


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
        ({"mount": "clevis", "end": "rod"}, None),
        ({"mount": "clevis", "end": "rod", "threaded": True}, "AP2"),
        ({"mount": "cross tube", "end": "body"}, None),
    ],
)
def test_iso_6099_codes(words, code):
    """ISO 6099, from memory: MT1 head, MT2 cap, MT4 between; MF odd at head, even at cap."""
    assert iso_6099(**words) == code


def test_thread_words_that_mean_two_things_are_refused_with_what_would_do():
    with pytest.raises(Refused, match="1 1/4"):
        at_end("rod", "male thread", {"thread": "1 1/4"})
