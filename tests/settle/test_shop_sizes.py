"""Shop sizes: 1/16 in or 1 mm, and finer ones where a place has to stay between two others."""

import pytest

from drafting.settle.shop_sizes import neat_within

SIXTEENTH = 25.4 / 16


@pytest.mark.parametrize(
    ("value", "lo", "hi", "units", "wanted"),
    [
        (100.3, 90.0, 110.0, "mm", 100.0),
        (100.3, 100.2, 110.0, "mm", 100.5),
        (100.3, 100.2, 100.4, "mm", 100.25),
        (100.3, 100.28, 100.32, "mm", 100.3),
        (7.4 * SIXTEENTH, 0.0, 20.0, "in", 7 * SIXTEENTH),
        (7.4 * SIXTEENTH, 7.2 * SIXTEENTH, 20.0, "in", 7.5 * SIXTEENTH),
    ],
)
def test_a_place_is_rounded_as_coarsely_as_its_limits_let_it(value, lo, hi, units, wanted):
    assert neat_within(value, lo, hi, units) == pytest.approx(wanted, abs=1e-4)
