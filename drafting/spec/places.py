"""Where each key and value of a TOML text stands, which the standard reader does not tell.

The text must be valid TOML: the scanner follows its shape and judges nothing.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from drafting.records import dataclass

Path = tuple[str | int, ...]

MENDED = "\ue000"
"""Stands for a value whose line could not be read, or begins a name; it is not told again."""


@dataclass(frozen=True, slots=True)
class Place:
    """Line and column (from 1, in characters) of a value and of its key, and the raw value."""

    line: int
    column: int
    key_line: int
    key_column: int
    raw: str


_DEEPEST = 8
"""Dotted keys are followed this far; a spec nests less."""
_BLANK = re.compile(r"(?:[\s,]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_KEY = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[A-Za-z0-9_-]+')
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}(?!")'
    r"|'''.*?'{3,5}(?!')"
    r'|"(?:[^"\\\n]|\\.)*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_SCALAR = re.compile(r"[^,\]}\n#]+")


def find_places(text: str) -> dict[Path, Place]:
    """Give the place of every table, key and list entry by its path."""
    scanner = _Scanner(text)
    scanner.run()
    return scanner.places


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.places: dict[Path, Place] = {}
        self._starts = [0, *(m.end() for m in re.finditer("\n", text))]
        self._many: dict[Path, int] = {}

    def run(self) -> None:
        prefix: Path = ()
        while self._skip(_BLANK) < len(self.text):
            if self.text[self.at] == "[":
                prefix = self._header()
            else:
                self._pair(prefix)

    def _header(self) -> Path:
        start = self.at
        many = self.text.startswith("[[", start)
        self.at += 2 if many else 1
        keys = self._keys()
        self.at = self.text.index("]", self.at) + (2 if many else 1)
        path: Path = ()
        for n, key in enumerate(keys, 1):
            path += (key,)
            if many and n == len(keys):
                self._many[path] = self._many.get(path, 0) + 1
            if path in self._many:
                path += (self._many[path] - 1,)
        self._note(path, start, start, self.text[start : self.at])
        return path

    def _pair(self, prefix: Path) -> None:
        start = self.at
        path = prefix
        keys = self._keys()
        self.at = self.text.index("=", self.at) + 1
        self._skip(_SPACE)
        for key in keys[:-1]:
            path += (key,)
            self._note(path, start, start, key)
        self._value((*path, keys[-1]), start)

    def _keys(self) -> list[str]:
        keys: list[str] = []
        while True:
            self._skip(_SPACE)
            match = _KEY.match(self.text, self.at)
            assert match is not None
            self.at = match.end()
            if len(keys) < _DEEPEST:
                keys.append(_bare(match[0]))
            if self.text[self._skip(_SPACE)] != ".":
                return keys
            self.at += 1

    def _value(self, path: Path, key_start: int) -> None:
        start = self.at
        first = self.text[start]
        if first in "[{":
            self.at += 1
            count = 0
            while self.text[self._skip(_BLANK)] not in "]}":
                if first == "[":
                    self._value((*path, count), self.at)
                    count += 1
                else:
                    self._pair(path)
            self.at += 1
        else:
            match = (_STRING if first in "\"'" else _SCALAR).match(self.text, start)
            assert match is not None
            self.at = match.end()
        self._note(path, start, key_start, self.text[start : self.at].rstrip())

    def _skip(self, pattern: re.Pattern[str]) -> int:
        match = pattern.match(self.text, self.at)
        assert match is not None
        self.at = match.end()
        return self.at

    def _note(self, path: Path, start: int, key_start: int, raw: str) -> None:
        if path not in self.places:
            self.places[path] = Place(*self._where(start), *self._where(key_start), raw)

    def _where(self, offset: int) -> tuple[int, int]:
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1


def _bare(key: str) -> str:
    if key[0] == "'":
        return key[1:-1]
    if key[0] == '"':
        from tomllib import loads

        return str(loads(f"key = {key}")["key"])
    return key
