"""The DXF read by LibreCAD and FreeCAD, whose parsers share nothing with our writer.

Sources: what each program reads; the sizes of the spec as the JSON tells them.
"""

from collections import Counter

import ezdxf
import pytest
from ezdxf import bbox

from tests.readers.programs import freecad, ink, program, run

LENGTHS = ("stroke", "retracted", "extended")
EDGES = {"OUTLINE", "HIDDEN", "CENTRE", "PHANTOM", "THREAD"}
LINES = {"LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE"}


def measured(document, unit):
    """What each DIMENSION measures by its own points (mm), linear ones apart."""
    linear, other = [], []
    for d in document.modelspace().query("DIMENSION"):
        (linear if d.dimtype == 0 else other).append(abs(d.get_measurement()) * unit)
    return linear, other


def test_freecad_reads_every_linear_dimension_with_its_value(drawn, tmp_path):
    told = freecad("read_dxf.py", drawn.file(".dxf"), tmp_path)
    linear, other = measured(ezdxf.readfile(drawn.file(".dxf")), drawn.unit)
    # FreeCAD 0.20 makes a distance of 0 of each diameter and radius.
    distances = sorted(d for d in told["distances"] if d > 0)
    assert len(told["distances"]) == len(linear) + len(other)
    assert distances == pytest.approx(sorted(linear), abs=1e-5)
    sizes = [drawn.entry["lengths"][f"{k}_mm"] for k in LENGTHS]
    sizes += [drawn.size(f"cylinder.{k}") for k in ("bore", "rod", "barrel_outside")]
    for size in sizes:
        assert any(d == pytest.approx(size, abs=1e-5) for d in distances), size


def test_freecad_reads_the_outline_in_true_size(drawn, tmp_path):
    told = freecad("read_dxf.py", drawn.file("-outline.dxf"), tmp_path)
    model = ezdxf.readfile(drawn.file("-outline.dxf")).modelspace()
    assert told["texts"] == []
    assert told["distances"] == []
    polylines = model.query("LWPOLYLINE")  # come as their single segments
    segments = sum(len(p) - (not p.closed) for p in polylines)
    assert told["shapes"] == len(model) - len(polylines) + segments
    box = bbox.extents(model)
    true = [c * drawn.unit for c in (*box.extmin.vec2, *box.extmax.vec2)]
    # the box of an ellipse is loose there, that of ours follows the flattened curve
    assert told["box"] == pytest.approx(true, abs=0.05)


def libre(file, home, *options):
    """Page size and ink of what LibreCAD prints of a file (mm)."""
    command = program("librecad", "librecad")
    copy = home / "drawing.dxf"
    copy.write_bytes(file.read_bytes())
    run([command, "dxf2pdf", "-c", *options, "-p", "420x297", copy], home)
    assert copy.with_suffix(".pdf").exists(), "LibreCAD printed nothing"
    return ink(copy.with_suffix(".pdf"), home)


def test_librecad_prints_the_outline_to_scale(drawn, tmp_path):
    model = ezdxf.readfile(drawn.file("-outline.dxf")).modelspace()
    whole = bbox.extents(model).size * drawn.unit
    scale = 0.1 if 0.1 * whole.x < 400.0 else 0.05  # what has room on the paper of 420 mm
    (wide, _), box = libre(drawn.file("-outline.dxf"), tmp_path, "-s", scale)
    assert box[0] > 1
    assert box[2] < wide - 1
    least = bbox.extents(model.query('*[layer=="OUTLINE"]')).size * scale * drawn.unit
    most = bbox.extents(model).size * scale * drawn.unit
    line = 0.8  # mm: half a line on both sides, and a dot of the picture
    assert least.x - line < box[2] - box[0] < most.x + line
    assert least.y - line < box[3] - box[1] < most.y + line


def test_librecad_shows_model_and_sheet_clear_of_each_other(drawn, tmp_path):
    """It has no paper space, and lays the sheet into the model at 1:1."""
    document = ezdxf.readfile(drawn.file(".dxf"))
    model, paper = (bbox.extents(space) for space in (document.modelspace(), document.paperspace()))
    assert model.extmin.y > paper.extmax.y
    scale = 0.05
    _, box = libre(drawn.file(".dxf"), tmp_path, "-s", scale)
    outline = bbox.extents(document.modelspace().query('*[layer=="OUTLINE"]'))
    frame = bbox.extents(document.paperspace().query('*[layer=="FRAME"]'))
    assert box[2] - box[0] > outline.size.x * scale * drawn.unit
    assert box[3] - box[1] > (outline.extmax.y - frame.extmin.y) * scale * drawn.unit - 1


@pytest.mark.parametrize("ending", [".dxf", "-outline.dxf"])
def test_audit_finds_nothing_to_mend(drawn, ending):
    audit = ezdxf.readfile(drawn.file(ending)).audit()
    assert not audit.errors
    assert not audit.fixes


def test_header_repeats_the_dimension_style(drawn):
    """LibreCAD draws from the header alone."""
    document = ezdxf.readfile(drawn.file(".dxf"))
    style = document.dimstyles.get(document.header["$DIMSTYLE"])
    of_style = {k: v for k, v in style.dxfattribs().items() if k.startswith("dim")}
    of_style |= {"dimtxsty": style.dxf.dimtxsty}
    compared = {k for k in of_style if f"${k.upper()}" in document.header}
    assert {"dimscale", "dimlfac", "dimtxt", "dimasz", "dimexo", "dimexe", "dimgap"} <= compared
    assert {"dimdec", "dimzin", "dimtad", "dimtih"} <= compared
    for key in compared:
        assert document.header[f"${key.upper()}"] == of_style[key], key
    assert style.dxf.dimlfac == 1


def test_outline_file_holds_outlines_alone(drawn):
    document = ezdxf.readfile(drawn.file("-outline.dxf"))
    found = Counter((e.dxftype(), e.dxf.layer) for space in document.layouts for e in space)
    assert found
    assert {kind for kind, _ in found} <= LINES
    assert {layer for _, layer in found} <= EDGES
    assert len(document.layouts) == 2
