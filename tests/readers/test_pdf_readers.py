"""The PDF read by poppler and qpdf.

Sources: what these programs tell; the lengths of the spec as the JSON tells them; pypdf for the
strokes of the check bar.
"""

import re

import pytest
from pypdf import PdfReader

from drafting.units import both
from tests.readers.programs import program, run
from tests.readers.test_svg_readers import paper_of

POINT = 25.4 / 72


def poppler(name, tmp_path, *arguments):
    return run([program(name, "poppler-utils"), *arguments], tmp_path).stdout.decode()


def test_page_has_exactly_the_size_of_the_sheet(drawn, tmp_path):
    told = poppler("pdfinfo", tmp_path, "-l", "9", drawn.file(".pdf"))
    sizes = re.findall(r"^Page +\d+ size: +([\d.]+) x ([\d.]+) pts", told, re.MULTILINE)
    assert len(sizes) > 1
    for number, size in enumerate(sizes, 1):
        shown = drawn.file(".svg" if number == 1 else f"-sheet{number}.svg")
        assert [float(n) * POINT for n in size] == pytest.approx(paper_of(shown), abs=0.01)
    assert re.search(rf"^Title: +{drawn.name} ", told, re.MULTILINE)


def test_every_font_is_embedded_and_can_be_read_back(drawn, tmp_path):
    head, rule, *fonts = poppler("pdffonts", tmp_path, drawn.file(".pdf")).splitlines()
    assert fonts
    starts = {k: head.index(k) for k in ("emb", "sub", "uni")}
    assert set(rule) == {"-", " "}
    for font in fonts:
        assert font[starts["emb"] :].startswith("yes"), font
        assert font[starts["uni"] :].startswith("yes"), font


def test_its_words_can_be_searched(drawn, tmp_path):
    words = poppler("pdftotext", tmp_path, "-raw", drawn.file(".pdf"), "-")
    title = re.search(r'^title +?= "(.*)"', drawn.spec.read_text(encoding="utf-8"), re.MULTILINE)
    assert title.group(1) in words
    assert drawn.name in words
    for length in drawn.entry["lengths"].values():
        printed = [both(length, unit).split(f" {unit}")[0] for unit in ("in", "mm")]
        assert any(re.search(rf"(?<![\d.]){re.escape(p)}(?![\d.])", words) for p in printed), (
            printed
        )


def test_it_holds_no_picture(drawn, tmp_path):
    lines = poppler("pdfimages", tmp_path, "-list", drawn.file(".pdf")).splitlines()
    assert len(lines) == 2, lines  # two lines of heading


def test_qpdf_finds_nothing(drawn, tmp_path):
    done = run([program("qpdf", "qpdf"), "--check", drawn.file(".pdf")], tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_print_bar_is_50_mm_or_2_inches_long(drawn):
    """The strokes as they stand in the page, brought to mm by its one scale."""
    page = PdfReader(drawn.file(".pdf")).pages[0]
    said = page.extract_text()
    long, parts = (50.8, 8) if "2 in at 100 %" in said else (50.0, 5)
    assert ("50 mm at 100 %" in said) is (long == 50.0)
    drawing = drawing_of(page)
    (scale,) = set(re.findall(r"([\d.]+) 0 0 \1 0 0 cm", drawing)) - {"1"}
    numbers = r"([-\d.]+) ([-\d.]+) "
    lines = [
        [float(n) * float(scale) * POINT for n in stroke]
        for stroke in re.findall(numbers + "m " + numbers + "l", drawing)
    ]
    bars = [
        (x1, y1)
        for x1, y1, x2, y2 in lines
        if abs(y2 - y1) < 1e-6 and x2 - x1 == pytest.approx(long, abs=0.005)
    ]
    assert any(ticks(lines, at, long, parts) for at in bars), "no bar with its ticks"


def drawing_of(page):
    """The page's drawing commands, each run of blanks as one."""
    return re.sub(r"\s+", " ", page.get_contents().get_data().decode("latin-1"))


def ticks(lines, at, long, parts):
    """Whether short upright strokes stand on the bar, evenly from its start to its end."""
    upright = [
        x1
        for x1, y1, x2, y2 in lines
        if abs(x2 - x1) < 1e-6 and abs(y1 - at[1]) < 0.005 and 1 < abs(y2 - y1) < 4
    ]
    places = [at[0] + long * k / parts for k in range(parts + 1)]
    return all(any(x == pytest.approx(p, abs=0.005) for x in upright) for p in places)
