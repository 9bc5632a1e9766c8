"""Files are whole or not there at all: faults are put in on purpose, in this process and outside.

Sources: the rules for names of the project's own command line; device names from Microsoft's page
"Naming Files, Paths, and Namespaces" (from memory).
"""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import tempfile
import threading
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting import files
from drafting.errors import OutputFailed, Refused
from drafting.files import safe_name, write_all

posix = pytest.mark.skipif(os.name == "nt", reason="POSIX rights and signals")
ROOT = Path(__file__).parents[2]


def listing(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if not p.is_dir()}


def two(folder: Path, word: bytes = b"new") -> dict[Path, bytes]:
    return {folder / "a.dxf": word + b" a", folder / "b.step": word + b" b"}


# --- names -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "name"),
    [
        ("SG-0417", "SG-0417"),
        ("SG 0417 / rev. B", "SG-0417-rev.-B"),
        ("  gate  ", "gate"),
        ("../../etc/passwd", "etc-passwd"),
        ("a\tb\nc", "a-b-c"),
        ('x<>:"|?*y', "x-y"),
        ("Schütz_1", "Schütz_1"),
        ("Schu\u0308tz_1", "Schütz_1"),
        ("閘門-7", "閘門-7"),
        ("गेट ४", "गेट-४"),
        ("con", "con_"),
        ("NUL.2", "NUL_.2"),
        ("COM1", "COM1_"),
        ("LPT\u00b2", "LPT²_"),
        ("COM10", "COM10"),
        ("console", "console"),
        ("", "stem"),
        ("///", "stem"),
        ("..", "stem"),
    ],
)
def test_names(number: str, name: str) -> None:
    assert safe_name(number, "stem") == name


def test_a_name_when_nothing_is_left() -> None:
    assert safe_name("?", "...") == "cylinder"


@given(st.text())
def test_any_number_gives_a_name_that_stays_in_its_folder(number: str) -> None:
    name = safe_name(number, "stem")
    assert name
    assert name == unicodedata.normalize("NFC", name)
    assert not set(name) & set('<>:"/\\|?*\0 ')
    assert name[0] != "."
    assert name[-1] != "."
    assert Path("output", f"{name}.dxf").parent == Path("output")
    assert safe_name(name, "stem") == name


# --- whole or none -----------------------------------------------------------------------------


def test_writes_into_a_folder_that_it_makes(tmp_path: Path) -> None:
    folder = tmp_path / "output" / "deep"
    write_all(two(folder))
    assert listing(folder) == {"a.dxf": b"new a", "b.step": b"new b"}


def test_replaces_what_is_there(tmp_path: Path) -> None:
    write_all(two(tmp_path, b"old"))
    write_all(two(tmp_path))
    assert listing(tmp_path) == {"a.dxf": b"new a", "b.step": b"new b"}


@posix
def test_new_files_have_the_rights_of_ordinary_files(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.write_bytes(b"")
    write_all({tmp_path / "a": b"x"})
    assert (tmp_path / "a").stat().st_mode == plain.stat().st_mode


@pytest.mark.parametrize(
    ("code", "word"),
    [
        (errno.ENOSPC, "full"),
        (errno.EROFS, "read-only"),
        (errno.EACCES, "write"),
        (errno.EIO, "error"),
        (errno.ENOENT, "gone"),
    ],
)
@pytest.mark.parametrize("existing", [True, False])
@pytest.mark.parametrize("failing", ["fsync", "link", "replace"])
@pytest.mark.parametrize("at", [1, 2])
def test_a_fault_leaves_everything_as_it_was(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    code: int,
    word: str,
    existing: bool,
    failing: str,
    at: int,
) -> None:
    if existing:
        write_all(two(tmp_path, b"old"))
    before = listing(tmp_path)
    real, calls = getattr(os, failing), 0

    def faulty(*args: object) -> object:
        nonlocal calls
        calls += 1
        if calls == at:
            raise OSError(code, os.strerror(code))
        return real(*args)

    monkeypatch.setattr(files.os, failing, faulty)
    monkeypatch.setattr(files, "_TRIES", 1)
    if failing == "link":  # copied instead: a disk without links is no failure
        write_all(two(tmp_path))
        assert listing(tmp_path) == {"a.dxf": b"new a", "b.step": b"new b"}
        return
    with pytest.raises(OutputFailed) as told:
        write_all(two(tmp_path))
    assert listing(tmp_path) == before
    assert word in str(told.value)
    assert ("a.dxf", "b.step")[at - 1] in str(told.value)
    assert str(told.value).endswith("Nothing was changed.")


def test_says_which_file_could_not_be_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = os.replace, 0

    def only_the_first(*args: str) -> None:
        nonlocal calls
        calls += 1
        if calls > 1:
            raise OSError(errno.EIO, "broken")
        real(*args)

    write_all(two(tmp_path, b"old"))
    monkeypatch.setattr(files.os, "replace", only_the_first)
    with pytest.raises(OutputFailed, match=r"taken back: .*a\.dxf \(the old file is (.*\.old)\)"):
        write_all(two(tmp_path))
    kept = [p for p in tmp_path.iterdir() if p.suffix == ".old"]
    assert [p.read_bytes() for p in kept] == [b"old a"]


def test_a_held_file_is_tried_again_on_windows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = os.replace, 0

    def held_twice(*args: str) -> None:
        nonlocal calls
        calls += 1
        if calls <= 2:
            raise PermissionError(errno.EACCES, "used by another process")
        real(*args)

    monkeypatch.setattr(files.os, "replace", held_twice)
    monkeypatch.setattr(files, "_TRIES", 3)
    write_all(two(tmp_path))
    assert listing(tmp_path) == {"a.dxf": b"new a", "b.step": b"new b"}


def test_made_folders_go_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "no space")

    monkeypatch.setattr(files.os, "fsync", full)
    with pytest.raises(OutputFailed, match="full"):
        write_all(two(tmp_path / "x" / "y"))
    assert list(tmp_path.iterdir()) == []


def test_a_file_where_a_folder_is_needed(tmp_path: Path) -> None:
    (tmp_path / "output").write_bytes(b"mine")
    with pytest.raises(OutputFailed, match="a file stands where a folder is needed"):
        write_all(two(tmp_path / "output"))
    assert listing(tmp_path) == {"output": b"mine"}


def test_a_folder_where_a_file_is_needed(tmp_path: Path) -> None:
    (tmp_path / "b.step").mkdir()
    with pytest.raises(OutputFailed, match=r"b\.step .*a folder of that name"):
        write_all(two(tmp_path))
    assert listing(tmp_path) == {}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
@pytest.mark.parametrize("linked", [False, True])
def test_a_pipe_or_a_device_is_never_replaced(tmp_path: Path, linked: bool) -> None:
    pipe = tmp_path / ("pipe" if linked else "b.step")
    os.mkfifo(pipe)
    if linked:
        (tmp_path / "b.step").symlink_to(pipe)
    with pytest.raises(OutputFailed, match=r"a pipe or a device .*Nothing was changed"):
        write_all(two(tmp_path))
    assert pipe.is_fifo()
    assert not (tmp_path / "a.dxf").exists()


@posix
def test_links_in_a_circle_are_said_in_plain_words(tmp_path: Path) -> None:
    (tmp_path / "b.step").symlink_to("other")
    (tmp_path / "other").symlink_to("b.step")
    with pytest.raises(OutputFailed, match=r"b\.step .*link.* circle"):
        write_all(two(tmp_path))
    assert not (tmp_path / "a.dxf").exists()
    assert (tmp_path / "b.step").is_symlink()


def test_a_name_that_is_too_long(tmp_path: Path) -> None:
    with pytest.raises(OutputFailed, match="too long"):
        write_all({tmp_path / "a": b"", tmp_path / ("x" * 300): b""})
    assert listing(tmp_path) == {}


# --- real faults, in a process of their own ----------------------------------------------------

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
