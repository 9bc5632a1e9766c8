"""Tolerance classes against printed deviations and the formulas of ISO 286-1.

Printed figures: the technical corrigendum ISO 286-2:1988/Cor.1:2006 as published (E8 over 80 to
120: +126; f9 over 250 to 315: -186); the classes of the common fits for 25 and 50 mm are from
memory of printed tables. Formulas: the annex of ISO 286-1, recalled.
"""

from math import sqrt

import pytest

from drafting.standards.fits import fit
from drafting.standards.table import table

ROWS = [r for r in table("iso286").rows if r.required("over_mm") > 0]


@pytest.mark.parametrize(
    ("word", "size", "lower", "upper"),
    [
        ("E8", 100.0, 72, 126),  # corrigendum
        ("f9", 300.0, -186, -56),  # corrigendum
        ("H7", 25.0, 0, 21),
        ("H8", 50.0, 0, 39),
        ("H9", 32.2, 0, 62),
        ("h8", 50.0, -39, 0),
        ("g6", 25.0, -20, -7),
        ("f7", 50.0, -50, -25),
        ("e8", 50.0, -89, -50),
        ("d9", 50.0, -142, -80),
        ("k6", 50.0, 2, 18),
        ("k8", 50.0, 0, 39),
        ("m6", 25.0, 8, 21),
        ("n6", 25.0, 15, 28),
        ("p6", 25.0, 22, 35),
        ("js6", 25.0, -6.5, 6.5),
        ("JS9", 25.0, -26, 26),
        ("G7", 25.0, 7, 28),
        ("K7", 25.0, -15, 6),
        ("K8", 25.0, -23, 10),
        ("M7", 25.0, -21, 0),
        ("M8", 25.0, -29, 4),
        ("N7", 25.0, -28, -7),
        ("N9", 25.0, -52, 0),
        ("P7", 25.0, -35, -14),
        ("P9", 25.0, -74, -22),
        ("M6", 280.0, -41, -9),
        ("H11", 500.0, 0, 400),
    ],
)
def test_printed_deviations(word, size, lower, upper):
    found = fit(word, size)
    assert found is not None
    assert found.lower * 1000 == pytest.approx(lower)
    assert found.upper * 1000 == pytest.approx(upper)


@pytest.mark.parametrize(
    ("word", "size"), [("c11", 25.0), ("H8", 501.0), ("K9", 25.0), ("H4", 25.0), ("x", 25.0)]
)
def test_what_is_not_tabled_stays_open(word, size):
    assert fit(word, size) is None


def mean(row):
    return sqrt(row.required("over_mm") * row.required("incl_mm"))


@pytest.mark.parametrize(
    ("letter", "factor", "power"),
    [("d", -16, 0.44), ("e", -11, 0.41), ("f", -5.5, 0.41), ("g", -2.5, 0.34), ("n", 5, 0.34)],
)
def test_shafts_follow_their_formulas(letter, factor, power):
    """The standard rounds what the formulas give: to a micrometre, larger ones to 5 or 10."""
    for row in ROWS:
        exact = factor * mean(row) ** power
        assert row.required(letter) == pytest.approx(exact, rel=0.025, abs=1.0)


@pytest.mark.parametrize(
    ("grade", "units"),
    [(6, 10), (7, 16), (8, 25), (9, 40), (10, 64), (11, 100), (12, 160), (13, 250), (14, 400)],
)
def test_standard_tolerances_follow_theirs(grade, units):
    """IT6 is 10 i with i = 0.45 D^(1/3) + 0.001 D, rounded; five grades on it is tenfold."""
    for row in ROWS:
        i = 0.45 * mean(row) ** (1 / 3) + 0.001 * mean(row)
        assert row.required(f"it{grade}") == pytest.approx(units * i, rel=0.05, abs=0.7)
