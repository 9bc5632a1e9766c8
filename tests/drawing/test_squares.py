"""A square is measured where nothing stands before it, whose size it would seem to be."""

import pytest

from drafting.drawing.dimension.assign import assign
from drafting.drawing.views.looks import look_at
from drafting.settle.wishes import Length
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, along
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder
from tests.drawing.sample_job import job

HALF = 70.0
ALONG = Frame(ORIGIN, Y, Z, X)
WISH = Length("cylinder.square", (420.0, 0.0, -HALF), (420.0, 0.0, HALF), Z, form="square")


def view_of(*before):
    head = Piece("cylinder.head", Prism(box(-HALF, HALF, -HALF, HALF), 380.0, 460.0), ALONG)
    solids = (Part("head", "body", (head, *before)),)
    one = job(retracted=(*job().retracted, *solids), extended=(*job().extended, *solids))
    (choice,) = assign([WISH], look_at(one).pictures)
    return choice.picture.name


def boss(radius, out):
    """What stands out of a side of the head by 20 mm."""
    solid = cylinder(radius, HALF - 1.0, HALF + 20.0)
    return Piece("rod_port.boss", solid, along(out, (420.0, 0.0, 0.0), X))


@pytest.mark.parametrize(("radius", "where"), [(10.0, "side"), (36.0, "end")])
def test_a_square_with_a_boss_before_it_is_measured_in_the_end_view(radius, where):
    """On both sides that the long views show; beside a small one there is room for the line."""
    assert view_of(boss(radius, (0.0, -1.0, 0.0)), boss(radius, Z)) == where


def test_a_boss_that_faces_away_is_in_nobodys_way():
    assert view_of(boss(36.0, Y), boss(36.0, Z)) == "side"
