"""``drafting worksheet``: a printable sheet of what to measure."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import write_all
from drafting.model.catalog import ENDS, mount_words
from drafting.spec.kinds import nearest


def run(options: Namespace) -> int:
    """Write the worksheet for a body mount and a rod mount."""
    known = {end: mount_words(end) for end in ENDS}
    faults = [
        Fault("command line", 1, 1, "unknown-word", f"--{end}",
              f'no mount "{getattr(options, end)}"; {nearest(getattr(options, end), words)}')
        for end, words in known.items()
        if getattr(options, end) not in words
    ]  # fmt: skip
    if faults:
        raise Refused(faults)
    from drafting.measuring.worksheet import worksheet

    paper = options.paper or ("Letter" if options.units == "in" else "A4")
    path = Path(options.output)
    write_all({path: worksheet(options.body, options.rod, options.units, paper)})
    if options.json:
        print_json({"schema": 1, "files": [path.as_posix()]})
    else:
        print(path.as_posix())
        tell("Print it at 100 %, and hold a ruler to the bar at its foot.")
    return DONE
