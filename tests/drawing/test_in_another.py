"""Words of a port that is behind another one are not led into that one; all sizes are made up."""

from dataclasses import replace
from math import dist

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from tests.drawing.test_calm import job_of, view

STOP = """
title = "Slab stop"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 125
rod = 70
stroke = 280
retracted = 620
square = 165
cushions = "both"
clock_seen_from = "base"
rod_keyed = true
[body_mount]
mount = "flange"
position = "base"
plate = 280
thickness = 36
seat = "base side"
bolts = {count = 8, hole = 17.5, circle = 235, first_hole = "astride"}
[rod_mount]
mount = "flange"
plate = 130
thickness = 30
bolts = {count = 6, hole = 14, circle = 104, first_hole = "on"}
[base_port]
thread = "M33x2 ISO 6149"
clock = "3:00"
[rod_port]
thread = "M33x2 ISO 6149"
clock = "12:00"
[[extra_port]]
end = "base"
thread = "G 1/4"
clock = "9:00"
plugged = true
[[extra_port]]
end = "rod"
thread = "G 1/4"
clock = "9:00"
plugged = true
"""


def test_a_port_behind_another_is_told_by_the_ports_table_alone():
    """The tip lay in the mouth of the port before it, and the words read as that one's."""
    job = job_of(STOP)
    sheet = compose(job)
    assert not any(d.name.startswith("extra_port") for v in sheet.views for d in v.dimensions)
    assert "Base port 2" in {t.text for t in sheet.texts}
    side = view(sheet, "side")
    assert not any(m.name.startswith("extra_port") and m.role == "hidden" for m in side.marks)
    assert "sheet-missing-size" not in {f.code for f in inspect(sheet, job)}


def test_words_of_a_port_that_is_in_the_open_may_not_be_missing():
    job = job_of(STOP)
    sheet = compose(job)
    views = [
        replace(v, dimensions=tuple(d for d in v.dimensions if d.name != "rod_port.thread"))
        for v in sheet.views
    ]
    found = inspect(replace(sheet, views=tuple(views)), job)
    assert ("sheet-missing-size", "rod_port.thread") in {(f.code, f.field) for f in found}


def test_words_of_two_ports_go_to_the_one_that_is_behind_no_other():
    """Without the screw before it the port of the rod end has its dashes to itself."""
    side = view(compose(job_of(STOP.replace('cushions = "both"\n', ""))), "side")
    (words,) = (d for d in side.dimensions if d.name.startswith("extra_port"))
    drawn = ("outline", "hidden")
    base, rod = (
        next(m.curve.centre for m in side.marks if m.name == name and m.role in drawn)
        for name in ("base_port.thread", "extra_port[2].thread")
    )
    assert dist(words.tip, rod) < 20.0 < dist(words.tip, base)


def test_a_sheet_without_ports_table_has_them_where_they_are():
    sheet = compose(job_of(STOP + '[drawing]\nsheet = "A4"\n'))
    names = {d.name for s in (sheet, *sheet.following) for v in s.views for d in v.dimensions}
    assert any(n.startswith("extra_port") for n in names)
