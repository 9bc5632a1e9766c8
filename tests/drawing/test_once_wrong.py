"""Cylinders whose sheets once had a fault, found among random ones: now there is none."""

from pathlib import Path

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

SPECS = sorted((Path(__file__).parent / "once_wrong").glob("*.toml"))


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_nothing_is_found(path):
    cylinder = load(read_spec(path.read_bytes(), mounts=mounts_by_end(), file=path.name))
    job = sheet_job(cylinder)
    assert [(f.code, f.field, f.message) for f in inspect(compose(job), job)] == []
