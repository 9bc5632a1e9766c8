"""``drafting draw``: spec files to drawing and solids."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from drafting.cli.arguments import FORMATS
from drafting.cli.say import named_file, print_json, say_why, specs_among, tell, tell_findings
from drafting.errors import Fault, OutputFailed, Refused
from drafting.files import left_behind, write_all
from drafting.jobs.draw import Drawing, How, draw_each
from drafting.jobs.outputs import refuse_foreign, stale
from drafting.jobs.recover import older
from drafting.reports.why_exit import Outcome
from drafting.told.changes import compare
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Draw specs; all are read first, then each is drawn and its files written whole or not at all.

    A refusal writes nothing. Where drawing itself fails, what was written before is said.
    """
    formats = wanted_formats(options.formats)
    named_file("--output", options.output)
    specs = specs_among(options.specs)
    if options.against is not None:
        named_file("--against", options.against)
        _one_spec(specs)
    cylinders = load_all(specs, options.shop)
    compared = (
        compare(older(Path(options.against), options.shop), cylinders[0])
        if options.against is not None
        else None
    )
    how = How(
        formats, options.outline, options.dxf, compared, options.sheet or "", options.scale or ""
    )
    folder = Path(options.output)
    prefix = "" if folder == Path() else f"{folder.as_posix()}/"
    if not options.force:
        refuse_foreign(folder, cylinders, (*formats, *(["outline"] * options.outline)))
    entries: list[dict[str, Any]] = []
    outcomes: list[Outcome] = []
    try:
        for drawing in draw_each(cylinders, how):
            write_all({folder / name: data for name, data in drawing.files.items()})
            _clear(folder, drawing, formats)
            outcomes.append(Outcome(drawing.cylinder.name, drawing.findings))
            if options.json:
                entries.append(drawing.entry(prefix))
            _tell(drawing, prefix, options.json)
    except OutputFailed as failed:
        done = ", ".join(o.name for o in outcomes)
        raise OutputFailed(
            f"{failed} Written before it: {done}." if done else str(failed)
        ) from None
    if options.json:
        print_json({"schema": 1, "cylinders": entries})
    return say_why(outcomes)


def _clear(folder: Path, drawing: Drawing, formats: Sequence[str]) -> None:
    """Take away what this drawing wrote before and no longer does; name what a killed run left."""
    for path in stale(folder, drawing.cylinder, drawing.files, formats):
        with suppress(OSError):
            path.unlink()
            tell(f"removed {path.as_posix()}: an older state of this drawing")
    for path in left_behind(folder):
        tell(f"{path.as_posix()} was left by a run that was stopped; it can be deleted")


def _tell(drawing: Drawing, prefix: str, as_json: bool) -> None:
    """Say what was written and found for one cylinder."""
    if not as_json:
        for name in drawing.files:
            print(f"{prefix}{name}")
    tell_findings(drawing.cylinder.spec.file, drawing.findings)
    if not as_json:
        tell(drawing.summary)
        for label, words in drawing.compared.rows(()) if drawing.compared else ():
            tell(f"{label}: {words}" if label else words)


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
