"""Tolerances in DXF are text behind the measured number, never DIMTOL: read back with ezdxf."""

from io import StringIO
from pathlib import Path

import ezdxf
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.model.load import load, read

SPEC = Path(__file__).parents[2] / "specs" / "lock-paddle.toml"


@pytest.fixture(scope="module")
def job():
    return sheet_job(load(read(str(SPEC))))


@pytest.fixture(scope="module")
def sheet(job):
    return compose(job)


@pytest.fixture(scope="module")
def dimensions(sheet):
    document = ezdxf.read(StringIO(dxf_bytes(sheet).decode("utf-8")))
    return [e for e in document.modelspace() if e.dxftype() == "DIMENSION"]


def test_the_number_is_measured_and_the_tolerance_is_text(dimensions):
    texts = {e.dxf.text: e.get_measurement() for e in dimensions}
    assert texts["RETRACTED <> ±1"] == pytest.approx(640.0)
    assert texts["STROKE <> +2/0"] == pytest.approx(300.0)
    assert texts["<> +0.5/0"] == pytest.approx(34.0)
    holes = [t for t in texts if "H9" in t]
    assert holes == ["%%c30.1 H9\\P(+0.062/0)"]


def test_no_program_adds_a_tolerance_of_its_own(dimensions):
    for entity in dimensions:
        style = entity.get_dim_style()
        assert style.dxf.get("dimtol", 0) == 0
        assert style.dxf.get("dimlim", 0) == 0
        overridden = entity.override().dimstyle_attribs
        assert not {"dimtol", "dimlim"} & overridden.keys()


def test_a_toleranced_sheet_has_nothing_to_mend(sheet, job):
    assert inspect(sheet, job) == ()
