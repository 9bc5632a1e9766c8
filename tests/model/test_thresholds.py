"""Findings and refusals begin where their words say: just inside nothing, just outside one."""

from __future__ import annotations

from math import dist

import pytest

from drafting.errors import Refused
from drafting.model.shells.welded import HEAD
from drafting.shape.frame import X, Y, Z
from drafting.shape.pieces import extent
from tests.agree.cases import Case, plain
from tests.model.mount_specs import settled

NEAR = 0.01


def codes(shell: str = "welded", **tables: object) -> list[str]:
    """Give the codes of findings, or of the refusal, of a plain cylinder with these tables."""
    try:
        return [f.code for f in settled(Case("one", plain(shell, **tables)).text()).findings]
    except Refused as refused:
        return [f.code for f in refused.faults]


@pytest.mark.parametrize("shell", ["welded", "tie rod"])
def test_the_room_ends_at_half_its_width(shell):
    """A barrel of 4 in; four rods at the corners of a 5 1/2 in square reach further."""
    widest = 4.0 if shell == "welded" else 5.5 * 2**0.5
    cylinder = {} if shell == "welded" else {"square": 5.5}
    for room, told in ((widest + NEAR, False), (widest - NEAR, True)):
        found = codes(shell, cylinder={**cylinder, "largest_outside": room})
        assert ("beyond-room" in found) is told, room
    if shell == "welded":
        assert "beyond-room" not in codes(shell, cylinder={"largest_outside": widest})


def test_tie_rods_fit_the_square_to_a_hair():
    """1/2 in rods 1 mm off a 4 in tube: 2 (clear / sqrt 2 + 0.75 rods) across, 0.02 mm to spare."""
    least = 2 * ((4.0 + 0.5 + 2 / 25.4) / 2 / 2**0.5 + 0.75 * 0.5)
    sizes = {"barrel_outside": 4, "tie_rod": "1/2-20 UNF"}
    for off, refused in ((0.01, False), (-0.01, False), (-0.03, True)):
        square = round(least + off / 25.4, 6)
        assert ("square-too-small" in codes("tie rod", cylinder={**sizes, "square": square})) is (
            refused
        ), off


def test_bolts_of_a_gland_keep_within_its_collar_or_are_told():
    """Heads of 9 mm beside a barrel of 4 in; they hung over a collar that was typed."""
    least = 4.0 + 2 * 9.0 / 25.4
    for off, told in ((NEAR, False), (-NEAR, True)):
        sizes = {"gland": "bolted", "barrel_outside": 4, "gland_outside": round(least + off, 6)}
        assert ("gland-bolts-overhang" in codes(cylinder=sizes)) is told, off
    whole = settled(Case("one", plain("welded", cylinder={**sizes, "gland_outside": 4.9})).text())
    heads = [q for part in whole.parts for q in part.pieces if q.name == "cylinder.gland_bolt"]
    reach = [extent(q, axis) for q in heads for axis in (Y, Z)]
    assert max(abs(v) for both in reach for v in both) <= 4.9 * 25.4 / 2
    high = extent(heads[0], X)[1] - extent(heads[0], X)[0]  # as high as its bolt is thick
    inner = dist(heads[0].frame.origin[1:], (0.0, 0.0)) - HEAD / 2 * high
    assert inner >= 4.0 * 25.4 / 2 - 1e-6


@pytest.mark.parametrize(
    ("shell", "position", "seat", "told"),
    [
        ("tie rod", "base", "base side", True),
        ("tie rod", "base", "rod side", False),
        ("tie rod", "rod end", "rod side", True),
        ("tie rod", "rod end", "base side", False),
        ("welded", "base", "base side", False),
    ],
)
def test_tie_rods_out_of_a_bearing_face_are_told(shell, position, seat, told):
    """Beyond an inner face lies the cylinder itself; a welded one has no tie rods."""
    flange = {"mount": "flange", "position": position, "seat": seat, "thickness": 0.5}
    cylinder = {} if shell == "welded" else {"tie_rod": "3/4-16 UNF", "square": 6}
    assert ("proud-of-seat" in codes(shell, cylinder=cylinder, body_mount=flange)) is told


def test_nothing_is_told_of_tie_rods_that_end_below_the_face():
    """A plate as thick as the nuts and the rods' ends beyond them."""
    sizes = {"tie_rod": "1/2-20 UNF", "square": 6}
    flange = {"mount": "flange", "position": "base", "seat": "base side"}
    found = {
        t: codes("tie rod", cylinder=sizes, body_mount={**flange, "thickness": t}) for t in (0.5, 2)
    }
    assert ["proud-of-seat" in some for some in found.values()] == [True, False]
