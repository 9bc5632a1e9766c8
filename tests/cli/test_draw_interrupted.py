"""Whole files or none, and a plain message, when a drawing cannot be finished.

Source: the project's own command line: exit 3 when the tool failed, nothing half written.
"""

import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from drafting.cli import main

ROOT = Path(__file__).parents[2]
SPEC = str(ROOT / "specs" / "weir-gate.toml")
posix = pytest.mark.skipif(os.name == "nt", reason="POSIX signals and rights")

# Draws as `python -m drafting` does, but lingers wherever bytes have reached the disk.
SLOW = """
import os, sys, time
from drafting import files
from drafting.cli import main
real = os.fsync
def slow(handle):
    real(handle); print("staged", flush=True); time.sleep(1)
files.os.fsync = slow
sys.exit(main(sys.argv[1:]))
"""

# Root may write anywhere: all is drawn as usual, then written with the rights of nobody.
AS_NOBODY = """
import os, sys
from drafting.cli import draw, main
write_all = draw.write_all
def as_nobody(files):
    if os.geteuid() == 0:
        os.setegid(65534); os.seteuid(65534)
    write_all(files)
draw.write_all = as_nobody
sys.exit(main(sys.argv[1:]))
"""


def child(code, *arguments):
    return subprocess.Popen(
        [sys.executable, "-c", code, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )


def listing(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir()}


@posix
@pytest.mark.parametrize("files_staged", [1, 3])
def test_a_kill_leaves_what_was_there_before(tmp_path, files_staged):
    out = tmp_path / "out"
    out.mkdir()
    before = {f"HB-0101.{f}": b"old" for f in ("dxf", "svg", "pdf")}
    for name, data in before.items():
        (out / name).write_bytes(data)
    with child(SLOW, "draw", SPEC, "--force", "--formats", "dxf,svg,pdf", "-o", str(out)) as run:
        for _ in range(files_staged):
            assert run.stdout.readline() == "staged\n"
        run.kill()
    assert run.returncode == -signal.SIGKILL
    after = listing(out)
    assert len(after) > len(before), "it was killed before it wrote: this proves nothing"
    assert {n: d for n, d in after.items() if not n.startswith(".drafting-")} == before
    # and the next run does not stumble over what lies there
    assert main(["draw", SPEC, "--force", "--formats", "dxf,svg,pdf", "-o", str(out)]) in (0, 1)
    assert all(listing(out)[name].startswith((b"  0", b"<?xml", b"%PDF")) for name in before)


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="no /proc to see children in")
def test_a_kill_while_solids_are_built_leaves_no_file_and_no_process(tmp_path):
    out = tmp_path / "out"
    argv = ["-m", "drafting", "draw", SPEC, "--formats", "step", "-o", str(out)]
    with subprocess.Popen([sys.executable, *argv], cwd=ROOT) as run:
        children = []
        while not children and run.poll() is None:
            time.sleep(0.02)
            children = children_of(run.pid)
        run.kill()
    assert children, "no second process was seen: this proves nothing"
    assert not out.exists()
    end = time.monotonic() + 20
    while any(alive(pid) for pid in children) and time.monotonic() < end:
        time.sleep(0.1)
    assert not any(alive(pid) for pid in children)


def children_of(pid):
    try:
        return [int(p) for p in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    except FileNotFoundError:
        return []


def alive(pid):
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] != "Z"
    except FileNotFoundError:
        return False


@posix
def test_a_read_only_folder_is_said_in_plain_words():
    with tempfile.TemporaryDirectory() as name:  # pytest's own folders are closed to nobody
        Path(name).chmod(0o755)
        out = Path(name, "out")
        out.mkdir()
        (out / "HB-0101.svg").write_bytes(b"old")
        out.chmod(0o555)
        argv = ("draw", SPEC, "--force", "--formats", "dxf,svg", "-o", str(out))
        with child(AS_NOBODY, *argv) as run:
            told = run.communicate(timeout=60)
        assert run.returncode == 3, told
        assert f"you may not write in {out}" in told[1]
        assert "Traceback" not in told[1]
        assert listing(out) == {"HB-0101.svg": b"old"}
        out.chmod(0o755)


@posix
def test_a_folder_that_vanishes_on_the_way_is_said_in_plain_words(tmp_path):
    out = tmp_path / "out"
    with child(SLOW, "draw", SPEC, "--formats", "dxf,svg", "-o", str(out)) as run:
        assert run.stdout.readline() == "staged\n"
        out.rename(tmp_path / "elsewhere")
        told = run.communicate(timeout=60)
    assert run.returncode == 3, told
    assert "gone" in told[1]
    assert "Traceback" not in told[1]
    assert not out.exists()
    assert not any(n.startswith("HB-") for n in listing(tmp_path / "elsewhere"))
