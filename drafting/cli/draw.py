"""``drafting draw``: spec files to drawing and solids."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from drafting.cli.arguments import FORMATS
from drafting.cli.say import print_json, say_why, specs_among, tell, tell_findings
from drafting.errors import Fault, Refused
from drafting.files import write_all
from drafting.jobs.draw import draw_all
from drafting.jobs.letters import with_letters
from drafting.jobs.recover import older
from drafting.reports.why_exit import Outcome
from drafting.told.changes import compare
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Draw specs; all are read first, and all files are written whole or none."""
    formats = wanted_formats(options.formats)
    specs = specs_among(options.specs)
    if options.against:
        _one_spec(specs)
    cylinders = tuple(with_letters(c) for c in load_all(specs, options.shop))
    compared = (
        compare(older(Path(options.against), options.shop), cylinders[0])
        if options.against
        else None
    )
    folder = Path(options.output)
    drawn = draw_all(cylinders, formats, folder, options.outline, options.dxf, compared)
    write_all({path: data for d in drawn for path, data in d.files.items()})
    if options.json:
        print_json({"schema": 1, "cylinders": [d.entry() for d in drawn]})
    for d in drawn:
        if not options.json:
            for path in d.files:
                print(path.as_posix())
        tell_findings(d.cylinder.spec.file, d.findings)
        if not options.json:
            tell(d.summary)
            for label, words in d.compared.rows(()) if d.compared else ():
                tell(f"{label}: {words}" if label else words)
    return say_why(Outcome(d.cylinder.name, d.findings) for d in drawn)


def _one_spec(specs: Sequence[str]) -> None:
    """Refuse an older drawing beside several specs: it belongs to one."""
    if len(specs) > 1:
        message = f"an older drawing belongs to one spec; {len(specs)} were given"
        raise Refused([Fault("command line", 1, 1, "one-spec", "--against", message)])


def wanted_formats(text: str) -> tuple[str, ...]:
    """Read the list of formats; an unknown one is refused with the known."""
    words = [w.strip().lower() for w in text.split(",") if w.strip()]
    if "html" in words:
        message = "html is not written yet; known: " + ", ".join(FORMATS)
        raise Refused([Fault("command line", 1, 1, "not-written-yet", "--formats", message)])
    unknown = [w for w in words if w not in FORMATS]
    if unknown or not words:
        what = f'unknown format "{unknown[0]}"' if unknown else "no format"
        message = f"{what}; known: {', '.join(FORMATS)}"
        raise Refused([Fault("command line", 1, 1, "unknown-format", "--formats", message)])
    return tuple(dict.fromkeys(words))
