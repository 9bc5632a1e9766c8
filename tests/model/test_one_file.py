"""A mount is one file: one laid into the folder is drawn, measured, told, judged and asked for.

The file below is nowhere else in the project. A process of its own finds it, since what a process
has found once it keeps.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from drafting.model.catalog import mount_types

HOUSE = Path(__file__).parents[2]
BUTTON = '''
"""Button: a round disc, welded on; its outer face is the datum."""

from dataclasses import replace
from typing import ClassVar

from drafting.model.mounts.pinned import root
from drafting.records import dataclass
from drafting.settle.carried import Carried, welded
from drafting.settle.ledger import Rule
from drafting.settle.mount import Mount, MountDrawing
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Diameter, Length
from drafting.shape.frame import ORIGIN, X
from drafting.shape.pieces import Piece, cylinder


@dataclass(frozen=True, slots=True)
class Button(Mount):
    width: float
    outside: float

    word: ClassVar[str] = "button"
    ends: ClassVar = ("body", "rod")
    fields: ClassVar = ("width", "outside")
    example: ClassVar = {"width": 1, "outside": 3}
    datum: ClassVar[str] = "button's face"
    sheet_words: ClassVar = {"width": "Button height", "outside": "Button outside"}
    not_sized: ClassVar[str] = "a button is drawn only: size it as plain"
    worksheet: ClassVar = OnWorksheet(
        "the button's outer face",
        (ToRead("W", "width", "height of the button", "size", "caliper"),
         ToRead("Z", "outside", "over the button", "size", "caliper")),
        {"width": 25.0, "outside": 60.0},
    )

    @classmethod
    def settle(cls, book, host):
        t = host.table
        width = book.size(f"{t}.width", Rule(20.0, "as usual"), interface=True)
        return cls(width, book.size(f"{t}.outside", Rule(60.0, "as usual")))

    def reach(self, sizes):
        return self.width

    def carried(self, host):
        return Carried((welded(host.table),), not_judged=("what the button presses on",))

    def draw(self, host, s):
        t, w, r = host.table, self.width, self.outside / 2
        disc = Piece(f"{t}.button", cylinder(r, 0.0, w))
        held = root(t, w, min(r, host.diameter / 2), w)
        wishes = (Length(f"{t}.width", ORIGIN, (w, 0.0, 0.0), X),
                  Diameter(f"{t}.outside", ORIGIN, X, self.outside, hole=False))
        return MountDrawing((disc, held), wishes)
'''
SPEC = """title = "Tamper of the cider press"
number = "T1"
units = "mm"
[cylinder]
bore = 63
rod = 36
stroke = 200
retracted = 480
working_pressure = "120 bar"
clock_seen_from = "rod"
[body_mount]
mount = "clevis"
[rod_mount]
mount = "button"
width = 22
outside = 61
weld_leg = 8
weld_run = 113
"""
DUTY = """title = "Tamper"
units = "mm"
[duty]
push = "20 kN"
stroke = 200
[supply]
pressure = "120 bar"
[room]
body_mount = "clevis"
rod_mount = "button"
"""
READINGS = """title = "Tamper, read off the old one"
units = "mm"
hard_stop = true
[body_mount]
mount = "clevis"
[rod_mount]
mount = "button"
[tape]
A_outer = [495, 495]
B_outer = [695, 695]
S = [200, 200]
[caliper]
C = [63.02, 63.04]
D = [78.0, 78.1]
E = [35.96, 35.96]
P1 = [29.98, 29.96]
H1 = [30.02, 30.04]
G1 = [31.0, 31.0]
W1 = [70.0, 70.0]
W2 = [22.0, 22.02]
Z2 = [61.0, 61.0]
"""
"""From the far edge of the clevis's hole, 15 mm past its centre, to the button's face."""
RUN = """
import sys
from drafting.model import mounts
mounts.__path__.append(sys.argv[1])
from drafting.cli import main
sys.exit(main(sys.argv[2:]))
"""


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """Give what runs a command beside a folder with one more mount in it."""
    here = tmp_path_factory.mktemp("shop")
    (here / "more").mkdir()
    (here / "more" / "button.py").write_text(BUTTON, encoding="utf-8")
    (here / "t.toml").write_text(SPEC, encoding="utf-8")
    (here / "old.toml").write_text(READINGS, encoding="utf-8")
    (here / "duty.toml").write_text(DUTY, encoding="utf-8")

    env = {**os.environ, "PYTHONPATH": str(HOUSE), "PYTHONIOENCODING": "utf-8"}

    def run(*words, folder="more"):
        command = [sys.executable, "-c", RUN, str(here / folder), *words]
        return subprocess.run(
            command, cwd=here, env=env, capture_output=True, encoding="utf-8", check=False
        )

    run.here = here
    return run


def test_without_the_file_the_word_is_unknown(shop):
    done = shop("check", "t.toml", folder="none")
    assert done.returncode == 2
    assert "button" in done.stderr


def test_it_is_drawn_with_its_rows_on_the_data_sheet(shop):
    done = shop("draw", "t.toml", "--formats", "svg,dxf,pdf,json", "-o", ".")
    assert done.returncode in (0, 1), done.stderr
    drawing = "".join(p.read_text(encoding="utf-8") for p in shop.here.glob("T1*.svg"))
    assert "Button height" in drawing
    assert "button's face" in drawing
    assert (shop.here / "T1.dxf").stat().st_size > 1000
    assert (shop.here / "T1.pdf").stat().st_size > 1000


def test_it_is_on_the_worksheet_and_is_measured(shop):
    done = shop("worksheet", "--body", "clevis", "--rod", "button", "-o", "w.pdf")
    assert done.returncode == 0, done.stderr
    assert (shop.here / "w.pdf").stat().st_size > 1000
    told = shop("measure", "old.toml", "-o", "read.toml")
    assert told.returncode in (0, 1), told.stderr
    spec = tomllib.loads((shop.here / "read.toml").read_text(encoding="utf-8"))
    assert spec["rod_mount"] == {"mount": "button", "width": 22.01, "outside": 61}
    assert spec["cylinder"]["retracted"] == 480


def test_it_is_judged_or_said_not_to_be(shop):
    said = json.loads(shop("check", "t.toml", "--json").stdout)
    text = json.dumps(said)
    assert "weld of the mount, rod end" in text
    assert "what the button presses on" in text


def test_a_duty_is_told_what_to_ask_for_instead(shop):
    done = shop("size", "duty.toml")
    assert done.returncode == 2
    assert "a button is drawn only: size it as plain" in done.stderr


def test_it_is_in_no_other_file():
    assert "button" not in {word for _, word in mount_types()}
