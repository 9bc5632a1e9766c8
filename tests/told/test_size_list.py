"""The list of sizes opens in a spreadsheet as it stands, and says where each size comes from."""

from __future__ import annotations

import csv
from io import StringIO

import pytest

from drafting.told.size_list import HEAD, as_text, size_list, spec_from_list
from tests.model.mount_specs import settled

SPEC = """title = "Weir winch"
number = "WW-7"
units = "in"

[cylinder]
bore = "3 1/2"
rod = 1.75
stroke = 16
retracted = "27 1/4"
tolerance.rod = "-0.001 -0.003 in"

[body_mount]
mount = "cross tube"
pin = 1.25
width = 3.5

[rod_mount]
mount = "clevis"
pin = 1.25
gap = 1.5
width = 3
"""


def rows(text=SPEC):
    data = size_list(settled(text))
    return list(csv.DictReader(StringIO(data.decode("utf-8-sig"))))


def test_every_size_has_both_units_and_its_origin():
    found = {r["name"]: r for r in rows()}
    assert tuple(rows()[0]) == HEAD
    for name, mm, inch, origin in (
        ("cylinder.extended", "1098.55", "43.25", "computed"),
        ("cylinder.bore", "88.9", "3.5", "given"),
        ("rod_mount.gap", "38.1", "1.5", "given"),
    ):
        assert (found[name]["mm"], found[name]["inch"], found[name]["origin"]) == (mm, inch, origin)
    assert found["cylinder.barrel_outside"]["origin"] in ("derived", "table")
    assert found["cylinder.barrel_outside"]["why"]
    for r in rows()[:-1]:
        assert float(r["mm"]) == pytest.approx(25.4 * float(r["inch"]), abs=3e-4)


def test_a_tolerance_that_begins_with_a_sign_is_text_to_a_spreadsheet():
    found = {r["name"]: r for r in rows()}
    assert found["cylinder.rod"]["tolerance"] == "'-0.001 -0.003 in"
    assert as_text("+0.2") == "'+0.2"
    assert as_text("=1+1") == "'=1+1"
    assert as_text("0.2 - 0.1") == "0.2 - 0.1"


def test_the_spec_is_read_back_and_another_list_has_none():
    assert spec_from_list(size_list(settled(SPEC))) == SPEC
    assert spec_from_list(b"name,words\r\nbore,2\r\n") is None
    assert spec_from_list(b"spec_text,x,not base64 at all\r\n") is None
    assert spec_from_list(b"") is None
