"""The quote form: its fields, their places, and what two readers make of it."""

from __future__ import annotations

import re
import shutil
import subprocess
from io import BytesIO
from itertools import combinations, pairwise

import pytest
from pypdf import PdfReader

from drafting.asking.asked import questions_asked, sizes_asked
from drafting.asking.form import quote_form
from drafting.model.load import checked, load
from tests.asking.filling import by_pdfium, by_pypdf, places_of

SPEC = """title = "Weir winch ram"
number = "WW-0417"
revision = "B"
units = "in"

[cylinder]
bore = "3 1/2"
rod = 1.75
stroke = 16
retracted = "27 1/4"
seals = "polyurethane"
tolerance.rod = "f7"

[body_mount]
mount = "cross tube"
pin = 1.25
hole = 1.266
width = 3.5

[rod_mount]
mount = "clevis"
pin = 1.25
hole = 1.266
gap = 1.5
width = 3

[base_port]
thread = "SAE-8"
clock = "12:00"
position = 4

[rod_port]
thread = "SAE-8"
clock = "12:00"
position = 21
"""


def cylinder(text=SPEC):
    return load(checked(text.encode(), "winch.toml"))


C = cylinder()
FORM = quote_form(C, "asme")
FIELDS = PdfReader(BytesIO(FORM)).get_fields()


def value(name):
    return str(FIELDS[name].get("/V") or "")


def test_every_size_to_hold_stands_in_it_as_typed_with_a_place_for_a_tolerance():
    for name, text in (
        ("cylinder.retracted", "27 1/4"), ("body_mount.pin", "1.25"), ("rod_mount.gap", "1.5"),
        ("base_port.position", "4"), ("rod_port.thread", "SAE-8"),
        ("cylinder.seals", "polyurethane"),
    ):  # fmt: skip
        assert value(name) == text
    for asked in sizes_asked(C):
        if asked.tolerance is not None:
            assert value(f"{asked.name}.tolerance") == asked.tolerance
    assert value("cylinder.rod.tolerance") == "f7"
    assert {"quote.price", "quote.weeks", "quote.notes"} <= set(FIELDS)


def test_each_open_question_has_a_field_that_asks_it():
    asks = [str(FIELDS[f"answer.{n}"]["/TU"]) for n in range(1, len(questions_asked(C)) + 1)]
    assert len(asks) > 8
    for told, q in zip(asks, questions_asked(C), strict=True):
        assert told.startswith(q.question)
        assert not q.field or told.endswith(f"({q.field})")
    assert f"answer.{len(asks) + 1}" not in FIELDS


def test_number_revision_and_hash_are_in_it_and_locked():
    for name, text in (("number", "WW-0417"), ("revision", "B"), ("input_sha256", C.spec.sha256)):
        assert value(f"drawing.{name}") == text
        assert int(FIELDS[f"drawing.{name}"]["/Ff"]) & 1


def test_fields_lie_apart_on_the_page_and_come_in_reading_order():
    places = list(places_of(FORM).values())
    for (n, a), (m, b) in combinations(places, 2):
        if n == m:
            assert min(a[2], b[2]) <= max(a[0], b[0]) or min(a[3], b[3]) <= max(a[1], b[1])
    assert all(a[0] <= b[0] for a, b in pairwise(places))
    first = [(-round(box[1]), round(box[0])) for n, box in places if n == 0]
    tops = [y for y, _ in first]
    assert tops == sorted(tops)
    for _, (x0, y0, x1, y1) in places:
        assert 0 < x0 < x1 < 8.5 * 72
        assert 0 < y0 < y1 < 11 * 72


@pytest.mark.parametrize("fill", [by_pypdf, by_pdfium], ids=["pypdf", "PDFium"])
def test_another_program_fills_it_in(fill):
    put = {"quote.price": "412.50 EUR", "rod_mount.pin": "1 1/8", "answer.2": "2,800 psi",
           "rod_mount.pin.tolerance": "+0.002 -0 in"}  # fmt: skip
    found = PdfReader(BytesIO(fill(FORM, put))).get_fields()
    for name, text in put.items():
        assert str(found[name]["/V"]) == text
    assert str(found["rod_mount.gap"]["/V"]) == "1.5"


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_its_structure_is_sound(tmp_path):
    (tmp_path / "form.pdf").write_bytes(FORM)
    done = subprocess.run(["qpdf", "--check", "form.pdf"], cwd=tmp_path, capture_output=True,
                          text=True, timeout=60)  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert re.search("No syntax or stream encoding errors", done.stdout)


def test_equal_specs_give_equal_bytes_and_metric_ones_an_a4():
    assert quote_form(cylinder(), "asme") == FORM
    page = PdfReader(BytesIO(quote_form(C, "iso"))).pages[0]
    assert float(page.mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.01)
