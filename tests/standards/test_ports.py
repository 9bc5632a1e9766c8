"""Port words: what is taken, what is refused and with which words, and a standard of one's own.

Source of the checks: common practice of the trade (3/4-16 is SAE-8; 1/2 BSP may be G or Rc; a
bare dash or thread does not name a port), and the format of the spec file for what is refused.
"""

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.standards.ports import PortWordError, parse_port, ports


@pytest.mark.parametrize(
    ("text", "spelling"),
    [
        *((t, "3/4-16 UNF ORB") for t in (
            "SAE-8", "sae 8", "SAE8", "SAE #8", "#8 SAE", "-8 ORB", "#8 ORB", "SAE-8 ORB",
            "3/4-16 UNF ORB", "3/4-16 ORB", "3/4-16 unf-2b o-ring boss", "3/4 - 16 UNF ORB",
            "SAE-8 (3/4-16 UNF)", "SAE 8 3/4-16", "ISO 11926-1 3/4-16", "SAE J1926 3/4-16 UNF",
            "¾-16 UNF ORB", "3/4–16 UNF ORB", '3/4"-16 UNF ORB', "  SAE-8  ", "SAE-08",
        )),
        *((t, "1 1/16-12 UN ORB") for t in (
            "SAE-12", "1 1/16-12 UN ORB", "1-1/16-12 UNF ORB", "1 1/16 - 12 ORB",
        )),
        *((t, "1/2 NPT") for t in (
            "1/2 NPT", "1/2npt", "NPT 1/2", "½ NPT", '1/2" NPT', "1/2 in. NPT", "1/2-14 NPT",
            "0.5 NPT", "1/2 FNPT",
        )),
        *((t, "1 1/2 NPT") for t in ("1 1/2 NPT", "1-1/2 npt", "1½ NPT", "1 1/2-11.5 NPT")),
        ("1-11 1/2 NPT", "1 NPT"),
        ("1/2 NPTF", "1/2 NPTF"),
        *((t, "G 1/2") for t in (
            "G 1/2", "G1/2", "g ½", "BSPP 1/2", "1/2 BSPP", "1/2-14 BSPP", "G 1/2 ISO 1179-1",
        )),
        ("G1 1/4", "G 1 1/4"),
        ("G 1/2 DIN 3852-2", "G 1/2 DIN 3852-2"),
        *((t, "Rc 1/2") for t in ("Rc 1/2", "rc1/2", "1/2 BSPT")),
        *((t, "M22x1.5 ISO 6149") for t in (
            "M22x1.5 ISO 6149", "M22 x 1.5 ISO 6149-1", "m22×1,5 iso6149", "ISO 6149-1 M22x1.5",
            "M22 ISO 6149",
        )),
        ("M27x2.0 ISO 6149", "M27x2 ISO 6149"),
        *((t, "flange 3/4 code 61") for t in (
            "flange 3/4 code 61", "3/4 CODE 61 flange", "flange code 61 -12", "ISO 6162-1 DN19",
            "3/4 code 61", "SAE flange 3/4 code 61",
        )),
        ("flange 1-1/4 code 62", "flange 1 1/4 code 62"),
    ],
)  # fmt: skip
def test_usual_spellings_are_taken(text, spelling):
    assert parse_port(text).spelling == spelling


@pytest.mark.parametrize("port", ports(), ids=lambda p: p.spelling)
def test_every_row_is_reached_by_its_own_spelling_and_echo_head(port):
    assert parse_port(port.spelling) == port
    assert parse_port(port.spelling.lower()) == port
    assert parse_port(port.echo.split(":")[0]) == port


def test_the_accepted_word_is_echoed_in_full():
    """The spec format prints this line."""
    echo = "SAE-8: 3/4-16 UNF-2B O-ring boss, SAE J1926-1, 1/2 in tube"
    assert parse_port("SAE-8").echo == echo


@pytest.mark.parametrize(
    ("text", "code", "told"),
    [
        ("3/4 ORB", "port-two-meanings", ("3/4-16 UNF ORB", "the thread", "SAE-12", "tube")),
        ("3/4-16", "port-two-meanings", ("3/4-16 UNF ORB", "37 deg flare")),
        ("3/4-16 UNF", "port-two-meanings", ("3/4-16 UNF ORB", "37 deg flare")),
        ("1/2 BSP", "port-two-meanings", ('"G 1/2"', '"Rc 1/2"')),
        ("R 1/2", "port-two-meanings", ('"G 1/2"', '"Rc 1/2"')),
        ("-8", "port-two-meanings", ("SAE-8", "flange 1/2 code 61", "flare fitting -8")),
        ("M22x1.5", "port-two-meanings", ("M22x1.5 ISO 6149", "DIN 3852-1")),
        ("flange 3/4", "port-two-meanings", ("code 61", "code 62")),
        ("1/2", "port-two-meanings", ("1/2 NPT", "G 1/2", "Rc 1/2", "1/2-20 UNF ORB")),
        ("2 ORB", "port-two-meanings", ("SAE-32", "SAE-2")),
        ("8 ORB", "port-incomplete", ("SAE-8",)),
        ("3/8-18", "port-incomplete", ('"3/8 NPT"',)),
        ("SAE-7", "port-size", ("SAE-6", "SAE-8")),
        ("5/8 NPT", "port-size", ("1/2 NPT", "3/4 NPT")),
        ("G 7/8", "port-size", ("G 3/4", "G 1")),
        ("M24x1.5 ISO 6149", "port-size", ("M22x1.5", "M27x2")),
        ("M22x2 ISO 6149", "port-size", ("that size there is", "M22x1.5")),
        ("3/4-14 ORB", "port-size", ("that size there is", "3/4-16")),
        ("flange 3/4 code 63", "port-size", ("61 and 62",)),
        ("SAE-99", "port-size", ("SAE-32",)),
        ("JIC-8", "port-unknown", ("37 deg flare", "SAE-8")),
        ("1/0 NPT", "port-unknown", ("write for example",)),
        ("hello", "port-unknown", ("1/2", "NPT", "flange")),
        ("", "port-unknown", ("write for example",)),
        ("SAE-8 G 1/2", "port-unknown", ("write for example",)),
    ],
)  # fmt: skip
def test_words_that_do_not_decide_are_refused_with_their_readings(text, code, told):
    with pytest.raises(PortWordError) as refused:
        parse_port(text)
    assert refused.value.code == code
    assert [t for t in told if t not in refused.value.message] == []
    assert isinstance(refused.value, ValueError)


def test_what_a_refusal_offers_is_accepted():
    for text in ("3/4 ORB", "1/2 BSP", "-8", "1/2", "SAE-7", "G 7/8", "flange 3/4", "hello"):
        with pytest.raises(PortWordError) as refused:
            parse_port(text)
        offered = refused.value.message.split('"')[3::2]
        assert offered
        for word in offered:
            parse_port(word)


def judged(text: str) -> str:
    """The echo of a port, or the words of its refusal; anything else is an error."""
    try:
        return parse_port(text).echo
    except PortWordError as refused:
        return refused.message


@given(st.text(max_size=90))
def test_any_text_is_taken_or_refused_in_words(text):
    assert judged(text)


@given(st.text(alphabet="0123456789/-#. xMGRcNPTBSAEO", max_size=12))
def test_port_like_text_is_taken_or_refused_in_words(text):
    assert judged(text)


# --- sizes by role ------------------------------------------------------------


def test_sizes_come_by_role():
    sae = parse_port("SAE-8")
    assert sae.major_mm == 19.05
    assert sae.dash == "-8"
    assert sae.tube == "1/2 in"
    assert sae.spotface_dia_mm == 30.0
    assert sae.sizes.seat_half_angle_deg == 15
    assert sae.minor_mm == pytest.approx(17.4625)  # 11/16 drill, common practice
    assert sae.holes == ()
    assert not sae.is_flange


def test_what_a_standard_leaves_open_stays_open_and_is_said():
    npt = parse_port("3/4 NPT")
    assert npt.sizes.thread_depth_mm is None
    assert npt.holes == ("thread_depth_mm", "drill_depth_mm")
    assert "THREAD DEPTH: BY BUILDER" in npt.callout
    assert npt.thread_depth_mm == pytest.approx(13.861, abs=0.002)  # L2 of ASME B1.20.1
    m20 = parse_port("M20x1.5 ISO 6149")
    assert "TAP DRILL DEPTH: BY BUILDER" in m20.callout
    assert "BUILDER" not in " ".join(parse_port("M22x1.5 ISO 6149").callout)


def test_flange_has_its_bolt_pattern():
    flange = parse_port("flange 1 code 61").flange
    assert (flange.long_mm, flange.short_mm) == (52.4, 26.2)  # 2.062 x 1.031 in, SAE J518
    assert flange.bolts == ("M10x1.5", "3/8-16")
    assert flange.bolt_mm == 10
    odd = parse_port("flange 1 1/4 code 62")
    assert odd.flange.bolts == ("1/2-13",)
    assert odd.flange.bolt_mm == 12.7
    assert "bolt_metric" in odd.holes


# --- one's own standard ------------------------------------------------------------

CSV = """size,outside_mm,drilled_mm,deep_mm,pitch_mm,confidence,source
10,10.0,8.5,12,1.5,memory,made up for this test
20,20.0,18.5,,1.5,memory,made up for this test
"""
TOML = """title = "Mill ports"
standard = "Mill 7"
edition = "none"
status = "made up"
words = ["size"]

[[port]]
family = "Mill"
kind = "mill port"
standard = "Mill 7"
key = "size"
spelling = "Q{size}"
echo = "Q{size}: mill port {size}, Mill 7"
callout = ["Q{size}"]
match = ["Q ?{size}", "MILL<sep>{size}"]
partial = [{ match = "{size}" }]

[port.parts]
sep = "[ -]?"

[port.roles]
major_mm = "outside_mm"
minor_mm = "drilled_mm"
thread_depth_mm = "deep_mm"
spotface_dia_mm = ""
"""


def test_a_new_standard_is_one_pair_of_files(tmp_path):
    (tmp_path / "port_mill.csv").write_text(CSV, encoding="utf-8")
    (tmp_path / "port_mill.toml").write_text(TOML, encoding="utf-8")
    port = parse_port("mill-20", tmp_path)
    assert (port.spelling, port.major_mm, port.minor_mm) == ("Q20", 20.0, 18.5)
    assert port.holes == ("thread_depth_mm", "spotface_dia_mm")
    assert "THREAD DEPTH: BY BUILDER" in port.callout
    with pytest.raises(PortWordError, match=r"Q10.*Q20"):
        parse_port("Q15", tmp_path)
    with pytest.raises(PortWordError, match="leaves something open"):
        parse_port("20", tmp_path)
    with pytest.raises(PortWordError):
        parse_port("SAE-8", tmp_path)


def test_reading_a_port_loads_nothing_heavy():
    code = (
        "import sys; from drafting.standards.ports import parse_port; parse_port('SAE-8');"
        "print([m for m in ('numpy','pint','pydantic','ezdxf','OCP') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
