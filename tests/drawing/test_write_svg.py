"""The SVG file read back by the XML parser of Python.

Sources: sizes and accessible names as SVG 2 defines them (width, viewBox, role=img with
aria-labelledby), from memory; the lines on the paper are compared with the sheet itself.
"""

import re
from base64 import b64decode
from io import BytesIO
from math import atan2, cos, pi, radians, sin, sqrt
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from drafting.drawing.sheet.letters import FAMILY, clean, unknown, width
from drafting.drawing.sheet.sheet import Mark, Sheet, Text, View
from drafting.drawing.sheet.strokes import EllipseArc
from drafting.drawing.write.svg import svg_bytes
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
    first, *others = ids
    assert all(i.startswith(f"{first}.") for i in others)
    assert not list(ROOT.iter(f"{SVG}script"))
    assert b"http" not in re.sub(rb'xmlns(:\w+)?="[^"]*"', b"", DATA)
    (title, about) = (ROOT.find(f"{SVG}{t}").text for t in ("title", "desc"))
    assert title == "SG-0417 Gate cylinder"
    assert "Side view, Detail X" in about


def test_two_drawings_do_not_share_ids():
    other = sample()
    other.meta["number"] = "SG-0418"
    ids = [
        {e.get("id") for e in ElementTree.fromstring(d).iter() if e.get("id")}
        for d in (DATA, svg_bytes(other))
    ]
    assert not ids[0] & ids[1]


def test_pages_of_one_drawing_do_not_share_ids():
    ids = []
    for count in ("1 / 2", "2 / 2"):
        page = Sheet("A4", 210, 297, "mm", (), (), (Text((20, 20), count, name="sheet"),))
        ids.append({e.get("id") for e in ElementTree.fromstring(svg_bytes(page)).iter()} - {None})
    assert not ids[0] & ids[1]


def test_a_change_is_a_change_of_few_lines():
    """One element stands on a line, and no id follows from the input."""
    old, new = sample(), sample()
    new.meta["input_sha256"] = "cd" * 32
    old.meta.pop("spec_text")
    new.meta.pop("spec_text")
    lines = [svg_bytes(s).decode().splitlines() for s in (old, new)]
    assert sum(a != b for a, b in zip(*lines, strict=True)) <= 1
    drawn = [a for a in lines[0] if "<path" in a or "<text" in a]
    assert len(drawn) > 50
    assert all(a.count("<path") + a.count("<text") == 1 for a in drawn)
    assert any('id="' in a and ".side." in a for a in lines[0])


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
    (group,) = [g for g in ROOT.iter(f"{SVG}g") if g.get("id", "").endswith(".side")]
    outline = next(g for g in group if g.get("class") == "outline")
    pin = next(p for p in outline if p.get("data-name") == "body_mount.pin")
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", pin.get("d"))]
    assert numbers[:4] == pytest.approx([90 + 0.4 * 20, 297 - 190, 8, 8])


def ellipse_of(start, arc):
    """Centre of an arc of a path, and its middle point.

    The conversion from end points to centre is that of SVG 1.1, appendix F.6.5.
    """
    rx, ry, turn, large, sweep, x2, y2 = arc
    c, s = cos(radians(turn)), sin(radians(turn))
    dx, dy = (start[0] - x2) / 2, (start[1] - y2) / 2
    u, v = c * dx + s * dy, -s * dx + c * dy
    rest = max(0.0, (rx * ry) ** 2 / ((rx * v) ** 2 + (ry * u) ** 2) - 1)
    k = sqrt(rest) * (1 if large != sweep else -1)
    cu, cv = k * rx * v / ry, -k * ry * u / rx
    a0, a1 = atan2((v - cv) / ry, (u - cu) / rx), atan2((-v - cv) / ry, (-u - cu) / rx)
    span = (a1 - a0) % (2 * pi) if sweep else -((a0 - a1) % (2 * pi))
    m = a0 + span / 2
    mu, mv = cu + rx * cos(m), cv + ry * sin(m)
    px, py = (start[0] + x2) / 2, (start[1] + y2) / 2
    return (c * cu - s * cv + px, s * cu + c * cv + py), (
        c * mu - s * mv + px,
        s * mu + c * mv + py,
    )


@pytest.mark.parametrize("minor", [(-6, 18), (6, -18)])
@pytest.mark.parametrize(("t0", "t1"), [(0.3, 2.4), (-1, 0.2)])
def test_turned_ellipses_lie_where_they_shall(minor, t0, t1):
    curve = EllipseArc((40, 60), (12, 4), minor, t0, t1)
    view = View("v", "", (100, 100), 2, (Mark(curve, "outline"),))
    root = ElementTree.fromstring(svg_bytes(Sheet("A3", 420, 297, "mm", (view,))))
    (path,) = root.iter(f"{SVG}path")
    x, y, *arc = (float(n) for n in re.findall(r"-?[\d.]+", path.get("d")))
    centre, middle = ellipse_of((x, y), arc)
    assert centre == pytest.approx((180, 297 - 220), abs=0.01)
    t = (t0 + t1) / 2
    at = (40 + 12 * cos(t) + minor[0] * sin(t), 60 + 4 * cos(t) + minor[1] * sin(t))
    assert middle == pytest.approx((100 + 2 * at[0], 297 - 100 - 2 * at[1]), abs=0.01)


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
