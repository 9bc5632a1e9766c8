"""Files are written whole or not at all, under names that every system takes.

Every file goes to a temporary name beside its target and reaches the disk before the first target
changes; then all are renamed. A failure on the way puts back what was there. An interrupt
(Ctrl-C, SIGTERM) waits for a point where nothing is half done.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import signal
import stat
import threading
import time
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from drafting.errors import Fault, OutputFailed, Refused

_LEFT_BEHIND = re.compile(r"\.drafting-[0-9a-f]{16}\.(?:part|old)")
"""What a killed run leaves: half written, or the old one of a file that was being replaced."""
_TRIES = 6 if os.name == "nt" else 1

_DEVICES = {"con", "prn", "aux", "nul"} | {
    f"{port}{n}" for port in ("com", "lpt") for n in "0123456789¹²³"
}


# --- names -------------------------------------------------------------------------------------


def safe_name(number: str, stem: str) -> str:
    """Give the name of a cylinder's files: the drawing number made safe, else the file's stem.

    NFC; letters (with their marks) and digits of any script, ``.``, ``_`` and ``-`` stay, each run
    of anything else is one ``-``; dashes and dots at both ends go; the name of a Windows device
    gets a ``_``.
    """
    name = _cleaned(number) or _cleaned(stem) or "cylinder"
    head, dot, rest = name.partition(".")
    return f"{head}_{dot}{rest}" if head.casefold() in _DEVICES else name


def _cleaned(text: str) -> str:
    out: list[str] = []
    for c in unicodedata.normalize("NFC", text):
        if c.isalnum() or c in "._-" or unicodedata.category(c).startswith("M"):
            out.append(c)
        elif out[-1:] != [" "]:
            out.append(" ")
    return "".join(out).strip(" .-").replace(" ", "-")


# --- writing -----------------------------------------------------------------------------------


@dataclass
class _Change:
    """One file under way: its target, the new bytes' place, and the old file's."""

    target: Path
    new: Path
    old: Path | None = None
    done: bool = False


@dataclass
class _Work:
    """Everything that a failure has to undo."""

    changes: list[_Change] = field(default_factory=list)
    folders: list[Path] = field(default_factory=list)


Content = bytes | Iterable[bytes]
"""What a file is to hold: all of it, or piece by piece where it is too long to be held."""


def write_new(path: Path, data: Content, force: bool = False) -> None:
    """Write one file that a person will edit; an existing one is refused unless ``force``."""
    refuse_existing(path, force)
    write_all({path: data})


def refuse_existing(path: Path, force: bool) -> None:
    """Refuse the name of a file that is there already, unless ``force``."""
    if path.exists() and not force:
        message = f"{path} is there already; name another, or overwrite it with --force"
        raise Refused([Fault("command line", 1, 1, "exists", str(path), message)])


def write_all(files: Mapping[Path, bytes] | Mapping[Path, Content]) -> None:
    """Write all files, or none; folders are made where they are missing.

    Raises OutputFailed in plain words when a file cannot be written; the targets are then as they
    were before. Files that exist are replaced.
    """
    work = _Work()
    with _signals_held() as interrupted:
        try:
            for target, data in files.items():
                _stage(work, Path(target), data)
                if interrupted():
                    _undo(work)
                    return
            for change in work.changes:
                _swap(change)
        except OSError as wrong:
            raise OutputFailed(f"{_words(wrong)} {_undo(work)}") from wrong
        except BaseException:
            _undo(work)
            raise
        _settle(work)


def _stage(work: _Work, target: Path, data: Content) -> None:
    """Bring the bytes to the disk beside their target."""
    if target.is_symlink():  # written through: what the person linked to stays linked
        target = _end_of_links(target)
    folder = target.parent
    missing = [p for p in (folder, *folder.parents) if not p.exists()]
    for made in reversed(missing):
        made.mkdir(exist_ok=True)
        work.folders.append(made)
    if target.is_dir():
        raise IsADirectoryError(errno.EISDIR, "is a folder", str(target))
    if target.exists() and not target.is_file():  # a rename would put a file in its place
        raise OSError(errno.ENXIO, "is a pipe or a device", str(target))
    new = folder / f".drafting-{os.urandom(8).hex()}.part"
    work.changes.append(_Change(target, new))
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    try:
        with open(os.open(new, flags, 0o666), "wb") as out:
            out.writelines([data] if isinstance(data, bytes) else data)
            out.flush()
            os.fsync(out.fileno())
    except OSError as wrong:
        wrong.filename = str(target)
        raise


def _end_of_links(target: Path) -> Path:
    try:
        end = target.resolve()
    except RuntimeError:  # so Python before 3.13 tells of a circle
        end = target
    if end.is_symlink():
        raise OSError(errno.ELOOP, "links in a circle", str(target))
    return end


def _swap(change: _Change) -> None:
    """Keep the old file under another name and put the new one in its place."""
    target = change.target
    try:
        if target.exists():
            old = change.new.with_suffix(".old")
            try:
                os.link(target, old)
            except OSError:  # a disk without links
                old.write_bytes(target.read_bytes())
            change.old = old
        _replace(change.new, target)
    except OSError as wrong:
        wrong.filename = str(target)
        raise
    change.done = True


def _replace(source: Path, target: Path) -> None:
    """Rename; on Windows a scanner or another run may hold the target for a moment."""
    for left in reversed(range(_TRIES)):
        try:
            os.replace(source, target)
            return
        except PermissionError:
            if not left:
                raise
            time.sleep(0.1)


def _undo(work: _Work) -> str:
    """Put every target back as it was, take away what was made, and say how that went."""
    stuck: list[str] = []
    for change in (c for c in work.changes if c.done):
        try:
            if change.old is not None:
                _replace(change.old, change.target)
                change.old = None
            else:
                change.target.unlink()
        except OSError:
            kept = f" (the old file is {change.old})" if change.old else ""
            stuck.append(f"{change.target}{kept}")
            change.old = None
    _drop(p for c in work.changes for p in (c.new, c.old) if p is not None)
    for folder in reversed(work.folders):
        with contextlib.suppress(OSError):
            folder.rmdir()
    if stuck:
        return f"New files that could not be taken back: {', '.join(stuck)}."
    return "Nothing was changed."


def _settle(work: _Work) -> None:
    """Forget the old files and make the renames last."""
    _drop(c.old for c in work.changes if c.old is not None)
    for folder in {c.target.parent for c in work.changes}:
        with contextlib.suppress(OSError):
            if os.name != "nt":
                handle = os.open(folder, os.O_RDONLY)
                try:
                    os.fsync(handle)
                finally:
                    os.close(handle)


def left_behind(folder: Path) -> tuple[Path, ...]:
    """Give what runs that were killed left in a folder; nobody but its owner deletes it."""
    try:
        return tuple(sorted(p for p in folder.iterdir() if _LEFT_BEHIND.fullmatch(p.name)))
    except OSError:
        return ()


def _drop(paths: Iterator[Path]) -> None:
    for path in paths:
        with contextlib.suppress(OSError):
            path.unlink()


# --- reading -----------------------------------------------------------------------------------


def read_regular(path: Path, most: int) -> bytes:
    """Give the content of a regular file of at most ``most`` bytes.

    Raises Refused in plain words: a pipe or a device never ends, a larger file is none of ours.
    """

    def refused(code: str, message: str) -> Refused:
        return Refused([Fault(str(path), 1, 1, code, "", message)])

    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise refused("no-file", "this is a folder; name a file in it")
        if not stat.S_ISREG(found.st_mode):
            raise refused("not-a-file", "this is no regular file (a pipe or a device); name a file")
        if found.st_size > most:
            size, limit = (f"{n / 1e6:.3g} MB" for n in (found.st_size, most))
            raise refused("too-large", f"the file has {size}; at most {limit} are read")
        with path.open("rb") as stream:
            return stream.read(most)
    except (OSError, ValueError) as wrong:
        reason = getattr(wrong, "strerror", None) or "its name cannot be used"
        raise refused("not-readable", f"cannot be read: {reason}") from wrong


# --- interrupts --------------------------------------------------------------------------------


class _Pending:
    """The signal that came while it was held, if any."""

    def __init__(self) -> None:
        self.number = 0

    def note(self, number: int, frame: FrameType | None) -> None:
        self.number = number

    def __call__(self) -> bool:
        return self.number != 0


@contextlib.contextmanager
def _signals_held() -> Iterator[_Pending]:
    """Hold SIGINT and SIGTERM until the block ends, then deliver the one that came."""
    pending = _Pending()
    if threading.current_thread() is not threading.main_thread():
        yield pending  # signals only ever reach the main thread
        return
    before = {s: signal.signal(s, pending.note) for s in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield pending
    finally:
        for number, handler in before.items():
            signal.signal(number, signal.SIG_DFL if handler is None else handler)
        if pending.number:
            signal.raise_signal(pending.number)


# --- words -------------------------------------------------------------------------------------


def _words(wrong: OSError) -> str:
    """Say what happened to which file and what would do."""
    path = Path(wrong.filename or "a file")
    folder = path.parent
    reasons: dict[int | None, str] = {
        errno.ENOSPC: "the disk is full; make room or choose another folder with -o",
        errno.EFBIG: "it is larger than a file may be here",
        errno.EROFS: "the disk is read-only; choose another folder with -o",
        errno.EISDIR: "a folder of that name is in the way; move it or choose another folder",
        errno.ENXIO: "a pipe or a device of that name is in the way; choose another name",
        errno.ELOOP: "its links lead in a circle; delete them or choose another folder with -o",
        errno.ENAMETOOLONG: "the name is too long; give the spec a shorter number",
        errno.ENOENT: f"the folder {folder} is gone; has something moved or deleted it?",
        errno.ENOTDIR: "a file stands where a folder is needed; choose another folder with -o",
        errno.EEXIST: "a file stands where a folder is needed; choose another folder with -o",
        getattr(errno, "EDQUOT", -1): "your share of the disk is used up; make room",
    }
    if isinstance(wrong, PermissionError):
        reason = (
            "it is open in another program, or you may not write there; close it and run again"
            if os.name == "nt"
            else f"you may not write in {folder}; choose another folder with -o"
        )
    else:
        reason = reasons.get(wrong.errno) or (wrong.strerror or str(wrong))
    return f"{path} could not be written: {reason}{'' if reason.endswith('?') else '.'}"
