"""What a run is to draw: a row of a table over a base spec, or a spec file of a folder.

Rows count as a spreadsheet does, the headings are row 1. A blank cell leaves what the base says,
``-`` takes a field out. A row that cannot be read is an order with its faults; the others go on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from hashlib import sha256
from itertools import product
from pathlib import Path

from drafting import __version__
from drafting.errors import Fault, Refused
from drafting.files import read_regular, safe_name
from drafting.jobs.batch.sweep import BadSweep, several
from drafting.records import dataclass
from drafting.replacing.stock.sheets import Cell, letter, open_sheet
from drafting.spec.content import LARGEST
from drafting.spec.edit import edited, field_of
from drafting.spec.fields import TABLES
from drafting.spec.given import SHOP_FILE

MOST_OF_A_ROW, MOST = 10_000, 100_000
"""Cylinders of one row with sweeps, and of one run."""

LISTS = ("texts", "pair", "pair or length", "forces", "numbers", "place", "steps", "table")
"""Kinds of fields that hold a list: in their cells, brackets are no sweep."""
LENGTHS = ("cylinder.stroke", "cylinder.retracted", "cylinder.extended")


@dataclass(frozen=True, slots=True)
class Order:
    """One cylinder to draw. ``row`` counts as a spreadsheet does, in a folder from 1.

    ``text`` is its spec, ``file`` what messages call it; ``faults`` (field, message) keep it from
    being drawn. ``key`` is a hash of all that decides what its files say.
    """

    row: int
    name: str
    file: str
    text: str = ""
    key: str = ""
    faults: tuple[tuple[str, str], ...] = ()


def orders(source: Path, base: Path | None, shop: str, formats: Sequence[str]) -> Iterator[Order]:
    """Give the orders of a table or a folder; raises Refused where it is neither.

    ``shop`` is the text of the company defaults, empty without any.
    """
    found = _folder(source) if source.is_dir() else _table(source, base)
    names: dict[str, int] = {}
    how = "\0".join((__version__, *sorted(formats), shop))
    for n, order in enumerate(found, 1):
        if n > MOST:
            raise _refused(source, "too-many", f"more than {MOST:,} cylinders in one run")
        first = names.setdefault(order.name.casefold(), order.row)
        if len(names) < n:
            said = ("number", f'"{order.name}" is also the name of row {first}')
            order = replace(order, name=f"{order.name} (again, {n})", faults=(*order.faults, said))
            names[order.name.casefold()] = order.row
        key = sha256(f"{how}\0{order.name}\0{order.text}".encode("utf-8", "surrogateescape"))
        yield replace(order, key=key.hexdigest())


def _folder(folder: Path) -> Iterator[Order]:
    paths = sorted(p for p in folder.glob("*.toml") if p.name != SHOP_FILE and p.is_file())
    if not paths:
        raise _refused(folder, "no-spec", "there is no spec file (.toml) in this folder")
    for row, path in enumerate(paths, 1):
        try:
            text = read_regular(path, LARGEST).decode("utf-8", "surrogateescape")
        except Refused as refused:
            yield Order(row, path.stem, str(path), faults=_told(refused))
            continue
        yield Order(row, safe_name(_number(text), path.stem), str(path), text)


def _number(text: str) -> str:
    from drafting.jobs.recover import titled

    return titled(text)[1]


def _table(source: Path, base: Path | None) -> Iterator[Order]:
    under = read_regular(base, LARGEST).decode("utf-8-sig") if base else ""
    sheet = open_sheet(source)
    columns: dict[int, str] = {}
    for row, cells in sheet.rows:
        if not any(_said(c) for c in cells):
            continue
        if not columns:
            columns = _columns(source, row, cells)
            continue
        said = {name: _said(cells[k]) for k, name in columns.items() if k < len(cells)}
        if any(said.values()):
            yield from _row(source, row, said, under, base)
    if not columns:
        raise _refused(source, "no-headings", "the table is empty: row 1 has dotted field names")


def _columns(source: Path, row: int, cells: Sequence[Cell]) -> dict[int, str]:
    """Read the headings; raises Refused with every one that is no field."""
    known = [f"{t.name}.{f.name}" if t.name else f.name for t in TABLES.values() for f in t.fields]
    found: dict[int, str] = {}
    faults = []
    for k, cell in enumerate(cells):
        name = _said(cell)
        if not name:
            continue
        if field_of(name) is None and field_of(name.rpartition(".")[0]) is None:
            near = ", ".join(get_close_matches(name, known, 3, 0.0))
            message = f'column {letter(k)} "{name[:60]}" is no field of a spec; nearest: {near}'
            faults.append(Fault(str(source), row, k + 1, "unknown-field", name[:60], message))
        elif name in found.values():
            message = f'column {letter(k)} "{name}" stands there twice; leave one out'
            faults.append(Fault(str(source), row, k + 1, "same-column", name, message))
        found[k] = name
    if faults:
        raise Refused(faults)
    return found


def _row(
    source: Path, row: int, said: Mapping[str, str], under: str, base: Path | None
) -> Iterator[Order]:
    stem = base.stem if base else source.stem
    called = said.get("number") or f"{stem}-{row}"
    try:
        values = {
            name: several(cell, _holds_a_list(name))
            for name, cell in said.items()
            if cell and name != "number"
        }
        count = 1
        for some in values.values():
            count *= len(some)
        if count > MOST_OF_A_ROW:
            raise BadSweep(f"its sweeps make {count:,} cylinders; at most {MOST_OF_A_ROW:,}")
    except BadSweep as wrong:
        field = next((n for n, cell in said.items() if n != "number" and _bad(n, cell)), "")
        yield Order(row, safe_name(called, stem), f"{source}:{row}", faults=((field, str(wrong)),))
        return
    for n, chosen in enumerate(product(*values.values()), 1):
        number = f"{called}-{n}" if count > 1 else called
        fields = dict(zip(values, (None if v == "-" else v for v in chosen), strict=True))
        typed = [x for x in LENGTHS if fields.get(x) is not None]
        if len(typed) == 2:  # the base's third was that of its own two
            fields |= {x: None for x in LENGTHS if x not in typed}
        try:
            text = edited(under, {"number": number, **fields})
        except Exception as wrong:  # tomlkit: many kinds, all of the base's text
            faults = (("", f"the base cannot be read: {wrong}"),)
            yield Order(row, safe_name(number, stem), f"{source}:{row}", faults=faults)
            continue
        yield Order(row, safe_name(number, stem), f"{source}:{row}", text)


def _holds_a_list(name: str) -> bool:
    field = field_of(name)
    return field is not None and field.kind in LISTS


def _bad(name: str, cell: str) -> bool:
    try:
        several(cell, _holds_a_list(name))
    except BadSweep:
        return True
    return False


def _said(cell: Cell) -> str:
    """Give a cell's text; a number of a workbook as a person types it."""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, float):
        return f"{cell:.12g}"
    return "" if cell is None else " ".join(str(cell).split())


def _told(refused: Refused) -> tuple[tuple[str, str], ...]:
    return tuple((f.field, f.message) for f in refused.faults)


def _refused(source: Path, code: str, message: str) -> Refused:
    return Refused([Fault(str(source), 1, 1, code, "", message)])
