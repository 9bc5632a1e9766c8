"""Real faults, in processes of their own: full disks, missing rights, kills, two runs at once."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

import pytest

from drafting import files
from drafting.errors import Refused
from drafting.files import write_all
from tests.files.two import listing, two

posix = pytest.mark.skipif(os.name == "nt", reason="POSIX rights and signals")
ROOT = Path(__file__).parents[2]


WRITE = """
import sys; from pathlib import Path
from drafting.files import write_all
from drafting.errors import OutputFailed
try:
    write_all({Path(sys.argv[1], n): b"new" * int(sys.argv[2]) for n in ("a.dxf", "b.step")})
except OutputFailed as told:
    print(told)
"""


@posix
def test_a_real_limit_on_file_size(tmp_path: Path) -> None:
    code = "import resource as r; r.setrlimit(r.RLIMIT_FSIZE, (5000, 5000))\n" + WRITE
    (tmp_path / "b.step").write_bytes(b"old")
    run = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path), "4000"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
    )
    assert "larger than a file may be" in run.stdout
    assert listing(tmp_path) == {"b.step": b"old"}


LISTING = "import os, sys; print(sorted(os.listdir(sys.argv[1])))"


@posix
def test_a_disk_that_is_really_full(tmp_path: Path) -> None:
    """A disk of 64 kB in a mount space of its own, where the system lets us have one."""
    shell = (
        'mount -t tmpfs -o size=64k none "$1" || exit 77; '
        'echo old > "$1/b.step"; "$2" -c "$3" "$1" 15000; "$2" -c "$4" "$1"'
    )
    try:
        run = subprocess.run(
            ["unshare", "-m", "sh", "-c", shell, "-", tmp_path, sys.executable, WRITE, LISTING],
            capture_output=True,
            text=True,
            cwd=ROOT,
            check=False,
        )
    except FileNotFoundError:
        pytest.skip("no unshare here")
    if run.returncode:
        pytest.skip(f"no mount space of our own here: {run.stderr.strip()}")
    told, names = run.stdout.splitlines()
    assert "the disk is full" in told
    assert names == "['b.step']"


NOBODY = """
import os
if os.geteuid() == 0:  # root may write anywhere
    import drafting.files, drafting.errors
    os.setegid(65534); os.seteuid(65534)
"""


@posix
def test_a_folder_without_the_right_to_write() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "b.step").write_bytes(b"old")
        folder.chmod(0o555)
        run = subprocess.run(
            [sys.executable, "-c", NOBODY + WRITE, name, "1"],
            capture_output=True,
            text=True,
            cwd=ROOT,
            check=True,
        )
        assert f"you may not write in {name}" in run.stdout, run.stderr
        assert listing(folder) == {"b.step": b"old"}
        folder.chmod(0o755)


SLOW = """
import os, sys, time; from pathlib import Path
from drafting import files
real = os.fsync
def slow(handle):
    real(handle); print("staged", flush=True); time.sleep(0.4)
files.os.fsync = slow
try:
    files.write_all({Path(sys.argv[1], n): b"new" for n in ("a.dxf", "b.step")})
except KeyboardInterrupt:
    print("interrupted", flush=True); sys.exit(130)
print("done", flush=True)
"""


def stopped(folder: Path, number: int) -> tuple[int, str]:
    with subprocess.Popen(
        [sys.executable, "-c", SLOW, str(folder)], stdout=subprocess.PIPE, text=True, cwd=ROOT
    ) as run:
        assert run.stdout is not None
        run.stdout.readline()
        run.send_signal(number)
        rest = run.stdout.read()
    return run.returncode, rest


@posix
def test_ctrl_c_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "b.step").write_bytes(b"old")
    assert stopped(tmp_path, signal.SIGINT) == (130, "interrupted\n")
    assert listing(tmp_path) == {"b.step": b"old"}


@posix
def test_a_termination_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "b.step").write_bytes(b"old")
    assert stopped(tmp_path, signal.SIGTERM) == (-signal.SIGTERM, "")
    assert listing(tmp_path) == {"b.step": b"old"}


@posix
def test_a_kill_leaves_the_old_files_whole_and_what_it_left_can_be_told(tmp_path: Path) -> None:
    write_all(two(tmp_path, b"old"))
    assert stopped(tmp_path, signal.SIGKILL)[0] == -signal.SIGKILL
    after = listing(tmp_path)
    assert (after["a.dxf"], after["b.step"]) == (b"old a", b"old b")
    left = [tmp_path / n for n in after if n.startswith(".drafting-")]
    assert left, "a kill cannot tidy up: this test would prove nothing"
    write_all(two(tmp_path))
    assert set(files.left_behind(tmp_path)) == set(left), "only its owner deletes it"
    there = {n: d for n, d in listing(tmp_path).items() if not n.startswith(".drafting-")}
    assert there == {"a.dxf": b"new a", "b.step": b"new b"}


def test_only_names_of_our_own_making_count_as_left_behind(tmp_path: Path) -> None:
    for name in (".drafting-plan", ".drafting-123.part", "drafting-0123456789abcdef.part"):
        (tmp_path / name).write_text("mine")
    ours = tmp_path / ".drafting-0123456789abcdef.old"
    ours.write_text("old")
    assert files.left_behind(tmp_path) == (ours,)


@posix
def test_a_link_is_written_through(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    real = tmp_path / "real" / "a.dxf"
    real.write_bytes(b"old")
    (tmp_path / "a.dxf").symlink_to(real)
    write_all({tmp_path / "a.dxf": b"new"})
    assert (tmp_path / "a.dxf").is_symlink()
    assert real.read_bytes() == b"new"


def test_a_pipe_and_a_large_file_are_not_read(tmp_path: Path) -> None:
    big = tmp_path / "big.json"
    big.write_bytes(b"x" * 2000)
    with pytest.raises(Refused, match=r"at most 0\.001 MB"):
        files.read_regular(big, 1000)
    if hasattr(os, "mkfifo"):
        os.mkfifo(tmp_path / "pipe")
        with pytest.raises(Refused, match="no regular file"):
            files.read_regular(tmp_path / "pipe", 1000)


def test_two_runs_at_once_give_whole_files(tmp_path: Path) -> None:
    words = [bytes([65 + n]) * 200_000 for n in range(4)]
    failed: list[BaseException] = []

    def work(word: bytes) -> None:
        try:
            for _ in range(5):
                write_all({tmp_path / "a.dxf": word, tmp_path / "b.step": word})
        except BaseException as wrong:
            failed.append(wrong)

    threads = [threading.Thread(target=work, args=(w,)) for w in words]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    assert failed == []
    after = listing(tmp_path)
    assert sorted(after) == ["a.dxf", "b.step"]
    assert all(data in words for data in after.values())
