"""Units of the trade, against the factors of NIST SP 811 (appendix B, exact values)."""

import pytest

from drafting.told.readings import plain, reading, retold

LBF, PSI_PA, GALLON, INCH = 4.4482216152605, 6894.757293168361, 3.785411784, 25.4


@pytest.mark.parametrize(
    ("value", "unit", "inch", "metric"),
    [
        (24050 * LBF, "N", "24,050 lbf (107 kN)", "107 kN"),
        (2500 * PSI_PA / 1e6, "MPa", "2,500 psi (172.4 bar)", "172.4 bar"),
        (16.0, "MPa", "2,321 psi (160 bar)", "160 bar"),
        (2 * INCH, "mm", "2 in (50.8 mm)", "50.8 mm"),
        (10 * INCH**2, "mm2", "10 in2 (6452 mm2)", "6452 mm2"),
        (2 * GALLON, "l", "2 gal (7.571 l)", "7.571 l"),
        (11 * GALLON / 60, "l/s", "11 gal/min (41.64 l/min)", "41.64 l/min"),
        (6 * INCH, "mm/s", "6 in/s (152.4 mm/s)", "152.4 mm/s"),
        (10 * 0.7456998715822702, "kW", "10 hp (7.457 kW)", "7.457 kW"),
        (100 * LBF * INCH, "N mm", "100 lbf in (11.3 N m)", "11.3 N m"),
        (3.5, "s", "3.5 s", "3.5 s"),
        (3.617, "", "3.62", "3.62"),
        (0.0, "N", "0 lbf (0 kN)", "0 kN"),
    ],
)
def test_numbers_are_read_as_the_trade_reads_them(value, unit, inch, metric):
    assert reading(value, unit, "in") == inch
    assert reading(value, unit, "mm") == metric


def test_a_line_is_retold_number_by_number():
    said = "load 106992 N, tube 612 mm, at 17.2369 MPa"
    assert retold(said, "in") == (
        "load 24,050 lbf (107 kN), tube 24.09 in (612 mm), at 2,500 psi (172.4 bar)"
    )
    assert retold(said, "mm") == "load 107 kN, tube 612 mm, at 172.4 bar"


def test_a_stress_is_not_read_in_bar():
    assert retold("42 MPa (edge held: 25 MPa)", "mm", stress=True) == "42 MPa (edge held: 25 MPa)"
    assert retold("379 MPa", "in", stress=True) == "54,970 psi (379 MPa)"


@pytest.mark.parametrize("said", ["50 mm (1.969 in)", "tube.csv:13 in row 4", "M18x1.5", "N 40"])
def test_what_has_both_readings_or_is_no_quantity_stays(said):
    assert retold(said, "in") == said


def test_signs_become_words_and_letters_stay():
    assert plain("Ø32 × 45° ≥ 2 mm², “Mühle” – ½") == (
        'dia 32 x 45 deg at least  2 mm2, "Mühle" -  1/2'
    )
