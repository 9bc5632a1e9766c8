"""What a run did, line by line, so that a stop at any moment goes on where it was.

A line is written when the files of its cylinder are on the disk. The last line of a name rules; a
line that was cut off is none.
"""

from __future__ import annotations

import json
import os
from dataclasses import asdict
from pathlib import Path
from types import TracebackType
from typing import Any, BinaryIO

from drafting.records import dataclass

NAME = "manifest.jsonl"
LARGEST = 500_000_000
"""Bytes of a manifest that are read."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One cylinder that was done, or failed (``faults``: field, message)."""

    row: int
    name: str
    key: str
    files: tuple[str, ...] = ()
    title: str = ""
    sizes: dict[str, float] | None = None
    mass_kg: float = 0.0
    verdict: str = ""
    to_do: tuple[str, ...] = ()
    faults: tuple[tuple[str, str], ...] = ()

    def stands(self, folder: Path) -> bool:
        """Tell whether all of its files are still there."""
        return not self.faults and all((folder / name).is_file() for name in self.files)


class Manifest:
    """The lines of a folder: read once, then added to. Used with ``with``."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / NAME
        self.entries = _read(self.path)
        self._out: BinaryIO | None = None

    def __enter__(self) -> Manifest:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        wrong: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        if self._out is not None:
            self._out.close()

    def _opened(self) -> BinaryIO:
        """Open the file to add to it, a line that was cut off closed first."""
        self.path.parent.mkdir(parents=True, exist_ok=True)
        out = self.path.open("ab")
        if out.tell() and not _ends_whole(self.path):
            out.write(b"\n")
        return out

    def add(self, entry: Entry) -> None:
        """Add a line and bring it to the disk."""
        if self._out is None:
            self._out = self._opened()
        self.entries[entry.name.casefold()] = entry
        self._out.write(json.dumps(asdict(entry), ensure_ascii=False).encode() + b"\n")
        self._out.flush()
        os.fsync(self._out.fileno())


def _ends_whole(path: Path) -> bool:
    with path.open("rb") as file:
        file.seek(-1, os.SEEK_END)
        return file.read(1) == b"\n"


def _read(path: Path) -> dict[str, Entry]:
    found: dict[str, Entry] = {}
    try:
        if path.stat().st_size > LARGEST:
            return found
        with path.open(encoding="utf-8", errors="replace") as lines:
            for line in lines:
                entry = _entry(line)
                if entry is not None:
                    found[entry.name.casefold()] = entry
    except OSError:
        return found
    return found


def _entry(line: str) -> Entry | None:
    """Read a line; None for one that was cut off, or is none of ours."""
    try:
        said: dict[str, Any] = json.loads(line)
        pairs = tuple((str(f), str(m)) for f, m in said["faults"])
        sizes = {str(n): float(v) for n, v in (said["sizes"] or {}).items()}
        files = tuple(str(n) for n in said["files"])
        if any(Path(n).name != n for n in files):
            return None
        return Entry(int(said["row"]), str(said["name"]), str(said["key"]), files,
                     str(said["title"]), sizes, float(said["mass_kg"]), str(said["verdict"]),
                     tuple(str(x) for x in said["to_do"]), pairs)  # fmt: skip
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
