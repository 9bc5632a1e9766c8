"""``drafting size``: what the machine needs -> bores and rods that do it, or what prevents it."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.sizing.duty import read_duty
from drafting.sizing.size import Sizing, size


def run(options: Namespace) -> int:
    """Size a duty; exit code 1 when nothing does it, or when people are lifted."""
    from drafting.reports.sizing import sizing_json, sizing_text

    duty = read_duty(options.duty)
    sizing = size(duty)
    written = _take(sizing, options) if options.take is not None else None
    if options.json:
        document = sizing_json(sizing)
        print_json(document if written is None else {**document, "files": [str(written)]})
    else:
        print(sizing_text(sizing, written is not None), end="")
    if written is not None:
        tell(f"wrote {written}; look at it with: drafting check {written}")
    return DONE if sizing.proposals and not duty.lifts_people else NEEDS_A_PERSON


def _take(sizing: Sizing, options: Namespace) -> Path:
    from drafting.files import safe_name, write_new

    duty, count = sizing.duty, len(sizing.proposals)
    if not 1 <= options.take <= count:
        has = f"there are 1 to {count}" if count else "nothing is proposed"
        raise Refused([Fault(duty.file, 1, 1, "no-candidate", "take", f"{options.take}: {has}")])
    stem = Path(duty.file).stem
    path = Path(options.output or f"{safe_name(duty.number or stem, stem)}.toml")
    if path.resolve() == Path(duty.file).resolve():
        words = f"{path} is the duty file itself, which is never written over; name another with -o"
        raise Refused([Fault(duty.file, 1, 1, "writes-over-input", "-o", words)])
    write_new(path, sizing.proposals[options.take - 1].text.encode(), options.force)
    return path
