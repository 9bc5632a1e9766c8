"""The CadQuery assembly for scripts: names, places and volumes as in the STEP file."""

from __future__ import annotations

import subprocess
import sys
from math import pi
from pathlib import Path

import pytest

from tests.solids.sample_parts import RETRACTED, STROKE, sample


@pytest.fixture(scope="module")
def whole() -> object:
    pytest.importorskip("cadquery")
    from drafting.solids.assembly import assembly

    return assembly(sample(), "SG-0417")


def test_tree(whole: object) -> None:
    assert [c.name for c in whole.children] == ["SG-0417-barrel", "SG-0417-rod"]
    assert [c.name for c in whole.children[1].children] == ["SG-0417-rod-main", "SG-0417-piston"]


def test_volume_and_place(whole: object) -> None:
    piston = whole.children[1].children[1].shapes[0]
    assert piston.Volume() == pytest.approx(pi * (44.45**2 - 15.5**2) * 50)
    box = whole.toCompound().BoundingBox()
    assert box.xmax == pytest.approx(RETRACTED + 31.75, abs=1e-3)


def test_the_rod_moves_by_its_place(whole: object) -> None:
    import cadquery as cq

    rod = whole.children[1]
    rod.loc = cq.Location(cq.Vector(STROKE, 0, 0))
    try:
        box = whole.toCompound().BoundingBox()
        assert box.xmax == pytest.approx(RETRACTED + STROKE + 31.75, abs=1e-3)
    finally:
        rod.loc = cq.Location()


def test_solid_modules_load_no_kernel() -> None:
    code = (
        "import sys, pkgutil, importlib, drafting.solids as s\n"
        "for m in pkgutil.iter_modules(s.__path__, 'drafting.solids.'):\n"
        "    importlib.import_module(m.name)\n"
        "print(sorted({'OCP', 'cadquery', 'numpy', 'vtkmodules'} & set(sys.modules)))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    assert run.stdout.strip() == "[]"
