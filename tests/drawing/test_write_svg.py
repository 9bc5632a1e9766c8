"""The SVG file read back by the XML parser of Python.

Sources: sizes and accessible names as SVG 2 defines them (width, viewBox, role=img with
aria-labelledby), from memory; the lines on the paper are compared with the sheet itself.
"""

import re
from base64 import b64decode
from io import BytesIO
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from drafting.drawing.letters import FAMILY, clean, unknown, width
from drafting.drawing.sheet import Sheet, Text
from drafting.drawing.write_svg import svg_bytes
from tests.drawing.sample_sheets import sample

SVG = "{http://www.w3.org/2000/svg}"
DATA = svg_bytes(sample())
ROOT = ElementTree.fromstring(DATA)


def test_one_unit_is_a_millimetre():
    assert (ROOT.get("width"), ROOT.get("height")) == ("420mm", "297mm")
    assert ROOT.get("viewBox") == "0 0 420 297"


def test_it_has_a_name_and_needs_nothing_from_outside():
    assert ROOT.get("role") == "img"
    ids = [e.get("id") for e in ROOT.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert set(ROOT.get("aria-labelledby").split()) <= set(ids)
    prefix = ids[0].split("-")[0]
    assert all(i.startswith(f"{prefix}-") for i in ids)
    assert not list(ROOT.iter(f"{SVG}script"))
    assert b"http" not in re.sub(rb'xmlns(:\w+)?="[^"]*"', b"", DATA)
    (title, about) = (ROOT.find(f"{SVG}{t}").text for t in ("title", "desc"))
    assert title == "SG-0417 Gate cylinder"
    assert "Side view, Detail X" in about


def test_two_drawings_do_not_share_ids():
    other = sample()
    other.meta["input_sha256"] = "cd" * 32
    ids = [
        {e.get("id") for e in ElementTree.fromstring(d).iter() if e.get("id")}
        for d in (DATA, svg_bytes(other))
    ]
    assert not ids[0] & ids[1]


def test_ground_is_white_and_first():
    assert ROOT.find(f"{SVG}rect").attrib == {
        "class": "ground",
        "x": "0",
        "y": "0",
        "width": "420",
        "height": "297",
    }


def test_words_and_their_widths():
    texts = {t.text: t for t in ROOT.iter(f"{SVG}text")}
    assert len(texts) >= 20
    for words in ("Østervold sluice, gate 3 – ½ open", "Żaneta Łukasik · Ωμ · Юлия", "Ø110"):
        assert words in texts
    for words, element in texts.items():
        size = float(element.get("font-size")) * 1409 / 2048
        if unknown(words):
            assert element.get("textLength") is None
        else:
            bold = element.get("font-weight") == "bold"
            planned = width(clean(words), size, bold)
            assert float(element.get("textLength")) == pytest.approx(planned, rel=1e-3)


def test_places():
    by_name = {t.get("data-name"): t for t in ROOT.iter(f"{SVG}text")}
    title = by_name["title"]
    assert (float(title.get("x")), float(title.get("y"))) == (232, 297 - 33)
    (group,) = [g for g in ROOT.iter(f"{SVG}g") if g.get("id", "").endswith("-side")]
    outline = next(g for g in group if g.get("class") == "outline")
    pin = next(p for p in outline if p.get("data-name") == "body_mount.pin")
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", pin.get("d"))]
    assert numbers[:4] == pytest.approx([90 + 0.4 * 20, 297 - 190, 8, 8])


def test_turned_words_are_read_from_the_right():
    vertical = next(t for t in ROOT.iter(f"{SVG}text") if t.text == "Ø110")
    assert vertical.get("transform").startswith("rotate(-90 ")


def faces(data):
    style = ElementTree.fromstring(data).find(f"{SVG}defs/{SVG}style").text
    found = re.findall(r"@font-face\{[^}]*base64,([^)]*)\)", style)
    return style, [TTFont(BytesIO(b64decode(f))) for f in found]


def test_the_typeface_is_inside():
    style, fonts = faces(DATA)
    assert re.search(rf'font-family:"{FAMILY}",.*sans-serif', style)
    assert len(fonts) == 3  # western, other, bold western
    letters = set().union(*(f.getBestCmap() for f in fonts))
    assert {ord(c) for c in "ØŁЮ½"} <= letters


def test_only_the_faces_in_use_are_inside():
    plain = Sheet("A3", 420, 297, "mm", (), texts=(Text((0, 0), "Ø30"),))
    assert len(faces(svg_bytes(plain))[1]) == 1
