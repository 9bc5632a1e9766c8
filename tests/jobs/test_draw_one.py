"""Work as data: a text goes in, files as bytes come out; everything can go to another process."""

import json
import pickle
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pytest

from drafting.errors import Refused
from drafting.jobs.draw import How, draw_each, draw_one
from drafting.told.rows import load_all

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))
SHEETS = How(("svg", "pdf", "dxf", "json"))


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_a_cylinder_and_its_spec_can_be_sent_elsewhere(path):
    (c,) = load_all([str(path)])
    assert pickle.loads(pickle.dumps(c)) == c
    assert pickle.loads(pickle.dumps(c.spec)) == c.spec


def test_what_a_spec_says_cannot_be_changed():
    (c,) = load_all([str(SPECS[0])])
    for spec in (c.spec, pickle.loads(pickle.dumps(c.spec))):
        with pytest.raises(TypeError):
            spec.givens["title"] = None
        with pytest.raises(TypeError):
            spec.givens.clear()


def test_a_text_becomes_files():
    text = SPECS[0].read_text(encoding="utf-8")
    drawn = draw_one(text, SHEETS)
    name = drawn.cylinder.name
    assert {f"{name}.svg", f"{name}.pdf", f"{name}.dxf", f"{name}.json"} <= set(drawn.files)
    assert drawn.files[f"{name}.pdf"].startswith(b"%PDF")


def test_another_process_gives_the_same_bytes():
    text = SPECS[0].read_text(encoding="utf-8")
    with ProcessPoolExecutor(1) as pool:
        there = pool.submit(draw_one, text, SHEETS).result()
    assert there.files == draw_one(text, SHEETS).files


def test_a_wrong_text_is_refused_with_all_its_faults():
    with pytest.raises(Refused) as refused:
        draw_one("title = 'x'\nunits = 'in'\n[cylinder]\nbore = 'three'\n", file="x.toml")
    codes = [f.code for f in refused.value.faults]
    assert len(codes) > 3
    assert all(f.file == "x.toml" for f in refused.value.faults)


def test_cylinders_are_made_when_they_are_asked_for():
    asked = []

    def some():
        for path in SPECS[:4]:
            asked.append(path)
            yield from load_all([str(path)])

    each = draw_each(some(), How(("svg",)))
    next(each)
    assert len(asked) == 2, "one ahead, and no more"


def test_a_file_names_no_folder_of_the_machine_that_made_it(tmp_path):
    far = tmp_path / "very" / "own folder"
    far.mkdir(parents=True)
    spec = far / SPECS[0].name
    spec.write_bytes(SPECS[0].read_bytes())
    (c,) = load_all([str(spec)])
    (there,) = draw_each([c], SHEETS)
    assert not any(b"own folder" in data for data in there.files.values())
    (near,) = load_all([str(SPECS[0])])
    (here,) = draw_each([near], SHEETS)
    assert there.files == here.files
    document = json.loads(there.files[f"{c.name}.json"])["cylinders"][0]
    assert document["spec"] == spec.name
