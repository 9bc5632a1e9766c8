"""What goes wrong around the program does not change what its exit code says of the work."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.errors import LONGEST, visible

ROOT = Path(__file__).parents[2]
SPEC = str(ROOT / "specs" / "weir-gate.toml")
posix = pytest.mark.skipif(os.name == "nt", reason="a shell of POSIX")


def shell(line, cwd=ROOT, **environment):
    return subprocess.run(
        ["bash", "-c", line],
        cwd=cwd,
        env=os.environ | {"PY": sys.executable, "S": SPEC, "PYTHONPATH": str(ROOT)} | environment,
        capture_output=True,
        text=True,
        timeout=60,
    )


@pytest.fixture(scope="module")
def plain():
    return shell('"$PY" -m drafting check "$S"').returncode


@posix
@pytest.mark.parametrize("end", [">&-", "2>&-", ">/dev/full", "2>/dev/full", ">/dev/full 2>&1"])
def test_a_closed_or_full_stream_keeps_the_code(end, plain):
    assert shell(f'"$PY" -m drafting check "$S" {end}').returncode == plain


@posix
def test_a_reader_that_goes_early_keeps_the_code(plain):
    done = shell('"$PY" -m drafting check "$S" | head -1; echo ${PIPESTATUS[0]}')
    assert done.stdout.splitlines()[-1] == str(plain)


@posix
def test_a_full_disk_is_told():
    assert "not all could be printed" in shell('"$PY" -m drafting check "$S" >/dev/full').stderr


def test_a_file_beside_the_spec_is_not_taken_for_the_library(tmp_path, plain):
    for name in ("decimal", "fractions", "argparse", "numpy"):
        (tmp_path / f"{name}.py").write_text("raise SystemExit('taken')\n", encoding="utf-8")
    done = shell('"$PY" -m drafting check "$S"', cwd=tmp_path)
    assert done.returncode == plain
    assert "taken" not in done.stderr


@pytest.mark.parametrize("option", ["--from", "--against"])
@pytest.mark.parametrize("empty", ["", "  "])
def test_an_empty_name_is_refused(option, empty, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    verb = ["new", "x.toml"] if option == "--from" else ["draw", SPEC, "--formats", "svg"]
    assert main([*verb, option, empty]) == 2
    assert f"{option} names no file" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_nothing_from_a_file_steers_the_terminal(tmp_path, capsys):
    spec = tmp_path / "a.toml"
    spec.write_text('title = "x"\n\x1b[31m = 3\n', encoding="utf-8")
    assert main(["check", str(spec)]) == 2
    said = capsys.readouterr().err
    assert "\x1b" not in said
    assert r"\x1b" in said


def test_a_line_shows_what_cannot_be_seen_and_is_not_endless():
    assert visible("a\x1b[31m\u202eb\x07") == r"a\x1b[31m\u202eb\x07"
    assert len(visible("x" * 10 * LONGEST)) < LONGEST + 40
    assert visible("3 1/2 in ½ Ø") == "3 1/2 in ½ Ø"


@pytest.mark.parametrize("suffix", ["dxf", "pdf", "svg", "json", "step", "glb", "png", "csv"])
@pytest.mark.parametrize("content", [b"", b"\xef\x00\x01" * 1000, b"{}", b"ISO-10303-21;\n"])
def test_a_damaged_file_is_told_without_the_insides_of_the_program(
    suffix, content, tmp_path, capsys
):
    path = tmp_path / f"old.{suffix}"
    path.write_bytes(content)
    assert main(["new", str(tmp_path / "x.toml"), "--from", str(path)]) == 2
    said = capsys.readouterr().err
    assert not any(word in said for word in ("codec", "Error", "Traceback", "NoneType", "<class"))
    assert not (tmp_path / "x.toml").exists()
