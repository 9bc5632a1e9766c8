"""Where a size is best read: each rule is broken on a clean sheet, and told.

The rules are our own: a pattern of bolts is measured where its holes are circles, a long text of an
upright size turns level on a shelf, a round size says its end where the end view shows both.
"""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Linear, Round
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from tests.drawing.test_calm import job_of

SPEC = b"""
title = "Trough tilt"
units = "mm"
[cylinder]
bore = 63
rod = 36
stroke = 160
retracted = 380
working_pressure = "160 bar"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "base"
seat = "base side"
plate = [150, 140]
thickness = 20
bolts = { count = 4, hole = 13, pitch = [115, 105] }
[rod_mount]
mount = "flange"
plate = 86
thickness = 16
bolts = { count = 6, hole = 9, circle = 66, first_hole = "on" }
seat = "rod side"
[base_port]
thread = "G 1/2"
clock = "12:00"
[rod_port]
thread = "G 1/2"
clock = "12:00"
"""


@pytest.fixture(scope="module")
def job():
    return sheet_job(load(read_spec(SPEC, mounts=mounts_by_end(), file="trial.toml")))


@pytest.fixture(scope="module")
def sheet(job):
    return compose(job)


def codes(sheet, job):
    return {(f.code, f.field) for f in inspect(sheet, job)}


def view(sheet, name):
    return next(v for v in sheet.views if v.name == name)


def with_sizes(sheet, name, sizes):
    """The sheet with other dimensions in one view."""
    changed = (replace(v, dimensions=sizes) if v.name == name else v for v in sheet.views)
    return replace(sheet, views=tuple(changed))


def test_a_clean_sheet_is_clean(sheet, job):
    assert codes(sheet, job) == set()


def test_a_pattern_measured_where_its_holes_are_lines(sheet, job):
    """The same pitch, moved from the end view to the side view."""
    pitch = next(d for d in view(sheet, "end").dimensions if d.name == "body_mount.bolts.pitch.z")
    side = view(sheet, "side")
    moved = with_sizes(sheet, "side", (*side.dimensions, pitch))
    assert ("sheet-holes-unseen", "body_mount.bolts.pitch.z") in codes(moved, job)


def test_a_long_text_that_stands_upright_out_of_its_view(sheet, job):
    side = view(sheet, "side")
    high = 200.0 / side.scale
    line = ((0.0, -20.0), (0.0, 20.0))
    tall = Linear("cylinder.rod", *line, 90, (0.0, 20.0), (0.0, high), ("Ø40 OVER ALL",), 40.0)
    found = codes(with_sizes(sheet, "side", (*side.dimensions, tall)), job)
    assert ("sheet-tall-words", "cylinder.rod") in found
    level = replace(tall, shelf="right")
    found = codes(with_sizes(sheet, "side", (*side.dimensions, level)), job)
    assert ("sheet-tall-words", "cylinder.rod") not in found


def test_round_sizes_of_both_ends_in_the_end_view_say_theirs(sheet, job):
    end = view(sheet, "end")
    rounds = {d.name: d for d in end.dimensions if isinstance(d, Round)}
    said = {name: " ".join(d.texts) for name, d in rounds.items()}
    assert said["body_mount.bolts.hole"] == "Ø13 4 BASE HOLES"
    assert said["rod_mount.bolts.hole"] == "Ø9 6 ROD HOLES"
    assert said["rod_mount.bolts.circle"] == "Ø66 ROD BOLT CIRCLE"
    bare = tuple(
        replace(d, texts=("Ø66 BOLT CIRCLE",)) if d.name == "rod_mount.bolts.circle" else d
        for d in end.dimensions
    )
    found = codes(with_sizes(sheet, "end", bare), job)
    assert ("sheet-which-end", "rod_mount.bolts.circle") in found


def test_a_flange_along_the_body_is_not_called_the_base_s():
    """At the rod end it stood as BASE HOLES beside the rod's own flange."""
    moved = SPEC.replace(b'position = "base"', b'position = "rod end"')
    moved = moved.replace(b'"base side"', b'"rod side"').replace(b"150, 140", b"170, 160")
    job = sheet_job(load(read_spec(moved, mounts=mounts_by_end(), file="trial.toml")))
    sheet = compose(job)
    rounds = [d for d in view(sheet, "end").dimensions if isinstance(d, Round)]
    (holes,) = (" ".join(d.texts) for d in rounds if d.name == "body_mount.bolts.hole")
    assert holes == "Ø13 4 BODY HOLES"
    assert not inspect(sheet, job)


def test_a_standard_that_the_ports_table_names_is_not_said_to_be_left_out(job):
    """Page 2 told of standards that page 1 had, in its table though not at the leaders."""
    said = {small: {w for d in Dresser(job).leaner(small) for w in d.spared} for small in (0, 1)}
    assert "standards of the ports" in said[1]
    assert "standards of the ports" not in said[0]


def test_leaner_views_say_the_end_too(job):
    dual = replace(job, dimensions="mm [in]")
    _, *lean = Dresser(dual).leaner(True)
    assert lean
    for dresser in lean:
        notes = {c.wish.name: getattr(c.wish, "note", "") for c in dresser.seen.choices}
        assert notes["rod_mount.bolts.hole"] == "6 ROD HOLES"


def test_round_sizes_of_one_end_need_no_word():
    plain = SPEC.replace(b'mount = "flange"\nplate = 86', b'mount = "plain"').partition(
        b"thickness = 16"
    )
    text = plain[0] + plain[2].partition(b'seat = "rod side"')[2]
    alone = compose(sheet_job(load(read_spec(text, mounts=mounts_by_end(), file="trial.toml"))))
    said = [t for d in view(alone, "end").dimensions for t in d.texts]
    assert said
    assert not any("BASE" in t for t in said)


KNOCKER = """
title = "Die knocker"
units = "in"
[cylinder]
construction = "tie rod"
bore = 8
rod = 4
stroke = "3 1/4"
retracted = 17
square = "9 1/2"
tie_rod = "1 1/4-12 UNF"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "base"
clock = "9:00"
plate = ["2 1/2", 13]
thickness = "1 1/2"
seat_height = 5
bolts = {count = 4, hole = "1 1/16", pitch = [9, "11 1/4"]}
[rod_mount]
mount = "flange"
plate = 7
thickness = "1 1/4"
bolts = {count = 6, hole = "9/16", circle = "5 3/4", first_hole = "on"}
[base_port]
thread = "SAE-12"
clock = "12:00"
[rod_port]
thread = "SAE-12"
clock = "12:00"
"""


def test_a_tubes_diameter_stands_where_its_edges_are_seen_and_not_on_a_foot():
    """Its middle lay behind a foot: the line stood on the plate, whose size it seemed to be."""
    sheet = compose(job_of(KNOCKER))
    side = next(v for v in sheet.views if v.name == "side")
    tube = next(d for d in side.dimensions if d.name == "cylinder.barrel_outside")
    seen = [m.curve for m in side.marks if m.name == tube.name and m.role == "outline"]
    level = [c for c in seen if abs(c.a[1] - c.b[1]) < 1e-6 and abs(c.a[1] - tube.a[1]) < 1e-6]
    assert any(min(c.a[0], c.b[0]) < tube.line_at[0] < max(c.a[0], c.b[0]) for c in level)


@pytest.mark.parametrize(("thickness", "place"), [("1 1/2", "end"), ("1/4", "top")])
def test_a_foots_thickness_is_measured_where_no_tie_rod_is_in_the_way(thickness, place):
    """Its extension line ran through a tie rod's end and nut; a thin plate is clear of them."""
    text = KNOCKER.replace('thickness = "1 1/2"', f'thickness = "{thickness}"', 1)
    choices = Dresser(job_of(text)).seen.choices
    thick = next(c for c in choices if c.wish.name == "body_mount.thickness")
    assert thick.picture.name == place


def test_a_rod_is_measured_open_where_tie_rods_stand_out_beside_all_that_is_seen_of_it():
    choices = Dresser(job_of(KNOCKER)).seen.choices
    rod = next(c for c in choices if c.wish.name == "cylinder.rod")
    assert rod.picture.name == "extended"
    longer = KNOCKER.replace("retracted = 17", "retracted = 23\nrod_stick_out = 8")
    choices = Dresser(job_of(longer)).seen.choices
    rod = next(c for c in choices if c.wish.name == "cylinder.rod")
    assert rod.picture.name == "side"


PRESS = """
title = "Hub press feed"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 100
rod = 50
stroke = 150
retracted = 440
square = 127
tie_rod = "M16x1.5"
[body_mount]
mount = "trunnion"
position = "base"
pin = 45
shoulders = {shoulders}
width = 222
[rod_mount]
mount = "pin eye"
pin = 30
[base_port]
thread = "G 3/4"
clock = 12
[rod_port]
thread = "G 3/4"
clock = 6
"""


@pytest.mark.parametrize(("shoulders", "place"), [(129, "end"), (136, "top")])
def test_a_size_over_shoulders_keeps_off_the_flats_of_nuts(shoulders, place):
    """Its extension lines lay on the outer flats, 0.2 mm beside them on paper."""
    choices = Dresser(job_of(PRESS.format(shoulders=shoulders))).seen.choices
    over = next(c for c in choices if c.wish.name == "body_mount.shoulders")
    assert over.picture.name == place


PAD = """
title = "Return pad"
units = "in"
[cylinder]
construction = "tie rod"
bore = "2 1/2"
rod = "1 3/8"
stroke = 6
retracted = "15 1/2"
square = 3.5
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "{position}"
plate = ["1 1/2", "5 1/2"]
thickness = "1"
seat_height = "2 1/4"
bolts = {{count = 2, hole = "9/16", pitch = "4 1/2"}}
[rod_mount]
mount = "cross tube"
pin = 1
hole = 1.016
width = 3
turned = 90
[base_port]
thread = "SAE-8"
clock = "3:00"
[rod_port]
thread = "SAE-8"
clock = "12:00"
"""


@pytest.mark.parametrize(("position", "at_cap"), [("rod end", True), ("base", False)])
def test_a_square_is_measured_at_the_cap_where_a_foot_is_under_the_head(position, at_cap):
    """In the end view its lower extension line began amid the foot, where no edge is drawn."""
    choices = Dresser(job_of(PAD.format(position=position))).seen.choices
    square = next(c for c in choices if c.wish.name == "cylinder.square")
    caps = square.picture.seen_level("cylinder.cap", 1.75 * 25.4)
    assert square.picture.name == "side"
    assert any(x0 < square.wish.a[0] < x1 for x0, x1 in caps) is at_cap


def test_where_words_are_fewer_a_square_stays_at_the_cap():
    """It went back to the head, under which the foot is."""
    text = PAD.format(position="rod end") + '[drawing]\ndimensions = "in [mm]"\n'
    whole, *leaner = Dresser(job_of(text)).leaner(small=True)
    assert leaner
    places = {
        c.wish.a[0]
        for one in (whole, *leaner)
        for c in one.seen.choices
        if c.wish.name == "cylinder.square"
    }
    assert len(places) == 1
    assert max(places) < -100.0


@pytest.mark.parametrize("clock", ["9:00", "3:00", "6:00"])
def test_a_seat_is_called_where_it_is_seen_from_aside(clock):
    """Where it looks at the reader its words pointed at an edge of the cap, under a nut."""
    text = PAD.format(position="base").replace("thickness", f'clock = "{clock}"\nthickness', 1)
    choices = Dresser(job_of(text)).seen.choices
    assert next(c for c in choices if c.wish.name == "body_mount.clock").picture.name == "end"
