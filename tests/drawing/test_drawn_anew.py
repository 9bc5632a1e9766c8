"""A sheet drawn anew after a changed value: as from scratch, and only what changed is placed again.

Nothing outside the project says what must come out; a sheet that is composed after everything kept
was forgotten does, and one from a process that has drawn nothing before.
"""

import pickle
import random
import re
import subprocess
import sys
from pathlib import Path

import pytest

import drafting.drawing.dimension.known as known
import drafting.drawing.views.view as view
from drafting.drawing.compose.choose import compose
from drafting.drawing.of_cylinder import sheet_job
from drafting.errors import Refused
from drafting.model.load import checked, load
from tests.drawing.test_room import KICKER
from tests.forgetting import forget

ROOT = Path(__file__).parents[2]
SPECS = ROOT / "specs"
SIZE = re.compile(r"^([a-z_]+ *= *)(\d+(?:\.\d+)?)$", re.MULTILINE)
STEPS = 6


def job_of(text):
    return sheet_job(load(checked(text.encode(), "spec.toml")))


def in_a_fresh_process(text):
    """The sheet that a process makes which has drawn nothing before."""
    code = (
        "import pickle, sys\n"
        "from tests.drawing.test_drawn_anew import compose, job_of\n"
        "text = sys.stdin.buffer.read().decode()\n"
        "sys.stdout.buffer.write(pickle.dumps(compose(job_of(text))))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code],
        input=text.encode(),
        stdout=subprocess.PIPE,
        cwd=ROOT,
        check=True,
    )
    return pickle.loads(run.stdout)


def changed(text, rng):
    """One size of a spec a little larger or smaller, so that the spec is still accepted."""
    while True:
        found = rng.choice(list(SIZE.finditer(text)))
        size = round(float(found[2]) * rng.uniform(0.97, 1.03), 3)
        other = f"{text[: found.start()]}{found[1]}{size}{text[found.end() :]}"
        try:
            load(checked(other.encode(), "spec.toml"))
        except Refused:
            continue
        return other


@pytest.fixture
def placed(monkeypatch):
    """The views that were placed, by name."""
    names = []

    def place(items, ground, within):
        names.append(ground.picture.name)
        return place_as_ever(items, ground, within)

    place_as_ever = view.place
    monkeypatch.setattr(view, "place", place)
    return names


@pytest.mark.parametrize("name", ["hay-loader", "orchard-tipper", "lock-paddle"])
def test_a_row_of_changes_gives_the_sheets_that_a_fresh_start_gives(name):
    rng = random.Random(name)
    text = (SPECS / f"{name}.toml").read_text()
    texts = [text]
    for _ in range(STEPS):
        # Back to an earlier text now and then, as somebody does who tries.
        texts.append(rng.choice(texts) if rng.random() < 0.2 else changed(texts[-1], rng))
    forget()
    in_a_row = [compose(job_of(t)) for t in texts]
    for text, sheet in zip(texts, in_a_row, strict=True):
        forget()
        assert compose(job_of(text)) == sheet
    assert in_a_fresh_process(texts[-1]) == in_a_row[-1]


CHANGES = {
    "a title": ('title    = "Hay loader arm"', 'title    = "Hay loader"', set()),
    "a tolerance": (
        'bore            = "2 1/2"',
        'bore            = "2 1/2"\ntolerance.bore = "H9"',
        {"extended"},
    ),
    "a port's words": ('thread   = "1/2 NPT"\nclock    = "12:00"\nposition = 2.5',
                       'thread   = "1/2 NPT"\nclock    = "12:00"\nposition = 2.5\nplugged = true',
                       {"top"}),
}  # fmt: skip


@pytest.mark.parametrize("change", CHANGES)
def test_only_views_that_show_the_change_are_placed_again(change, placed):
    text = (SPECS / "hay-loader.toml").read_text()
    before, after, views = CHANGES[change]
    assert text.count(before) == 1
    forget()
    first = compose(job_of(text))
    assert {"side", "top", "end", "extended"} <= set(placed)
    placed.clear()
    second = compose(job_of(text.replace(before, after)))
    assert set(placed) == views
    assert second != first


def test_the_same_again_places_nothing(placed):
    text = (SPECS / "orchard-tipper.toml").read_text()
    compose(job_of(text))
    placed.clear()
    compose(job_of(text))
    assert placed == []


@pytest.fixture
def wishes_found(monkeypatch):
    """The wishes whose ways were found, with their words and where."""
    some = []

    def ways(wish, label, ground):
        some.append((wish, label, ground.picture.name, ground.scale))
        return ways_as_ever(wish, label, ground)

    ways_as_ever = known._ways
    monkeypatch.setattr(known, "_ways", ways)
    return some


def test_with_other_words_on_one_size_only_its_ways_are_found(wishes_found):
    text = (SPECS / "hay-loader.toml").read_text()
    before, after, _ = CHANGES["a tolerance"]
    forget()
    compose(job_of(text))
    wishes_found.clear()
    sheet = compose(job_of(text.replace(before, after)))
    assert {w.name for w, *_ in wishes_found} == {"cylinder.bore"}
    forget()
    assert compose(job_of(text.replace(before, after))) == sheet


def test_words_that_keep_nearer_are_found_once(wishes_found, placed):
    """This cylinder takes 1:8 only with its words nearer than they like: views are placed twice."""
    forget()
    compose(job_of(KICKER))
    assert placed.count("side") > 1
    assert len(wishes_found) == len(set(wishes_found))
