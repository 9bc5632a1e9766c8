"""What a person names to write to: a file where a folder belongs, and what is there already."""

from pathlib import Path

import pytest

from drafting.cli import main

ROOT = Path(__file__).parents[2]
SPEC = str(ROOT / "specs" / "weir-gate.toml")
MACHINE = str(ROOT / "specs" / "machines" / "lock-latch.toml")
VERBS = {
    "draw": ["draw", SPEC, "--formats", "svg", "-o"],
    "request": ["request", SPEC, "-o"],
    "compare": ["compare", SPEC, SPEC, "--draw", "-o"],
    "fit": ["fit", SPEC, MACHINE, "-o"],
    "check": ["check", SPEC, "--plots"],
}


@pytest.mark.parametrize("below", ["", "/x/y"])
@pytest.mark.parametrize("verb", VERBS)
def test_a_file_where_a_folder_is_needed_is_refused_before_any_work(verb, below, tmp_path, capsys):
    taken = tmp_path / "out"
    taken.write_bytes(b"mine")
    assert main([*VERBS[verb], f"{taken}{below}"]) == 2
    told = capsys.readouterr()
    assert f"{taken} is a file and no folder; name another with" in told.err
    assert told.out == ""
    assert taken.read_bytes() == b"mine"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


STOCK = "part,bore,rod,stroke,retracted\nA1,3 1/2 in,1 3/4 in,16 in,27 1/4 in\n"


@pytest.mark.parametrize("verb", ["match", "worksheet"])
def test_a_file_that_is_there_is_not_written_over_without_being_told(verb, tmp_path, capsys):
    stock, named = tmp_path / "stock.csv", tmp_path / "mine.csv"
    stock.write_text(STOCK, encoding="utf-8")
    argv = ["match", SPEC, str(stock), "-o", str(named)]
    if verb == "worksheet":
        named = tmp_path / "mine.pdf"
        argv = ["worksheet", "--machine", "-o", str(named)]
    named.write_bytes(b"mine")
    assert main(argv) == 2
    assert "overwrite it with --force" in capsys.readouterr().err
    assert named.read_bytes() == b"mine"
    assert main([*argv, "--force"]) in (0, 1)
    assert named.read_bytes() != b"mine"
