"""The only reader of the standards' tables: a CSV of rows as found and a TOML of what they mean.

``data/NAME.csv`` keeps the rows, with a unit in each heading and ``source`` and ``confidence`` in
each row. ``data/NAME.toml`` beside it says title, standard, edition and status, which columns are
plain numbers without a unit in the heading (``numbers``) or words in spite of one (``words``),
what must hold between columns (``[audit]``), and which column plays which role.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cache
from pathlib import Path
from typing import Any

from drafting.records import dataclass

DATA = Path(__file__).parent / "data"
SAME_MM = 0.02
"""Two sizes are the same row when they lie within this, in either unit (millimetres)."""

UNITS = ("mm", "in", "deg", "mpa", "ksi", "bar", "percent", "tpi")
"""A heading that ends in one of these holds numbers."""

Cell = float | str | None


@dataclass(frozen=True, slots=True)
class Row:
    """One row. ``line`` is its line in the file; an empty cell is a hole (None), never a zero."""

    table: str
    line: int
    cells: Mapping[str, Cell] = field(hash=False)

    def number(self, column: str) -> float | None:
        """Give the number in a column, None where the table has a hole."""
        value = self.cells[column]
        if isinstance(value, str):
            raise TypeError(f"{self.where}: {column} holds words, not a number")
        return value

    def required(self, column: str) -> float:
        """Give the number in a column that every row must fill."""
        value = self.number(column)
        if value is None:
            raise LookupError(f"{self.where}: {column} is empty")
        return value

    def word(self, column: str) -> str:
        """Give the text of a column (numbers without a needless fraction), "" for a hole."""
        value = self.cells[column]
        return "" if value is None else f"{value:g}" if isinstance(value, float) else value

    def length(self, column: str) -> float | None:
        """Give the length in mm of a column in millimetres or inches, None for a hole."""
        value = self.number(column)
        if value is None or column.endswith("_mm"):
            return value
        if column.endswith("_in"):
            return value * 254 / 10  # 7 in is 177.8, not 177.79999999999998
        raise TypeError(f"{self.where}: {column} is not a length")

    def size(self, stem: str) -> float | None:
        """Give the length in mm of ``stem_mm`` or, where that is a hole, of ``stem_in``."""
        columns = (c for c in (f"{stem}_mm", f"{stem}_in") if self.cells.get(c) is not None)
        return next((self.length(c) for c in columns), None)

    @property
    def source(self) -> str:
        """Where the row's figures come from."""
        return self.word("source")

    @property
    def confidence(self) -> str:
        """How well the row is known: computed, witnessed-N or memory."""
        return self.word("confidence")

    @property
    def where(self) -> str:
        """File and line, for the ``why`` of a value."""
        return f"{self.table}.csv:{self.line}"


@dataclass(frozen=True, slots=True)
class Table:
    """A table with what its TOML says (``about`` is the whole TOML)."""

    name: str
    about: Mapping[str, Any] = field(hash=False)
    columns: tuple[str, ...]
    rows: tuple[Row, ...]

    @property
    def title(self) -> str:
        """What the table is, in words."""
        return str(self.about["title"])

    @property
    def standard(self) -> str:
        """The standard that the rows follow."""
        return str(self.about["standard"])

    def where(self, **words: str) -> tuple[Row, ...]:
        """Give the rows whose columns hold just these words."""
        return tuple(r for r in self.rows if all(r.word(c) == w for c, w in words.items()))


@cache
def table(name: str, folder: Path = DATA) -> Table:
    """Read ``NAME.csv`` and ``NAME.toml`` from a folder, once."""
    import tomllib

    about = tomllib.loads((folder / f"{name}.toml").read_text(encoding="utf-8"))
    columns, lines = as_found(name, folder)
    numeric = _numeric(columns, about)
    rows = []
    for line, texts in lines:
        try:
            cells = {
                c: None if t == "" else float(t) if c in numeric else t
                for c, t in zip(columns, texts, strict=True)
            }
        except ValueError as wrong:
            raise ValueError(f"{name}.csv:{line}: {wrong}") from None
        rows.append(Row(name, line, cells))
    return Table(name, about, columns, tuple(rows))


def as_found(
    name: str, folder: Path = DATA
) -> tuple[tuple[str, ...], tuple[tuple[int, tuple[str, ...]], ...]]:
    """Give the headings and, for each row, its line and its cells as they are written."""
    import csv

    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
        reader = csv.reader(stream)
        columns = tuple(next(reader))
        return columns, tuple((reader.line_num, tuple(texts)) for texts in reader)


def names(folder: Path = DATA) -> tuple[str, ...]:
    """Give the names of all tables in a folder."""
    return tuple(sorted(p.stem for p in folder.glob("*.toml")))


def lookup(rows: Iterable[Row], stem: str, mm: float) -> tuple[Row, ...]:
    """Give the rows whose ``stem_mm`` or ``stem_in`` is this size within 0.02 mm."""
    return tuple(r for r in rows if any(abs(s - mm) <= SAME_MM for s in _sizes(r, stem)))


def _sizes(row: Row, stem: str) -> list[float]:
    lengths = (row.length(c) for c in (f"{stem}_mm", f"{stem}_in") if c in row.cells)
    return [s for s in lengths if s is not None]


def _numeric(columns: Iterable[str], about: Mapping[str, Any]) -> frozenset[str]:
    words, numbers = set(about.get("words", ())), set(about.get("numbers", ()))
    return frozenset(
        c for c in columns if c not in words and (c in numbers or c.rsplit("_", 1)[-1] in UNITS)
    )
