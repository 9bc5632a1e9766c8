"""The best rows of a stock list over the original: each row made a spec, and that a cylinder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from drafting.errors import Refused
from drafting.jobs.overlay import overlay_files
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.replacing.judge import compare
from drafting.replacing.known import subject
from drafting.replacing.rule import Known
from drafting.replacing.stock.cells import StockRow
from drafting.replacing.stock.columns import Map, fields
from drafting.replacing.stock.listed import open_stock
from drafting.spec.write import write_spec

MOST = 20
"""So many rows at most are drawn in one run."""
LENGTHS = ("cylinder.stroke", "cylinder.retracted")
CLOSED = "cylinder.extended"


def chosen(path: Path, told: Map, rows: Iterable[int]) -> dict[int, StockRow]:
    """Read some rows of a list again, by their numbers."""
    wanted = set(rows)
    found: dict[int, StockRow] = {}
    if not wanted:
        return found
    for row in open_stock(path, told).rows:
        if isinstance(row, StockRow) and row.row in wanted:
            found[row.row] = row
            if len(found) == len(wanted):
                break
    return found


def spec_of(row: StockRow, units: str) -> str:
    """Give a row of a list as the text of a spec; what it does not say is left out."""
    known: Known = {k.removesuffix("_from_rod"): v for k, v in row.values.items()}
    values = {k: v for k, v in known.items() if k in fields() and k != "mass"}
    if all(name in values for name in LENGTHS):
        values.pop(CLOSED, None)
    return write_spec({"title": f"From the list, row {row.row}", "number": row.name,
                       "units": units, **values})  # fmt: skip


def drawn_over(
    old: Cylinder, rows: Iterable[StockRow]
) -> Iterator[tuple[StockRow, dict[str, bytes] | Refused]]:
    """Draw each row over the original, or say why that cannot be."""
    original = subject(old)
    for row in rows:
        try:
            new = load(checked(spec_of(row, old.spec.units).encode(), f"row {row.row}"))
        except Refused as refused:
            yield row, refused
            continue
        yield row, overlay_files(old, new, compare(original, subject(new)))
