"""The file of readings under a conversation: what it says, what is wrong in it, and saving at once.

Lines of the person stay as they are; an answer is one line under its heading. What was left out is
remembered in a comment, so that a conversation that broke off does not ask for it again at once.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from drafting.errors import Fault, Refused
from drafting.files import write_all
from drafting.measuring.readings import Bench
from drafting.measuring.readings_file import bench_of
from drafting.spec.read import read_document
from drafting.spec.write import quote

Answer = str | int | bool | list[str]
Key = tuple[str, ...]
"""Table and key; a key alone for what stands at the top of the file."""
_LEFT = "# left out: "


class Notebook:
    """The text of the file, kept on disk with every change. Raises Refused for what is no text."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.text = path.read_text(encoding="utf-8") if path.exists() else ""
        self._read()

    @property
    def left_out(self) -> frozenset[str]:
        """Name the questions that were left out."""
        line = next((t for t in self.text.splitlines() if t.startswith(_LEFT)), _LEFT)
        return frozenset(line.removeprefix(_LEFT).split())

    def leave_out(self, names: frozenset[str]) -> None:
        """Remember what is left out."""
        lines = [t for t in self.text.splitlines() if not t.startswith(_LEFT)]
        if names:
            lines.insert(0, _LEFT + " ".join(sorted(names)))
        self._keep(lines)

    def get(self, key: Key) -> Any:
        """Give what stands under a key, None for nothing."""
        table = self.data.get(key[0]) if len(key) > 1 else self.data
        return table.get(key[-1]) if isinstance(table, dict) else None

    def put(self, key: Key, value: Answer) -> None:
        """Write a line under its heading, in the place of the one that was there."""
        self._keep(self._with(key, value))

    def drop(self, key: Key) -> None:
        """Take a line out."""
        self._keep(self._without(key))

    def refuses(self, key: Key, value: Answer) -> str:
        """Say what would be wrong with a line if it were written, "" for nothing."""
        return _wrong(_faults("\n".join(self._with(key, value)) + "\n", self.path), key)

    def wrong(self, key: Key) -> str:
        """Say what is wrong with what stands under a key, "" for nothing."""
        return _wrong(self.faults, key)

    def bench(self) -> Bench | None:
        """Give the readings as far as they go, None while the file is not whole."""
        try:
            return bench_of(read_document(self.text.encode("utf-8"), str(self.path)))
        except Refused:
            return None

    def _with(self, key: Key, value: Answer) -> list[str]:
        lines = self._without(key)
        start = 0
        if len(key) > 1:
            at = next((n for n, t in enumerate(lines) if _is_heading(t, key[0])), None)
            if at is None:
                lines += ["", f"[{key[0]}]"]
                at = len(lines) - 1
            start = at + 1
        after = (n for n in range(start, len(lines)) if lines[n].lstrip().startswith("["))
        stop = next(after, len(lines))
        while stop > start and not lines[stop - 1].strip():
            stop -= 1
        lines.insert(stop, f"{key[-1]} = {_toml(value)}")
        return lines

    def _without(self, key: Key) -> list[str]:
        lines, table, kept, inside = self.text.splitlines(), "", [], False
        for line in lines:
            if inside:  # a list over several lines
                inside = "]" not in line
                continue
            if (heading := re.match(r"\s*\[([^\[\]]+)\]", line)) is not None:
                table = heading[1].strip()
            mine = table == (key[0] if len(key) > 1 else "")
            if mine and re.match(rf"\s*{re.escape(key[-1])}\s*=", line):
                value = line.partition("=")[2]
                inside = value.lstrip().startswith("[") and "]" not in value
                continue
            kept.append(line)
        return kept

    def _keep(self, lines: list[str]) -> None:
        text = "\n".join(lines) + "\n"
        if text != self.text:
            self.text = text
            self._read()
            write_all({self.path: text.encode("utf-8")})

    def _read(self) -> None:
        document = read_document(self.text.encode("utf-8"), str(self.path))
        self.data: dict[str, Any] = document.data
        self.faults = _faults(self.text, self.path)


def _faults(text: str, path: Path) -> tuple[Fault, ...]:
    try:
        bench_of(read_document(text.encode("utf-8"), str(path)))
    except Refused as refused:
        return tuple(refused.faults)
    return ()


def _wrong(faults: tuple[Fault, ...], key: Key) -> str:
    name = ".".join(key)
    return next((f.message for f in faults if f"{f.field}.".startswith(f"{name}.")), "")


def _is_heading(line: str, table: str) -> bool:
    return re.match(rf"\s*\[\s*{re.escape(table)}\s*\]", line) is not None


def _toml(value: Answer) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list):
        return f"[{', '.join(quote(v) for v in value)}]"
    return quote(value)
