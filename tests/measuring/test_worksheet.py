"""The worksheet as a printed page: every letter in its picture and its row, true size, in the page.

Paper sizes: A4 of ISO 216, 210 x 297 mm; Letter of ASME Y14.1, 8.5 x 11 in. Read back by pypdf.
"""

import re
from io import BytesIO

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from drafting.cli import main
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.paper import on_paper, paper_box, text_box
from drafting.drawing.sheet.style import Style
from drafting.measuring.letters import letters
from drafting.measuring.readings_file import bench_of
from drafting.measuring.worksheet import sheets
from drafting.measuring.worksheet_boxes import FILE
from drafting.measuring.worksheet_page import pdf_of
from drafting.measuring.worksheet_sample import lettered, sample
from drafting.model.catalog import mount_words
from drafting.spec.read import read_document

BODY, ROD = mount_words("body"), mount_words("rod")


def letters_of(words):
    """Give the letters that stand on one leader or line: ``H1, pin P1``."""
    return set(re.findall(r"\b[A-Z][12]?\b", words))


@pytest.mark.parametrize("body", BODY)
def test_every_letter_has_a_place_in_the_pictures(body):
    for rod in ROD[BODY.index(body) % 2 :: 2]:
        shown = set().union(*(letters_of(words) for words, _ in lettered(sample(body, rod))))
        assert shown == {x.letter for x in letters(body, rod)}, (body, rod)


@pytest.mark.parametrize("body", BODY)
def test_no_row_is_cut_short(body):
    words = [t.text for p in sheets(body, "clevis", "both", "A4") for t in p.texts]
    assert not [w for w in words if "…" in w]


def test_what_the_sheet_says_is_what_the_file_takes(pages):
    """The words in brackets on the sheet, typed as they stand, and its example as a whole."""
    said = " ".join(t.text for p in pages for t in p.texts)
    assert "Adapter (none, out: taken out, in: left in)" in said
    assert "Taper (yes, no)" in said
    assert 'hard_stop = "yes"' in said
    for adapter in ("none", "out", "in"):
        for taper in ("yes", "no"):
            lines = f'adapter = "{adapter}"\ntaper = "{taper}"\nfemale = 0.69\nclock = "12:00"\n'
            lines += 'pitch = "10 over 0.625 in"\n'
            text = EXAMPLE.format(body='"trunnion"', rod='"clevis"') + lines
            seen = bench_of(read_document(text.encode())).ports[0].seen
            assert seen["adapter"] == adapter
            assert seen["taper"] is (taper == "yes")


EXAMPLE = "\n".join(FILE[:2]).partition("clock =")[0]


@pytest.fixture(scope="module")
def pages():
    return sheets("trunnion", "clevis", "both", "A4")


def test_the_letters_of_the_pictures_are_those_of_the_boxes(pages):
    dimensions = [d for view in pages[0].views for d in view.dimensions]
    drawn = set().union(*(letters_of(text) for d in dimensions for text in d.texts))
    rows = {t.text for p in pages[1:] for t in p.texts if re.fullmatch("[A-Z][12]?", t.text)}
    known = {x.letter for x in letters("trunnion", "clevis")}
    assert rows == known
    assert drawn == known


def test_everything_lies_within_the_page(pages):
    style = Style()
    for page in pages:
        boxes = [text_box(t) for t in page.texts]
        boxes += [b for v in page.views if (b := paper_box(on_paper(v, style)))]
        for x0, y0, x1, y1 in boxes:
            assert x0 > 4
            assert y0 > 4
            assert x1 < page.width - 4
            assert y1 < page.height - 4


def test_pictures_lie_apart_and_above_the_check_bar(pages):
    style = Style()
    boxes = [paper_box(on_paper(v, style)) for v in pages[0].views]
    for n, a in enumerate(boxes):
        assert a[1] > 17
        for b in boxes[n + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


@pytest.mark.parametrize(("paper", "wide", "high"), [("A4", 210, 297), ("Letter", 215.9, 279.4)])
def test_the_check_bar_is_true_in_the_file(paper, wide, high):
    pdf = PdfReader(BytesIO(pdf_of(sheets("none", "plain", "in", paper))))
    assert pdf.viewer_preferences.print_scaling == "/None"
    for page in pdf.pages:
        points = [float(v) for v in page.mediabox]
        assert points == pytest.approx([0, 0, wide * 72 / 25.4, high * 72 / 25.4], abs=0.01)
        text = page.extract_text()
        assert "this rule is 100 mm (above) and 4 in (below) long" in text
        assert 4 * 72 in [round(x, 2) for x in level_lines(page, pdf)]


def level_lines(page, pdf):
    """The lengths in points of all level strokes of a page."""
    scale, at = 1.0, (0.0, 0.0)
    for operands, operator in ContentStream(page.get_contents(), pdf).operations:
        numbers = [float(x) for x in operands] if operator in (b"cm", b"m", b"l") else []
        if operator == b"cm" and numbers[1] == 0 and numbers[4:] == [0, 0]:
            scale *= numbers[0]
        elif operator == b"m":
            at = numbers
        elif operator == b"l" and abs(numbers[1] - at[1]) < 1e-6:
            yield abs(numbers[0] - at[0]) * scale


@pytest.mark.parametrize(("body", "rod"), [("none", "male thread"), ("flange", "ball swivel")])
def test_the_inspector_of_drawings_finds_nothing_on_it(body, rod):
    """But letters that are no sizes, and the filing margin of a drawing, which a form has not."""
    found = [f for sheet in sheets(body, rod) for f in inspect(sheet)]
    unlike = [f for f in found if f.code == "sheet-label-unlike-size"]
    assert {f.code for f in found} <= {"sheet-label-unlike-size", "sheet-outside-frame"}
    assert all("prints" in f.message for f in unlike)


def test_what_the_bench_must_be_told_is_on_it(pages):
    words = " ".join(t.text for p in pages for t in p.texts)
    for told in (
        "same edge",
        "Drain both sides",
        "to a hard stop, twice",
        "past thread and chamfer; two directions, two depths",
        "unworn end",
        "Along the cylinder and across it",
        "Take adapters out of the ports first",
        "Both ends even when they look alike",
        "machine's own ears and gaps",
        "Lock out every source",
    ):
        assert told in words


def test_the_command_writes_it_and_refuses_unknown_mounts(tmp_path, capsys):
    path = tmp_path / "sheet.pdf"
    assert main(["worksheet", "--body", "none", "--rod", "plain", "-o", str(path)]) == 0
    assert path.read_bytes().startswith(b"%PDF")
    assert main(["worksheet", "--body", "clevi", "--rod", "plain", "-o", str(path)]) == 2
    assert "clevis" in capsys.readouterr().err
