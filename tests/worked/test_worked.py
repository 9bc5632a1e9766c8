"""The worked examples are what the program says today, from nothing to a sheet.

What they must come to is asked of the files beside the words: nothing is taken from a page.
"""

import os

import pytest

from drafting.checks.of_cylinder import judge
from drafting.model.load import load, read
from tests.worked.replay import PAGES, replay

ENDS = {
    "old-splitter": "WS-0012",
    "press-tie-rod": "VP-0003",
    "worn-plough": "PL-0007",
    "baler-door": "BD-0031",
    "lock-paddle": "LP-0104",
}


def test_every_page_is_asked_for():
    assert {p.stem for p in PAGES.glob("*.md")} == set(ENDS)


@pytest.mark.parametrize("name", ENDS)
def test_the_page_says_what_the_terminal_says(name, tmp_path, monkeypatch):
    """``python -m tests.worked.replay --write`` brings the pages up to date."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    page = (PAGES / f"{name}.md").read_text(encoding="utf-8")
    assert replay(page, tmp_path) == page
    assert os.listdir(tmp_path / "output") == [f"{ENDS[name]}.pdf"]
    assert "the tool itself failed" not in page
    assert str(tmp_path) not in page
    {"old-splitter": splitter, "worn-plough": plough}.get(name, sized)(tmp_path, name)


def splitter(folder, name):
    """By hand: A is A_outer less half of both holes, as a machinist would; the tapes agree."""
    c = load(read(str(folder / "old.toml")))
    by_hand = (37.25 - (1.512 + 1.513) / 2) * 25.4
    assert c.lengths.retracted == pytest.approx(by_hand, abs=0.2)
    assert c.stations.bore == pytest.approx(76.2)
    assert not any(v.origin == "open" for v in c.values)


def plough(folder, name):
    """What was not to be known is open in the spec, and nothing else is."""
    c = load(read(str(folder / "old-plough.toml")))
    opened = {v.name for v in c.values if v.origin == "open"}
    assert opened == {"rod_mount.pin", "rod_port.thread"}


def sized(folder, name):
    (spec,) = (p for p in folder.glob("*.toml") if p.stem in (ENDS[name], "old-press"))
    checks = judge(load(read(str(spec)))).checks
    assert [k.code for k in checks if k.verdict == "fails"] == []
