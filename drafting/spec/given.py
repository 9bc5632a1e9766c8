"""A checked spec: every typed value with its place, and nothing that was not typed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from drafting.errors import Fault
from drafting.records import dataclass
from drafting.values import Unit

SHOP_FILE = "drafting-shop.toml"
"""Company defaults that are taken when they stand beside the spec."""

Typed = float | str | bool | tuple[float, ...] | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Given:
    """One typed value in the unit of its ``unit``; ``typed`` is what the person wrote.

    ``file`` is the file of company defaults that it comes from, empty for the spec itself.
    ``understood`` says what a word was taken for, where it is not the format's own.
    """

    name: str
    value: Typed
    unit: Unit
    typed: str
    line: int
    column: int
    file: str = ""
    understood: str = ""


@dataclass(frozen=True, slots=True)
class FieldOrigin:
    """Where a typed value came from. ``plus_minus`` in mm, None where the file says nothing."""

    field: str
    kind: Literal["measured", "open", "builder"]
    plus_minus: float | None
    note: str


@dataclass(frozen=True, slots=True)
class Shop:
    """The company defaults under a spec, as their file has them."""

    file: str
    text: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Spec:
    """What a spec file says. ``file`` is its name as given, ``path`` None for text in memory.

    ``shop`` are the company defaults that stand under it; ``sha256`` covers both. ``places`` are
    line and column of every table and of every typed key, by dotted name; the tables of an array
    are ``extra_port[1]``, ``extra_port[2]`` ...
    """

    path: Path | None
    file: str
    text: str
    sha256: str
    units: Literal["in", "mm"]
    givens: Mapping[str, Given]
    places: Mapping[str, tuple[int, int]]
    shop: Shop | None = None

    @property
    def stem(self) -> str:
        """Give the file's name without folder and ending."""
        return Path(self.file.replace("\\", "/")).stem

    def get(self, name: str) -> Given | None:
        """Give a typed value by its dotted name, or None."""
        return self.givens.get(name)

    def number(self, name: str) -> float | None:
        """Give a typed number, or None when it was not typed or is no number."""
        found = self.givens.get(name)
        value = found.value if found else None
        return float(value) if isinstance(value, int | float) else None

    def word(self, name: str) -> str | None:
        """Give a typed word, or None when it was not typed or is no word."""
        found = self.givens.get(name)
        return found.value if found and isinstance(found.value, str) else None

    def has(self, name: str) -> bool:
        """Tell whether a field or a table stands in the file."""
        return name in self.givens or name in self.places

    def count(self, table: str) -> int:
        """Give how many tables of an array stand in the file."""
        n = 0
        while f"{table}[{n + 1}]" in self.places:
            n += 1
        return n

    def origin(self, name: str) -> FieldOrigin | None:
        """Give where the file says that a typed value came from, or None."""
        return next((o for o in self.origins if o.field == name), None)

    @property
    def origins(self) -> tuple[FieldOrigin, ...]:
        """Give every ``[[origin]]`` of the file, in its order."""
        tables = (f"origin[{n + 1}]" for n in range(self.count("origin")))
        return tuple(
            FieldOrigin(
                self.word(f"{t}.field") or "",
                self.word(f"{t}.from") or "",  # type: ignore[arg-type]
                self.number(f"{t}.plus_minus"),
                self.word(f"{t}.note") or "",
            )
            for t in tables
        )

    def line(self, name: str) -> int:
        """Give the line of a field, of its table when it was not typed, else 1."""
        return self._place(name)[0]

    def where(self, name: str) -> str:
        """Give file and line of a typed field, for the ``why`` of a value."""
        found = self.givens.get(name)
        return f"{(found.file if found else '') or self.file}:{self.line(name)}"

    def fault(self, code: str, name: str, message: str) -> Fault:
        """Give a fault at the place of a field, or of its table when it was not typed."""
        line, column = self._place(name)
        found = self.givens.get(name)
        return Fault((found.file if found else "") or self.file, line, column, code, name, message)

    def _place(self, name: str) -> tuple[int, int]:
        found = self.givens.get(name)
        if found:
            return found.line, found.column
        while name:
            if name in self.places:
                return self.places[name]
            name = name.rpartition(".")[0]
        return 1, 1
