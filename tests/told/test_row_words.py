"""What a list calls a value: the words of the data sheet, never the file's."""

import re
from pathlib import Path

import pytest

from drafting.model.load import checked, load
from drafting.told.data import data_of
from drafting.told.row_words import row_words

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))
LOCK = """
title = "Cradle lock"
units = "mm"
[cylinder]
bore = 40
rod = 22
stroke = 150
retracted = 330
clock_seen_from = "rod"
cushions = "rod"
rod_finish = "chrome"
[body_mount]
mount = "trunnion"
position = {position}
pin = 20
shoulders = 70
width = 110
grease = true
[rod_mount]
mount = "clevis"
pin = 20
hole = 20.1
gap = 26
width = 50
[base_port]
thread = "G 1/4"
clock = "6:00"
[rod_port]
thread = "G 1/4"
clock = "6:00"
[[extra_port]]
end = "rod"
thread = "G 1/8"
clock = "12:00"
"""


@pytest.mark.parametrize(("position", "body"), [(150, "body"), ('"base"', "base end")])
def test_what_has_a_row_is_called_so_with_its_end(position, body):
    c = load(checked(LOCK.format(position=position).encode()))
    words = row_words(c)
    assert words["rod_mount.width"] == "Width over ears, rod end"
    assert words["body_mount.width"] == f"Over the pins, {body}"
    assert words["rod_port.clock"] == "Port clock, rod end"
    assert words["base_port.thread"] == "Port thread, base end"
    assert words["extra_port[1].clock"] == "Port 2 clock, rod end"
    assert words["cylinder.rod_finish"] == "Rod plating"
    assert words["cylinder.retracted"] == "Retracted"
    assert words["body_mount.grease"] == f"{body.partition(' ')[0].capitalize()} grease fitting"


@pytest.mark.parametrize("path", SPECS, ids=[p.stem for p in SPECS])
def test_no_word_is_the_files(path):
    """Against the data sheet: what has a row of its own there is called by it."""
    c = load(checked(path.read_bytes()))
    words = row_words(c)
    assert not [w for w in words.values() if re.search(r"[_\[\]]|\.[a-z]", w) or not w[0].isupper()]
    assert {v.name for v in c.values} | {*c.spec.givens} <= words.keys()
    labels = {r.label for r in data_of(c, "mm", 0).held}
    assert labels == {
        w.rpartition(", ")[0] for w in words.values() if w.rpartition(", ")[0] in labels
    }
