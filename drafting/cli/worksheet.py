"""``drafting worksheet``: a printable sheet of what to measure, on a cylinder or on its machine."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import refuse_existing, write_all
from drafting.model.catalog import ENDS, mount_words
from drafting.settle.mount import End
from drafting.spec.kinds import nearest


def run(options: Namespace) -> int:
    """Write the worksheet for a body mount and a rod mount, or the machine's."""
    from drafting.measuring.machine_worksheet import machine_sheets
    from drafting.measuring.worksheet import sheets
    from drafting.measuring.worksheet_page import files_of

    faults = [] if options.machine else [f for end in ENDS if (f := _wrong(options, end))]
    if faults:
        raise Refused(faults)
    paper = options.paper or ("Letter" if options.units == "in" else "A4")
    pages = (
        machine_sheets(options.units, paper)
        if options.machine
        else sheets(options.body, options.rod, options.units, paper)
    )
    files = files_of(pages, Path(options.output))
    for path in files:
        refuse_existing(path, options.force)
    write_all(files)
    if options.json:
        print_json({"schema": 1, "files": [f.as_posix() for f in files]})
    else:
        print("\n".join(f.as_posix() for f in files))
        tell("Print it at 100 %, and hold a ruler to the bar at its foot.")
    return DONE


def _wrong(options: Namespace, end: End) -> Fault | None:
    """Give what is wrong with the mount named for an end; None where nothing is."""
    said, words = getattr(options, end), mount_words(end)
    if said is None:
        message = (
            "which mount has it there? as in: drafting worksheet --body clevis --rod clevis; or, "
            "for the machine that it goes into: drafting worksheet --machine"
        )
        return Fault("command line", 1, 1, "missing", f"--{end}", message)
    if said in words:
        return None
    message = f'no mount "{said}"; {nearest(said, words)}'
    return Fault("command line", 1, 1, "unknown-word", f"--{end}", message)
