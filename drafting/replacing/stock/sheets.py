"""A stock list as rows of cells, from CSV in any usual dress or the first sheet of a workbook.

A row of a CSV is read when it is asked for; a workbook's cells are held by the library that reads
them. Rows and columns count as a spreadsheet does, the first row is 1.
"""

from __future__ import annotations

import codecs
import csv
import re
import zipfile
from collections.abc import Callable, Iterator
from io import BufferedReader, TextIOWrapper
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.records import dataclass

Cell = str | float | bool | None
LARGEST = 100_000_000
"""Bytes of a stock list; of a workbook what is packed in it may be ten times that."""
UNPACKED = 1_000_000_000
WIDEST = 500
"""Columns that are looked at."""
LONGEST_CELL = 300
SAMPLE = 65_536
DELIMITERS = ",;\t|"
LOST = "\N{REPLACEMENT CHARACTER}lost"
"""Stands for a cell whose value the workbook does not hold; no cell of a person begins so."""
WORKBOOKS = (".xlsx", ".xlsm", ".xls", ".ods")


@dataclass(frozen=True, slots=True)
class Sheet:
    """Rows with their numbers. ``decimal_comma``: a comma in a number stands for the point.

    ``share`` gives how much of the file was read, 0 to 1.
    """

    rows: Iterator[tuple[int, list[Cell]]]
    decimal_comma: bool
    share: Callable[[], float]


def open_sheet(path: Path) -> Sheet:
    """Open a stock list; raises Refused for what is none."""
    try:
        size = path.stat().st_size
    except OSError as wrong:
        raise refused(path, "not-readable", f"cannot be read: {wrong.strerror}") from None
    if size > LARGEST:
        raise refused(path, "too-large", f"{size:,} bytes; at most {LARGEST:,}")
    if path.suffix.lower() in WORKBOOKS:
        return _workbook(path)
    return _csv(path, size)


def refused(path: Path, code: str, message: str, row: int = 1) -> Refused:
    """Give a refusal of the list as a whole."""
    return Refused([Fault(str(path), row, 1, code, "", message)])


def letter(column: int) -> str:
    """Give a column's letters, 0 for A."""
    said, n = "", column + 1
    while n:
        n, rest = divmod(n - 1, 26)
        said = chr(65 + rest) + said
    return said


def _csv(path: Path, size: int) -> Sheet:
    try:
        file = path.open("rb")
    except OSError as wrong:
        raise refused(path, "not-readable", f"cannot be read: {wrong.strerror}") from None
    sample = file.read(SAMPLE)
    file.seek(0)
    encoding = _encoding(sample)
    text = sample.decode(encoding, "replace")
    delimiter = _delimiter(text)
    comma = delimiter in ";\t" and bool(re.search(r"(?<![0-9.,])[0-9]+,[0-9]+(?![0-9.,])", text))
    return Sheet(
        _csv_rows(path, file, encoding, delimiter),
        comma,
        lambda: min(file.tell() / max(size, 1), 1.0) if not file.closed else 1.0,
    )


def _csv_rows(
    path: Path, file: BufferedReader, encoding: str, delimiter: str
) -> Iterator[tuple[int, list[Cell]]]:
    with file, TextIOWrapper(file, encoding, "replace", newline="") as stream:
        reader = csv.reader(stream, delimiter=delimiter)
        row = 0
        while True:
            row += 1
            try:
                cells: list[Cell] = list(next(reader))
            except StopIteration:
                return
            except csv.Error as wrong:
                raise refused(path, "not-readable", f"row {row}: {wrong}", row) from None
            yield row, cells[:WIDEST]


def _encoding(sample: bytes) -> str:
    """Give the encoding: by its mark, by its zeros, UTF-8 where it is that, else Windows Latin."""
    for mark, name in (
        (codecs.BOM_UTF8, "utf-8-sig"),
        (codecs.BOM_UTF16_LE, "utf-16"),
        (codecs.BOM_UTF16_BE, "utf-16"),
    ):
        if sample.startswith(mark):
            return name
    if sample[1::2].count(0) > len(sample) // 8:
        return "utf-16-le"
    if sample[::2].count(0) > len(sample) // 8:
        return "utf-16-be"
    try:
        codecs.getincrementaldecoder("utf-8")().decode(sample)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def _delimiter(text: str) -> str:
    """Give what stands between cells: what the first lines have most evenly."""
    lines = [re.sub(r'"[^"]*"', "", line) for line in text.splitlines()[:40] if line.strip()]
    counts = {d: sorted(line.count(d) for line in lines) for d in DELIMITERS}
    return max(counts, key=lambda d: counts[d][len(counts[d]) // 2] if counts[d] else 0)


def _workbook(path: Path) -> Sheet:
    from python_calamine import CalamineError, CalamineWorkbook

    lost = _lost_cells(path)
    try:
        sheet = CalamineWorkbook.from_path(str(path)).get_sheet_by_index(0)
    except (CalamineError, OSError, ValueError) as wrong:
        raise refused(path, "not-readable", f"is no workbook that can be read: {wrong}") from None
    done = [0]
    first = sheet.start or (0, 0)
    total = max(sheet.height, 1)

    def rows() -> Iterator[tuple[int, list[Cell]]]:
        for k, cells in enumerate(sheet.iter_rows()):
            done[0], row = k, first[0] + k + 1
            said = [None] * first[1] + [_plain(c) for c in cells[:WIDEST]]
            for column in lost.get(row, ()):
                if column < len(said) and said[column] is None:
                    said[column] = LOST
            yield row, said

    return Sheet(rows(), False, lambda: done[0] / total)


def _plain(cell: object) -> Cell:
    """Give a cell as text or number; a date stays what it looks like."""
    if isinstance(cell, str):
        return cell or None
    if isinstance(cell, bool | float) or cell is None:
        return cell
    if isinstance(cell, int):
        return float(cell)
    return str(cell)


_MARKED = re.compile(
    rb'<c r="([A-Z]{1,3})([0-9]{1,7})"(?:[^>]*t="e"[^>]*>|[^>]*>\s*<f[^>]*(?:/>|>[^<]*</f>)\s*'
    rb"(?:<v\s*/>|<v></v>|</c>))"
)
_CHUNK, _LAP = 1 << 20, 4096
MOST_LOST = 200_000


def _lost_cells(path: Path) -> dict[int, set[int]]:
    """Find cells of the first sheet without a value: errors, and formulas never worked out."""
    found: dict[int, set[int]] = {}
    if not zipfile.is_zipfile(path):
        return found
    count = 0
    with zipfile.ZipFile(path) as packed:
        if sum(i.file_size for i in packed.infolist()) > UNPACKED:
            raise refused(path, "too-large", f"more than {UNPACKED:,} bytes are packed in it")
        names = sorted(n for n in packed.namelist() if n.startswith("xl/worksheets/sheet"))
        if not names:
            return found
        with packed.open(names[0]) as sheet:
            before = b""
            while chunk := sheet.read(_CHUNK):
                text = before + chunk
                if b"<f" in text or b't="e"' in text:
                    for column, row in _MARKED.findall(text):
                        found.setdefault(int(row), set()).add(_number(column))
                        count += 1
                before = text[-_LAP:]
                if count > MOST_LOST:
                    break
    return found


def _number(letters: bytes) -> int:
    n = 0
    for c in letters:
        n = n * 26 + c - 64
    return n - 1
