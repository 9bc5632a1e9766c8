"""Mounts at the ends: rod datums, and sizes that make wrong metal when they are mixed up.

Everything is worked by hand from the spec format's own words, in inches.
"""

from __future__ import annotations

import pytest

from drafting.errors import Refused
from drafting.model.mounts.ball_swivel import _tilt
from drafting.settle.wishes import ADJUST, Thread
from drafting.shape.pieces import Ball, bounds
from drafting.standards.table import table
from tests.model.mount_specs import INCH, at_end, metal, settled, spec_text, wish

PIN = {"pin": 1, "hole": 1}

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


@pytest.mark.parametrize(("ball", "ring"), [(0.875, 0.6875), (1.0625, 0.875), (0.25, 0.1875)])
def test_a_ring_that_nobody_gave_has_a_size_of_the_shop(ball, ring):
    """0.82 of the ball's width stood there to a hundredth of a millimetre."""
    c = at_end("body", "ball swivel", {"pin": 0.6875, "hole": 0.6875, "ball_width": ball})
    assert c.value("body_mount.width").value == pytest.approx(25.4 * ring)


@pytest.mark.parametrize("ring", [1.25, 0.875])
def test_a_ball_that_cannot_tilt_is_not_given_an_angle_of_nothing(ring):
    c = at_end("body", "ball swivel", {**PIN, "width": ring, "ball_width": 0.875})
    assert wish(c, "body_mount.tilt").lines == ("BALL HAS NO ROOM TO TILT",)


@pytest.mark.parametrize(("ring", "angle"), [(0.75, 3), (0.5, 6)])
def test_a_ball_that_tilts_says_how_far_for_reference(ring, angle):
    """It follows from ring and ball, or is the bearing's own: bare it read as asked for."""
    c = at_end("body", "ball swivel", {**PIN, "width": ring, "ball_width": 0.875})
    (said,) = wish(c, "body_mount.tilt").lines
    assert said == f"BALL TILTS ({angle}°) EACH WAY"


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
        assert wish(c, f"cylinder.{word}").note == ADJUST
    assert wish(c, "cylinder.stroke").note == ""
    assert c.lengths.stroke == pytest.approx(16 * INCH)
    assert "never the stroke" in next(f.message for f in c.findings if f.code == "adjustable")


def test_a_welded_mount_says_nothing_of_adjustment():
    c = at_end("rod", "pin eye", {**PIN, "width": 1.5})
    assert c.value("cylinder.retracted_longest") is None
    assert not any(p.name.startswith("rod end") for p in c.parts)


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


def test_thread_words_that_mean_two_things_are_refused_with_what_would_do():
    with pytest.raises(Refused, match="1 1/4"):
        at_end("rod", "male thread", {"thread": "1 1/4"})
