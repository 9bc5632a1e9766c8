"""How a foot stands: beside the barrel, or as an angle against an end, and its ISO 6099 code.

ISO 6099, from memory: MS1 are angles under head and cap, MS2 side lugs on head and cap. The tie-rod
cylinder has a cap of 2 in, a piston of 2 in, a head of 2 in of which half an inch shows: from
closed end to the head's face it is 2 + 2 + 16 + 2 - 0.5 = 21.5 in long.
"""

from __future__ import annotations

import pytest

from drafting.errors import Refused
from drafting.shape.pieces import extent
from drafting.solids.build import build_part
from drafting.told.drawn_by_rule import short_reason
from drafting.told.facts import facts
from tests.agree.shapes import solids
from tests.model.mount_specs import INCH, metal, settled, spec_text

SIZES = {
    "construction": "tie rod",
    "base_thickness": 2,
    "piston_length": 2,
    "gland_length": 2,
    "gland_projection": 0.5,
}
LONG = 21.5


def foot(position, pitch, count=4, construction="tie rod", **more):
    table = {
        "position": position,
        "plate": [2, 7],
        "thickness": 0.75,
        "bolts": {"count": count, "hole": 0.656, "pitch": [pitch, 5.5]},
    }
    cylinder = {**SIZES, "construction": construction, **more}
    return settled(spec_text(("foot", table), ("plain", {}), cylinder=cylinder))


def mounted(c):
    """Say which mount the body has; one at the rod end is not called the base's."""
    (said,) = (words for name, words in facts(c) if name in ("Base end mount", "Body mount"))
    return said


@pytest.mark.parametrize(
    ("position", "pitch", "count", "said"),
    [
        (-1.25, 24, 4, "foot (ISO 6099 MS1)"),  # an angle past either end
        (1.25, 19, 4, "foot (ISO 6099 MS2)"),  # a lug at cap and head
        (1.25, 10, 4, "foot"),  # the head is free
        (6, 13, 4, "foot"),  # the cap is free
        (-1.25, 21, 4, "foot"),  # an angle at the cap, a lug at the head
        (LONG + 1.25, 1, 2, "foot"),  # one angle, ahead of the head
        ("rod end", 1, 2, "foot"),
        ("base", 1, 2, "foot"),
    ],
)
def test_a_code_is_said_only_where_both_ends_stand_alike(position, pitch, count, said):
    assert mounted(foot(position, pitch, count)) == said


def test_an_angle_ahead_of_the_head_stands_on_its_leg_round_the_gland():
    """Its leg reaches 0.75 in from the head's face and a quarter of the square above the axis."""
    c = foot(-1.25, 24)
    head = next(p for p in c.parts if p.name == "head")
    face = c.stations.barrel_end
    leg = next(p for p in head.pieces if p.name == "body_mount.leg2")
    x = extent(leg, (1.0, 0.0, 0.0))
    assert x == pytest.approx((face, face + 0.75 * INCH))
    low = -c.value("body_mount.seat_height").value
    inside, ahead = face + 0.3 * INCH, face + 0.6 * INCH  # the bush ends 0.5 in from the face
    collar = c.stations.gland_outside / 2
    assert metal(head, (inside, 0, low + 1), (ahead, 0, low + 1)) == [True, True]
    assert metal(head, (ahead, 0, -collar + 1), (ahead, 0, -collar - 1)) == [False, True]
    assert metal(head, (inside, 0, -collar + 1)) == [True]  # the bush
    assert metal(head, (inside, 0, -c.stations.rod / 2 + 1)) == [False]
    assert solids(build_part(head)) == 1


def test_a_gland_as_wide_as_the_barrel_leaves_no_face_for_an_angle():
    with pytest.raises(Refused) as caught:
        foot(-1.25, 24, construction="welded", barrel_outside=4)
    assert [(f.code, f.field) for f in caught.value.faults] == [
        ("no-face-for-foot", "body_mount.bolts.pitch")
    ]


def test_an_angle_round_a_gland_within_the_barrel_is_one_piece_with_it():
    c = foot(-1.25, 24.5, construction="welded", barrel_outside=4.5, gland_projection=0)
    assert c.stations.gland_face == c.stations.barrel_end
    barrel = next(p for p in c.parts if p.name == "barrel")
    assert solids(build_part(barrel)) == 1
    end = c.stations.barrel_end + 1.0
    assert metal(barrel, (end, 0, -1.5 * INCH), (end, 0, -2 * INCH)) == [False, True]


@pytest.mark.parametrize("pitch", [22.5, 27])
def test_a_foot_over_the_heads_edge_or_out_of_its_reach_is_refused(pitch):
    with pytest.raises(Refused) as caught:
        foot(-1.25, pitch)
    assert [(f.code, f.field) for f in caught.value.faults] == [
        ("off-barrel", "body_mount.bolts.pitch")
    ]


@pytest.mark.parametrize("pitch", [5.5, [0, 5.5]])
def test_one_row_of_two_bolts_is_typed_by_the_pitch_across(pitch):
    table = {"position": "base", "bolts": {"count": 2, "hole": 0.656, "pitch": pitch}}
    c = settled(spec_text(("foot", table), ("plain", {}), cylinder=SIZES))
    assert c.value("body_mount.bolts.pitch.across").value == pytest.approx(5.5 * INCH)
    holes = [p for part in c.parts for p in part.pieces if p.cut and "bolts" in p.name]
    assert len(holes) == 2
    assert "not-used" not in {f.code for f in c.findings}


@pytest.mark.parametrize(("pitch", "count"), [([0, 5.5], 4), (5.5, 4), ([4, 0], 2), (0, 2)])
def test_bolts_in_one_place_are_refused(pitch, count):
    table = {"position": "base", "bolts": {"count": count, "hole": 0.656, "pitch": pitch}}
    with pytest.raises(Refused) as refused:
        settled(spec_text(("foot", table), ("plain", {}), cylinder=SIZES))
    assert "bolts-and-pitch" in {f.code for f in refused.value.faults}


@pytest.mark.parametrize("pitch", [5.5, [0, 5.5]])
def test_a_flange_has_a_pitch_both_ways(pitch):
    table = {"position": "base", "bolts": {"count": 4, "hole": 0.656, "pitch": pitch}}
    with pytest.raises(Refused) as refused:
        settled(spec_text(("flange", table), ("plain", {}), cylinder=SIZES))
    assert "bolts-and-pitch" in {f.code for f in refused.value.faults}


@pytest.mark.parametrize(
    ("position", "pitch", "field", "over"),
    [
        (1.0, 9.0, None, ""),  # on the cap, to its end, and between: a block, drilled for the rods
        (1.75, 9.0, "body_mount.position", "3/4 in"),  # to 2 3/4 in: the cap ends at 2 in
        (1.0, 19.5, "body_mount.bolts.pitch", "1/2 in"),  # from 19 1/2 in: the head begins at 20 in
        (5.0, 9.0, None, ""),
    ],
)
def test_a_foot_in_the_way_of_the_tie_rods_is_told(position, pitch, field, over):
    """A web of 0.4 of the square to either side, and rods within that."""
    found = [f for f in foot(position, pitch).findings if f.code == "notched-for-tie-rods"]
    assert [f.field for f in found] == [field] * bool(field)
    assert all(f"reaches {over} (" in f.message for f in found)


def unplaced(construction="tie rod", units="in", body=(), **cylinder):
    """Feet of which the file says no bolts; the plate is half of the bore, 1 3/4 in, along."""
    table = {"position": "base", **dict(body)}
    sizes = {"construction": construction, **cylinder}
    return settled(spec_text(("foot", table), ("plain", {}), units, sizes))


def feet(c):
    """Give from where to where the plates stand."""
    pieces = [q for p in c.parts for q in p.pieces if q.name.startswith("body_mount.plate")]
    return sorted(extent(q, (1.0, 0.0, 0.0)) for q in pieces)


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("stroke", [1.5, 5, 16])
@pytest.mark.parametrize("typed", [{}, {"base_thickness": 2.25, "gland_length": 3.4}])
def test_feet_that_nobody_placed_stand_under_the_middle_of_cap_and_head(units, stroke, typed):
    c = unplaced(units=units, stroke=stroke, **typed)
    s, ((a, b), (p, q)) = c.stations, feet(c)
    assert s.closed_end - 1e-6 <= a < b <= s.oil_side + 1e-6
    assert s.gland_inner - 1e-6 <= p < q <= s.barrel_end + 1e-6
    step = INCH / 16 if units == "in" else 1.0
    assert a + b == pytest.approx(s.closed_end + s.oil_side)
    assert p + q == pytest.approx(s.gland_inner + s.barrel_end, abs=step + 1e-3)
    pitch = c.value("body_mount.bolts.pitch.x")
    assert (pitch.value, pitch.origin) == (pytest.approx((p + q - a - b) / 2), "derived")
    assert pitch.value == pytest.approx(round(pitch.value / step) * step, abs=1e-3)
    assert not {f.code for f in c.findings} & {"foot-on-tube", "notched-for-tie-rods"}
    assert mounted(c) == "foot (ISO 6099 MS2)"
    assert not any(p.name == "mount block" for p in c.parts)


def test_a_cap_that_nobody_gave_is_as_long_as_the_foot_on_it():
    """0.35 of a bore of 3.5 in are 1 1/4 in; the plate is 1 3/4 in."""
    size = unplaced().value("cylinder.base_thickness")
    assert size.value == pytest.approx(1.75 * INCH)
    assert short_reason(size.why) == "as foot needs"


def test_ends_shorter_than_the_feet_have_them_flush_with_their_outer_faces_and_that_is_told():
    c = unplaced(base_thickness=1.25, gland_length=1.5, gland_projection=0.25)
    s, ((a, _), (_, q)) = c.stations, feet(c)
    assert (a, q) == (pytest.approx(s.closed_end), pytest.approx(s.barrel_end, abs=INCH / 64))
    told = {f.field for f in c.findings if f.code == "notched-for-tie-rods"}
    assert told == {"body_mount.position", "body_mount.bolts.pitch"}


def test_on_a_welded_barrel_the_second_foot_stands_a_stroke_away():
    c = unplaced("welded")
    assert c.value("body_mount.bolts.pitch.x").value == pytest.approx(16 * INCH)
    assert "foot-on-tube" not in {f.code for f in c.findings}


@pytest.mark.parametrize(
    ("position", "pitch", "field", "way_out"),
    [
        # The head reaches from 20 to 21.5 in, so that its middle is 20.75 - 1 in off the first row.
        (1.0, 9.0, "body_mount.bolts.pitch", "a pitch of 19 3/4 in"),
        (1.0, 19.5, None, ""),
        (5.0, 15.5, "body_mount.position", "a position of 1 in"),
    ],
)
def test_a_typed_foot_on_the_tube_stays_and_is_told(position, pitch, field, way_out):
    c = foot(position, pitch)
    assert c.value("body_mount.bolts.pitch.x").value == pytest.approx(pitch * INCH)
    found = [f for f in c.findings if f.code == "foot-on-tube"]
    assert [f.field for f in found] == [field] * bool(field)
    assert all(way_out in f.message for f in found)


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_pitch_confirmed_as_it_was_drawn_changes_nothing(units):
    drawn = unplaced(units=units, gland_length=3.3)
    names = ("hole", "pitch.x", "pitch.across")
    hole, *pitch = (drawn.value(f"body_mount.bolts.{n}").value / INCH for n in names)
    typed = {"bolts": {"count": 4, "hole": hole, "pitch": pitch}}
    again = unplaced(units=units, gland_length=3.3, body=typed.items())
    assert again.stations.closed_end == pytest.approx(drawn.stations.closed_end, abs=1e-3)
    assert [*sum(feet(again), ())] == pytest.approx([*sum(feet(drawn), ())], abs=1e-3)


def test_where_the_length_does_not_close_with_caps_for_the_feet_they_are_notched():
    """A cap of 1 3/4 in for the plate is 7/8 in more than the least of 0.25 of the bore."""
    c = unplaced(retracted=21.25)
    assert c.value("cylinder.base_thickness").value < 1.75 * INCH
    (a, b), (_, q) = feet(c)
    assert (a, q) == (pytest.approx(c.stations.closed_end), pytest.approx(c.stations.barrel_end))
    assert b > c.stations.oil_side
    assert "notched-for-tie-rods" in {f.code for f in c.findings}
