"""``draw --sheet`` and ``--scale``: paper and scale as the command names them, seen in the PDF.

Reader: pypdf. Paper sizes: ISO 216 (A3 297 x 420, A4 210 x 297); Letter is 8.5 x 11 in, tabloid
(B) twice that, common practice. The order of leaving out on a small sheet is the project's own.
"""

from pathlib import Path

import pytest
from pypdf import PdfReader

from drafting.cli import main

SPECS = Path(__file__).parents[2] / "specs"
POINT = 25.4 / 72


def pages(spec, folder, *options):
    """Draw a sample: size (mm) and words of each page."""
    assert main(["draw", str(SPECS / spec), *options, "--formats", "pdf", "-o", str(folder)]) in (
        0,
        1,
    )
    (path,) = folder.glob("*.pdf")
    read = PdfReader(path).pages
    return [
        (float(p.mediabox.width) * POINT, float(p.mediabox.height) * POINT, p.extract_text())
        for p in read
    ]


@pytest.mark.parametrize(
    ("spec", "sheet", "size"),
    [
        ("log-grapple.toml", "A4", (297.0, 210.0)),
        ("log-grapple.toml", "A2", (594.0, 420.0)),
        ("weir-gate.toml", "A", (279.4, 215.9)),
        ("weir-gate.toml", "C", (558.8, 431.8)),
    ],
)
def test_the_drawing_page_is_the_one_that_was_named(tmp_path, capsys, spec, sheet, size):
    first, second, *_ = pages(spec, tmp_path, "--sheet", sheet)
    assert first[:2] == pytest.approx(size, abs=0.05)
    upright = (215.9, 279.4) if spec == "weir-gate.toml" else (210.0, 297.0)
    assert second[:2] == pytest.approx(upright, abs=0.05)
    assert "sheet-" not in capsys.readouterr().err


def test_what_a_small_sheet_leaves_out_is_said_behind_it(tmp_path):
    first, *behind = pages("gate-latch.toml", tmp_path, "--sheet", "A")
    assert "PORTS" not in first[2].split()
    assert "[" not in first[2].replace("[ ]", "")
    assert "3/4-16" not in first[2]
    said = " ".join(" ".join(p[2] for p in behind).split())
    assert "Left out on sheet 1 for want of room: second units, standards of the ports." in said
    assert "3/4-16" in said


def test_a_sheet_with_room_leaves_nothing_out(tmp_path):
    first, *behind = pages("weir-gate.toml", tmp_path, "--sheet", "B")
    assert "3/4-16" in first[2]
    assert not [p for p in behind if "Left out on sheet 1" in " ".join(p[2].split())]


@pytest.mark.parametrize(("sheet", "scale"), [("A2", "1:5"), ("A3", "1:10")])
def test_the_scale_is_the_one_that_was_named(tmp_path, sheet, scale):
    first, *_ = pages("log-grapple.toml", tmp_path, "--sheet", sheet, "--scale", scale)
    assert scale in first[2].split()


@pytest.mark.parametrize("option", [("--sheet", "A7"), ("--scale", "small")])
def test_what_is_no_sheet_or_scale_is_refused(tmp_path, capsys, option):
    code = main(["draw", str(SPECS / "log-grapple.toml"), *option, "-o", str(tmp_path)])
    assert code == 2
    said = capsys.readouterr().err
    assert option[0] in said
    assert option[1] in said
    assert not list(tmp_path.iterdir())
