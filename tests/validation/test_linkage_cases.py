"""Force asked of a cylinder on an arm against worked problems of statics books.

Both are from R. C. Hibbeler, Engineering Mechanics: Statics, as republished with their solutions on
study pages; the book itself was not read. g is 9.81 m/s2 there.
"""

import pytest

from drafting.calc.types import STANDARD_GRAVITY
from drafting.fitting.asked import asked
from drafting.fitting.travel import place
from tests.fitting.machines import hinge

BOOK = 9.81 / STANDARD_GRAVITY


def force(base, rod, loads):
    """What the model asks at the place that is drawn in the book, N."""
    m = hinge(base, rod, 0, 1, loads)
    return asked(m.way, place(m.way, 0.0))


def newton(down, x, y):
    """A force straight down in N, at a point in mm."""
    return f'[[hinge.load]]\nforce = ["0 N", "-{down} N"]\nframe = "ground"\nat = [{x}, {y}]\n'


def test_the_engine_hoist():
    """14th edition, problem 6-81: an engine of 125 kg, 3 m from the boom's pin.

    The cylinder acts 2 m from the pin along 1 across and 3 up: 1226.25 x 3 = F (3/sqrt 10) x 2.
    Printed: 1938.87 N, and 1.94 kN.
    """
    found = force((1000, -3000), (2000, 0), '[[hinge.load]]\nmass = "125 kg"\nat = [3000, 0]\n')
    assert found * BOOK == pytest.approx(1938.87, abs=0.05)


def test_the_crane_boom():
    """SI edition: a boom of 625 N at 1.2 m, 3000 N at 2.7 m; the cylinder leans 40 degrees.

    It acts 0.3 m out and 0.3 m below the boom's pin:
    F cos 40 x 0.3 + F sin 40 x 0.3 = 625 x 1.2 + 3000 x 2.7. Printed: 20.939 kN.
    """
    rod = (300.0, -300.0)
    base = (300.0 - 800.0 * 0.7660444, -300.0 - 800.0 * 0.6427876)
    found = force(base, rod, newton(625, 1200, 0) + newton(3000, 2700, 0))
    assert found == pytest.approx(20_939.0, abs=1.5)
