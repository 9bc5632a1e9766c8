"""What stands out of a flange's bearing face, worked by hand: two tie-rod diameters, the gland."""

from __future__ import annotations

import pytest

from drafting.settle.wishes import Callout
from drafting.shape.frame import Y, Z
from drafting.shape.pieces import extent
from tests.agree.cases import Case, plain
from tests.model.mount_specs import INCH, settled

RODS = {"tie_rod": "5/8-18 UNF", "square": 5.75}


def cylinder(shell="tie rod", more=None, **flange):
    sizes = {**(RODS if shell == "tie rod" else {}), **(more or {})}
    mount = {"mount": "flange", "thickness": 0.5, **flange}
    return settled(Case("one", plain(shell, cylinder=sizes, body_mount=mount)).text())


def said(c, field):
    """The words of a callout and its sizes in inches; none where it is not said."""
    found = [w for w in c.wishes if isinstance(w, Callout) and w.name == f"cylinder.{field}"]
    return [(w.lines, [s / INCH for s in w.sizes], w.normal[0]) for w in found]


def test_rods_out_of_a_front_flange_are_said():
    """A rod ends two diameters beyond the head, whose face the plate's is."""
    ((lines, sizes, away),) = said(
        cylinder(position="rod end", seat="rod side"), "tie_rod_stand_out"
    )
    assert (lines, away) == (("TIE RODS STAND OUT {}",), 1.0)
    assert sizes == [pytest.approx(1.25)]


def test_rods_out_of_a_base_flange_pass_through_recesses():
    """The plate lies over the nuts and takes its thickness off what stands out."""
    c = cylinder(position="base", seat="base side", thickness=0.75)
    ((lines, sizes, away),) = said(c, "tie_rod_stand_out")
    assert (lines, away) == (("TIE RODS STAND OUT {}", "NUT RECESSES"), -1.0)
    assert sizes == [pytest.approx(1.25 - 0.75)]
    assert c.value("cylinder.nut_recess").value == pytest.approx(1.8 * 0.625 * INCH + 1.0)


def test_recesses_alone_are_said_where_nothing_stands_out():
    c = cylinder(position="base", seat="base side", thickness=1.5)
    assert not said(c, "tie_rod_stand_out")
    assert said(c, "nut_recess") == [(("NUT RECESSES",), [], -1.0)]


def test_nothing_is_said_of_an_inner_face():
    c = cylinder(position="rod end", seat="base side")
    names = ("tie_rod_stand_out", "nut_recess", "gland_outside", "gland_projection")
    assert [said(c, n) for n in names] == [[]] * 4


BUSH = {"gland_outside": 3.25, "gland_projection": 0.375}


@pytest.mark.parametrize(
    ("shell", "typed", "field", "line", "sizes"),
    [
        ("welded", {"gland_outside": 4.25}, "gland_projection", "GLAND Ø{} x {}", [4.25, 0.75]),
        ("welded", {"gland_projection": 0.5}, "gland_outside", "GLAND {} x Ø{}", [0.5, 4.0]),
        ("tie rod", BUSH, "gland_outside", "GLAND {} x Ø{}", [0.375, 3.25]),
    ],
)
def test_a_gland_through_a_front_flange_is_said_the_derived_size_last(
    shell, typed, field, line, sizes
):
    """A welded gland of 3 in, a quarter of which shows; a collar as large as the 4 in barrel."""
    c = cylinder(shell, {"gland_length": 3, **typed}, position="rod end", seat="rod side")
    assert said(c, field) == [((line,), [pytest.approx(s) for s in sizes], 1.0)]


@pytest.mark.parametrize("inch", [5.75, 6.5])
def test_a_nut_keeps_within_the_square_where_the_tube_leaves_room(inch):
    """As far out as its recess and 1 mm allow, which is less than halfway in a tight square."""
    c = cylinder(more={"square": inch}, position="base", seat="base side")
    rooms = [q for p in c.parts for q in p.pieces if q.name == "cylinder.nut_room"]
    assert rooms
    assert all(extent(q, d)[1] <= inch * INCH / 2 - 1.0 + 1e-9 for q in rooms for d in (Y, Z))


@pytest.mark.parametrize(("plate", "told"), [(4.45, True), (4.55, False)])
def test_a_recess_over_the_edge_of_its_plate_is_told(plate, told):
    """Rods of 5/8 in hard by a 4 in tube: 1.663 in off its axes, and recesses of 0.582 in."""
    bolts = {"count": 4, "hole": 0.5, "pitch": [7, 3]}
    more = {"square": 4.3, "barrel_outside": 4}
    flange = {"position": "base", "seat": "base side", "plate": [8.5, plate], "bolts": bolts}
    codes = [f.code for f in cylinder(more=more, **flange).findings]
    assert ("recess-off-plate" in codes) is told
