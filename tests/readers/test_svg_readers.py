"""The SVG drawn by Chromium and Inkscape.

Sources: the pictures that they make; the paper sizes of ISO 216 and ASME Y14.1 (from memory).
"""

import xml.etree.ElementTree as ET

import pytest

from tests.readers.programs import ink, program, run

ISO = {(297, 210), (420, 297), (594, 420), (841, 594), (1189, 841)}
ASME = {(431.8, 279.4), (558.8, 431.8), (863.6, 558.8), (1117.6, 863.6)}


def paper_of(path):
    """Width and height that an SVG states in mm."""
    root = ET.parse(path).getroot()
    sizes = [root.get(k) for k in ("width", "height")]
    assert all(s.endswith("mm") for s in sizes)
    return [float(s.removesuffix("mm")) for s in sizes]


def test_page_is_a_standard_one_and_its_unit_a_millimetre(drawn):
    wide, high = paper_of(drawn.file(".svg"))
    assert any((wide, high) == pytest.approx(p, abs=0.01) for p in ISO | ASME)
    box = ET.parse(drawn.file(".svg")).getroot().get("viewBox").split()
    assert [float(b) for b in box] == pytest.approx([0, 0, wide, high])


def test_chromium_shows_the_whole_sheet(drawn, tmp_path):
    command = program("chromium", "chromium")
    wide, high = paper_of(drawn.file(".svg"))
    page = tmp_path / "page.html"
    page.write_text(
        f"<style>@page{{size:{wide}mm {high}mm;margin:0}}body{{margin:0}}svg{{display:block}}"
        f"</style>{drawn.file('.svg').read_text(encoding='utf-8').split('?>', 1)[1]}",
        encoding="utf-8",
    )
    pdf = tmp_path / "page.pdf"
    options = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
    run([command, *options, f"--print-to-pdf={pdf}", page.as_uri()], tmp_path)
    assert pdf.exists(), "Chromium printed nothing"
    assert_whole(pdf, drawn, tmp_path)


def test_inkscape_shows_the_whole_sheet(drawn, tmp_path):
    command = program("inkscape", "inkscape")
    pdf = tmp_path / "page.pdf"
    run([command, drawn.file(".svg"), "--export-type=pdf", "-o", pdf], tmp_path)
    assert pdf.exists(), "Inkscape exported nothing"
    assert_whole(pdf, drawn, tmp_path)


def assert_whole(pdf, drawn, tmp_path):
    """The page has the size of the sheet; ink and words are those of our own PDF."""
    wide, high = paper_of(drawn.file(".svg"))
    (w, h), box = ink(pdf, tmp_path)
    assert (w, h) == pytest.approx((wide, high), abs=0.5)
    _, own = ink(drawn.file(".pdf"), tmp_path)
    assert box == pytest.approx(own, abs=0.6)
    command = program("pdftotext", "poppler-utils")
    words = run([command, "-raw", pdf, "-"], tmp_path).stdout.decode()
    assert drawn.name in words
    assert "EXTENDED" in words
