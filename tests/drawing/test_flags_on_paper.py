"""What was measured says M, what is a best guess OPEN, what nobody gave D: on both pages.

The meaning of the letters is this project's own (the format's page calls D the flag of what is
derived). The cylinder is the sample of readings, with one thread that nobody could tell.
"""

from dataclasses import replace
from pathlib import Path

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.measuring.measure import measure
from drafting.model.load import checked, load
from drafting.told.data import MEASURED_SAYS

READINGS = (Path(__file__).parents[2] / "specs/readings/orchard-lift.toml").read_text("utf-8")


def jobs(spec):
    c = load(checked(spec.encode()))
    return c, sheet_job(c)


@pytest.fixture(scope="module")
def spec():
    return measure(READINGS.replace('pitch   = "16 tpi"\n', "").encode()).spec


@pytest.fixture(scope="module")
def sheet(spec):
    return compose(jobs(spec)[1])


def flags_of(sheet):
    return {d.name: d.flag for view in sheet.views for d in view.dimensions}


def test_every_dimension_says_where_its_size_comes_from(spec, sheet):
    found = flags_of(sheet)
    assert found["cylinder.retracted"] == found["body_mount.width"] == "M"
    assert found["rod_mount.nose"] == "D"
    assert found["base_port.thread"] == "M"
    assert found["rod_port.thread"] == "OPEN"
    assert found["cylinder.stroke"] == "M"  # open less closed: known no better than they are
    typed = spec.partition("[[origin]]")[0]
    assert not {"M", "OPEN"} & set(flags_of(compose(jobs(typed)[1])).values())


def test_a_length_that_follows_from_an_open_one_is_open(spec):
    head, *told = spec.split("[[origin]]")
    told = [t.replace('"measured"', '"open"') if "cylinder.extended" in t else t for t in told]
    _, job = jobs("[[origin]]".join([head, *told]))
    assert job.flags["cylinder.stroke"] == "OPEN"
    assert job.flags["cylinder.retracted"] == "M"


def test_the_table_of_ports_and_the_legend_say_it_too(sheet):
    words = [t.text for t in sheet.texts if t.name == "flag"]
    assert words.count("OPEN") == words.count("M") == 1
    said = " ".join(t.text for t in sheet.texts)
    assert "OPEN: a best guess" in said
    assert "M: measured on an old part." in said


def test_the_data_sheet_says_how_well_each_is_known(spec, sheet):
    c, job = jobs(spec)
    flags = [t.text for t in sheet.following[0].texts if t.name == "flag"]
    limit = c.value("cylinder.retracted").plus_minus / 25.4
    assert f"M ±{limit:.3f}".replace("0.", ".") in flags
    assert "OPEN" in flags
    assert MEASURED_SAYS in job.data.notes


def test_where_nothing_was_measured_nobody_reads_of_it(spec):
    _, job = jobs(spec.partition("[[origin]]")[0])
    assert not [n for n in job.data.notes if "M:" in n or "OPEN" in n or n == MEASURED_SAYS]


def test_flags_cover_nothing(spec, sheet):
    assert not inspect(sheet, jobs(spec)[1])
    view = next(v for v in sheet.views if "OPEN" in {d.flag for d in v.dimensions})
    note = next(d for d in view.dimensions if d.flag == "OPEN")
    spoiled = replace(view, dimensions=(*view.dimensions, replace(note, flag="")))
    views = tuple(spoiled if v is view else v for v in sheet.views)
    assert inspect(replace(sheet, views=views), jobs(spec)[1])
