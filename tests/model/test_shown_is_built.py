"""What is marked and dimensioned on whole cylinders is what is built, mounts and shells alike.

Every case stands at clock 0 with nothing turned, so that each axis runs along X, Y or Z. Whether
metal is somewhere is asked of the bodies, not of the code that marks.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from drafting.model.cylinder import Cylinder
from drafting.settle.wishes import CentreCircle, CentreLine, Thread
from drafting.shape.body import body
from drafting.shape.frame import dot, sub
from tests.agree.cases import cases, gate
from tests.model.mount_specs import at_end, measured, settled

NAMES = (
    "welded: lugs at both ends",
    "tie rod: an angle at the base",
    "tie rod: sizes typed",
    "welded: gland cap",
    "welded: trunnion at a distance",
)
CASES = [*gate(), *(c for c in cases() if c.name in NAMES)]
every = pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)


@cache
def built(text: str) -> Cylinder:
    return settled(text)


@every
def test_every_dimension_of_the_whole_measures_its_value(case):
    c = built(case.text(0))
    shown = 0
    for wish in c.wishes:
        value, size = c.value(wish.name), measured(wish)
        if value is None or not isinstance(value.value, float) or size is None:
            continue
        shown += 1
        assert size == pytest.approx(abs(value.value), abs=1e-6), wish.name
    assert shown > 3


@every
def test_axes_run_along_x_y_or_z(case):
    for mark in built(case.text(0)).symbols:
        if isinstance(mark, CentreLine):
            run = sub(mark.b, mark.a)
        elif isinstance(mark, Thread):
            run = sub(mark.end, mark.start)
        else:
            assert isinstance(mark, CentreCircle)
            run = mark.axis
            assert dot(sub(mark.through, mark.centre), mark.axis) == pytest.approx(0.0, abs=1e-6)
        assert sorted(map(abs, run))[:2] == pytest.approx([0.0, 0.0], abs=1e-6), mark.name


@every
def test_bolt_holes_go_right_through(case):
    """Along the axis of a hole there is no metal of the parts that its mount is in."""
    c = built(case.text(0))
    for mark in c.symbols:
        if isinstance(mark, CentreLine) and ".bolts" in mark.name:
            t = np.linspace(0.0, 1.0, 101)[:, None]
            line = np.array(mark.a) + t * (np.array(mark.b) - np.array(mark.a))
            table = mark.name.partition(".")[0]
            parts = [p for p in c.parts if any(q.name.startswith(table) for q in p.pieces)]
            assert parts, mark.name
            for part in parts:
                assert not body(part).inside(line).any(), mark.name


def test_holes_close_together_share_one_plate_and_far_apart_do_not():
    """Four holes 2 in apart along the barrel lie in one plate, 9 in apart in two."""
    for apart, whole in ((2, True), (9, False)):
        bolts = {"count": 4, "hole": 0.656, "pitch": [apart, 5.5]}
        sizes = {"position": 6, "thickness": 0.75, "seat_height": 3.25, "bolts": bolts}
        c = at_end("body", "foot", sizes)
        assert (c.value("body_mount.plate.x").value > apart * 25.4) == whole


def test_a_tie_rod_body_is_the_same_at_its_four_corners():
    """Every part but ports and mounts: what is metal at one corner is metal at all of them."""
    c = settled(next(x for x in CASES if x.name == "tie rod: body none").text(0))
    x, y, z = np.meshgrid(np.linspace(0.0, 600.0, 61), *[np.linspace(20.0, 80.0, 31)] * 2)
    corner = np.column_stack([x.ravel(), y.ravel(), z.ravel()])
    for part in c.parts:
        found = [
            body(part).inside(corner * (1.0, *s)) for s in ((1, 1), (1, -1), (-1, 1), (-1, -1))
        ]
        assert all((one == found[0]).all() for one in found), part.name
    assert sum(body(p).inside(corner).any() for p in c.parts) > 3
