"""The picture of page 1: its size, its spec, and the same ink as poppler draws from the PDF."""

from __future__ import annotations

import shutil
import subprocess
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from drafting.drawing.write.carry import spec_from_png
from drafting.drawing.write.pdf import pdf_bytes
from drafting.drawing.write.png import DOTS, png_bytes
from tests.drawing.sample_sheets import SPEC, sample

DATA = png_bytes(sample())


def test_it_is_the_page_at_150_dots_an_inch():
    with Image.open(BytesIO(DATA)) as picture:
        wide, high = picture.size
        assert picture.info["dpi"] == pytest.approx((DOTS, DOTS), abs=0.02)
    assert wide == pytest.approx(sample().width / 25.4 * DOTS, abs=1)
    assert high == pytest.approx(sample().height / 25.4 * DOTS, abs=1)


def test_equal_sheets_give_equal_bytes_and_the_spec_comes_back():
    assert png_bytes(sample()) == DATA
    assert spec_from_png(DATA) == SPEC
    out = BytesIO()
    Image.new("L", (4, 4)).save(out, "PNG")
    assert spec_from_png(out.getvalue()) is None


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler-utils is not installed")
def test_another_program_draws_the_same_ink(tmp_path):
    (tmp_path / "page.pdf").write_bytes(pdf_bytes(sample()))
    command = ["pdftoppm", "-r", str(DOTS), "-gray", "-f", "1", "-l", "1", "page.pdf", "page"]
    subprocess.run(command, cwd=tmp_path, check=True, timeout=60)
    other = Image.open(next(tmp_path.glob("page*.pgm"))).convert("L")
    own = Image.open(BytesIO(DATA)).convert("L").resize(other.size)
    # Programs smooth edges their own way: held together are blocks of a twelfth of an inch.
    blocks = [
        np.asarray(p.resize((p.width // 12, p.height // 12), Image.Resampling.BOX), float)
        for p in (own, other)
    ]
    assert np.abs(blocks[0] - blocks[1]).mean() < 1.0
    assert np.abs(blocks[0] - blocks[1]).max() < 60.0
    assert blocks[1].min() < 200.0
