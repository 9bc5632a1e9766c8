"""Match: a stock list judged and ranked against an original, the ranking written as a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryFile
from typing import Any

from drafting.errors import Fault, Refused
from drafting.replacing.known import Subject
from drafting.replacing.rule import Known
from drafting.replacing.stock.columns import Map, read_map
from drafting.replacing.stock.listed import Wrong, open_stock
from drafting.replacing.stock.matched import Matched
from drafting.replacing.stock.ranked import Judge, Ranking
from drafting.told.size_list import as_text

EVERY = 500
"""Rows between two words on how far it is."""
PIECE = 1 << 20
HEADINGS = ("rank", "row", "name", "verdict", "jobs", "what decides")


def match(
    original: Subject,
    path: Path,
    columns: Path | None = None,
    machine: Known | None = None,
    progress: Callable[[int, float], None] | None = None,
) -> Matched:
    """Judge every row of a list; raises Refused for a list whose headings say nothing.

    ``progress`` is told now and then how many rows were read and what share of the file.
    """
    told = read_map(columns) if columns else Map({})
    stock = open_stock(path, told)
    judge = Judge(original, machine or {}, tuple(c.name for c in stock.columns))
    ranking = Ranking()
    for k, row in enumerate(stock.rows, 1):
        if isinstance(row, Wrong):
            ranking.refuse(row)
        else:
            ranking.add(judge.judge(row))
        if progress is not None and k % EVERY == 0:
            progress(k, stock.share())
    if progress is not None:
        progress(ranking.judged + ranking.unreadable, 1.0)
    return Matched(original, stock, ranking, tuple(judge.to_ask))


def table(matched: Matched, path: Path) -> Iterator[bytes]:
    """Give all rows in their order as a CSV or a workbook, by the path's ending; raises Refused.

    It comes piece by piece, so that no list is held.
    """
    ending = path.suffix.lower()
    if ending == ".csv":
        return _csv(matched)
    if ending == ".xlsx":
        return _workbook(matched)
    message = f'"{path.name}": the ranked list is written as .csv or .xlsx'
    raise Refused([Fault("command line", 1, 1, "no-such-output", "-o", message)])


def _rows(matched: Matched) -> Iterator[tuple[int | str, ...]]:
    for rank, j in enumerate(matched.ranking.best(), 1):
        yield rank, j.row, j.name, j.verdict, j.jobs, j.deciding
    for w in matched.ranking.wrong():
        yield "", w.row, "", "not readable", "", f"{w.column}: {w.message}"


def harmless(text: int | str) -> int | str:
    """Give a text that no spreadsheet runs as a formula."""
    return as_text(text) if isinstance(text, str) else text


def _csv(matched: Matched) -> Iterator[bytes]:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    out.write("\ufeff")
    writer.writerow(HEADINGS)
    for k, row in enumerate(_rows(matched), 1):
        writer.writerow([harmless(x) for x in row])
        if k % EVERY == 0:
            yield _taken(out)
    yield _taken(out)


def _taken(out: io.StringIO) -> bytes:
    """Take what was written so far."""
    text = out.getvalue()
    out.seek(0)
    out.truncate()
    return text.encode("utf-8", "replace")


def _workbook(matched: Matched) -> Iterator[bytes]:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet: Any = book.create_sheet("ranked")
    sheet.freeze_panes = "A2"
    sheet.append(HEADINGS)
    for row in _rows(matched):
        cells = []
        for value in row:
            cell: Any = WriteOnlyCell(sheet, _printable(value))
            if isinstance(value, str):
                cell.data_type = "s"
            cells.append(cell)
        sheet.append(cells)
    with TemporaryFile() as packed:
        book.save(packed)
        packed.seek(0)
        while piece := packed.read(PIECE):
            yield piece


def _printable(value: int | str) -> int | str:
    if not isinstance(value, str):
        return value
    return "".join(c for c in value if c.isprintable())
