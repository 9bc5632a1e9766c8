"""``drafting batch``: a table or a folder of cylinders, drawn in parallel, gone on with at will."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.draw import wanted_formats
from drafting.cli.folders import a_folder
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import read_regular, write_all
from drafting.jobs.batch.index import PAGE, TABLE, page, table
from drafting.jobs.batch.manifest import Entry
from drafting.jobs.batch.orders import orders
from drafting.jobs.batch.run import How, Ran
from drafting.jobs.batch.run import run as run_all
from drafting.spec.content import LARGEST
from drafting.spec.given import SHOP_FILE

MOST_TOLD = 20
MOST_WORKERS = 256


def run(options: Namespace) -> int:
    """Draw them; exit code 0 only when all were drawn and none needs a person."""
    source = Path(options.source)
    base = Path(options.base) if options.base else None
    folder = a_folder("--output", options.output)
    if not source.exists():
        raise _wrong("no-file", options.source, "there is no such table or folder")
    if source.suffix.lower() == ".toml" and source.is_file():
        message = (
            "this is one spec: draw it with drafting draw. A batch takes a folder of them, or a "
            f"table whose rows change it: drafting batch table.csv --base {source.name}"
        )
        raise _wrong("no-table", options.source, message)
    if source.is_dir() and base:
        raise _wrong("usage", "--base", "a base is for a table; the specs of a folder are whole")
    if not 1 <= options.workers <= MOST_WORKERS:
        raise _wrong("usage", "--workers", f"write 1 to {MOST_WORKERS}")
    if folder.resolve() == (source if source.is_dir() else source.parent).resolve():
        raise _wrong("usage", "--output", "write to a folder of its own, not among the sources")
    shop, shop_file = _shop(options.shop, base or source)
    how = How(wanted_formats(options.formats), shop, shop_file, options.workers, options.on or "",
              options.again, options.force)  # fmt: skip
    wanted = orders(source, base, shop, how.formats)
    ran = run_all(wanted, folder, how, _bar())
    title = f"{source.name}: {len(ran.entries)} cylinders"
    write_all({folder / PAGE: page(ran.entries, title), folder / TABLE: table(ran.entries)})
    if options.json:
        print_json(_json(ran, options.output))
    else:
        print(f"{(folder / PAGE).as_posix()}\n{(folder / TABLE).as_posix()}")
        sys.stdout.flush()
    return _said(ran)


def _said(ran: Ran) -> int:
    failed = ran.failed
    for e in failed[:MOST_TOLD]:
        for field, message in e.faults:
            tell(f"row {e.row}, {e.name}: {field + ': ' if field else ''}{message}")
    if len(failed) > MOST_TOLD:
        tell(f"{len(failed) - MOST_TOLD} more that failed: {TABLE}")
    kept = f", {ran.skipped} as they were" if ran.skipped else ""
    tell(f"{ran.done} drawn{kept}, {len(failed)} not drawn")
    waits = sum(bool(e.to_do) for e in ran.entries)
    bad = sum(e.verdict in ("DOES NOT HOLD", "NOT CALLED SAFE") for e in ran.entries)
    open_ones = sum(e.verdict not in ("HOLDS", "") for e in ran.entries) - bad
    why = [
        f"{n} {words}"
        for n, words in (
            (len(failed), "not drawn"),
            (bad, "with a check that fails"),
            (open_ones, "not confirmed"),
            (waits, "with findings for a person"),
        )
        if n
    ]
    tell(f"exit 1: {', '.join(why)}" if why else "exit 0: nothing needs a person")
    return NEEDS_A_PERSON if why else DONE


def _json(ran: Ran, folder: str) -> dict[str, object]:
    failed = [{"row": e.row, "name": e.name, "field": field, "message": message}
              for e in ran.failed for field, message in e.faults]  # fmt: skip
    return {"schema": 1, "done": ran.done, "skipped": ran.skipped, "failed": failed,
            "folder": folder, "files": [PAGE, TABLE]}  # fmt: skip


def _shop(named: str | None, beside: Path) -> tuple[str, str]:
    """Give the text of the company defaults and their name; none where nobody has any."""
    path = Path(named) if named else (beside if beside.is_dir() else beside.parent) / SHOP_FILE
    if not named and not path.is_file():
        return "", ""
    from drafting.spec.shop import read_shop

    data = read_regular(path, LARGEST)
    read_shop(data, str(path))  # a fault of theirs is told once, before anything is drawn
    return data.decode("utf-8"), str(path)


def _bar() -> Callable[[Entry, int], None] | None:
    """Give what says on a terminal how far it is, None where stderr is none."""
    if not sys.stderr.isatty():
        return None

    def say(entry: Entry, before: int) -> None:
        sys.stderr.write(f"\r\x1b[K  batch  {before:,} done, now {entry.name[:40]}")
        sys.stderr.flush()

    return say


def _wrong(code: str, field: str, message: str) -> Refused:
    return Refused([Fault("command line", 1, 1, code, field, message)])
