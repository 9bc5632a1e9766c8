"""Plates as they are cut: outlines and holes reckoned by hand, read back by ezdxf (R12, R2010)."""

from __future__ import annotations

import math
from io import StringIO

import ezdxf
import pytest
from ezdxf import bbox

from drafting.drawing.write.carry import spec_from_dxf
from drafting.jobs.draw import How, draw_one
from drafting.told.plates import plates
from tests.model.mount_specs import settled

HEAD = 'title = "Sluice ram"\nnumber = "SR-2"\nunits = "mm"\n\n[cylinder]\nbore = 80\nrod = 45\n'
FLANGE = (
    HEAD
    + """stroke = 300
retracted = 620
barrel_outside = 95

[body_mount]
mount = "flange"
position = "rod end"
plate = [160, 190]
thickness = 22
bolts = {count = 4, hole = 18, pitch = [120, 150]}

[rod_mount]
mount = "clevis"
pin = 30
hole = 30.2
gap = 32
width = 66
nose = 31
"""
)
FOOT = (
    HEAD
    + """stroke = 300
retracted = 700

[body_mount]
mount = "foot"
plate = [70, 200]
bolts = {count = 4, hole = 17, pitch = [330, 160]}

[rod_mount]
mount = "plain"
"""
)


def only(text, name):
    return next(p for p in plates(settled(text)) if p.name.endswith(name))


def test_a_flange_round_the_barrel_has_its_bolts_and_the_barrels_hole():
    plate = only(FLANGE, "plate")
    assert plate.thickness == pytest.approx(22)
    sizes = sorted((round(2 * h.radius, 3), round(abs(h.at[0])), round(abs(h.at[1])))
                   for h in plate.holes)  # fmt: skip
    assert sizes == [(18.0, 60, 75)] * 4 + [(95.0, 0, 0)]


def test_two_ears_alike_are_one_plate_twice():
    ear = only(FLANGE, "ear_left")
    assert ear.count == 2
    assert ear.thickness == pytest.approx((66 - 32) / 2)
    (hole,) = ear.holes
    assert (hole.at, 2 * hole.radius) == ((0.0, 0.0), pytest.approx(30.2))


def test_two_feet_alike_are_one_plate_twice():
    foot = only(FOOT, "plate1")
    assert foot.count == 2
    assert sorted((round(h.at[1]), round(h.radius, 2)) for h in foot.holes) == [
        (-80, 8.5), (80, 8.5)]  # fmt: skip


@pytest.mark.parametrize("version", ["R12", "R2000", "R2010"])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_file_is_one_closed_contour_and_its_holes(version, units):
    text = FLANGE if units == "mm" else FLANGE.replace('units = "mm"', 'units = "in"').replace(
        "= 80", '= "80 mm"')  # fmt: skip
    if units == "in":
        for n in (45, 300, 620, 95, 22, 30, 30.2, 32, 66, 31):
            text = text.replace(f"= {n}\n", f'= "{n} mm"\n')
        text = text.replace("[160, 190]", '["160 mm", "190 mm"]').replace("= 18,", '= "18 mm",')
        text = text.replace("[120, 150]", '["120 mm", "150 mm"]')
    drawn = draw_one(text, How(("json",), plates=True, dxf=version))
    data = drawn.files["SR-2-plate-body_mount.plate.dxf"]
    document = ezdxf.read(StringIO(data.decode("utf-8")))
    assert not document.audit().errors
    unit = 1.0 if units == "mm" else 25.4
    space = document.modelspace()
    cut = [e for e in space if e.dxf.layer == "CUT"]
    contour = [e for e in cut if e.dxftype() in ("POLYLINE", "LWPOLYLINE")]
    assert len(contour) == 1
    assert contour[0].is_closed if version == "R12" else contour[0].closed
    circles = [e for e in cut if e.dxftype() == "CIRCLE"]
    assert sorted(round(2 * e.dxf.radius * unit, 3) for e in circles) == [18.0] * 4 + [95.0]
    assert len(cut) == 6
    size = bbox.extents(contour).size
    assert sorted((size.x * unit, size.y * unit)) == pytest.approx([160, 190])
    assert spec_from_dxf(data) == text
    words = [e.dxf.text for e in space if e.dxftype() == "TEXT"]
    assert any("1 off" in w for w in words)
    assert any("barrel" in w and "fit is not told" in w for w in words)


def test_the_area_of_an_ear_is_that_of_its_tongue():
    """A half disc of 31 mm and a straight part: area by the shoelace formula with bulges."""
    drawn = draw_one(FLANGE, How(("json",), plates=True, dxf="R2010"))
    data = drawn.files["SR-2-plate-rod_mount.ear_left.dxf"]
    (line,) = ezdxf.read(StringIO(data.decode())).modelspace().query("LWPOLYLINE")
    points = line.get_points("xyb")
    area = 0.0
    for (x, y, bulge), (u, v, _) in zip(points, [*points[1:], points[0]], strict=True):
        area += (x * v - u * y) / 2
        if bulge:
            angle, chord = 4 * math.atan(bulge), math.dist((x, y), (u, v))
            radius = chord / 2 / math.sin(angle / 2)
            area += radius**2 * (angle - math.sin(angle)) / 2
    xs = [p[0] for p in points]
    straight = max(xs)
    assert area == pytest.approx(math.pi * 31**2 / 2 + straight * 62, rel=1e-9)


def test_a_cross_tube_has_no_plate():
    text = FLANGE.replace('mount = "clevis"', 'mount = "cross tube"').replace("gap = 32\n", "")
    text = text.replace("nose = 31\n", "")
    assert [p.name for p in plates(settled(text))] == ["body_mount.plate"]
