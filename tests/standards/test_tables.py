"""The tables obey their own rules, and the rules can fail.

Outside checks: the formulas of ASME B1.1, ISO 724, ISO 228-1 and ASME B1.20.1, as published; the
printed figures beside them are from memory of the common tables and say so.
"""

import re
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from drafting.standards.audit import audit
from drafting.standards.table import DATA, lookup, names, table

NAMES = names()


@pytest.mark.parametrize("name", NAMES)
def test_the_table_obeys_its_rules(name):
    assert audit(name) == []


def test_every_csv_has_its_toml_and_the_other_way_round():
    assert {p.stem for p in DATA.glob("*.csv")} == set(NAMES)
    assert len(NAMES) >= 17


UNORDERED = {
    "bore_rod": "pairs of bores and rods of several standards; a rod is below its bore",
    "mounting_codes": "codes have no size",
    "tolerances": "ranges and classes; each is above its lower end",
    "tube_materials": "steels have no size",
    "steels": "steels have no size",
}
"""Tables without one size that rises, and why."""


@pytest.mark.parametrize("name", NAMES)
def test_every_table_of_sizes_says_which_one_rises(name):
    assert bool(table(name).about.get("audit", {}).get("rising")) is (name not in UNORDERED)


@pytest.mark.parametrize("name", [n for n in NAMES if n.startswith(("port_", "thread_"))])
def test_every_table_of_threads_holds_minor_below_pitch_below_major(name):
    """A four-bolt flange has no thread of its own."""
    chains = table(name).about["audit"]["below"]
    middle = [c for c in table(name).columns if "pitch_dia" in c or c == "E0_mm"]
    assert bool(middle) is (name != "port_flange")
    if middle:
        long = [c for c in chains if any(m in c[1:-1] for m in middle)]
        assert any("minor" in c[0] and ("major" in c[-1] or "pipe_od" in c[-1]) for c in long)


# --- the rules can fail --------------------------------------------------------------------------


def spoiled(folder: Path, name: str, suffix: str, old: str, new: str) -> list[str]:
    for end in ("csv", "toml"):
        shutil.copy(DATA / f"{name}.{end}", folder)
    path = folder / f"{name}.{suffix}"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return audit(name, folder)


@pytest.mark.parametrize(
    ("name", "suffix", "old", "new", "told"),
    [
        ("port_sae_j1926", "csv", "0.7500,19.050", "0.7500,19.150", "major is 19.150 mm but"),
        ("port_sae_j1926", "csv", "0.6823,17.331", "0.7100,18.034", "minor_min_mm 18.034 is not"),
        ("port_iso6149", "csv", "M22x1.5,22.000", "M22x1.5,19.000", "falls from 20 to 19"),
        ("port_iso6149", "csv", ",memory,", ",sure,", 'confidence "sure" is no level'),
        ("tube", "csv", "38.1,3.175,44.45", "38.1,3.175,34.45", "is not below od_mm"),
        ("port_bspp", "toml", 'major_mm = "major_mm"', 'major_mm = "major"', "no column ['major']"),
        ("port_bspp", "toml", "minor_mm = ", "minor_thing = ", "no role ['minor_thing']"),
        ("thread_npt", "toml", 'tpi = "tpi"\nflank', 'tpi = "teeth"\nflank', "no column teeth"),
        ("pins", "toml", 'title = "M', 'titel = "M', "title is missing"),
        ("pins", "toml", "split_pin_hole_mm", "hole", "no column hole"),
    ],
)
def test_a_spoiled_table_is_told(tmp_path, name, suffix, old, new, told):
    assert any(told in fault for fault in spoiled(tmp_path, name, suffix, old, new))


def test_a_row_without_source_is_told(tmp_path):
    source = "common practice; recalled,memory"
    assert any("no source" in f for f in spoiled(tmp_path, "pins", "csv", source, ",memory"))


def test_words_in_a_number_column_are_told_with_their_line(tmp_path):
    with pytest.raises(ValueError, match=r"tube\.csv:2: .*thick"):
        spoiled(tmp_path, "tube", "csv", "38.1,3.175", "38.1,thick")


# --- against the standards' formulas -------------------------------------------------------------


def inches(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split()))


def test_unified_and_metric_threads_follow_their_formulas():
    """ASME B1.1 and ISO 724: D2 = D - 0.64952 P, D1 = D - 1.08253 P; d3 by UNR or ISO root."""
    checked = 0
    for row in table("thread_un_metric").rows:
        name = row.word("thread")
        if name.startswith("M"):
            size, pitch = (float(x) for x in name[1:].split("x"))
            root = 1.22687
        else:
            size, tpi = name.split("-")
            size, pitch, root = inches(size) * 25.4, 25.4 / float(tpi), 1.19078
        expected = {
            "major_mm": size,
            "pitch_mm": pitch,
            "pitch_dia_mm": size - 0.64952 * pitch,
            "minor_internal_mm": size - 1.08253 * pitch,
            "minor_external_mm": size - root * pitch,
        }
        for column, value in expected.items():
            assert row.required(column) == pytest.approx(value, abs=0.0012), (name, column)
            checked += 1
    assert checked > 600


def test_pipe_threads_parallel_follow_iso_228():
    """ISO 228-1: P = 25.4 / tpi, h = 0.640327 P, D2 = D - h, D1 = D - 2 h."""
    for row in table("port_bspp").rows:
        height = 0.640327 * 25.4 / row.required("tpi")
        major = row.required("major_mm")
        assert row.required("pitch_dia_mm") == pytest.approx(major - height, abs=0.0015)
        assert row.required("minor_min_mm") == pytest.approx(major - 2 * height, abs=0.0015)


def test_pipe_threads_taper_follow_asme_b1_20_1():
    """ASME B1.20.1: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1 / 16, L2 = (0.80 D + 6.8) p."""
    for row in table("thread_npt").rows:
        d, p = row.required("pipe_od_D_in"), 1 / row.required("tpi")
        e0 = d - (0.05 * d + 1.1) * p
        assert row.required("E0_in") == pytest.approx(e0, abs=0.00002)
        assert row.required("E1_in") == pytest.approx(e0 + row.required("L1_in") / 16, abs=0.00003)
        assert row.required("L2_in") == pytest.approx((0.80 * d + 6.8) * p, abs=0.0001)


@pytest.mark.parametrize(
    ("name", "thread", "column", "printed"),
    [  # printed in the usual tables of the standard; from memory
        ("thread_un_metric", "3/4-16", "minor_internal_in", 0.682),
        ("thread_un_metric", "3/4-16", "minor_internal_max_in", 0.696),
        ("thread_un_metric", "1/2-13", "minor_internal_in", 0.417),
        ("thread_un_metric", "1-8", "pitch_dia_in", 0.9188),
        ("thread_un_metric", "M22x1.5", "pitch_dia_mm", 21.026),
        ("thread_un_metric", "M22x1.5", "minor_internal_mm", 20.376),
        ("port_bspp", "G1/2", "major_mm", 20.955),
        ("port_bspp", "G1", "minor_min_mm", 30.291),
        ("port_iso6149", "M27x2", "minor_min_mm", 24.835),
    ],
)
def test_printed_figures(name, thread, column, printed):
    (row,) = table(name).where(thread=thread)
    assert row.required(column) == pytest.approx(printed, abs=0.0012)


def test_dash_size_is_the_tube_in_sixteenths():
    """Common practice: SAE dash n is a tube of n/16 in; 3/4-16 is SAE-8, 7/8-14 SAE-10."""
    for name in ("port_sae_j1926", "fitting_37deg"):
        for row in table(name).rows:
            tube = -row.required("dash") / 16
            assert row.required("tube_od_in") == pytest.approx(tube, abs=0.0001), row.where
    threads = {r.word("dash"): r.word("thread") for r in table("port_sae_j1926").rows}
    assert (threads["-8"], threads["-10"], threads["-12"]) == ("3/4-16", "7/8-14", "1 1/16-12")


def test_flange_spacings_agree_in_both_units():
    """SAE J518 gives inches, ISO 6162 mm; the ISO tolerance of 0.25 mm holds both."""
    for row in table("port_flange").rows:
        for stem in ("bolt_spacing_long", "bolt_spacing_short"):
            mm, inch = row.length(f"{stem}_mm"), row.length(f"{stem}_in")
            assert abs(mm - inch) < 0.25, row.where


# --- looking up -----------------------------------------------------------------------------------


def test_lookup_takes_either_unit_within_a_fiftieth():
    rows = table("tube").rows
    assert {r.required("id_in") for r in lookup(rows, "id", 88.9)} == {3.5}
    assert lookup(rows, "id", 88.9 + 0.019) == lookup(rows, "id", 88.9)
    assert lookup(rows, "id", 88.9 + 0.021) == ()


def test_a_hole_is_none_and_never_zero():
    (row,) = table("port_iso6149").where(thread="M20x1.5")
    assert row.number("tap_drill_depth_min_mm") is None
    with pytest.raises(LookupError, match=r"port_iso6149\.csv:8"):
        row.required("tap_drill_depth_min_mm")
    with pytest.raises(TypeError, match="words"):
        row.number("seat_dia_tol_mm")


def test_sources_page_names_every_table():
    page = (DATA / "SOURCES.md").read_text(encoding="utf-8")
    assert [n for n in NAMES if not re.search(rf"\b{n}\b", page)] == []
