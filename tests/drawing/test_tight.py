"""Words nearer to their views, where the page has no room for them as they stand best."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose import choose
from drafting.drawing.compose.arrange import arrange
from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.tight import rooms
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

SPECS = Path(__file__).parents[2] / "specs"
FOLD = """
title = "Boom fold"
number = "BF-2"
revision = "C"
revision_note = "pins supplied"
units = "in"
[cylinder]
bore = "4 1/2"
rod = "2 1/2"
stroke = "25 3/4"
retracted = "43"
barrel_outside = "5 1/4"
base_thickness = "1 3/4"
gland = "threaded"
gland_length = "4"
gland_projection = "7/8"
piston_length = "3 1/4"
stop_tube = "1 1/2"
cushions = "base"
clock_seen_from = "rod"
[cylinder.tolerance]
bore = "H8"
rod = "f7"
retracted = "+1/16 -0 in"
stroke = "±1/16 in"
barrel_outside = "±0.015"
[body_mount]
mount = "pin eye"
pin = "2"
hole = 2.01
width = "2 1/2"
bushing = "2 1/2"
outside = "4"
nose = "2"
grease = true
tolerance = {hole = "H9", width = "+0 -1/32 in"}
[rod_mount]
mount = "clevis"
pin = "2"
hole = 2.01
gap = "2 5/8"
width = "5"
throat = "2 3/8"
nose = "2"
outside = "4"
turned = 0
tolerance = {hole = "H9", gap = "2 5/8 to 2 11/16 in", width = "+0 -1/16 in"}
[base_port]
thread = "SAE-12"
clock = "3:30"
position = "5 1/2"
height = "7/8"
tolerance = {position = "±1/16 in"}
[rod_port]
thread = "SAE-12"
clock = "3:30"
position = "34 3/4"
height = "7/8"
tolerance = {position = "±1/16 in"}
[[extra_port]]
end = "base"
thread = "SAE-4"
clock = "9:00"
position = "5 1/2"
plugged = true
[[extra_port]]
end = "rod"
thread = "SAE-4"
clock = "9:00"
position = "34 3/4"
plugged = true
[body_pin]
supplied = true
grip = "5 1/16"
length = "6 1/4"
head = true
retention = "cotter"
hole = "3/8"
[rod_pin]
supplied = true
grip = "5 1/16"
length = "6 1/2"
head = false
retention = "two cotters"
hole = "3/8"
"""
WIDE_WORDS = b"""
title = "Ramp lift"
units = "mm"
[cylinder]
bore = 80
rod = 56
stroke = 175
retracted = 438.8
barrel_outside = 96
clock_seen_from = "base"
[body_mount]
mount = "clevis"
pin = 35
gap = 42
width = 92.4
[rod_mount]
mount = "clevis"
pin = 42
hole = 42.4
gap = 46.2
width = 92.4
[base_port]
thread = "G 3/8"
clock = "12:00"
[rod_port]
thread = "G 3/8"
clock = "12:00"
"""
LONG = b"""
title = "Bale pusher"
units = "mm"
[cylinder]
bore = 125
rod = 63
stroke = 2955
retracted = 3431
clock_seen_from = "rod"
[body_mount]
mount = "trunnion"
position = "rod end"
pin = 60
shoulders = 187.5
width = 331.5
[rod_mount]
mount = "pin eye"
pin = 60
hole = 60.4
width = 66
"""
SIZES = st.floats(0.0, 80.0)


def _job(text):
    return sheet_job(load(read_spec(text, mounts=mounts_by_end(), file="trial.toml")))


@pytest.mark.parametrize("clock_from", ["base", "rod"])
@given(st.tuples(*[SIZES] * 16), st.floats(200.0, 420.0), st.floats(80.0, 300.0))
def test_what_keeps_within_its_room_fits_the_page(clock_from, grown, wide, high):
    bare = {
        "side": (-12.0, -20.0, 120.0, 24.0),
        "top": (-15.0, -22.0, 124.0, 22.0),
        "end": (-22.0, -20.0, 22.0, 24.0),
        "pin": (-9.0, -8.0, 9.0, 8.0),
    }

    def around(boxes):
        return arrange(boxes, "third", clock_from).box

    words = {
        n: (b[0] - a[0], b[1] - a[1], b[2] + a[2], b[3] + a[3])
        for (n, b), a in zip(bare.items(), (grown[k : k + 4] for k in (0, 4, 8, 12)), strict=True)
    }
    found = rooms(bare, words, (wide, high), around)
    if found is None:
        x0, y0, x1, y1 = around({n: _wider(b, 9.0, 14.5, words[n]) for n, b in bare.items()})
        assert x1 - x0 > wide or y1 - y0 > high
        return
    near = {n: _both(words[n], found[n]) for n in bare}
    x0, y0, x1, y1 = around(near)
    assert x1 - x0 <= wide + 1e-6
    assert y1 - y0 <= high + 1e-6


def _both(one, other):
    return (*map(max, one[:2], other[:2]), *map(min, one[2:], other[2:]))


def _wider(bare, x, y, most):
    return _both((bare[0] - x, bare[1] - y, bare[2] + x, bare[3] + y), most)


def test_where_all_fit_what_is_left_over_is_shared():
    bare = {"side": (0.0, 0.0, 10.0, 10.0)}
    found = rooms(bare, {"side": (-5.0, -5.0, 15.0, 15.0)}, (20.0, 28.0), lambda b: b["side"])
    assert found == {"side": (-5.0, -7.0, 15.0, 17.0)}


def test_the_largest_are_cut_and_the_rest_keeps_what_it_had():
    bare = {"side": (0.0, 0.0, 10.0, 10.0)}
    found = rooms(bare, {"side": (-40.0, 0.0, 22.0, 10.0)}, (52.0, 99.0), lambda b: b["side"])
    assert found["side"][0] == pytest.approx(-30.0, abs=0.2)
    assert found["side"][2] == 22.0


def test_words_that_come_nearer_keep_the_scale(monkeypatch):
    job = _job(WIDE_WORDS)
    sheet = compose(job)
    assert (sheet.size_name, sheet.views[0].scale) == ("A3", 0.5)
    assert inspect(sheet, job) == ()
    monkeypatch.setattr(choose, "tightened", lambda *_: None)
    assert compose(job).views[0].scale < 0.5


def test_barrel_and_rod_are_both_broken_for_a_sheet_that_a_shop_prints():
    job = _job(LONG)
    sheet = compose(job)
    assert sheet.size_name == "A3"
    cuts = {v.name: len(v.whole.breaks.cuts) for v in sheet.views if v.whole}
    assert cuts["side"] == cuts["top"] == 2
    assert inspect(sheet, job) == ()


@pytest.mark.parametrize(("name", "scale"), [("penstock-gate", 1 / 4), ("smithy-jack", 1 / 2)])
def test_words_have_the_room_that_other_views_leave(name, scale):
    """A step smaller each: a view without words above and below it had room for some kept there,
    and what words left over when they came nearer was given to no others."""
    text = (SPECS / f"{name}.toml").read_bytes()
    job = sheet_job(load(read_spec(text, mounts=mounts_by_end(), file="trial.toml")))
    sheet = compose(job)
    assert next(v for v in sheet.views if v.name == "side").scale == pytest.approx(scale)
    assert not inspect(sheet, job)


FLOOR_JACK = """
title = "Jack under the floor"
revision = "A"
revision_note = "other seals"
units = "in"
[cylinder]
action = "push"
piston = "displacement"
return = "load"
bore = 5
rod = 4
stroke = 12
retracted = "22 5/8"
barrel_outside = 6
base_thickness = 2
gland = "bolted"
gland_length = 4
clock_seen_from = "rod"
tolerance = {retracted = "±1/16 in", stroke = "+1/8 -0 in"}
[body_mount]
mount = "none"
[rod_mount]
mount = "flange"
plate = 7
thickness = 1
bolts = {count = 6, hole = "9/16", circle = "5 1/2", first_hole = "on"}
tolerance = {thickness = "±0.01 in"}
[base_port]
thread = "1/2 NPTF"
clock = "9:00"
height = "3/8"
[drawing]
dimensions = "in [mm]"
"""


def test_what_the_table_of_ports_says_too_gives_way_before_the_scale():
    """The height of one boss took 4 mm too much below its view: all stood at half the scale."""
    job = sheet_job(load(read_spec(FLOOR_JACK.encode(), mounts=mounts_by_end(), file="jack.toml")))
    sheet = compose(job)
    side = next(v for v in sheet.views if v.name == "side")
    assert side.scale == pytest.approx(1 / 4)
    assert any("x 3/8" in t.text for t in sheet.texts)
    assert not inspect(sheet, job)


def test_words_come_nearer_above_an_extended_view_that_is_high(monkeypatch):
    """C was taken for 3 mm: the broken half section is as high as its words, not as its outline."""
    monkeypatch.setattr(choose, "_NEARER", 0)
    job = _job(FOLD.encode())
    sheet = compose(job)
    assert sheet.size_name == "B"
    assert {v.name: v.scale for v in sheet.views} == dict.fromkeys(
        ("side", "top", "end", "extended"), 1 / 8
    )
    assert not list(inspect(sheet, job))


def test_words_come_above_a_view_where_one_beside_it_stands_out_farther():
    """Those of the end view were as near as may be below it, where others hung down as far."""
    bare = {"side": (0.0, -10.0, 90.0, 10.0), "end": (-12.0, -10.0, 12.0, 10.0)}
    words = {"side": (-9.0, -38.0, 110.0, 41.0), "end": (-30.0, -45.0, 30.0, 21.0)}

    def around(boxes):
        return arrange(boxes, "third", "rod").box

    first, again = (rooms(bare, words, (400.0, 80.0), around, again=a) for a in (False, True))
    assert first["end"][3] == 21.0
    assert 39.0 < again["end"][3] <= 41.0
    assert first["side"] == again["side"]
    assert first["end"][1] == again["end"][1]
