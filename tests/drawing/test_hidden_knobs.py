"""Cushion screws that no long view shows, on the made-up ram of ``sample_job``, barrel 100.

At half past four one is behind the barrel from aside and from above. Its rim, 10 wide, is an oval
7.07 high and 27 round, 36.77 below the axis.
"""

from dataclasses import replace
from math import pi

import pytest

from drafting.drawing.sheet.on_paper import box, length, union
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.shape.frame import X, along
from drafting.shape.pieces import Piece, cylinder
from tests.drawing import sample_job

SCREW = "cylinder.cushion_screw"
BEHIND, IN_FRONT = (0.0, 0.5**0.5, -(0.5**0.5)), (0.0, -1.0, 0.0)


def _marks(k, *screws):
    """Give what the side view shows at a scale of screws, each a place and the side it is on."""
    pieces = [
        Piece(SCREW, cylinder(5.0, 48.0, 52.0), along(out, (x, 0.0, 0.0), X)) for x, out in screws
    ]

    def fitted(part):
        return replace(part, pieces=(*part.pieces, *pieces)) if part.name == "barrel" else part

    job = sample_job.job()
    job = replace(job, retracted=tuple(fitted(p) for p in job.retracted))
    return [m for m in marks_of(look_at(job).pictures[0], job, k, Style()) if m.name == SCREW]


def _of(marks, role):
    return [m.curve for m in marks if m.role == role]


@pytest.mark.parametrize(("scale", "count"), [(0.1, 4), (0.2, 4), (0.3, 5)])
def test_its_rim_is_dashed_all_round_at_every_scale(scale, count):
    """At 1:10 it is 2.7 round on paper, less than a dash of a hidden edge and its gap."""
    dashes = _of(_marks(scale, (250.0, BEHIND)), "hidden")
    assert len(dashes) == count
    assert sum(length(c) for c in dashes) == pytest.approx(0.6 * 27.0, rel=0.05)
    assert union([box(c) for c in dashes])[::2] == pytest.approx((245.0, 255.0), abs=1.0)


def test_one_that_is_large_on_paper_is_dashed_as_every_hidden_edge():
    (rim,) = _of(_marks(1.0, (250.0, BEHIND)), "hidden")
    assert rim.t1 - rim.t0 == pytest.approx(2 * pi)


def test_a_cross_stands_on_it():
    arms = _of(_marks(0.2, (250.0, BEHIND)), "centre")
    over, z = 1.5 / 0.2, -52.0 * 0.5**0.5
    wide, high = 5.0 + over, 5.0 * 0.5**0.5 + over
    level, upright = (250.0 - wide, z, 250.0 + wide, z), (250.0, z - high, 250.0, z + high)
    found = sorted(box(c) for c in arms)
    assert found == [pytest.approx(level, abs=1e-6), pytest.approx(upright, abs=1e-6)]


def test_its_sides_are_left_out():
    """They made a letter of the two dashes of its rim."""
    assert not [c for c in _of(_marks(0.2, (250.0, BEHIND)), "hidden") if isinstance(c, Line)]


def test_of_two_the_one_behind_is_drawn_where_the_other_is_seen():
    """They have one name: where one was seen the other was drawn in no view."""
    marks = _marks(0.2, (100.0, IN_FRONT), (300.0, BEHIND))
    assert union([box(c) for c in _of(marks, "outline")])[::2] == pytest.approx((95.0, 105.0))
    assert union([box(c) for c in _of(marks, "hidden")])[0] > 290.0
    assert not _of(_marks(0.2, (100.0, IN_FRONT)), "hidden")
