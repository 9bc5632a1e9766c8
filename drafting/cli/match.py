"""``drafting match``: a stock list against an original, the ten that do best and why."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import named_file, print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import refuse_existing, write_all, write_new
from drafting.jobs.compare import machine_known, taken
from drafting.jobs.match import match, table
from drafting.model.cylinder import Cylinder
from drafting.replacing.stock.matched import Matched
from drafting.reports.matching import matched_json, matched_text, why_exit

BAR = 30


def run(options: Namespace) -> int:
    """Match; exit code 0 only when every row was read and one fits as it is."""
    output = Path(options.output) if options.output is not None else None
    if output is not None:
        named_file("-o", options.output)
        if output.suffix.lower() not in (".csv", ".xlsx"):
            message = f'"{output.name}": the ranked list is written as .csv or .xlsx'
            raise Refused([Fault("command line", 1, 1, "no-such-output", "-o", message)])
        if output.resolve() == Path(options.stock).resolve():
            message = "this is the stock list itself, which is never written over"
            raise Refused([Fault(options.stock, 1, 1, "writes-over-input", "-o", message)])
        refuse_existing(output, options.force)
    old = taken(Path(options.original), options.shop)
    drawn = old.whole(options.original) if options.draw > 0 else None
    columns = Path(options.columns) if options.columns else None
    machine = machine_known(options.machine)
    found = match(old.subject, Path(options.stock), columns, machine, _bar())
    try:
        files = []
        if output is not None:
            write_new(output, table(found, output), options.force)
            files.append(options.output)
        if drawn:
            files += _drawn(options, drawn, found, output.parent if output else Path("output"))
        if options.json:
            print_json(matched_json(found, files))
        else:
            print(matched_text(found, options.stock), end="")
            sys.stdout.flush()
        for name in files:
            tell(f"wrote {name}")
        why = why_exit(found)
        tell(why or "exit 0: every row was read, and one fits")
        return NEEDS_A_PERSON if why else DONE
    finally:
        found.ranking.close()


def _drawn(options: Namespace, old: Cylinder, found: Matched, folder: Path) -> list[str]:
    """Draw the best rows over the original; tell which could not be drawn."""
    from drafting.jobs.stock_drawings import MOST, chosen, drawn_over
    from drafting.replacing.stock.columns import Map, read_map

    told = read_map(Path(options.columns)) if options.columns else Map({})
    best = [j.row for j in found.ranking.best(min(options.draw, MOST))]
    again = chosen(Path(options.stock), told, best)
    written: dict[Path, bytes] = {}
    for row, drawn in drawn_over(old, (again[k] for k in best if k in again)):
        if isinstance(drawn, Refused):
            tell(f"row {row.row}, {row.name}: not drawn: {drawn.faults[0].message}")
        else:
            written |= {folder / name: data for name, data in drawn.items()}
    write_all(written)
    return [path.as_posix() for path in written]


def _bar() -> Callable[[int, float], None] | None:
    """Give what draws a bar on the terminal, None where stderr is none."""
    if not sys.stderr.isatty():
        return None

    def draw(rows: int, share: float) -> None:
        full = int(BAR * share)
        bar = "=" * full + " " * (BAR - full)
        end = "\r\x1b[K" if share >= 1.0 else ""
        sys.stderr.write(f"\r  match  [{bar}] {rows:>9,} rows{end}")
        sys.stderr.flush()

    return draw
