"""Steels by the words of a spec; strengths as ASTM, EN and handbooks have them (from memory)."""

import pytest

from drafting.checks.steels import steel


@pytest.mark.parametrize(
    ("part", "words", "strength", "tensile"),
    [
        ("tube", "E355 +SR", 450, 580),
        ("tube", "E355, honed", 355, 490),
        ("tube", "E355 SR or E355 N", 355, 490),
        ("tube", "1026 DOM as drawn", 483, 552),
        ("mount", "S355J2+N", 335, 470),
        ("mount", "A36 or S355", 250, 400),
        ("pin", "4140 heat treated", 655, 758),
        ("pin", "42CrMo4 +QT", 650, 900),
        ("pin", "1018 or 1045 cold drawn", 370, 440),
        ("pin", "C45E", 340, 540),
        ("rod", "1045 chrome plated, induction hardened", 517, 655),
        ("bolt", "10.9", 940, 1040),
        ("bolt", "grade 8", 896, 1034),
        ("weld", "E70", 393, 482),
        ("gland", "ductile iron", 310, 448),
        ("rod", "600 MPa", 600, 600),
        ("pin", "1040 cold drawn", 490, 590),
        ("pin", "1040 hot rolled", 290, 520),
        ("rod", "bar of 1050", 340, 620),
    ],
)
def test_by_name(part, words, strength, tensile):
    found = steel("f", part, words)
    assert found.typed
    assert found.strength == (strength, strength)
    assert found.tensile == (tensile, tensile)
    assert found.source


@pytest.mark.parametrize(
    "words",
    [
        None,
        "",
        "good steel",
        "4140 not heat treated",
        "no idea",
        "1040 never cold drawn",
        "4140 without heat treated",
    ],
)
def test_what_is_not_known_stays_a_range(words):
    found = steel("f", "pin", words)
    assert not found.typed
    assert found.strength == (220, 655)


def test_beside_a_weld_the_normalised_strength():
    assert steel("f", "tube", "E355 SR").welded == (355, 355)
    assert steel("f", "tube", "1026 DOM as drawn").welded == (240, 240)
    assert steel("f", "tube", "70 ksi").welded == (190, 190)
    assert steel("f", "tube", None).welded == (190, 240)


@pytest.mark.parametrize(
    ("part", "low", "high"),
    [("rod", 310, 689), ("tube", 345, 483), ("mount", 210, 335), ("cap", 200, 335),
     ("pin", 220, 655), ("gland", 200, 530), ("tie rod", 370, 724), ("weld", 345, 393),
     ("bolt", 240, 1100)],
)  # fmt: skip
def test_from_the_weakest_to_the_best_that_is_usual(part, low, high):
    assert steel("f", part, None).strength == (low, high)
