"""The machine's worksheet: every letter in a picture and in a row, and the file that it becomes.

Held against the machine file's own reader and fields; paper sizes of ISO 216 and ASME Y14.1.
"""

import tomllib

import pytest

from drafting.cli import main
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.paper import on_paper, paper_box, text_box
from drafting.drawing.sheet.style import Style
from drafting.fitting.machine import read_machine
from drafting.fitting.machine_fields import TABLES
from drafting.measuring.machine_letters import machine_letters
from drafting.measuring.machine_worksheet import FILE, machine_sheets


@pytest.fixture(scope="module", params=["A4", "Letter"])
def pages(request):
    return machine_sheets("both", request.param)


def test_every_letter_stands_in_a_picture_and_in_a_row(pages):
    drawn = [
        text.removeprefix("pin ")
        for view in pages[0].views
        for d in view.dimensions
        for text in d.texts
    ]
    known = [x.letter for x in machine_letters()]
    assert sorted(drawn) == sorted(known)
    assert len(set(known)) == len(known)
    rows = {t.text for t in pages[1].texts}
    assert set(known) <= rows


def test_every_letter_is_a_field_of_the_machine_file_and_every_ear_is_asked():
    asked = {x.field for x in machine_letters()}
    for name in ("distance", "base_ears", "rod_ears"):
        sizes = {f"{name}.{f.name}" for f in TABLES[name].fields if f.kind == "length"}
        assert sizes == {f for f in asked if f.startswith(name)}
    needed = {x.field for x in machine_letters() if x.needed}
    assert needed == {f"distance.{f.name}" for f in TABLES["distance"].fields if f.required}


def test_the_part_that_becomes_the_machine_file_is_read_as_one(tmp_path):
    """And each letter behind a line of it is that field's."""
    text = "\n\n".join(FILE).partition("Then:")[0]
    path = tmp_path / "machine.toml"
    path.write_text(text, encoding="utf-8")
    machine = read_machine(str(path))
    assert machine.title == "Baler door"
    letters = {x.letter: x.field for x in machine_letters()}
    table = ""
    for line in text.splitlines():
        table = line[1:-1] if line.startswith("[") else table
        name, _, letter = line.partition(" = ")[0], *line.partition("  # ")[1:]
        if letter:
            assert letters[letter] == f"{table}.{name}"
    assert set(tomllib.loads(text)) >= {"distance", "base_ears", "rod_ears", "hoses", "supply"}


def test_nothing_lies_on_another_or_off_the_page(pages):
    style = Style()
    for page in pages:
        seen = [b for v in page.views if (b := paper_box(on_paper(v, style)))]
        for n, (x0, y0, x1, y1) in enumerate([*(text_box(t) for t in page.texts), *seen]):
            assert 4 < x0 < x1 < page.width - 4, n
            assert 4 < y0 < y1 < page.height - 4, n
        for n, a in enumerate(seen):
            for b in seen[n + 1 :]:
                assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        codes = {f.code for f in inspect(page)}
        assert codes <= {"sheet-label-unlike-size", "sheet-outside-frame"}


def test_where_ports_may_point_and_the_hoses_are_asked(pages):
    words = " ".join(t.text for t in pages[2].texts)
    for told in ("Base port may face", "Rod port may face", "Hose end at the base port", "Flow"):
        assert told in words


def test_the_command_writes_a_pdf_or_pages_of_svg(tmp_path, capsys):
    assert main(["worksheet", "--machine", "-o", str(tmp_path / "m.pdf")]) == 0
    assert (tmp_path / "m.pdf").read_bytes().startswith(b"%PDF")
    assert main(["worksheet", "--machine", "-o", str(tmp_path / "m.svg")]) == 0
    assert sorted(p.name for p in tmp_path.glob("*.svg")) == ["m-2.svg", "m-3.svg", "m.svg"]
    capsys.readouterr()
    assert main(["worksheet", "--body", "clevis"]) == 2
    assert "--machine" in capsys.readouterr().err
