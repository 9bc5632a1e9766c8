"""Markup in every text that a person may type stays text, on sheet, page and in the package."""

from __future__ import annotations

import io
import re
import zipfile

from drafting.spec.fields import TABLES
from drafting.web.look import changed, look, sheets
from drafting.web.make import package
from tests.web.test_guard import SPEC, client

EVIL = "<img src=x onerror=alert(1)></svg><script>alert(2)</script>&lt;b&gt;]]>\"'"
WORDS = [
    f"{t.name}.{f.name}" if t.name else f.name
    for t in TABLES.values()
    for f in t.fields
    if f.kind == "text" and not t.many
]


def with_markup():
    """A spec in which each text holds markup; what does not go in one is left as it was."""
    text = SPEC
    for name in WORDS:
        table = name.partition(".")[0]
        if "." in name and table not in ("cylinder", "duty", "drawing"):
            continue
        tried = changed(text, {name: EVIL})
        if not next(look(tried))["faults"]:
            text = tried
    return text


def test_markup_is_words_on_every_sheet_and_view():
    text = with_markup()
    assert text.count("onerror") > 8
    parts = {k: v for p in look(text) for k, v in p.items()}
    for svg in (parts["views"], *next(sheets(text))["sheets"]):
        assert "<img" not in svg
        assert "<script" not in svg
        assert svg.count("</svg>") == 1
    assert parts["typed"]["title"] == EVIL


def test_markup_is_words_in_the_files_of_a_package():
    _, data = package(with_markup())
    packed = zipfile.ZipFile(io.BytesIO(data))
    for name in packed.namelist():
        assert ".." not in name
        assert not name.startswith("/")
        assert not re.search(r"[<>\"']", name)
        if name.endswith((".svg", ".html", ".htm")):
            assert b"<img src=x" not in packed.read(name)


def test_no_name_of_a_client_reaches_the_file_system(tmp_path):
    before = sorted(tmp_path.iterdir())
    for name in ("../../etc/passwd", "/etc/passwd", "..%2f..%2fx.toml", "C:\\x.toml", "x\0.toml"):
        answer = client().post(
            "/open", params={"name": name}, content=SPEC.encode(),
            headers={"Origin": "http://127.0.0.1:4242"},
        )  # fmt: skip
        assert answer.status_code in (200, 422)
        assert "root:" not in answer.text
    assert sorted(tmp_path.iterdir()) == before
