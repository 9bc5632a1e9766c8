"""The drawing of both: the original in phantom, only what differs with both numbers."""

from __future__ import annotations

import io

import ezdxf
import pytest
from pypdf import PdfReader

from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.sheet import Linear, Sheet
from drafting.drawing.sheet.strokes import Arc
from drafting.jobs.overlay import overlay, overlay_files, overlay_job
from drafting.replacing.judge import compare
from drafting.replacing.known import subject
from tests.replacing.offers import cylinder

OFFERS = {
    "longer": {"cylinder__stroke": "26", "cylinder__retracted": "38"},
    "wider": {"body_mount__width": "2 3/4", "rod_mount__width": "2 1/4"},
    "thicker": {"cylinder__bore": "3 1/4", "cylinder__barrel_outside": "4",
                "base_port__thread": "SAE-10"},
}  # fmt: skip


def drawn(**changes: str) -> tuple[Sheet, tuple[object, ...]]:
    old, new = cylinder(), cylinder(**changes)
    sheet = overlay(old, new, compare(subject(old), subject(new)))
    return sheet, tuple(inspect(sheet, overlay_job(old, new)))


@pytest.mark.parametrize("name", OFFERS)
def test_nothing_touches_on_an_overlay(name):
    sheet, findings = drawn(**OFFERS[name])
    assert findings == ()
    assert {v.name for v in sheet.views} >= {"side", "extended"}


def test_only_what_differs_carries_a_size_and_both_numbers():
    sheet, _ = drawn(**OFFERS["longer"])
    sizes = {d.name: d for v in sheet.views for d in v.dimensions}
    longer = {"cylinder.retracted", "cylinder.extended", "cylinder.stroke", "cylinder.body_length"}
    assert set(sizes) == longer
    closed = sizes["cylinder.retracted"]
    assert isinstance(closed, Linear)
    assert closed.measure_mm == pytest.approx(38 * 25.4)
    assert closed.texts == ("RETRACTED 38", "was 36, +2")


def test_the_original_is_in_phantom_with_its_body_datum_on_the_candidates():
    sheet, _ = drawn(**OFFERS["longer"])
    side = next(v for v in sheet.views if v.name == "side")
    whole = side.whole.marks if side.whole else side.marks
    centres = {
        role: {
            round(m.curve.centre[0] / 25.4, 3)
            for m in whole
            if m.role == role and isinstance(m.curve, Arc) and "_mount" in m.name
        }
        for role in ("outline", "phantom")
    }
    assert {0.0, 38.0} <= centres["outline"]
    assert {0.0, 36.0} <= centres["phantom"]
    assert 36.0 not in centres["outline"]


def test_a_port_that_faces_elsewhere_says_where_it_faced():
    sheet, findings = drawn(rod_port__clock="3:00", base_port__thread="SAE-10")
    said = {d.name: d.texts[-1] for v in sheet.views for d in v.dimensions if d.texts}
    assert said["rod_port.thread"].endswith(", 12:00")
    assert said["base_port.thread"].endswith(", 12:00")
    assert findings == ()


def test_ports_that_faced_two_ways_are_not_told_as_one():
    old, new = cylinder(rod_port__clock="3:00"), cylinder(base_port__thread="SAE-10",
                                                          rod_port__thread="SAE-10")  # fmt: skip
    sheet = overlay(old, new, compare(subject(old), subject(new)))
    said = {d.name: d.texts[-1] for v in sheet.views for d in v.dimensions if d.texts}
    assert said["rod_port.thread"].endswith(", 3:00")
    assert said["base_port.thread"].endswith(", 12:00")


def test_an_overlay_against_itself_has_no_size():
    sheet, _ = drawn()
    assert [d for v in sheet.views for d in v.dimensions] == []


def test_the_three_files_open_and_say_it():
    old, new = cylinder(number="OLD-1"), cylinder(number="NEW-1", **OFFERS["longer"])
    files = overlay_files(old, new, compare(subject(old), subject(new)))
    assert {n.rpartition(".")[2] for n in files} == {"svg", "pdf", "dxf"}
    assert all(n.startswith("OLD-1-NEW-1-overlay") for n in files)
    pdf = next(d for n, d in files.items() if n.endswith(".pdf"))
    words = " ".join(p.extract_text() for p in PdfReader(io.BytesIO(pdf)).pages)
    assert "was 36, +2" in words
    assert "COMPARISON" in words
    dxf = next(d for n, d in files.items() if n.endswith(".dxf"))
    document = ezdxf.read(io.StringIO(dxf.decode("utf-8")))
    found = {round(d.get_measurement(), 3) for d in document.modelspace().query("DIMENSION")}
    assert 38.0 in found
    layers = {e.dxf.layer.lower() for e in document.modelspace()}
    assert any("phantom" in layer for layer in layers)
