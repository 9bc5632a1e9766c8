"""``drafting compare``: one cylinder in place of another, what differs and what to do about it."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.folders import a_folder
from drafting.cli.say import print_json, tell
from drafting.files import write_all
from drafting.jobs.compare import Taken, machine_known, taken
from drafting.model.cylinder import Cylinder
from drafting.replacing.judge import Comparison, compare
from drafting.reports.replacing import compared_json, compared_text, why_exit


def run(options: Namespace) -> int:
    """Compare; exit code 0 only when it fits as it is."""
    folder = a_folder("--output", options.output)
    old, new = (taken(Path(p), options.shop) for p in (options.original, options.candidate))
    for path, one in ((options.original, old), (options.candidate, new)):
        for words in one.open:
            tell(f"{path}: still open: {words}")
    machine = machine_known(options.machine)
    drawn = _both(options, old, new) if options.draw else None
    found = compare(old.subject, new.subject, machine)
    files = _drawn(folder, *drawn, found) if drawn else []
    if options.json:
        print_json(compared_json(found, files))
    else:
        print(compared_text(found, options.full, files), end="")
        sys.stdout.flush()
    why = why_exit(found)
    tell(why or "exit 0: it fits")
    return NEEDS_A_PERSON if why else DONE


def _both(options: Namespace, old: Taken, new: Taken) -> tuple[Cylinder, Cylinder]:
    return old.whole(options.original), new.whole(options.candidate)


def _drawn(folder: Path, old: Cylinder, new: Cylinder, found: Comparison) -> list[str]:
    from drafting.jobs.overlay import overlay_files

    files = overlay_files(old, new, found)
    write_all({folder / name: data for name, data in files.items()})
    return [(folder / name).as_posix() for name in files]
