"""Three specs drawn once for all workers: inch, metric with odd clocks, trunnion with a thread."""

import json
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from drafting.cli import main

SPECS = Path(__file__).parents[2] / "specs"
STEMS = ("weir-gate", "log-grapple", "penstock-gate")
FORMATS = "dxf,svg,pdf,step,glb,json"


@dataclass(frozen=True)
class Drawn:
    """The files of one spec and its rows of the JSON."""

    spec: Path
    folder: Path
    entry: dict

    @property
    def name(self):
        return self.entry["name"]

    @property
    def unit(self):
        """Millimetres of one unit of the drawing."""
        return 25.4 if 'units    = "in"' in self.spec.read_text(encoding="utf-8") else 1.0

    def file(self, ending):
        return self.folder / f"{self.name}{ending}"

    def size(self, field):
        """A size of the JSON (mm)."""
        return next(v["value_mm"] for v in self.entry["values"] if v["name"] == field)


@pytest.fixture(scope="session")
def all_drawn(tmp_path_factory, worker_id):
    """The first worker draws, the others wait."""
    base = tmp_path_factory.getbasetemp()
    shared = (base if worker_id == "master" else base.parent) / "readers"
    done = shared / "done"
    try:
        shared.mkdir()
    except FileExistsError:
        end = time.monotonic() + 300
        while not done.exists() and time.monotonic() < end:
            time.sleep(0.2)
    else:
        for stem in STEMS:
            argv = ["draw", str(SPECS / f"{stem}.toml"), "--outline", "--formats", FORMATS]
            assert main([*argv, "-o", str(shared / stem)]) in (0, 1)
        done.touch()
    assert done.exists(), "the worker that draws the samples failed"
    found = {}
    for stem in STEMS:
        (path,) = (shared / stem).glob("*.json")
        entry = json.loads(path.read_text(encoding="utf-8"))["cylinders"][0]
        found[stem] = Drawn(SPECS / f"{stem}.toml", shared / stem, entry)
    return found


@pytest.fixture(params=STEMS)
def drawn(request, all_drawn):
    return all_drawn[request.param]
