"""Every case built: boxes and volumes are the pieces', each part is one solid, none shares metal.

Source: the open-source solid kernel (OCCT) against the sums of the pieces. The gate takes the
cases of the gate, DRAFTING_WIDE=1 all of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Any

import pytest

from drafting.shape.pieces import Part, bounds
from drafting.shape.volume import volume
from drafting.solids.build import build_part, kernel_volume
from tests.agree.cases import WIDE, cases, gate
from tests.agree.shapes import box, solids
from tests.model.mount_specs import settled

CASES = [pytest.param(c, id=c.name) for c in (cases() if WIDE else gate())]
APART = ("gland bolts", "tie rods")
"""Parts that stand for several pieces of metal."""


@pytest.mark.parametrize("case", CASES)
def test_every_part_is_one_solid_of_its_pieces_and_shares_no_metal(case):
    parts = settled(case.text(35)).parts
    shapes = {p.name: build_part(p) for p in parts}
    for part in parts:
        shape = shapes[part.name]
        lo, hi = box(shape)
        low, high = bounds(part.pieces)
        if not any(p.cut for p in part.pieces):
            assert (*lo, *hi) == pytest.approx((*low, *high), abs=0.01), part.name
        assert all(a <= b + 0.01 for a, b in zip((*low, *hi), (*lo, *high), strict=True))
        assert kernel_volume(shape) == pytest.approx(volume(part), rel=2e-3), part.name
        assert solids(shape) == 1 or part.name in APART, part.name
    assert shared(parts, shapes) == []


def shared(parts: Sequence[Part], shapes: dict[str, Any]) -> list[str]:
    """Name pairs of parts with a common volume: metal twice; they may touch."""
    return [
        f"{a.name} and {b.name}"
        for a, b in combinations(parts, 2)
        if not _clear(a, b)
        and _common(shapes[a.name], shapes[b.name]) >= 1e-3 * min(volume(a), volume(b))
    ]


def _clear(a: Part, b: Part) -> bool:
    (lo, hi), (lo2, hi2) = bounds(a.pieces), bounds(b.pieces)
    return any(hi[k] <= lo2[k] + 1e-6 or hi2[k] <= lo[k] + 1e-6 for k in range(3))


def _common(a: Any, b: Any) -> float:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common

    return kernel_volume(BRepAlgoAPI_Common(a, b).Shape())


def test_metal_that_two_parts_share_is_noticed():
    """The same part twice, and a part beside another one."""
    parts = settled(gate()[0].text()).parts
    one = parts[0]
    twice = (one, Part("copy", one.owner, one.pieces))
    assert shared(twice, {p.name: build_part(one) for p in twice}) == [f"{one.name} and copy"]
