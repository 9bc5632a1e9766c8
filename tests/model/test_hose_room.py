"""The room of fittings: sizes from the flare fitting's table, places by hand.

SAE J514 -8: thread 3/4-16, tube 1/2 in (witnessed). Bend radii of two-wire hose after EN 853 type
2SN are from memory: 100 mm for 1/4 in, 130 for 3/8, 180 for 1/2, 200 for 5/8, 240 for 3/4, 300 for
1 in; its outside 15, 19, 22, 25.4, 29 and 38 mm.
"""

import pytest

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.shape.frame import X, Y, Z
from drafting.shape.mass import dry_mass
from drafting.shape.pieces import Part, extent
from drafting.spec.check import read_spec
from drafting.told.facts import facts

SPEC = """
title = "Trial"
units = "mm"
[cylinder]
bore = 80
rod = 45
stroke = 500
retracted = 950
barrel_outside = 100
base_thickness = 30
gland_length = 70
piston_length = 56
clock_seen_from = "rod"
[body_mount]
mount = "pin eye"
pin = 40
hole = 40.1
width = 45
outside = 70
{body}
[rod_mount]
mount = "pin eye"
pin = 40
hole = 40.1
width = 45
outside = 70
[base_port]
thread = "{thread}"
clock = "{clock}"
position = 75
height = 10
{more}
{rest}
"""
D = 19.05
"""Thread of a -8 fitting; with its nut it is drawn 1.5 times as wide."""
RUN = 4 * D + 10


def text(more="", thread="SAE-8", clock="12:00", body="", rest=""):
    return SPEC.format(more=more, thread=thread, clock=clock, body=body, rest=rest)


def settled(*args, **kwargs):
    return load(read_spec(text(*args, **kwargs).encode(), mounts=mounts_by_end(), file="t.toml"))


def refused(*args, **kwargs):
    with pytest.raises(Refused) as caught:
        settled(*args, **kwargs)
    return {(f.code, f.field) for f in caught.value.faults}


def spans(piece):
    return [tuple(round(v, 3) for v in extent(piece, axis)) for axis in (X, Y, Z)]


def pieces(c):
    return {p.name.partition(".")[2]: p for phantom in c.phantoms for p in phantom.pieces}


def test_no_fitting_no_phantom():
    assert settled().phantoms == ()


def test_a_straight_fitting_by_hand():
    """Face 60 mm from the axis; fitting and hose end 86.2 mm; hose 22.9, straight for 34.3."""
    c = settled('fitting = "straight"')
    p = pieces(c)
    wide = 0.75 * D
    top = 60 + RUN
    assert spans(p["keep_out"]) == [
        (round(75 - wide, 3), round(75 + wide, 3)),
        (round(-wide, 3), round(wide, 3)),
        (60, round(top, 3)),
    ]
    hose = 1.25 * 12.7 + 7
    far = top + 1.5 * hose
    assert extent(p["keep_out_hose"], Z) == pytest.approx((top, far))
    lo, hi = extent(p["keep_out_bend"], X)
    bend = c.value("base_port.hose_bend").value
    assert lo == pytest.approx(75 - hose / 2)
    assert hi == pytest.approx(75 + hose / 2 + bend)  # towards the rod, to the hose's middle line
    assert extent(p["keep_out_bend"], Z)[1] == pytest.approx(far + bend + hose)


@pytest.mark.parametrize(
    ("clock", "axis", "sense"),
    [("12:00", X, 1), ("6:00", X, -1), ("3:00", Y, -1), ("9:00", Y, 1)],
)
def test_the_fittings_clock_is_read_by_who_looks_at_the_port(clock, axis, sense):
    """From above with the rod end up on paper, the 9 o'clock side of the rod end (-Y) is right."""
    p = pieces(settled(f'fitting = "90"\nfitting_clock = "{clock}"'))["keep_out"]
    lo, hi = extent(p, axis)
    start = 75 if axis == X else 0
    assert (hi if sense > 0 else -lo) == pytest.approx(sense * start + RUN)
    assert extent(p, Z) == pytest.approx((60 + 0.75 * D, 60 + 2.25 * D))


def test_the_view_from_the_base_does_not_turn_it():
    one = settled('fitting = "90"\nfitting_clock = "3:00"')
    other = load(
        read_spec(
            text('fitting = "90"\nfitting_clock = "3:00"').replace('"rod"', '"base"').encode(),
            mounts=mounts_by_end(),
            file="t.toml",
        )
    )
    assert one.phantoms == other.phantoms


@pytest.mark.parametrize(
    ("thread", "dash"),
    [
        ("SAE-6", "-6"),
        ("SAE-12", "-12"),
        ("1/2 NPT", "-8"),
        ("3/4 NPT", "-12"),
        ("G 1/2", "-8"),
        ("M22x1.5 ISO 6149", "-10"),
        ("M18x1.5 ISO 6149", "-8"),
    ],
)
def test_the_fitting_goes_with_the_port(thread, dash):
    """The sizes that the trade pairs: common practice (1/2 in pipe and -8, M22 and -10)."""
    c = settled('fitting = "straight"', thread=thread)
    assert c.value("base_port.fitting_size").value == dash
    row = dict(facts(c))["Base port, room for"]
    assert row.startswith(f"37 deg flare {dash}, straight; hose bend ")


@pytest.mark.parametrize(
    ("thread", "bend", "outside"),
    [("SAE-4", 100, 15), ("SAE-6", 130, 19), ("SAE-8", 180, 22), ("SAE-12", 240, 29)],
)
def test_the_room_is_not_less_than_two_wire_hose_needs(thread, bend, outside):
    c = settled('fitting = "straight"', thread=thread)
    assert bend <= c.value("base_port.hose_bend").value <= 1.2 * bend
    hose = pieces(c)["keep_out_hose"]
    lo, hi = extent(hose, X)
    assert outside - 0.5 <= hi - lo <= 1.1 * outside


def test_a_typed_bend_rules_and_a_tight_one_is_found():
    c = settled('fitting = "straight"\nhose_bend = 100')
    p = pieces(c)
    lo, hi = extent(p["keep_out_bend_inside"], X)
    assert hi - lo == pytest.approx(200)
    assert "tight-bend" not in {f.code for f in c.findings}
    tight = settled('fitting = "straight"\nhose_bend = 40')
    assert "tight-bend" in {f.code for f in tight.findings}


@pytest.mark.parametrize(
    ("args", "wanted"),
    [
        ({"more": 'fitting_clock = "3:00"'}, ("no-fitting", "base_port.fitting_clock")),
        ({"more": "hose_bend = 90"}, ("no-fitting", "base_port.hose_bend")),
        (
            {"more": 'fitting = "90"\nplugged = true'},
            ("no-flare-fitting", "base_port.fitting"),
        ),
        (
            {"more": 'fitting = "90"', "thread": "flange 1/2 code 61"},
            ("no-flare-fitting", "base_port.fitting"),
        ),
    ],
)
def test_what_cannot_be_is_refused(args, wanted):
    assert wanted in refused(**args)


def test_the_room_of_a_fitting_meets_a_neighbour():
    """The eye's grease fitting is low; a second port 60 mm on has its boss in the arm's way."""
    rest = '[[extra_port]]\nend = "base"\nthread = "SAE-8"\nclock = 12\nposition = 115\nheight = 50'
    hit = ("keep-out-hits", "base_port.fitting")
    towards = settled('fitting = "90"\nfitting_clock = 12', rest=rest)
    assert hit in {(f.code, f.field) for f in towards.findings}
    away = settled('fitting = "90"\nfitting_clock = 6', rest=rest)
    assert hit not in {(f.code, f.field) for f in away.findings}


def test_the_bent_hose_runs_into_a_neighbour_but_not_over_it():
    """From z = 180 the hose bends towards the rod, 180 mm to its inside round (266, 180).

    A boss at x = 150 up to z = 200 is under the bend, 134 mm from that point; one up to z = 350
    reaches 206 mm from it, into the hose. Bent the other way it is clear of both.
    """
    rest = '[[extra_port]]\nend = "base"\nthread = "SAE-8"\nclock = 12\nposition = 150\nheight = {}'
    hit = ("hose-hits", "base_port.fitting_clock")

    def found(height, clock):
        c = settled(f'fitting = "straight"\nfitting_clock = {clock}', rest=rest.format(height))
        return {(f.code, f.field) for f in c.findings}

    assert hit in found(300, 12)
    assert hit not in found(150, 12)
    assert hit not in found(300, 6)


def test_the_rods_mount_passes_a_fitting_that_reaches_ahead_of_the_gland():
    """A tube along the barrel, its fitting ahead of the gland: out of the eye's way when closed.

    The eye of 70 mm is 45 mm wide; at 9 o'clock it is 22.5 mm from the axis and passes. A wide one
    does not.
    """
    port = '[rod_port]\nthread = "SAE-8"\nclock = 9\nposition = 600\nheight = 20\nfacing = "rod"\n'
    port += 'outlet_position = 900\nfitting = "straight"'
    hit = ("keep-out-hits", "rod_port.fitting")

    def found(width):
        spec = text(rest=port).replace(
            '[rod_mount]\nmount = "pin eye"\npin = 40\nhole = 40.1\nwidth = 45',
            f'[rod_mount]\nmount = "cross tube"\npin = 40\nhole = 40.1\nwidth = {width}',
        )
        c = load(read_spec(spec.encode(), mounts=mounts_by_end(), file="t.toml"))
        return {(f.code, f.field) for f in c.findings}

    assert hit in found(160)
    assert hit not in found(60)


def test_phantoms_are_no_metal_and_stay_with_the_body():
    with_one, without = settled('fitting = "90"'), settled()
    assert dry_mass(with_one.parts) == dry_mass(without.parts)
    assert with_one.parts == without.parts
    assert all(isinstance(phantom, Part) for phantom in with_one.phantoms)
    names = [(phantom.owner, phantom.name) for phantom in with_one.phantoms]
    assert names == [("body", "base port keep-out"), ("body", "base port keep-out bend")]


def test_a_fitting_on_a_port_tube_follows_its_outlet():
    tube = text('facing = "base"\noutlet_position = 30\nfitting = "straight"')
    tube = tube.replace("height = 10", "height = 20").encode()
    c = load(read_spec(tube, mounts=mounts_by_end(), file="t.toml"))
    p = pieces(c)["keep_out"]
    assert extent(p, X) == pytest.approx((30 - RUN, 30))


@pytest.mark.parametrize("facing", ["", 'facing = "base"'])
def test_a_bent_fitting_whose_clock_nobody_typed_stands_at_0(facing):
    """On the barrel's base end that is along the barrel, at an end face away from it."""
    spec = text(f'fitting = "90"\n{facing}').replace("height = 10", "height = 20")
    c = load(read_spec(spec.encode(), mounts=mounts_by_end(), file="t.toml"))
    assert c.value("base_port.fitting_clock").value == 0.0
