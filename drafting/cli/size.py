"""``drafting size``: what the machine needs, and the bores and rods that do it."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import write_new
from drafting.jobs.duty import read_duty
from drafting.jobs.size import size
from drafting.jobs.take import take
from drafting.report.sizing import sizing_json, sizing_text


def run(options: Namespace) -> int:
    """Rank what does the duty; with --take N write that one as a spec."""
    duty = read_duty(options.duty)
    sizing = size(duty)
    if options.json:
        print_json(sizing_json(sizing))
    else:
        print(sizing_text(sizing))
    if options.take is not None:
        if not 1 <= options.take <= len(sizing.candidates):
            message = f"{options.take} is not in the list of {len(sizing.candidates)}"
            raise Refused([Fault("command line", 1, 1, "not-in-list", "--take", message)])
        path = Path(options.output)
        text = take(duty, sizing.candidates[options.take - 1])
        write_new(path, text.encode("utf-8"), force=options.force)
        tell(f"{path}: written")
    return DONE if sizing.candidates else NEEDS_A_PERSON
