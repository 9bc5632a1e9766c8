"""What somebody types who has read nothing yet: meant, or answered with what would do."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.cli.arguments import VERBS
from drafting.cli.parsing import MEANT

ROOT = Path(__file__).parents[2]
SPEC = (ROOT / "specs" / "weir-gate.toml").read_text(encoding="utf-8")
posix = pytest.mark.skipif(os.name == "nt", reason="a shell of POSIX")


def renumbered(number):
    return SPEC.replace("HB-0101", number)


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.toml").write_text(renumbered("HB-1"), encoding="utf-8")
    (tmp_path / "b.toml").write_text(renumbered("HB-2"), encoding="utf-8")
    return tmp_path


def files(folder):
    return sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())


def told(capsys, argv, code=2):
    assert main(argv) == code
    return capsys.readouterr().err


def test_nothing_asked_gives_three_lines_that_can_be_typed(capsys):
    assert main([]) == 0
    lines = capsys.readouterr().out.splitlines()
    typed = [line.split()[1] for line in lines if line.startswith("  drafting ")]
    assert len(typed) == 3
    assert set(typed) <= VERBS.keys()


@pytest.mark.parametrize("argv", [["help"], ["--help"], ["-h"]])
def test_help_names_every_verb(argv, capsys):
    assert main(argv) == 0
    out = capsys.readouterr().out
    assert all(f"    {verb} " in out for verb in VERBS)


@pytest.mark.parametrize("argv", [["help", "draw"], ["draw", "--help"]])
def test_help_of_a_verb(argv, capsys):
    assert main(argv) == 0
    assert "--keep-going" in capsys.readouterr().out


def test_a_verb_may_have_a_capital(capsys):
    assert main(["Schema"]) == 0
    assert '"$schema"' in capsys.readouterr().out


@pytest.mark.parametrize("word", ["-V", "--version", "version"])
def test_version(word, capsys):
    assert main([word]) == 0
    assert capsys.readouterr().out.startswith("cylinder-drafting ")


@pytest.mark.parametrize(
    ("word", "meant"),
    [("drwa", "draw"), ("Drow", "draw"), ("plot", "draw"), ("init", "new"), ("verify", "check"),
     ("threads", "identify"), ("mesure", "measure"), ("a.toml", "draw a.toml")],
)  # fmt: skip
def test_a_wrong_verb_is_answered_with_the_right_one(word, meant, capsys):
    assert f'"drafting {meant}"' in told(capsys, [word, "a.toml"])


def test_a_word_like_no_verb_is_answered_with_all(capsys):
    said = told(capsys, ["xyzzy"])
    assert "did you mean" not in said
    assert all(verb in said for verb in VERBS)


def test_no_verb_is_said_for_another():
    for words in MEANT.values():
        assert not set(words.split()) & VERBS.keys()


def test_a_wrong_option_is_answered_with_the_right_one(capsys):
    assert "did you mean --formats?" in told(capsys, ["draw", "--fromats", "pdf", "a.toml"])
    assert "as in: drafting draw mine.toml;" in told(capsys, ["draw"])
    assert "as in: drafting size duty.toml;" in told(capsys, ["size"])
    assert "did you mean clevis?" in told(capsys, ["new", "x", "--body", "Clevi"])
    said = told(capsys, ["worksheet"])
    assert "as in: drafting worksheet --body clevis --rod clevis;" in said
    assert "did you mean" not in said, "nothing was mistyped"


def test_a_file_that_is_not_there_is_answered_with_one_like_it_alone(here, capsys):
    assert "there is a.toml" in told(capsys, ["check", "A1.toml"])
    assert "there is" not in told(capsys, ["check", "readings.toml"]).replace("there is no", "")


def test_a_refused_command_line_is_json_too(capsys):
    assert main(["draw", "--json", "--nope", "a.toml"]) == 2
    document = json.loads(capsys.readouterr().out)
    assert [e["code"] for e in document["errors"]] == ["usage"]


def test_options_may_stand_between_specs_and_f_is_formats(here):
    assert main(["draw", "a.toml", "-o", "out", "b.toml", "-f", ".pdf, json"]) in (0, 1)
    assert files(here / "out") == ["HB-1.json", "HB-1.pdf", "HB-2.json", "HB-2.pdf"]


@pytest.mark.parametrize(
    ("words", "drawn"),
    [(["a"], ["HB-1"]), (["*.toml"], ["HB-1", "HB-2"]), (["[b].toml"], ["HB-2"])],
)
def test_a_spec_without_its_ending_and_a_pattern_that_no_shell_read(words, drawn, here):
    assert main(["draw", *words, "-f", "json"]) in (0, 1)
    assert files(here / "output") == [f"{name}.json" for name in drawn]


def test_a_file_that_is_there_is_never_taken_for_a_pattern(here):
    (here / "x[1].toml").write_text(renumbered("HB-3"), encoding="utf-8")
    assert main(["draw", "x[1].toml", "-f", "json"]) in (0, 1)
    assert files(here / "output") == ["HB-3.json"]


def test_a_folder_is_answered_with_its_specs(here, capsys):
    (here / "jobs").mkdir()
    assert "no spec file" in told(capsys, ["draw", "jobs"])
    (here / "a.toml").rename(here / "jobs" / "a.toml")
    said = told(capsys, ["check", "jobs"])
    assert "(a.toml)" in said
    assert '"jobs/*.toml"' in said


@pytest.mark.parametrize("name", ["out.pdf", "x/out.PDF", "a.step", "out.stp", "new.toml"])
def test_a_file_where_a_folder_belongs_is_refused(name, here, capsys):
    before = files(here)
    assert "names the folder" in told(capsys, ["draw", "a.toml", "-o", name])
    assert files(here) == before


def test_a_folder_that_is_called_like_a_file_is_one(here):
    (here / "old.pdf").mkdir()
    assert main(["draw", "a.toml", "-f", "json", "-o", "old.pdf"]) in (0, 1)
    assert files(here / "old.pdf") == ["HB-1.json"]


def run(argv, cwd, **more):
    return subprocess.run(
        [sys.executable, "-m", "drafting", *argv],
        cwd=cwd,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        timeout=60,
        **more,
    )


@pytest.mark.parametrize("verb", ["check", "draw"])
def test_the_standard_input(verb, tmp_path):
    more = ["-f", "json"] if verb == "draw" else ["--json"]
    plain = SPEC.replace('number   = "HB-0101"\n', "")
    assert plain != SPEC
    done = run([verb, "-", *more], tmp_path, input=plain.encode())
    assert done.returncode in (0, 1), done.stderr
    if verb == "draw":
        assert files(tmp_path) == ["output/stdin.json"]
    assert run([verb, "-"], tmp_path, input=b"").returncode == 2
    wrong = run([verb, "-"], tmp_path, input=b"bore = \n")
    assert wrong.returncode == 2
    assert b"stdin.toml:1:" in wrong.stderr


@posix
def test_open_asks_the_system_for_its_viewer(here, monkeypatch):
    """The words are those of freedesktop.org's xdg-utils and of macOS; the viewer is a stand-in."""
    for word in ("xdg-open", "open"):
        stand_in = here / word
        stand_in.write_text(f'#!/bin/sh\necho "$1" > {here}/shown\n', encoding="utf-8")
        stand_in.chmod(0o755)
    monkeypatch.setenv("PATH", str(here), prepend=os.pathsep)
    assert main(["draw", "a.toml", "-f", "pdf,svg", "--open"]) in (0, 1)
    for _ in range(100):
        if (here / "shown").exists() and (here / "shown").read_text():
            break
        time.sleep(0.05)
    assert (here / "shown").read_text().strip() == str(here / "output" / "HB-1.pdf")


def test_open_without_a_viewer_is_told_and_the_drawing_stays(here, monkeypatch, capsys):
    monkeypatch.setenv("PATH", str(here))
    monkeypatch.setattr(sys, "platform", "linux")
    assert main(["draw", "a.toml", "-f", "svg", "--open"]) in (0, 1)
    assert "cannot be shown from here" in capsys.readouterr().err
    assert (here / "output" / "HB-1.svg").exists()


class Watched:
    """A run with --watch whose lines on stderr are read as they come."""

    def __init__(self, cwd, *argv):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "drafting", "draw", *argv, "--watch", "-f", "json"],
            cwd=cwd,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )

    def until_it_waits(self):
        lines = []
        for line in self.process.stderr:
            if line.startswith("waiting for"):
                return "".join(lines)
            lines.append(line)
        raise AssertionError("".join(lines))


@posix
def test_watch_draws_on_save_and_goes_on_after_a_fault(here):
    from signal import SIGINT

    watched = Watched(here, "a.toml")
    try:
        watched.until_it_waits()
        (here / "a.toml").write_text("bore = 3 1/2\n", encoding="utf-8")
        assert "a.toml:1:" in watched.until_it_waits()
        (here / "a.toml").write_text(renumbered("HB-1").replace("Weir", "Wear"), encoding="utf-8")
        watched.until_it_waits()
        entry = json.loads((here / "output" / "HB-1.json").read_text())["cylinders"][0]
        assert "Wear" in entry["spec_text"]
        watched.process.send_signal(SIGINT)
        assert watched.process.wait(20) == 0
    finally:
        watched.process.kill()
        watched.process.stderr.close()


def test_the_standard_input_is_not_watched(here, capsys):
    assert "--watch" in told(capsys, ["draw", "-", "--watch"])


@posix
@pytest.mark.parametrize("shell", ["bash", "zsh"])
def test_completion_knows_verbs_and_options(shell, capsys):
    assert main(["--completion", shell]) == 0
    script = capsys.readouterr().out
    assert all(word in script for word in (*VERBS, "--keep-going", "--taper"))
    assert "bash" in told(capsys, ["--completion", "cmd"])


@posix
def test_bash_completes_a_verb(tmp_path, capsys):
    main(["--completion", "bash"])
    (tmp_path / "c.sh").write_text(capsys.readouterr().out, encoding="utf-8")
    asked = (
        'source c.sh; COMP_WORDS=(drafting me); COMP_CWORD=1; COMP_LINE="drafting me"; '
        "$(complete -p drafting | sed 's/.*-F \\([^ ]*\\).*/\\1/'); echo \"${COMPREPLY[@]}\""
    )
    done = subprocess.run(["bash", "-c", asked], cwd=tmp_path, capture_output=True, text=True)
    assert done.stdout.split() == ["measure"], done.stderr


@posix
def test_a_reader_that_goes_early_keeps_the_code_of_a_drawing(here):
    line = (
        f'"{sys.executable}" -m drafting draw *.toml -f svg,json | head -1; echo ${{PIPESTATUS[0]}}'
    )
    done = subprocess.run(
        ["bash", "-c", line],
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
    )
    assert done.stdout.splitlines()[-1] == str(main(["draw", "a.toml", "b.toml", "-f", "svg,json"]))
