"""A stock list from its first line on: title lines, headings, a units row, and then the rows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from pathlib import Path

from drafting.records import dataclass
from drafting.replacing.stock.cells import BLANK, Reader, StockRow, Unreadable
from drafting.replacing.stock.columns import (
    UNIT_WORDS,
    Column,
    Map,
    fields,
    key,
    meaning,
    nearest,
    of_both,
    said,
    unit_of,
    with_group,
)
from drafting.replacing.stock.sheets import Cell, letter, open_sheet, refused

SEARCHED = 30
"""The headings stand in one of the first rows."""
LEAST_KNOWN = 3
"""So many headings must mean something for a row to be that of the headings."""


@dataclass(frozen=True, slots=True)
class Wrong:
    """A row that could not be read: its row, the cell's column letters and heading, and why."""

    row: int
    column: str
    message: str


@dataclass(frozen=True, slots=True)
class Unmapped:
    """A heading that nobody can map, with the nearest fields."""

    column: str
    heading: str
    near: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stock:
    """A list whose headings are read. ``rows`` gives each row once, read or not."""

    columns: tuple[Column, ...]
    unmapped: tuple[Unmapped, ...]
    rows: Iterator[StockRow | Wrong]
    share: Callable[[], float]
    notes: list[str] = field(default_factory=list)


def open_stock(path: Path, told: Map, units: str = "") -> Stock:
    """Open a list; ``units`` are what bare sizes are in where the list says nothing.

    Raises Refused where no headings are found, or two columns claim one field.
    """
    sheet = open_sheet(path)
    seen: list[tuple[int, list[Cell]]] = []
    for row, cells in sheet.rows:
        if any(said(c) for c in cells):
            seen.append((row, cells))
        if seen and seen[-1][0] == row:
            known = sum(bool(meaning(said(c), told, k)) for k, c in enumerate(cells) if said(c))
            if known >= LEAST_KNOWN:
                break
            if len(seen) > 1 and _grouped(seen, told) >= LEAST_KNOWN:
                break
        if row >= SEARCHED:
            raise refused(path, "no-headings", _no_headings(seen))
    else:
        raise refused(path, "no-headings", _no_headings(seen))
    at, headings = seen[-1]
    groups = seen[-2][1] if len(seen) > 1 else []
    columns, unmapped, notes = _columns(path, headings, groups, told, at)
    rows = _rows(sheet.rows, columns, headings, told.units or units, sheet.decimal_comma, notes)
    return Stock(tuple(columns), tuple(unmapped), rows, sheet.share, notes)


def _grouped(seen: Sequence[tuple[int, list[Cell]]], told: Map) -> int:
    names = with_group(seen[-2][1], seen[-1][1])
    return sum(bool(meaning(n, told)) for n in names if n)


def _no_headings(seen: Sequence[tuple[int, list[Cell]]]) -> str:
    first = seen[0][1] if seen else []
    found = [f'"{said(c)}"' for c in first if said(c)][:6]
    near = {n for c in first if said(c) for n in nearest(said(c))[:1]}
    return (
        f"no row of headings was found in the first {SEARCHED}: at least {LEAST_KNOWN} must be "
        f"known, such as bore, rod, stroke, closed, base_mount.pin. The first row has "
        f"{', '.join(found) or 'nothing'}; nearest: {', '.join(sorted(near)) or '-'}. Map free "
        "words with --columns"
    )


def _columns(
    path: Path, headings: Sequence[Cell], groups: Sequence[Cell], told: Map, row: int
) -> tuple[list[Column], list[Unmapped], list[str]]:
    plain = [said(c) for c in headings]
    twice = {key(h) for h in plain if h and sum(key(h) == key(o) for o in plain) > 1}
    joined = with_group(groups, headings) if groups else plain
    columns: list[Column] = []
    unmapped: list[Unmapped] = []
    places: list[int] = []
    taken: dict[str, Column] = {}
    for k, heading in enumerate(plain):
        if not heading:
            continue
        full = joined[k] if k < len(joined) else heading
        name = meaning(full, told, k) if key(heading) in twice or full != heading else None
        if name is None and key(heading) not in twice:
            name = meaning(heading, told, k)
        if name is None:
            name = told.headings.get(letter(k).casefold())
        if name is None:
            unmapped.append(Unmapped(letter(k), full, tuple(nearest(full))))
            places.append(k)
            continue
        if not name:
            continue
        column = Column(k, full, fields()[name], name, unit_of(heading))
        if name in taken:
            other = taken[name]
            message = (
                f'columns {other.letter} "{other.heading}" and {column.letter} "{full}" both mean '
                f'{name}; say which in a file for --columns: "{column.letter}" = "" leaves one out'
            )
            raise refused(path, "same-column", message, row)
        taken[name] = column
        columns.append(column)
    notes = []
    for k, lone in list(zip(places, unmapped, strict=True)):
        both = of_both(lone.heading) if key(plain[k]) not in twice else ()
        if left := [n for n in both if n not in taken]:
            unit = unit_of(plain[k])
            columns += [Column(k, lone.heading, fields()[n], n, unit) for n in left]
            taken |= {c.name: c for c in columns[-len(left) :]}
            unmapped.remove(lone)
            notes.append(f'{lone.column} "{lone.heading}": taken for {" and ".join(left)}')
    return columns, unmapped, notes


def _rows(
    rows: Iterator[tuple[int, list[Cell]]],
    columns: Sequence[Column],
    headings: Sequence[Cell],
    units: str,
    comma: bool,
    notes: list[str],
) -> Iterator[StockRow | Wrong]:
    first, again = True, 0
    reader = Reader(columns, units, comma)
    head = list(headings[:4])
    for row, cells in rows:
        if first and any(said(c) for c in cells):
            first = False
            if _is_units(cells):
                reader = Reader([_with_unit(c, cells) for c in columns], units, comma)
                continue
        if cells[:4] == head:
            again += 1
            if again == 1:
                notes.append(f"the headings stand again in row {row}, and are passed over")
            continue
        try:
            found = reader.row(row, cells)
        except Unreadable as wrong:
            place = f'{wrong.column.letter} "{wrong.column.heading}"' if wrong.column else ""
            yield Wrong(row, place, wrong.message)
            continue
        if found is not None:
            yield found


def _is_units(cells: Sequence[Cell]) -> bool:
    """Tell a units row: nothing but units, and at least two of them."""
    words = [said(c).strip("()[]").casefold() for c in cells if said(c)]
    units = sum(w in UNIT_WORDS for w in words)
    return units >= 2 and all(w in UNIT_WORDS or w in BLANK or w == "text" for w in words)


def _with_unit(column: Column, cells: Sequence[Cell]) -> Column:
    unit = unit_of(said(cells[column.place])) if column.place < len(cells) else ""
    return Column(column.place, column.heading, column.field, column.name, unit or column.unit)
