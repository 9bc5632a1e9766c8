"""The spec travels in a STEP header byte for byte.

Sources: ISO 10303-21:2016 clause 6.4.3 (string encodings; its examples from memory), and the
ISO 8859-1 shift ``\\S\\``; header strings of at most 256 characters, same standard, clause 8.2.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.solids.carry_step import from_string, spec_from_step, spec_strings, to_string

PLAIN = st.text(st.characters(exclude_categories=["Cs"]), max_size=600)


def step_file(*texts: str) -> bytes:
    inner = ",\n".join(to_string(t) for t in texts)
    return (
        f"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(({inner}),'2;1');\n"
        "FILE_NAME('n','2026-11-25T00:00:00',(''),(''),'','','');\nENDSEC;\n"
    ).encode("ascii")


@pytest.mark.parametrize(
    ("text", "inner"),
    [
        ("see §4.1", r"see \X\A74.1"),
        ("don't", "don''t"),
        ("a\\b", r"a\\b"),
        ("Ω", r"\X2\03A9\X0\ "[:-1]),
        ("閘門", r"\X2\95989580\X0\ "[:-1]),
        ("a\nb", r"a\X\0Ab"),
        ("😀", r"\X4\0001F600\X0\ "[:-1]),
    ],
)
def test_known_encodings(text: str, inner: str) -> None:
    assert to_string(text) == f"'{inner}'"
    assert from_string(inner) == text


def test_reads_what_other_writers_use() -> None:
    assert from_string(r"\S\Drger") == "Ärger"
    assert from_string(r"\PA\Schl\X\FCssel") == "Schlüssel"
    assert from_string("\\X2\\D83DDE00\\X0\\") == "😀"


@given(PLAIN)
def test_any_text_comes_back(text: str) -> None:
    encoded = to_string(text)
    assert from_string(encoded[1:-1]) == text
    assert encoded.isascii()
    assert encoded.isprintable()


@given(PLAIN | st.text("'\\X2S\n\r☃é😀", max_size=900))
def test_any_spec_comes_back_from_the_header(text: str) -> None:
    strings = spec_strings(text)
    assert all(len(s) <= 256 and len(to_string(s)) <= 258 for s in strings)
    assert spec_from_step(step_file("A drawing", *strings, "and more")) == text


def test_a_spec_that_quotes_the_marker_comes_back() -> None:
    text = "# Specification (TOML) in 1 strings:\nSpecification (TOML) in 9 strings:\n"
    assert spec_from_step(step_file(*spec_strings(text))) == text


def test_windows_line_ends_and_byte_order_mark_stay() -> None:
    text = "\ufefftitle = 'x'\r\nbore = \"3 1/2\"\r\n\r\n"
    assert spec_from_step(step_file(*spec_strings(text))) == text


@pytest.mark.parametrize(
    "data", [b"", b"solid x", step_file("no spec"), step_file(*spec_strings("a = 1\n")[:-1])]
)
def test_nothing_where_there_is_none(data: bytes) -> None:
    assert spec_from_step(data) is None


def test_an_apostrophe_before_a_comma_does_not_end_a_string():
    """A reader of the kernel ends a string at an apostrophe before a comma or a bracket."""
    text = "tolerance = {stroke = '+0.3 -0', bore = 'H8'}"
    written = to_string(text)
    assert "''," not in written[:-1]
    assert "'')" not in written
    assert from_string(written[1:-1]) == text
