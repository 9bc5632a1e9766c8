"""Every case drawn and built: its views are the kernel's hidden-line views of its solids.

Source of the expected lines: the hidden-line removal of the open-source solid kernel (OCCT). The
gate takes one view at one clock angle of every mount on both shells and of some other cases; with
DRAFTING_WIDE=1 in the environment every case is seen, those with things that turn at all four
clock angles, the three views in turn.
"""

from __future__ import annotations

import pytest

from drafting.drawing.sheet.strokes import FROM_ROD, SIDE, TOP
from tests.agree.cases import CLOCKS, VIEWS, gate, view_runs
from tests.agree.compare import differences
from tests.model.mount_specs import settled

LOOKS = dict(zip(VIEWS, (SIDE, TOP, FROM_ROD), strict=True))
FIXED = ("barrel", "cap", "head", "tube", "mount block")
"""What the others lie in or on: it keeps its size, the others get thinner."""


RUNS = [pytest.param(*run, id=f"{run[0].name}, {run[1]} deg, {run[2]}") for run in view_runs()]


@pytest.mark.parametrize(("case", "clock", "view"), RUNS)
def test_the_view_is_the_kernels(case, clock, view):
    parts = settled(case.text(clock)).parts
    thin = [p.name for p in parts if p.name not in FIXED]
    found = differences(parts, (LOOKS[view],), ease=thin)
    assert all(d.length > 50.0 for d in found)
    assert not [str(d) for d in found if not d.agrees]


def test_the_gate_sees_every_mount_on_both_shells_and_every_view_and_angle():
    seen = [(case.name, clock, view) for case, clock, view in view_runs()]
    assert {view for _, _, view in seen} == set(LOOKS)
    assert {clock for _, clock, _ in seen} == set(CLOCKS)
    names = {name for name, _, _ in seen}
    assert names >= {case.name for case in gate()}
    assert len(gate()) >= 32
