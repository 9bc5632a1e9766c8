"""The drawings in `output/` are those that the specs and this version of the tool make."""

from pathlib import Path

import pytest

from drafting.jobs.draw import How, draw_cylinder
from drafting.told.rows import load_all

ROOT = Path(__file__).parents[1]
SPECS = sorted((ROOT / "specs").glob("*.toml"))
REDRAW = "python -m drafting draw specs/*.toml --formats svg -o output"


@pytest.fixture(autouse=True)
def at_the_root(monkeypatch):
    monkeypatch.chdir(ROOT)  # a drawing may name its spec by the path that was typed
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_drawing_is_current(path):
    (cylinder,) = load_all([path.relative_to(ROOT).as_posix()])
    drawing = draw_cylinder(cylinder, How(("svg",)))
    for name, fresh in drawing.files.items():
        kept = Path("output") / name
        assert kept.exists(), f"{kept} is missing; redraw with: {REDRAW}"
        assert kept.read_bytes() == fresh, f"{kept} is stale; redraw with: {REDRAW}"
    there = {p.name for p in (ROOT / "output").glob(f"{cylinder.name}*.svg")}
    assert there == set(drawing.files), "remove what no spec draws"


def test_nothing_else_lies_there():
    names = {c.name for c in load_all([p.relative_to(ROOT).as_posix() for p in SPECS])}
    kept = {p.name for p in (ROOT / "output").glob("*.svg")}
    strange = [k for k in kept if k.removesuffix(".svg").partition("-sheet")[0] not in names]
    assert strange == [], "no spec draws them: remove them"
