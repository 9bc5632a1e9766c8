"""The typeface of the sheets.

Outside sources: the widths of Arial's twin Helvetica as Adobe published them for the base fonts of
PostScript (font metrics file Helvetica.afm, read through reportlab), and the face files themselves
read by fontTools. The licence forbids the reserved names in the face's own name (SIL OFL 1.1, 3).
"""

from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from drafting.drawing.sheet import letters

# Helvetica has these where Arial and its kin differ by design.
ASCII = [chr(c) for c in range(0x20, 0x7F) if chr(c) not in "'`"]


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_those_of_the_published_metrics(bold):
    face = "Helvetica-Bold" if bold else "Helvetica"
    off = {
        c: (letters.width(c, 1409 / 2048, bold), stringWidth(c, face, 1000) / 1000) for c in ASCII
    }
    wrong = {c: pair for c, pair in off.items() if abs(pair[0] - pair[1]) > 0.0006}
    assert not wrong


@pytest.mark.parametrize("bold", [False, True])
def test_table_agrees_with_the_face_files(bold):
    font = TTFont(letters.ttf_path(bold))
    cmap, metrics = font.getBestCmap(), font["hmtx"]
    em = font["head"].unitsPerEm
    assert letters.font_size(1.0) == pytest.approx(em / font["OS/2"].sCapHeight)
    for code, glyph in cmap.items():
        if letters.clean(chr(code)) == chr(code):
            wide = letters.width(chr(code), font["OS/2"].sCapHeight, bold)
            assert wide == pytest.approx(metrics[glyph][0]), hex(code)
    halves = set()
    for western in (True, False):
        halves |= TTFont(letters.woff_path(bold, western)).getBestCmap().keys()
    assert halves == cmap.keys()


def test_capitals_have_the_height_that_is_asked():
    font = TTFont(letters.ttf_path())
    top = font["glyf"][font.getBestCmap()[ord("H")]].yMax
    assert letters.font_size(3.5) * top / font["head"].unitsPerEm == pytest.approx(3.5)


@pytest.mark.parametrize("bold", [False, True])
def test_the_licence_is_kept(bold):
    font = TTFont(letters.ttf_path(bold))
    for number in (1, 3, 4, 6):
        name = font["name"].getDebugName(number)
        assert not any(r in name for r in ("Liberation", "Arimo", "Tinos", "Cousine"))
    assert "Red Hat" in font["name"].getDebugName(0)
    text = (letters.ttf_path().parent / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert "Copyright (c) 2012 Red Hat" in text


def test_signs_of_drawings_are_there():
    signs = "Ø±°½¼¾⅛⅜⅝⅞×–—≤≥≈µ²³″′…ŁżőșΩαЖї"
    assert letters.unknown(signs) == ""
    assert letters.unknown("中文 ok ễ") == "ễ中文"
    assert letters.clean("⌀30\t\u2009x") == "Ø30 \u00a0x"


def test_stand_ins():
    assert letters.stand_in("ễ") == "e"
    assert letters.stand_in("中") is None
    assert letters.width("ễ", 3.5) == letters.width("e", 3.5)
    assert letters.width("中", 3.5) == letters.font_size(3.5)
    assert letters.is_western("Ø30 ½") is True
    assert letters.is_western("Łukasik") is False


@given(st.text(st.characters(exclude_categories=())))
def test_any_text_can_be_set(text):
    words = letters.clean(text)
    assert letters.clean(words) == words
    assert letters.width(text, 3.5) == letters.width(words, 3.5) >= 0
    assert all(letters.stand_in(c) != "" or letters.width(c, 1) == 0 for c in words)
    element = ElementTree.Element("t")
    element.text = words
    assert ElementTree.fromstring(ElementTree.tostring(element, "utf-8")).text == (words or None)
