"""Every case as files: STEP read back and weighed, the sheet inspected.

Source of the sums: the pieces themselves and the spec's two lengths; the reader is the open-source
solid kernel's own (OCCT). The gate takes a few cases, DRAFTING_WIDE=1 all of them.
"""

from __future__ import annotations

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.cylinder import Cylinder
from drafting.shape.pieces import Part
from drafting.shape.volume import volume
from drafting.solids.build import kernel_volume
from drafting.told.meta import meta
from tests.agree.cases import WIDE, cases, gate
from tests.model.mount_specs import settled
from tests.mount_words import PINNED
from tests.solids.as_step import step_pair
from tests.solids.read_step import bounds, read

FEW = gate()[::5]
CASES = [pytest.param(c, id=c.name) for c in (cases() if WIDE else FEW)]


@pytest.mark.parametrize("case", CASES)
def test_step_files_are_valid_weigh_what_the_pieces_do_and_keep_both_lengths(case, tmp_path):
    c = settled(case.text(35))
    pair = step_pair(c.name, c.parts, c.lengths.stroke, meta(c))
    for data, length in zip(pair, (c.lengths.retracted, c.lengths.extended), strict=True):
        tree = read(data, tmp_path)
        for word, owner in (("barrel", "body"), ("rod", "rod")):
            found = [s for n in tree.named(f"{c.name}-{word}").walk() for s in n.solids]
            assert all(_valid(s) for s in found)
            own = sum(volume(p) for p in c.parts if p.owner == owner)
            assert sum(kernel_volume(s) for s in found) == pytest.approx(own, rel=1e-3)
        _lengths_are_kept(c, tree, length)


def _lengths_are_kept(c: Cylinder, tree, length: float) -> None:
    """The pins' holes lie even about 0 and about the length."""
    for end, at in (("body", 0.0), ("rod", length)):
        if c.mounts[end] not in PINNED:
            continue
        faces = tree.bores(f"{end}_mount")
        assert faces, end
        low, high = min(bounds(f)[0] for f in faces), max(bounds(f)[3] for f in faces)
        assert (low + high) / 2 == pytest.approx(at, abs=1e-3), end


def _valid(shape) -> bool:
    from OCP.BRepCheck import BRepCheck_Analyzer

    return bool(BRepCheck_Analyzer(shape).IsValid())


@pytest.mark.parametrize("case", CASES)
def test_the_sheet_is_without_fault(case):
    job = sheet_job(settled(case.text(35)))
    assert [str(f) for f in inspect(compose(job), job)] == []


def test_a_missing_part_is_noticed_by_its_weight(tmp_path):
    c = settled(FEW[0].text())
    less = tuple(p for p in c.parts if p.name != "piston")
    data, _ = step_pair(c.name, less, c.lengths.stroke, meta(c))
    tree = read(data, tmp_path)
    found = [s for n in tree.named(f"{c.name}-rod").walk() for s in n.solids]
    own = sum(volume(p) for p in c.parts if p.owner == "rod")
    assert sum(kernel_volume(s) for s in found) < 0.99 * own
    assert any(isinstance(p, Part) and p.name == "piston" for p in c.parts)
