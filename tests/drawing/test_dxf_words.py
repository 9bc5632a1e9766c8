"""Texts in the spelling of DXF, and the printed number tied to the measured one.

Sources: group code 1, DIMZIN and DIMDEC of the public DXF reference, from memory; ``%%c`` and
``<>`` as the readers that were tried draw them.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.write.dxf.words import (
    FRACTIONAL,
    LEADING,
    TRAILING,
    Form,
    common_form,
    formatted,
    own_form,
    plain,
    revision_in_words,
    shown,
    tied,
)


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Ø30", "%%c30"),
        ("Ø .750", "%%c .750"),
        ("⌀30", "%%c30"),
        ("Østervold", "Østervold"),
        ("5° ±0.1", "5° ±0.1"),
        ("100%%c", "100% %c"),
        ("^J", "^ J"),
        ("3′ – 2″", "3' - 2\""),
        ("a\nb", "a b"),
    ],
)
def test_plain(text, written):
    assert plain(text) == written


def test_formatted_keeps_braces_and_backslashes():
    assert formatted("{a} \\P") == "\\{a\\} \\\\P"


@pytest.mark.parametrize(
    ("value", "decimals", "zeros", "text"),
    [
        (600, 2, TRAILING, "600"),
        (31.75, 2, TRAILING, "31.75"),
        (0.75, 3, LEADING, ".750"),
        (1.25, 3, 0, "1.250"),
        (100, 0, TRAILING, "100"),
    ],
)
def test_shown(value, decimals, zeros, text):
    assert shown(value, Form(decimals, zeros)) == text


@pytest.mark.parametrize(
    ("text", "value", "decimals", "out"),
    [
        ("600", 600, 2, "<>"),
        ("Ø31.75 H9", 31.75, 2, "%%c<> H9"),
        ("(8.5)", 8.5, 2, "(<>)"),
        ("2x 40", 40, 2, "2x <>"),
        ("M24x2", 24, 2, None),
        ("24 1/8 (24.125)", 24.125, 3, "24 1/8 (<>)"),
        ("24 1/8", 24.125, 0, None),
        ("24½", 24.5, 0, None),
        ("601", 600, 2, None),
        ("60.0", 60, 2, None),
        ("0.12", 0.125, 2, None),  # a half: programs differ in how they round it
    ],
)
def test_tied(text, value, decimals, out):
    assert tied(text, value, Form(decimals, TRAILING)) == out


@given(st.floats(0.001, 5000), st.integers(0, 4), st.sampled_from([0, 4, 8, 12]))
def test_a_tied_text_prints_the_same_again(value, decimals, zeros):
    form = Form(decimals, zeros)
    text = f"Ø{shown(value, form)} x"
    written = tied(text, value, form)
    if written is None:
        assert abs(value * 10**decimals % 1 - 0.5) < 0.01
    else:
        assert written.replace("<>", shown(value, form)) == plain(text)
    own = own_form(text, value)
    if own is not None:  # none for a number whose last zeros were cut
        assert shown(value, own) in text


def test_the_common_form_ties_the_most():
    labels = [("600", 600.0), ("31.75", 31.75), ("42.5", 42.5)]
    assert common_form(labels) == Form(2, TRAILING)
    assert common_form([(".750", 0.75), ("1.250", 1.25)]) == Form(3, LEADING)
    assert common_form([]) == Form(0, 0)


def test_a_revision_mark_is_written_so_that_stroke_fonts_have_it():
    assert revision_in_words("27 1/4 ΔB") == "27 1/4 REV B"
    assert revision_in_words("(Ø40) ΔA2") == "(Ø40) REV A2"
    assert revision_in_words("held at Δp = 5") == "held at Δp = 5"


@pytest.mark.parametrize(
    ("value", "text"),
    [(15.5, "15 1/2"), (0.75, "3/4"), (3.0, "3"), (1 / 64, "1/64"), (2.1, "2 3/32")],
)
def test_fractional_units_print_the_nearest_of_the_finest(value, text):
    """DIMLUNIT 5 with DIMFRAC 2; LibreCAD was seen to print 15 1/2, 27 1/4 and 3 3/16 so."""
    assert shown(value, Form(6, 0, FRACTIONAL)) == text


@pytest.mark.parametrize(
    ("text", "value", "written"),
    [
        ("Ø4 1/4", 4.25, "%%c<>"),
        ("(43 1/4)", 43.25, "(<>)"),
        ("3/4 GRIP", 0.75, "<> GRIP"),
        ("16", 16.0, "<>"),
        ("1.266", 1.266, None),
        (".906", 0.90625, None),
        ("2 3/32", 2.1, None),
        ("24 1/8", 24.0, None),
        ("4 1/4-12 UNF", 4.25, None),
    ],
)
def test_a_fraction_is_tied_where_it_is_exact(text, value, written):
    assert tied(text, value, Form(6, 0, FRACTIONAL)) == written


def test_a_sheet_of_fractions_takes_fractional_units():
    found = common_form([("15 1/2", 15.5), ("3/4", 0.75), ("1.266", 1.266)])
    assert found.units == FRACTIONAL
    assert found.variables["dimfrac"] == 2
    assert common_form([("15.5", 15.5), ("3", 3.0)]).units == 2
