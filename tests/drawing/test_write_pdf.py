"""The PDF file read back by pypdf, and by qpdf and poppler where they are installed."""

import shutil
import subprocess
from io import BytesIO

import pytest
from pypdf import PdfReader

from drafting.drawing.sheet.sheet import Sheet, Text
from drafting.drawing.write.pdf import pdf_bytes
from tests.drawing.sample_sheets import sample

DATA = pdf_bytes(sample())
READER = PdfReader(BytesIO(DATA))


@pytest.mark.parametrize(("wide", "high"), [(420, 297), (210, 297), (431.8, 279.4)])
def test_the_page_is_the_sheet(wide, high):
    page = PdfReader(BytesIO(pdf_bytes(Sheet("A3", wide, high, "mm", ())))).pages[0]
    size = [float(s) * 25.4 / 72 for s in (page.mediabox.width, page.mediabox.height)]
    assert size == pytest.approx([wide, high], abs=0.001)


def test_it_says_what_it_is():
    assert READER.metadata.title == "SG-0417 Gate cylinder"
    assert READER.metadata.creator == "drafting 0.1.0"
    assert "input_sha256=" + "ab" * 32 in READER.metadata["/Keywords"]
    root = READER.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/Lang"] == "en"


def test_author_and_day_are_those_of_the_spec():
    meta = {"drawn_by": "R. Hale", "company": "Harrow Brook Works", "date": "2026-11-25"}
    about = PdfReader(BytesIO(pdf_bytes(Sheet("A3", 420, 297, "mm", (), meta=meta)))).metadata
    assert about.author == "R. Hale, Harrow Brook Works"
    assert about.creation_date.date().isoformat() == "2026-11-25"


def test_only_our_typeface_and_all_of_it_embedded():
    fonts = [f.get_object() for f in READER.pages[0]["/Resources"]["/Font"].values()]
    used = [f for f in fonts if "DraftingSans" in f["/BaseFont"]]
    assert used == fonts
    assert len(used) >= 2
    for font in used:
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "/ToUnicode" in font


def test_words_can_be_found():
    text = READER.pages[0].extract_text()
    for words in ("Østervold sluice, gate 3 – ½ open", "Żaneta Łukasik", "Юлия", "Ø110", "Ø40 H9"):
        assert words in text


def test_letters_without_a_glyph_are_still_told():
    page = Sheet("A3", 420, 297, "mm", (), texts=(Text((10, 10), "Nguyễn 中\U0001f600"),))
    text = PdfReader(BytesIO(pdf_bytes(page))).pages[0].extract_text()
    assert "Nguyen" in text
    digits = "".join(text.split())
    assert "4E2D" in digits  # the code of the character, in its box
    assert "01F600" in digits


@pytest.mark.skipif(not shutil.which("qpdf"), reason="qpdf is not installed")
def test_qpdf_finds_nothing(tmp_path):
    (tmp_path / "s.pdf").write_bytes(DATA)
    done = subprocess.run(["qpdf", "--check", tmp_path / "s.pdf"], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.skipif(not shutil.which("pdffonts"), reason="the poppler tools are not installed")
def test_poppler_sees_embedded_fonts_and_the_attachment(tmp_path):
    (tmp_path / "s.pdf").write_bytes(DATA)

    def run(tool, *options):
        return subprocess.run(
            [tool, *options, tmp_path / "s.pdf"], capture_output=True, text=True, check=True
        ).stdout

    rows = run("pdffonts").splitlines()[2:]
    assert rows
    for row in rows:
        assert "DraftingSans" in row
        assert row.split()[-5:-2] == ["yes", "yes", "yes"]
    assert "spec.toml" in run("pdfdetach", "-list")
