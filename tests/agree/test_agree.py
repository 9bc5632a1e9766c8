"""Drawing and solid come from one list of pieces: the kernel's hidden-line view must be ours.

Source of the expected lines: the hidden-line removal of the open-source solid kernel (OCCT), which
shares no code with the drawing. ``test_*_is_noticed`` prove that the comparison can fail.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.drawing.project.project import project
from drafting.drawing.project.section import Section
from drafting.drawing.sheet.strokes import FROM_ROD, SIDE, TOP
from drafting.shape.frame import add
from drafting.shape.pieces import Part, bounds
from drafting.shape.volume import volume
from drafting.solids.build import build_part, kernel_volume
from tests.agree.compare import Difference, differences
from tests.agree.oracle import seen
from tests.agree.sample import EASED, assembly, swivel

CLOCKS = (0.0, 35.0, 90.0, 200.0)
MODELS = pytest.mark.parametrize("model", [assembly, swivel], ids=["cylinder", "swivel"])
HALF = Section(SIDE, depth=0.0, above=0.0)


def _assert_agree(found: list[Difference]) -> None:
    assert all(d.length > 50.0 for d in found), "an empty view agrees with nothing"
    assert not [str(d) for d in found if not d.agrees]


@pytest.mark.parametrize("clock", CLOCKS)
@MODELS
def test_three_views_are_the_kernels(model, clock):
    _assert_agree(differences(model(clock), (SIDE, TOP, FROM_ROD), ease=EASED))


@pytest.mark.parametrize("clock", CLOCKS)
@MODELS
def test_half_section_is_the_kernels(model, clock):
    _assert_agree(differences(model(clock), (SIDE,), ease=EASED, section=HALF))


def test_offset_section_is_the_kernels():
    section = Section(SIDE, depth=7.3, above=-5.0)
    _assert_agree(differences(assembly(35.0), (SIDE,), ease=EASED, section=section))


@pytest.mark.parametrize("clock", CLOCKS)
@MODELS
def test_boxes_and_volumes_are_equal(model, clock):
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    for part in model(clock):
        shape = build_part(part)
        box = Bnd_Box()
        BRepBndLib.AddOptimal_s(shape, box, False, False)
        x0, y0, z0, x1, y1, z1 = box.Get()
        lo, hi = bounds(part.pieces)
        assert (x0, y0, z0) == pytest.approx(lo, abs=0.01)
        assert (x1, y1, z1) == pytest.approx(hi, abs=0.01)
        assert kernel_volume(shape) == pytest.approx(volume(part), rel=2e-3)


# --- the comparison can fail -------------------------------------------------------------------


def _changed(part: Part, name: str, change) -> Part:
    pieces = tuple(q for p in part.pieces for q in ((p,) if p.name != name else change(p)))
    assert pieces != part.pieces
    return replace(part, pieces=pieces)


def _red(found: list[Difference]) -> bool:
    return any(not d.agrees for d in found)


def test_a_piece_moved_by_0_2_is_noticed():
    barrel = assembly(35.0)[0]
    aside = _changed(
        barrel,
        "base_port.boss",
        lambda p: (
            replace(p, frame=replace(p.frame, origin=add(p.frame.origin, (0.2, 0.0, 0.0)))),
        ),
    )
    assert not _red(differences([barrel], (SIDE,)))
    assert _red(differences([barrel], (SIDE,), oracle=[aside]))


@pytest.mark.parametrize("cut", ["eye_hole", "base_port", "base_port.spotface", "bore"])
def test_a_dropped_cut_is_noticed(cut):
    barrel = assembly(35.0)[0]
    whole = _changed(barrel, cut, lambda p: ())
    assert _red(differences([barrel], (SIDE,), oracle=[whole]))
    assert _red(differences([whole], (SIDE,), oracle=[barrel]))


def test_a_dropped_crossing_is_noticed():
    barrel = assembly(35.0)[0]
    strokes = project([barrel], SIDE)
    saddle = [s for s in strokes if s.kind == "crossing" and s.piece == "base_port.boss"]
    assert saddle
    for dropped in saddle:
        less = tuple(s for s in strokes if s is not dropped)
        assert _red(differences([barrel], (SIDE,), strokes=[less]))


def test_visible_taken_for_hidden_is_noticed():
    barrel = assembly(35.0)[0]
    strokes = project([barrel], SIDE)
    longest = max((s for s in strokes if not s.visible and s.piece == "bore"), key=lambda s: s.kind)
    wrong = tuple(replace(s, visible=True) if s is longest else s for s in strokes)
    assert _red(differences([barrel], (SIDE,), strokes=[wrong]))


def test_the_court_of_appeal_tells_seen_from_hidden():
    barrel = assembly(35.0)[0]
    front, bottom = (0.0, 40.0), (20.0, 30.0)
    assert seen([build_part(barrel)], SIDE, [front, bottom]).tolist() == [True, False]
