"""Files that are no spec files, and files with too much in them: told rightly, and at once."""

from __future__ import annotations

import os
import sys
from time import process_time

import pytest

from drafting.errors import Refused, shortened
from drafting.spec.check import read_spec
from drafting.spec.content import LARGEST, decoded, loaded

HEAD = "title = 'Gate'\nunits = 'mm'\n"
REST = """[cylinder]
bore = 80
rod = 45
stroke = 500
retracted = 950
[body_mount]
mount = 'none'
[rod_mount]
mount = 'plain'
"""


def told(text: str, mounts) -> list[tuple[str, str, str]]:
    start = process_time()
    with pytest.raises(Refused) as caught:
        read_spec(text.encode(), mounts=mounts)
    assert process_time() - start < 10.0
    return [(f.code, f.field, f.message) for f in caught.value.faults]


def refused(content: bytes) -> str:
    with pytest.raises(Refused) as caught:
        decoded(content, "a.toml")
    return str(caught.value)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (HEAD.encode("utf-16"), "saved as UTF-16"),
        (HEAD.encode("utf-16-le"), "saved as UTF-16"),
        (HEAD.encode("utf-32"), "saved as UTF-32"),
        ("title = 'Höhe'".encode("cp1252"), "1:11: error encoding: the byte F6 is no UTF-8 (in "),
        (b"title = '\x81'", "the byte 81 is no UTF-8; save"),  # no sign of Windows-1252
        (b"%PDF-1.7\n", "a PDF file, not a spec file in TOML; drafting new --from"),
        (b"ISO-10303-21;\n", "a STEP file, not a spec file in TOML; drafting new --from"),
        (b"PK\x03\x04rest", "a ZIP file, or one of an office program, not a spec"),
        (b"\x89PNG\r\n", "a picture, not a spec file in TOML"),
        (HEAD.replace("\n", "\r").encode(), "carriage return alone"),
        (b"#" * (LARGEST + 1), "the file has 1,000,001 bytes; a spec has at most 1,000,000"),
    ],
)
def test_what_is_no_spec_is_told_rightly(content: bytes, words: str) -> None:
    assert words in refused(content)


@pytest.mark.skipif(sys.platform == "win32", reason="no sparse files and pipes there")
def test_the_size_is_the_files_own_and_only_a_file_is_read(tmp_path) -> None:
    large = tmp_path / "large.toml"
    with large.open("wb") as out:
        out.truncate(200_000_000)
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    for path, words in (
        (large, "200,000,000 bytes"),
        (pipe, "a pipe or a device"),
        (tmp_path, "this is a folder"),
        (tmp_path / "none.toml", "no such file"),
        (tmp_path / "larg.toml", "no such file; there is large.toml"),
        (tmp_path / "a\0b", "sign that no file name has"),
    ):
        with pytest.raises(Refused) as caught:
            loaded(path, "a.toml")
        assert words in str(caught.value)


@pytest.mark.parametrize("scale", ["1:2", "1:2000", "50:1", "2.5:1", "auto"])
def test_scales_that_can_be_drawn(scale: str, mounts) -> None:
    text = f"{HEAD}{REST}[drawing]\nscale = '{scale}'\n"
    assert read_spec(text.encode(), mounts=mounts).word("drawing.scale") == scale


@pytest.mark.parametrize(
    "scale", ["100000:1", "51:1", "1:2001", "9" * 308 + ":1", "1:" + "9" * 308]
)
def test_scales_that_cannot(scale: str, mounts) -> None:
    ((code, field, message),) = told(f"{HEAD}{REST}[drawing]\nscale = '{scale}'\n", mounts)
    assert code in ("out-of-range", "not-a-scale")
    assert field == "drawing.scale"
    assert len(message) < 200


def test_the_counts_have_a_limit_that_is_named(mounts) -> None:
    notes = "notes = [" + "'x'," * 2 + "\n" + "'x',\n" * 150_000 + "]\n"
    ((code, field, message),) = told(HEAD + notes + REST, mounts)
    assert (code, field) == ("too-many", "notes")
    assert "at most 40" in message
    ports = "[[extra_port]]\nend = 'base'\nthread = 'G 1/4'\n" * 5000
    ((code, field, message),) = told(HEAD + REST + ports, mounts)
    assert (code, field) == ("too-many", "extra_port")
    assert "at most 200" in message


@pytest.mark.parametrize("number", ["9" * 400, "1" + "0" * 300, "1000001"])
@pytest.mark.parametrize("field", ["quantity", "safety_factor"])
def test_no_number_is_too_long_for_the_program(number: str, field: str, mounts) -> None:
    top = f"quantity = {number}\n" if field == "quantity" else ""
    duty = f"[duty]\nsafety_factor = {number}\n" if field != "quantity" else ""
    ((code, _, message),) = told(HEAD + top + REST + duty, mounts)
    assert code == "out-of-range"
    assert len(message) < 200


def test_what_is_quoted_is_cut_where_nobody_reads_on(mounts) -> None:
    for text in ("x" * 5000, "word " * 1000):
        ((_, _, message),) = told(f"{HEAD}{REST}[drawing]\nsheet = '{text}'\n", mounts)
        assert len(message) < 400
    said = '"3 1/2" is no number; write "3 1/2 in"'
    assert shortened(said) == said
