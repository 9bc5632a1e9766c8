"""Which lines of a size run over a part that it does not belong to."""

from itertools import pairwise
from math import cos, pi, sin

import numpy as np
import pytest

from drafting.drawing.dimension.owners import Owners
from drafting.drawing.sheet.clash import segments

RING = [(10 + 2 * cos(k * pi / 4), 5 + 2 * sin(k * pi / 4)) for k in range(9)]
EDGE = [((0.0, 0.0), (20.0, 0.0))]
OWNERS = Owners([("rod_port.boss", [*pairwise(RING)]), ("body_mount.plate", EDGE)])
ENDS = [(10.0, 0.0), (18.0, 0.0)]


def crossed(*line):
    return OWNERS.crossed("body_mount.length", ENDS, np.array([line]))


def test_a_line_beside_the_corners_of_a_ring_crosses_it():
    assert crossed((10.5, 0.0), (10.5, 20.0)) == ["rod_port"]


def test_a_line_through_the_corners_of_a_ring_crosses_it():
    assert crossed((10.0, 0.0), (10.0, 20.0)) == ["rod_port"]


def test_a_line_that_ends_before_a_ring_or_passes_it_does_not():
    assert crossed((10.0, 0.0), (10.0, 2.9)) == []
    assert crossed((12.3, 0.0), (12.3, 20.0)) == []


def test_what_lies_in_a_tube_is_its_own_where_one_side_of_it_is_covered():
    """One edge of the tube is seen; a size of the piston may be led out through it."""
    edge = [((0.0, 25.0), (200.0, 25.0))]
    piston = [((90.0, 5.0), (90.0, 20.0))]
    ends, line = [(90.0, 16.0), (99.0, 16.0)], np.array([((90.0, 16.0), (90.0, 40.0))])
    for name, axis, foreign in (
        ("cylinder.barrel_outside", 0.0, []),
        ("cylinder.barrel_outside", 24.0, ["cylinder.barrel_outside"]),
        ("cylinder.cushion_screw", 0.0, ["cylinder.cushion_screw"]),
    ):
        owners = Owners([(name, edge), ("cylinder.piston", piston)], axis)
        assert owners.crossed("cylinder.piston_length", ends, line) == foreign


@pytest.mark.parametrize("name", ["rod_port.position", "rod_port.outlet_position"])
def test_a_position_is_measured_from_the_mount_on_the_body(name):
    """Its first end may be led out over that mount, its other end may not."""
    owners = Owners([("body_mount.plate", [((-5.0, 40.0), (99.0, 40.0))])])
    ends, out = [(0.0, 0.0), (90.0, 20.0)], 60.0
    lines = np.array([((x, y), (x, out)) for x, y in ends])
    assert owners.hits(name, ends, lines).any(1).tolist() == [False, True]


def test_what_stands_at_the_same_place_has_the_same_position():
    """A cushion screw above a port may stand in the port's extension line, one beside it not."""
    line = np.array([((10.0, 0.0), (10.0, 20.0))])
    other = [((60.0, 5.0), (62.0, 5.0))]
    owners = Owners(
        [("cylinder.cushion_screw", [*pairwise(RING)]), ("cylinder.cushion_screw", other)]
    )
    assert owners.crossed("base_port.position", [(0.0, 0.0), (10.0, 0.0)], line) == []
    for name, foreign in (("base_port.position", []), ("cylinder.piston_length", ["rod_port"])):
        assert OWNERS.crossed(name, [(0.0, 0.0), (10.0, 0.0)], line) == foreign
    beside = np.array([((10.5, 0.0), (10.5, 20.0))])
    assert OWNERS.crossed("base_port.position", [(0.0, 0.0), (10.5, 0.0)], beside) == ["rod_port"]


@pytest.mark.parametrize(
    ("upper", "lower", "crossed"),
    [
        ((84.0, 96.0), "rod_port.boss", ["extra_port[1]"]),
        ((84.0, 96.0), "cylinder.cushion_screw", ["extra_port[1]"]),
        ((50.0, 60.0), "rod_port.boss", ["rod_port"]),  # above it is free
    ],
)
def test_between_two_fittings_a_size_within_passes_the_lower_one(upper, lower, crossed):
    above = [((upper[0], 30.0), (upper[1], 30.0))]
    below = [((80.0, -30.0), (99.0, -30.0)), ((20.0, -30.0), (22.0, -30.0))]
    owners = Owners([(lower, below), ("extra_port[1].boss", above)])
    ends = [(88.0, 20.0), (300.0, 20.0)]
    ways = np.array([((88.0, 20.0), (88.0, out)) for out in (50.0, -50.0)])
    assert owners.crossed("cylinder.gland_length", ends, ways) == crossed


def _square(x0, y0, x1, y1):
    ring = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
    return [*pairwise(ring)]


NUTS = [_square(50.0, 12.0, 54.0, 20.0), _square(50.0, -20.0, 54.0, -12.0)]
"""Two nuts, one above the axis and one below, that make one part."""


@pytest.mark.parametrize(
    ("end", "to", "crossed"),
    [
        ((49.0, 15.0), (90.0, 15.0), ["cylinder.nut"]),  # level, through one of them
        ((49.0, 5.0), (90.0, 5.0), []),  # level, between them
        ((49.0, 5.0), (54.5, 30.0), ["cylinder.nut"]),  # a leader from beside them
        ((52.0, 5.0), (52.0, 30.0), []),  # upright, with one on either side of the axis
        ((52.0, 5.0), (56.0, 30.0), []),  # a leader that has to pass as well
        ((51.0, 5.0), (90.0, 5.0), []),  # level, between them
        ((52.0, 15.0), (52.0, 30.0), []),  # from under it
        ((52.0, -30.0), (52.0, 30.0), ["cylinder.nut"]),  # from beyond them
    ],
)
def test_between_nuts_a_line_is_as_free_as_it_is_there(end, to, crossed):
    """The box round all of them took what lies between for their own."""
    for each in (NUTS, NUTS[::-1]):
        owners = Owners([("cylinder.nut", [s for nut in each for s in nut])]).scaled(1.0)
        line = np.array([(end, to)])
        assert owners.crossed("body_mount.length", [end], line) == crossed


def test_a_part_that_is_strewn_has_an_outline_for_each_piece():
    whole = Owners([("cylinder.nut", NUTS[0]), ("cylinder.nut", NUTS[1])])
    for k in (1.0, 3.0):
        owners = whole.scaled(k)
        assert owners.parts == ["cylinder.nut"] * 2
        assert owners.boxes == [
            pytest.approx((50.0 * k, 12.0 * k, 54.0 * k, 20.0 * k)),
            pytest.approx((50.0 * k, -20.0 * k, 54.0 * k, -12.0 * k)),
        ]
        assert len(owners.segments("cylinder.nut")) == 8
    one = Owners([("rod_port.boss", NUTS[0]), ("rod_port.boss", NUTS[1])])
    assert one.boxes == [(50.0, -20.0, 54.0, 20.0)]


def test_where_no_part_is_named_nothing_is_crossed():
    """The pictures of a worksheet have no pieces: the lines of their letters met none of them."""
    lines = segments([((10.0, 20.0), (10.0, -35.0)), ((5.0, 3.0), (40.0, 3.0))])
    hits = Owners([("", segments([((0.0, 0.0), (50.0, 0.0))]))]).hits("A", [(10.0, 20.0)], lines)
    assert hits.shape == (2, 0)
