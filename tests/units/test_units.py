"""Reading and printing quantities.

Sources: every factor against pint (its own unit registry); the forms of a length against the list
in the spec format; decimals of an inch drawing without a leading zero, ASME Y14.5 (from memory).
"""

import contextlib
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.factors import INCH, KINDS, Misread
from drafting.units import (
    both,
    dual,
    format_inch,
    format_mm,
    mixed,
    read_length,
    read_quantity,
    spell,
)

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)
PINT_SPELLING = {
    '"': "inch",
    "'": "foot",
    "psig": "psi",
    "barg": "bar",
    "lbf/in2": "lbf/in**2",
    "N/mm2": "N/mm**2",
    "kgf/cm2": "kgf/cm**2",
    "kg/cm2": "kgf/cm**2",
    "gpm": "gallon/min",
    "gal/min": "gallon/min",
    "US gal/min": "gallon/min",
    "US gpm": "gallon/min",
    "gallons/min": "gallon/min",
    "UK gal/min": "imperial_gallon/min",
    "imperial gal/min": "imperial_gallon/min",
    "UK gpm": "imperial_gallon/min",
    "lpm": "L/min",
    "m3/h": "m**3/hour",
    "cm3/s": "cm**3/s",
    "cc/s": "cm**3/s",
    "cm3/min": "cm**3/min",
    "cc/min": "cm**3/min",
    "in3/s": "inch**3/s",
    "in3/min": "inch**3/min",
    "kips": "kip",
    "kipf": "kip",
    "kp": "kgf",
    "short tonf": "2000 * lbf",
    "US tonf": "2000 * lbf",
    "short tons-force": "2000 * lbf",
    "long tonf": "2240 * lbf",
    "UK tonf": "2240 * lbf",
    "long tons-force": "2240 * lbf",
    "metric tonf": "1000 * kgf",
    "tonnes-force": "1000 * kgf",
    "lbs": "pound",
    "lbm": "pound",
    "short ton": "short_ton",
    "short tons": "short_ton",
    "US ton": "US_ton",
    "US tons": "US_ton",
    "long ton": "long_ton",
    "long tons": "long_ton",
    "UK ton": "UK_ton",
    "UK tons": "UK_ton",
    "metric ton": "metric_ton",
    "metric tons": "metric_ton",
    "tonnes": "tonne",
}
ALL_UNITS = [(kind, word) for kind, k in KINDS.items() for word in k.factors]


@pytest.mark.parametrize(("kind", "word"), ALL_UNITS)
def test_factor_against_pint(kind: str, word: str) -> None:
    k = KINDS[kind]
    if k.shifts:
        name = {"degC": "degC", "C": "degC", "degF": "degF", "F": "degF"}.get(word, "kelvin")
        for degrees in (100, 180, 350):
            theirs = REGISTRY.Quantity(Fraction(degrees), name).to("degC").magnitude
            ours = read_quantity(f"{degrees} {word}", kind, signed=True)
            assert float(ours) == pytest.approx(float(theirs), abs=1e-9)
        assert read_quantity("-40 degF", kind, signed=True) == -40
        return
    if kind == "angle":
        assert k.factors[word] == 1
        return
    spelling = PINT_SPELLING.get(word, word)
    if kind == "acceleration":
        spelling = "standard_gravity" if word == "g" else word.replace("s2", "s**2")
    theirs = REGISTRY.Quantity(Fraction(1), "dimensionless") * REGISTRY(spelling)
    assert k.factors[word] == pytest.approx(Fraction(theirs.to(k.pint).magnitude), rel=1e-12)


def test_the_trap_in_the_other_library() -> None:
    """Why lengths are read here: pint reads a mixed number as its fraction plus half an inch."""
    assert REGISTRY.Quantity("3 1/2 in").to("inch").magnitude == Fraction(3, 2)
    assert read_length("3 1/2 in") == Fraction(7, 2) * INCH


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3.5", "7/2"),
        ("3 1/2", "7/2"),
        ("3-1/2 in", "7/2"),
        ("3 - 1/2 in", "7/2"),
        ('3 1/2"', "7/2"),
        ("3 1⁄2″", "7/2"),
        ('3½"', "7/2"),
        ("3-½ in", "7/2"),
        ("½ in", "1/2"),
        (".5 in", "1/2"),
        ("1''", "1"),
        ("2 ft 3 1/4 in", "109/4"),
        ("2'-3 1/4\"", "109/4"),
        ("2' - 3 1/4\"", "109/4"),
        ("2′3″", "27"),
        ("5 ft 3 in", "63"),
        ("2 ft", "24"),
        ("2'", "24"),
        ("14 1/4 in", "57/4"),
        ("3 1/2 inch", "7/2"),
        ("1 5/8", "13/8"),
        ("7/8", "7/8"),
        ("0.98 in", "98/100"),
        ("3\u00a01/2 in.", "7/2"),
        ("3–1/2 IN", "7/2"),
    ],
)
def test_lengths_in_inches(text: str, inches: str) -> None:
    assert read_length(text, "in") == Fraction(inches) * INCH


@pytest.mark.parametrize(
    ("text", "mm"),
    [("88.9 mm", "88.9"), ("60mm", "60"), ("6 cm", "60"), ("1.2 m", "1200"), ("60", "60")],
)
def test_lengths_in_millimetres(text: str, mm: str) -> None:
    assert read_length(text, "mm") == Fraction(mm)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("3,5 mm", "decimal-comma"),
        ("-3", "signed"),
        ("+3 in", "signed"),
        ("1e3", "exponent"),
        ("3 5/4", "fraction-too-large"),
        ("3 4/4 in", "fraction-too-large"),
        ("1/0", "zero-below"),
        ("3 in 5 mm", "two-units"),
        ("3 in mm", "two-units"),
        ("3 5", "two-units"),
        ("1/2/3", "two-units"),
        ("3 -1/2", "two-units"),
        ("2 ft 5 mm", "two-units"),
        ("2'-3", "needs-unit"),
        ("2 ft 12 in", "out-of-range"),
        ("", "empty"),
        ("   ", "empty"),
        ("nan", "not-a-length"),
        ("inf mm", "not-a-length"),
        ("long", "not-a-length"),
        ("2.5 ft 3 in", "not-a-length"),
        ("12 psi", "not-a-length"),
        ("3 hours", "not-a-length"),
        ("3 blorp", "unknown-unit"),
        ("3 m/", "unknown-unit"),
        ("3 dm/", "unknown-unit"),
        ("3 mm2", "unknown-unit"),
        ("9" * 100, "not-a-number"),
        ("999999 in", "out-of-range"),
        ("٣ mm", "not-a-length"),
    ],
)
def test_refused_lengths(text: str, code: str) -> None:
    with pytest.raises(Misread) as caught:
        read_length(text, "in")
    assert caught.value.code == code


def test_a_bare_number_needs_a_unit_from_the_file() -> None:
    with pytest.raises(Misread) as caught:
        read_length("3.5")
    assert "3 1/2 in" in str(caught.value)
    assert "88.9 mm" in str(caught.value)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("2500 psi", "pressure", 17.2368932329209),  # NIST SP 811: 1 psi = 6.894757 kPa
        ("172bar", "pressure", 17.2),
        ("25 Mpa", "pressure", 25.0),
        ("1 inHg", "pressure", 0.00338638864),  # by pint; NIST SP 811: 3.386389 kPa
        ("11 gal/min", "flow", 0.6939921604),  # 231 in3 a gallon
        ("42 l/min", "flow", 0.7),
        ("18000 lbf", "force", 80067.989),
        ("9 short tonf", "force", 80067.989),
        ("9 metric tonf", "force", 88259.85),
        ("1.5 metric tons", "mass", 1500.0),
        ("180 degF", "temperature", 82.2222222222),
        ("-20 °C", "temperature", -20.0),
        ("45°", "angle", 45.0),
        ("3/4 kN", "force", 750.0),
    ],
)
def test_other_quantities(text: str, kind: str, value: float) -> None:
    assert float(read_quantity(text, kind, signed=True)) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "kind", "code"),
    [
        ("2500", "pressure", "needs-unit"),
        ("25 mPa", "pressure", "ambiguous-unit"),
        ("11 gal", "flow", "not-a-flow"),
        ("9 tonf", "force", "ambiguous-unit"),
        ("9 Tons", "force", "ambiguous-unit"),
        ("6000 lb", "force", "not-a-force"),
        ("3 ton", "mass", "ambiguous-unit"),
        ("30 kN", "mass", "not-a-mass"),
        ("2,500 psi", "pressure", "decimal-comma"),
        ("-300 degC", "temperature", "out-of-range"),
        ("5 degK", "temperature", "unknown-unit"),
        ("30 psi", "angle", "not-an-angle"),
    ],
)
def test_other_quantities_refused(text: str, kind: str, code: str) -> None:
    with pytest.raises(Misread) as caught:
        read_quantity(text, kind, signed=True)
    assert caught.value.code == code


def test_a_bare_tonf_is_told_with_all_three() -> None:
    with pytest.raises(Misread, match=r"short tonf.*2000 lbf.*long tonf.*metric tonf"):
        read_quantity("9 tonf", "force")


def test_every_64th_up_to_20_inches_round_trips() -> None:
    for n in range(20 * 64 + 1):
        size = Fraction(n, 64)
        text = format_inch(float(size * INCH), fractions=64)
        assert Fraction(read_length(text, "in")) == size * INCH
        assert text == mixed(size)
        assert read_length(spell(float(size * INCH), "length", "in"), "in") == size * INCH


@pytest.mark.parametrize(
    ("value", "fractions", "text"),
    [
        (88.9, 16, "3 1/2"),
        (88.9, 0, "3.5"),
        (12.7, 16, "1/2"),
        (12.7, 0, ".5"),
        (406.4, 16, "16"),
        (32.1564, 16, "1.266"),
        (25.0, 64, ".984"),  # 63/64 in is 25.003 mm: near is not exact
        (1.5875, 0, ".0625"),
        (0.0, 16, "0"),
        (-38.1, 16, "-1 1/2"),
        (19.84375, 16, ".781"),
        (19.84375, 32, "25/32"),
    ],
)
def test_inches_as_printed(value: float, fractions: int, text: str) -> None:
    assert format_inch(value, fractions) == text


def test_typed_places_are_kept() -> None:
    assert format_inch(19.05, places=3) == ".750"
    assert format_mm(60.0, places=1) == "60.0"


@pytest.mark.parametrize(
    ("value", "text"),
    [(60.0, "60"), (88.9, "88.9"), (3.175, "3.175"), (1.5875, "1.59"), (0.5, "0.5"), (-2.0, "-2")],
)
def test_millimetres_as_printed(value: float, text: str) -> None:
    assert format_mm(value) == text


def test_dual_dimensions() -> None:
    assert dual(88.9, "in [mm]") == ("3 1/2", "88.9")
    assert dual(88.9, "mm [in]", 0) == ("88.9", "3.5")
    assert dual(88.9, "in") == ("3 1/2", None)
    assert dual(88.9, "mm") == ("88.9", None)
    assert both(692.15, "in") == "27 1/4 in (692.15 mm)"
    assert both(60.0, "mm") == "60 mm (2.362 in)"


@settings(deadline=None)
@given(st.floats(1e-3, 1e5), st.sampled_from(["in", "mm"]))
def test_spelled_lengths_read_back_exactly(value: float, units: str) -> None:
    assert float(read_length(spell(value, "length", units), units)) == value


@settings(deadline=None)
@given(
    st.sampled_from(["pressure", "flow", "force", "mass", "temperature", "angle"]),
    st.floats(1e-2, 1e3),
    st.sampled_from(["in", "mm"]),
)
def test_spelled_quantities_read_back_exactly(kind: str, value: float, units: str) -> None:
    assert float(read_quantity(spell(value, kind, units), kind, signed=True)) == value


@settings(deadline=None)
@given(st.text(max_size=30) | st.text(st.sampled_from("0123456789 ./-'\"infmt½″"), max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    value = None
    with contextlib.suppress(Misread):
        value = read_length(text, "in")
    assert value is None or value >= 0
