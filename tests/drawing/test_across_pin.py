"""Sizes across a pin that is turned askew are said where the pin is seen, not on the end view."""

from math import dist

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.sheet import Linear, Note
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

SPEC = """
title = "Trial"
units = "mm"
[cylinder]
bore = 60
rod = 35
stroke = 300
retracted = 540
clock_seen_from = "{side}"
[body_mount]
mount = "cross tube"
pin = 25
width = 90
[rod_mount]
{rod}
turned = 30
[base_port]
thread = "G 3/8"
clock = "2:00"
[rod_port]
thread = "G 3/8"
clock = "4:00"
"""
CLEVIS = 'mount = "clevis"\npin = 28\ngap = 34\ntolerance = {gap = "+0.5 -0"}\nwidth = 74'
TUBE = 'mount = "cross tube"\npin = 28\nleft = 60\nright = 40'


def drawn(rod, side="base", turned=30):
    text = (
        SPEC.replace("{rod}", rod).replace("{side}", side).replace("30\n[base", f"{turned}\n[base")
    )
    job = sheet_job(load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml")))
    return job, compose(job)


def words(sheet, field):
    return [
        (v.name, type(d), " ".join(d.texts))
        for v in sheet.views
        for d in v.dimensions
        if d.name == f"rod_mount.{field}"
    ]


def test_gap_and_width_are_said_in_the_view_along_the_pin():
    """They stood on the view from the base, where the clevis hides behind ports and barrel."""
    job, sheet = drawn(CLEVIS)
    said = words(sheet, "gap") + words(sheet, "width")
    assert [(view, kind) for view, kind, _ in said] == [("pin", Note)]
    assert sorted(said[0][2].split(", ")) == ["GAP 34 +0.5/0", "WIDTH OVER EARS 74"]
    assert not inspect(sheet, job)


def test_sides_go_to_faces_that_are_named_by_their_hour():
    """+Y is at 9:00 as read from the base, and 30 degrees clockwise are an hour more."""
    sheet = drawn(TUBE)[1]
    said = [w for field in ("width", "left", "right") for w in words(sheet, field)]
    assert {view for view, _, _ in said} == {"pin"}
    parts = {part for _, _, text in said for part in text.split(", ")}
    assert parts == {"TUBE LENGTH (100)", "CENTRE TO 10:00 FACE 60", "CENTRE TO 4:00 FACE 40"}


@pytest.mark.parametrize(
    ("rod", "said"),
    [
        ('mount = "spade eye"\npin = 28\nwidth = 30\noutside = 66', {"BAR THICKNESS 30"}),
        ('mount = "pin eye"\npin = 28\nwidth = 44', {"EYE WIDTH 44"}),
        ('mount = "ball swivel"\npin = 25\nwidth = 18\nball_width = 23',
         {"BALL WIDTH 23", "RING WIDTH 18"}),
    ],
)  # fmt: skip
def test_a_size_is_called_as_on_the_data_sheet(rod, said):
    """WIDTH 30 stood beside an eye seen face on; page 2 called it the bar's thickness."""
    job, sheet = drawn(rod)
    found = [w for field in ("width", "ball_width") for _, _, w in words(sheet, field)]
    assert {part for text in found for part in text.split(", ")} == said
    rows = {row.label.upper(): row.rod.text for row in job.data.held if row.rod}
    assert said <= {f"{label} {text}" for label, text in rows.items()}


def test_words_point_at_the_outside_and_not_at_the_hole():
    """The gap seemed to be a size of the hole, whose rim its leader went to."""
    _, sheet = drawn(CLEVIS)
    pin = next(v for v in sheet.views if v.name == "pin")
    at = {d.name: d for d in pin.dimensions}
    hole = next(d for n, d in at.items() if n in ("rod_mount.pin", "rod_mount.hole"))
    note = next(d for d in at.values() if isinstance(d, Note))
    assert dist(note.tip, hole.centre) > 1.5 * hole.radius


def test_seen_from_its_own_end_a_mount_keeps_its_dimensions():
    ((view, kind, _),) = words(drawn(CLEVIS, "rod")[1], "gap")
    assert (view, kind) == ("end", Linear)


def test_a_pin_at_a_right_angle_keeps_its_dimensions():
    ((view, kind, _),) = words(drawn(CLEVIS, turned=90)[1], "gap")
    assert kind is not Note
    assert view in ("side", "top")


FLATS = 'mount = "pin eye"\npin = 28\nwidth = 40\nthread = "M24x2"\nflats = {}\njam_nut = true'


@pytest.mark.parametrize(("flats", "turned"), [(30, 45), (32, 30)])
def test_flats_that_are_askew_are_said_on_the_edge_that_the_side_view_shows(flats, turned):
    """They were measured in the view along the pin, on a sliver of rod beside the nut."""
    job, sheet = drawn(FLATS.format(flats), "rod", turned)
    ((view, kind, text),) = words(sheet, "flats")
    assert (view, kind, text) == ("side", Note, f"{flats} A/F")
    side = next(v for v in sheet.views if v.name == view)
    (said,) = (d for d in side.dimensions if d.name == "rod_mount.flats")
    edges = [box(m.curve) for m in side.marks if m.name.startswith("rod_mount.flats_")]
    x, y = said.tip
    assert any(e[0] - 0.1 < x < e[2] + 0.1 and e[1] - 0.1 < y < e[3] + 0.1 for e in edges)
    assert not inspect(sheet, job)
