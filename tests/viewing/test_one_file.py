"""The HTML file as it stands: what is inside, what it may do, and that it asks for nothing."""

from __future__ import annotations

import gzip
import re
from base64 import b64decode, b64encode
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from drafting.jobs.draw import How, draw_one
from drafting.viewing.one_file import spec_from_html

SPEC = """title = "Weir <winch> & ram"
number = "WW-0417"
units = "in"
notes = ["</script><script>alert(1)</script>"]

[cylinder]
bore = "3 1/2"
rod = 1.75
stroke = 16
retracted = "27 1/4"
working_pressure = "2500 psi"

[body_mount]
mount = "cross tube"
pin = 1.25

[rod_mount]
mount = "clevis"
pin = 1.25

[base_port]
thread = "SAE-8"
clock = "12:00"
"""


@pytest.fixture(scope="session")
def drawn():
    return draw_one(SPEC, How(("html", "pdf")))


@pytest.fixture(scope="session")
def page(drawn):
    return drawn.files["WW-0417.html"]


class Tags(HTMLParser):
    def __init__(self, text):
        super().__init__()
        self.scripts, self.links, self.tags = [], [], []
        self.inside = None
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        at = dict(attrs)
        self.tags.append((tag, at))
        self.links += [v for k, v in attrs if k in ("src", "href") and v]
        self.inside = at if tag == "script" else None

    def handle_data(self, data):
        if self.inside is not None and "type" not in self.inside:
            self.scripts.append(data)

    def handle_endtag(self, tag):
        self.inside = None


def test_only_what_was_asked_for_is_given_beside_it(drawn):
    assert sorted(drawn.files) == ["WW-0417.html", "WW-0417.pdf"]


def test_it_is_small_and_equal_for_equal_specs(page):
    assert len(page) < 2_000_000
    assert draw_one(SPEC, How(("html",))).files["WW-0417.html"] == page


def test_nothing_is_fetched_and_only_its_own_scripts_may_run(page):
    tags = Tags(page.decode())
    assert [u for u in tags.links if not u.startswith(("#", "data:"))] == []
    policy = next(
        a["content"] for t, a in tags.tags if a.get("http-equiv", "").startswith("Content")
    )
    assert policy.startswith("default-src 'none'")
    assert len(tags.scripts) == 2
    for script in tags.scripts:
        told = b64encode(sha256(script.encode()).digest()).decode()
        assert f"'sha256-{told}'" in policy
    assert "unsafe-eval" not in policy
    assert not re.search(r"script-src[^;]*unsafe-inline", policy)


def test_markup_in_words_stays_words(page):
    assert b"<script>alert" not in page
    assert b"Weir &lt;winch&gt; &amp; ram" in page


def test_the_files_inside_are_the_files(page, drawn):
    tags = Tags(page.decode())
    names = {a["data-name"]: a["data-file"] for t, a in tags.tags if "data-file" in a}
    assert {n.removeprefix("WW-0417") for n in names} == {
        ".pdf", ".dxf", "-retracted.step", "-extended.step", ".glb", ".csv", ".toml",
    }  # fmt: skip
    found = {
        name: gzip.decompress(b64decode(re.search(rf'id="{ident}">([^<]*)<', page.decode())[1]))
        for name, ident in names.items()
    }
    assert found["WW-0417.pdf"] == drawn.files["WW-0417.pdf"]
    assert found["WW-0417.toml"].decode() == SPEC
    assert found["WW-0417-extended.step"].startswith(b"ISO-10303-21")
    assert found["WW-0417.glb"][:4] == b"glTF"


def test_the_spec_is_read_back(page):
    assert spec_from_html(page) == SPEC
    assert spec_from_html(b"<html></html>") is None
