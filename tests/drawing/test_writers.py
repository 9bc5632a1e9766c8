"""What all three writers owe to a sheet: every kind of thing, equal bytes, the spec inside.

The kinds are taken from the sheet's own types, so that a new one turns these tests red until each
writer draws it. Files are read back with other libraries than wrote them (SVG by the XML parser of
Python, PDF by pypdf), DXF for want of another by ezdxf's reader.
"""

import os
import subprocess
import sys
from dataclasses import fields, replace
from io import BytesIO, StringIO
from itertools import pairwise
from math import pi
from pathlib import Path
from typing import get_args
from xml.etree import ElementTree

import ezdxf
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from pypdf.errors import PyPdfError

from drafting.drawing.sheet import sheet, strokes
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Role, Round, Sheet, Text, View
from drafting.drawing.sheet.strokes import Arc, EllipseArc, Hatch, Line, Poly
from drafting.drawing.sheet.style import Style
from drafting.drawing.write import carry
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.drawing.write.pdf import pdf_bytes
from drafting.drawing.write.svg import svg_bytes
from tests.drawing.sample_sheets import SPEC, sample

WRITERS = {"svg": svg_bytes, "pdf": pdf_bytes, "dxf": dxf_bytes}
SVG = "{http://www.w3.org/2000/svg}"


def read_svg(data):
    return ElementTree.fromstring(data)


def read_dxf(data):
    return ezdxf.read(StringIO(data.decode("utf-8")))


def drawn_in_pdf(data):
    """The operators of the page, as text, without the text strings' own coding."""
    return PdfReader(BytesIO(data)).pages[0].get_contents().get_data().decode("latin-1")


def one_view(**parts):
    view = View("v", "View", (100.0, 100.0), 0.5, **({"marks": ()} | parts))
    return Sheet("A3", 420, 297, "mm", (view,))


CURVES = {
    Line: Line((0, 0), (80, 30)),
    Arc: Arc((0, 0), 40, 0.2, 2.0),
    EllipseArc: EllipseArc((0, 0), (40, 10), (-5, 20), 0.2, 5.0),
    Poly: Poly(((0, 0), (20, 5), (40, 0), (60, 5))),
}
DIMENSIONS = {
    Linear: Linear("l", (0, 0), (80, 0), 0, (0, -40), (40, -38), ("80",), 80),
    Round: Round("r", "radius", (0, 0), 20, (20, 0), (40, 20), "right", ("R20",), 20),
    Note: Note("n", (0, 0), (40, 20), "left", ("G 1/2",)),
}


def test_the_kinds_are_all_known_here():
    assert set(get_args(strokes.Curve)) == set(CURVES)
    assert set(get_args(sheet.Dimension)) == set(DIMENSIONS)
    things = {f.name for f in fields(View)} - {
        "name",
        "title",
        "at",
        "scale",
        "window",
        "whole",
    }
    assert things == {"marks", "dimensions", "hatches", "texts"}
    assert {f.name for f in fields(Sheet)} - {
        "size_name",
        "width",
        "height",
        "units",
        "model_units",
        "meta",
    } == {
        "views",
        "marks",
        "texts",
        "following",
    }


def test_the_following_sheets_are_pages_of_their_own_size_and_layouts():
    said = (Text((50, 50), "SECOND PAGE"),)
    more = replace(one_view(), texts=said)
    sheets = replace(one_view(), following=(more,))
    pages = PdfReader(BytesIO(pdf_bytes(sheets))).pages
    assert [("SECOND PAGE" in p.extract_text()) for p in pages] == [False, True]
    document = read_dxf(dxf_bytes(sheets))
    assert document.layout_names_in_taborder() == ["Model", "Sheet", "Sheet 2"]
    assert [t.dxf.text for t in document.layout("Sheet 2").query("TEXT")] == ["SECOND PAGE"]


def test_a_sheet_without_views_is_a_page_of_its_own_paper_and_no_layout():
    more = replace(one_view(), views=(), size_name="A4", width=210.0, height=297.0)
    sheets = replace(one_view(), following=(more,))
    pages = PdfReader(BytesIO(pdf_bytes(sheets))).pages
    sizes = [[float(v) * 25.4 / 72 for v in p.mediabox[2:]] for p in pages]
    assert sizes == [pytest.approx([420.0, 297.0]), pytest.approx([210.0, 297.0])]
    assert read_dxf(dxf_bytes(sheets)).layout_names_in_taborder() == ["Model", "Sheet"]


@pytest.mark.parametrize("place", ["view", "sheet"])
@pytest.mark.parametrize("role", get_args(Role))
def test_every_role_is_drawn_with_its_width(role, place):
    mark = Mark(Line((10, 10), (200, 10)), role)
    page = one_view(marks=(mark,)) if place == "view" else replace(one_view(), marks=(mark,))
    width = Style().width(role)

    (group,) = [g for g in read_svg(svg_bytes(page)).iter(f"{SVG}g") if g.get("class") == role]
    assert len(list(group)) == 1
    if role != "text":
        assert (
            f".{role}{{fill:none;stroke:#000;stroke-width:{width:g}}}" in svg_bytes(page).decode()
        )

    operators = drawn_in_pdf(pdf_bytes(page)).split()
    pens = [float(n) for n, w in pairwise(operators) if w == "w"]
    assert pens == [width]
    assert operators.count("l") == 1

    document = read_dxf(dxf_bytes(page))
    space = document.modelspace() if place == "view" else document.layout("Sheet")
    (line,) = space.query("LINE")
    assert line.dxf.layer == role.upper()
    assert document.layers.get(line.dxf.layer).dxf.lineweight == round(100 * width)
    dashed = bool(Style().dashes(role))
    linetype = document.layers.get(line.dxf.layer).dxf.linetype
    assert (linetype != "Continuous") == dashed
    assert ("stroke-dasharray" in svg_bytes(page).decode()) == dashed


@pytest.mark.parametrize("kind", CURVES)
def test_every_curve_is_drawn(kind):
    page = one_view(marks=(Mark(CURVES[kind], "outline"),))
    (path,) = read_svg(svg_bytes(page)).iter(f"{SVG}path")
    assert ("A" in path.get("d")) == (kind in (Arc, EllipseArc))
    operators = drawn_in_pdf(pdf_bytes(page)).split()
    assert ("c" in operators) == (kind in (Arc, EllipseArc))
    assert "m" in operators
    (entity,) = read_dxf(dxf_bytes(page)).modelspace()
    names = {Line: "LINE", Arc: "ARC", EllipseArc: "LWPOLYLINE", Poly: "LWPOLYLINE"}
    assert entity.dxftype() == names[kind]


@pytest.mark.parametrize("kind", DIMENSIONS)
def test_every_dimension_is_drawn(kind):
    page = one_view(dimensions=(DIMENSIONS[kind],))
    words = DIMENSIONS[kind].texts[0]
    root = read_svg(svg_bytes(page))
    assert [t.text for t in root.iter(f"{SVG}text")] == [words]
    *lines, arrows = root.iter(f"{SVG}path")
    assert arrows.get("class") == "arrow"
    assert len(lines) == {Linear: 3, Round: 2, Note: 2}[kind]
    assert PdfReader(BytesIO(pdf_bytes(page))).pages[0].extract_text().strip() == words
    kinds = sorted(e.dxftype() for e in read_dxf(dxf_bytes(page)).modelspace())
    assert kinds == (["LEADER", "TEXT"] if kind is Note else ["DIMENSION"])


def test_hatches_and_texts_are_drawn():
    square = tuple(
        Line(a, b)
        for a, b in (((0, 0), (9, 0)), ((9, 0), (9, 9)), ((9, 9), (0, 9)), ((0, 9), (0, 0)))
    )
    page = one_view(
        hatches=(Hatch("p", (square,), 45, 3, (((0, 0), (9, 9)),)),),
        texts=(Text((0, 0), "in view"),),
    )
    page = replace(page, texts=(Text((50, 50), "on sheet", bold=True),))
    root = read_svg(svg_bytes(page))
    assert sorted(t.text for t in root.iter(f"{SVG}text")) == ["in view", "on sheet"]
    assert [p.get("data-name") for p in root.iter(f"{SVG}path")] == ["p"]
    text = PdfReader(BytesIO(pdf_bytes(page))).pages[0].extract_text()
    assert "in view" in text
    assert "on sheet" in text
    document = read_dxf(dxf_bytes(page))
    assert [e.dxftype() for e in document.modelspace()] == ["HATCH"]
    texts = document.layout("Sheet").query("TEXT")
    assert sorted(t.dxf.text for t in texts) == ["in view", "on sheet"]


@pytest.mark.parametrize("ending", WRITERS)
def test_an_empty_sheet_is_a_file_too(ending):
    assert WRITERS[ending](Sheet("A4", 210, 297, "in", ()))


def carried(ending, data):
    """The spec inside a file, or None; a PDF may hold several, here one."""
    if ending != "pdf":
        return getattr(carry, f"spec_from_{ending}")(data)
    found = carry.specs_from_pdf(data)
    assert len(found) <= 1
    return found[0].text if found else None


@pytest.mark.parametrize("ending", WRITERS)
def test_spec_comes_back(ending):
    assert carried(ending, WRITERS[ending](sample())) == SPEC
    without = replace(sample(), meta={"title": "x"})
    assert carried(ending, WRITERS[ending](without)) is None
    if ending == "pdf":
        with pytest.raises(PyPdfError):
            carried(ending, b"no such file")
    else:
        assert carried(ending, b"no such file") is None


@pytest.mark.parametrize("ending", WRITERS)
@settings(max_examples=15, deadline=None)
@given(st.text(st.characters(exclude_categories=()), max_size=600))
@example("half a pair \ud800\r\n")
def test_any_spec_comes_back(ending, text):
    page = Sheet("A4", 210, 297, "mm", (), meta={"spec_text": text})
    assert carried(ending, WRITERS[ending](page)) == text


@given(st.text(st.characters(exclude_categories=())))
@example("half a pair \ud800")
def test_packing(text):
    assert carry.unpack(carry.pack(text)) == text
    assert carry.pack(text).isascii()


@pytest.mark.parametrize("ending", WRITERS)
@settings(max_examples=15, deadline=None)
@given(st.text(st.characters(exclude_categories=()), max_size=30))
def test_any_words_can_be_printed(ending, words):
    page = one_view(dimensions=(replace(DIMENSIONS[Note], texts=(words, words)),))
    page = replace(page, texts=(Text((10, 10), words, bold=True),), meta={"title": words})
    data = WRITERS[ending](page)
    if ending == "svg":
        read_svg(data)
    elif ending == "pdf":
        assert len(PdfReader(BytesIO(data)).pages) == 1
    else:
        assert not read_dxf(data).audit().errors


SCRIPT = """
import sys
from hashlib import sha256
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.drawing.write.pdf import pdf_bytes
from drafting.drawing.write.svg import svg_bytes
from tests.drawing.sample_sheets import sample
for write in (svg_bytes, pdf_bytes, dxf_bytes):
    print(sha256(write(sample())).hexdigest())
"""


def test_equal_bytes_whatever_the_hash_seed():
    root = Path(__file__).parents[2]
    runs = [
        subprocess.run(
            [sys.executable, "-c", SCRIPT],
            cwd=root,
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]
    assert len(set(runs[0].split())) == 3


def test_circle_is_whole_everywhere():
    page = one_view(marks=(Mark(Arc((0, 0), 20, 0, 2 * pi), "outline"),))
    (path,) = read_svg(svg_bytes(page)).iter(f"{SVG}path")
    assert path.get("d").count("A") == 3
    (circle,) = read_dxf(dxf_bytes(page)).modelspace()
    assert circle.dxftype() == "CIRCLE"
    assert circle.dxf.radius == 20
    operators = drawn_in_pdf(pdf_bytes(page)).split()
    assert operators.count("c") == 4
    assert "h" in operators  # closed
