"""Files are whole or not there at all: faults are put in on purpose, in this process and outside.

Sources: the rules for names of the project's own command line; device names from Microsoft's page
"Naming Files, Paths, and Namespaces" (from memory).
"""

from __future__ import annotations

import errno
import os
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting import files
from drafting.errors import OutputFailed
from drafting.files import safe_name, write_all
from tests.files.two import listing, two

posix = pytest.mark.skipif(os.name == "nt", reason="POSIX rights and signals")


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
