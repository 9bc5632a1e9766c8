"""Several specs in one run: one refusal writes nothing, unless the others are to be drawn."""

import json
import sys
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.errors import OutputFailed
from drafting.jobs import draw as job

SPEC = (Path(__file__).parents[2] / "specs" / "weir-gate.toml").read_text(encoding="utf-8")


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for stem, text in (
        ("a", SPEC.replace("HB-0101", "HB-1")),
        ("b", 'title = "x"\nunits = "in"\n[cylinder]\nbore = 3 1/2\n'),
        ("c", SPEC.replace("HB-0101", "HB-3")),
    ):
        (tmp_path / f"{stem}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def drawn(folder):
    out = folder / "output"
    return sorted(p.name for p in out.iterdir()) if out.exists() else []


ALL = ["draw", "a.toml", "b.toml", "c.toml", "-f", "json"]


def test_one_refusal_writes_nothing_and_says_what_would_do(here, capsys):
    assert main(ALL) == 2
    assert drawn(here) == []
    assert capsys.readouterr().err.splitlines()[-1] == (
        "nothing was written; 2 of 3 can be drawn: add --keep-going"
    )


def test_keep_going_draws_the_others_and_the_code_still_says_it(here, capsys):
    assert main([*ALL, "--keep-going", "--json"]) == 2
    said = capsys.readouterr()
    assert drawn(here) == ["HB-1.json", "HB-3.json"]
    assert "b.toml:4:" in said.err
    assert said.err.splitlines()[-1] == "exit 2: 2 of 3 drawn"
    document = json.loads(said.out)
    assert [c["name"] for c in document["cylinders"]] == ["HB-1", "HB-3"]
    assert {e["file"] for e in document["errors"]} == {"b.toml"}


def test_keep_going_with_nothing_to_draw_is_a_refusal(here, capsys):
    assert main(["draw", "b.toml", "-f", "json", "--keep-going"]) == 2
    assert "exit 2" not in capsys.readouterr().err
    assert drawn(here) == []


def test_of_two_of_one_name_the_first_is_kept(here, capsys):
    (here / "b.toml").write_text(SPEC.replace("HB-0101", "HB-1"), encoding="utf-8")
    assert main(ALL) == 2
    assert drawn(here) == []
    assert main([*ALL, "--keep-going"]) == 2
    assert drawn(here) == ["HB-1.json", "HB-3.json"]
    assert "is also the name of a.toml" in capsys.readouterr().err


def test_the_file_of_another_drawing_stops_only_its_own(here, capsys):
    (here / "output").mkdir()
    (here / "output" / "HB-1.json").write_text("{}", encoding="utf-8")
    assert main(["draw", "a.toml", "c.toml", "-f", "json", "--keep-going"]) == 2
    assert (here / "output" / "HB-1.json").read_text() == "{}"
    assert drawn(here) == ["HB-1.json", "HB-3.json"]


def test_a_drawing_that_fails_stops_only_itself(here, monkeypatch, capsys):
    plain = job._drawn

    def failing(c, solids, how):
        if c.name == "HB-1":
            raise OutputFailed("the kernel cannot make it.")
        return plain(c, solids, how)

    monkeypatch.setattr(job, "_drawn", failing)
    both = ["draw", "a.toml", "c.toml", "-f", "json"]
    assert main(both) == 3
    assert drawn(here) == []
    assert main([*both, "--keep-going"]) == 3
    assert drawn(here) == ["HB-3.json"]
    assert capsys.readouterr().err.splitlines()[-1] == "exit 3: 1 of 2 drawn"


def test_each_is_told_as_it_is_done(here, monkeypatch):
    """What is written first is on the stream before the second is drawn."""
    seen, plain = [], job._drawn

    def looking(c, solids, how):
        seen.append((c.name, drawn(here)))
        return plain(c, solids, how)

    monkeypatch.setattr(job, "_drawn", looking)
    main(["draw", "a.toml", "c.toml", "-f", "json"])
    assert seen == [("HB-1", []), ("HB-3", ["HB-1.json"])]


def test_each_is_checked_and_told_before_the_next(here, monkeypatch, capsys):
    """What is said of the first is on the screen before the second is judged."""
    from drafting.cli import check

    told, plain = [], check.judge

    def looking(c):
        told.append(capsys.readouterr().out)
        return plain(c)

    monkeypatch.setattr(check, "judge", looking)
    main(["check", "a.toml", "c.toml"])
    assert told[0] == ""
    assert told[1].startswith("HB-1 ")
    assert capsys.readouterr().out.count("HB-1 ") == 1, "the line of the summary"


@pytest.mark.parametrize("terminal", [True, False])
def test_progress_is_for_a_terminal_alone(terminal, here, monkeypatch, capsys):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal)
    main(["draw", "a.toml", "c.toml", "-f", "json"])
    lines = [w for w in capsys.readouterr().err.splitlines() if " of 2: " in w]
    assert lines == (["1 of 2: a.toml", "2 of 2: c.toml"] if terminal else [])
