"""``drafting measure``: readings of tape and caliper to a spec, and what to measure again."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import print_json, tell
from drafting.files import write_new
from drafting.measuring.measure import measure
from drafting.reports.measuring import measured_json, measured_text


def run(options: Namespace) -> int:
    """Measure; the spec goes to stdout, or to a file with -o. Exit code 1 while anything is open.

    The spec is written in both cases, and says in its first lines what is not finished.
    """
    if options.ask:
        from drafting.measuring.ask import ask

        if not ask(Path(options.readings)):
            return NEEDS_A_PERSON
    measured = measure(options.readings)
    if options.output:
        write_new(Path(options.output), measured.spec.encode("utf-8"), force=options.force)
    if options.json:
        print_json(measured_json(measured))
    elif options.output:
        print(measured_text(measured))
        tell(f"{options.output}: written")
    else:
        print(measured.spec, end="")
        tell(measured_text(measured))
    return DONE if measured.done else NEEDS_A_PERSON
