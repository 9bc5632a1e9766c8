"""``drafting draw``: spec files to drawing and solids."""

from __future__ import annotations

import re
import sys
from argparse import Namespace
from collections.abc import Collection, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from drafting.cli import DONE, FAILED, REFUSED
from drafting.cli.arguments import FORMATS
from drafting.cli.folders import a_folder
from drafting.cli.say import error_rows, named_file, print_json, say_why, tell, tell_findings
from drafting.cli.spec_files import specs_among
from drafting.cli.viewer import show
from drafting.cli.watch import state, wait_for_change, watched
from drafting.errors import Fault, OutputFailed, Refused
from drafting.files import left_behind, write_all
from drafting.jobs.draw import Drawing, How, draw_each
from drafting.jobs.outputs import foreign, stale
from drafting.jobs.position import extension
from drafting.jobs.recover import older
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.reports.why_exit import Outcome
from drafting.told.changes import compare
from drafting.told.rows import load_each


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What a command line asks for: specs, and how and where they are drawn."""

    specs: tuple[str, ...]
    how: How
    folder: Path
    options: Namespace

    @property
    def prefix(self) -> str:
        """Give what stands before a file's name when it is told."""
        return "" if self.folder == Path() else f"{self.folder.as_posix()}/"


def run(options: Namespace) -> int:
    """Draw specs; all are read first, then each is drawn and its files written whole or not at all.

    A refusal writes nothing, unless ``--keep-going`` is given. Where drawing itself fails, what was
    written before is said.
    """
    formats = wanted_formats(options.formats)
    wanted = _Wanted(
        tuple(specs_among(options.specs)),
        How(
            formats,
            options.outline,
            options.plates,
            options.dxf,
            None,
            options.sheet or "",
            options.scale or "",
            options.at or "",
        ),
        a_folder("--output", options.output, FORMATS),
        options,
    )
    if options.against is not None:
        named_file("--against", options.against)
        _one_spec(wanted.specs)
    return _watch(wanted) if options.watch else _draw(wanted)[0]


def _draw(wanted: _Wanted, own: Collection[str] = ()) -> tuple[int, frozenset[str]]:
    """Draw all; gives the exit code and the names that were drawn.

    What bears a name of ``own`` was drawn by this run and may be written over.
    """
    options, how = wanted.options, wanted.how
    cylinders, faults = _readable(wanted, own)
    if options.against is not None:
        old = older(Path(options.against), options.shop, cylinders[0].spec.word("number") or "")
        how = replace(how, compared=compare(old, cylinders[0]))
    done: list[Drawing] = []
    failures = 0
    waiting = list(cylinders)
    drawings = draw_each(cylinders, how)
    while waiting:
        c = waiting.pop(0)
        _progress(c, len(cylinders) - len(waiting), len(cylinders))
        try:
            drawing = next(drawings)
            write_all({wanted.folder / name: data for name, data in drawing.files.items()})
        except OutputFailed as failed:
            if not options.keep_going:
                raise OutputFailed(" ".join([str(failed), *_written(done)])) from None
            tell(f"drafting: {failed}")
            failures += 1
            drawings = draw_each(tuple(waiting), how)
            continue
        _clear(wanted.folder, drawing, how.formats)
        _tell(drawing, wanted.prefix, options.json)
        if options.open:
            _show(wanted.folder, drawing)
        # What was written need not be held; the rows of the document are made from the names.
        done.append(replace(drawing, files=dict.fromkeys(drawing.files, b"")))
    if options.json:
        errors = {"errors": error_rows(faults)} if options.keep_going else {}
        entries = [d.entry(wanted.prefix) for d in done]
        print_json({"schema": 1, "cylinders": entries, **errors})
    drawn = frozenset(d.cylinder.name for d in done)
    if not faults and not failures:
        return say_why([Outcome(d.cylinder.name, d.findings) for d in done]), drawn
    code = FAILED if failures else REFUSED
    tell(f"exit {code}: {len(done)} of {len(wanted.specs)} drawn")
    return code, drawn


def _readable(wanted: _Wanted, own: Collection[str]) -> tuple[tuple[Cylinder, ...], list[Fault]]:
    """Give the cylinders to draw, and the faults of the others; raises Refused for one or all."""
    options, formats = wanted.options, wanted.how.formats
    cylinders, found = load_each(wanted.specs, options.shop)
    faults = list(found)
    if options.at:
        for c in cylinders:
            extension(options.at, c)
    if not options.force:
        asked = [c for c in cylinders if c.name not in own]
        words = (
            *formats,
            *(["outline"] * options.outline),
            *(["plates"] * options.plates),
            *(["step"] * bool(options.at)),
        )
        strangers = foreign(wanted.folder, asked, words)
        faults += strangers
        cylinders = tuple(c for c in cylinders if all(c.spec.file != f.file for f in strangers))
    if faults and not (options.keep_going and cylinders):
        some = f"{len(cylinders)} of {len(wanted.specs)} can be drawn: add --keep-going"
        raise Refused(faults, f"nothing was written; {some}" if cylinders else "")
    for fault in sorted(faults):
        tell(str(fault))
    return cylinders, faults


def _watch(wanted: _Wanted) -> int:
    """Draw, and again whenever a file was saved; what is wrong is told and waited for."""
    files = watched(wanted.specs, wanted.options.shop)
    seen = state(files)
    own: frozenset[str] = frozenset()
    try:
        while True:
            try:
                own |= _draw(wanted, own)[1]
            except Refused as refused:
                for line in (*refused.faults, *([refused.hint] if refused.hint else [])):
                    tell(str(line))
            except OutputFailed as failed:
                tell(f"drafting: {failed}")
            wanted.options.open = False  # a viewer that is open shows the new one, or is asked to
            tell(f"waiting for {', '.join(wanted.specs)} to be saved; Ctrl-C ends")
            seen = wait_for_change(files, seen)
    except KeyboardInterrupt:
        return DONE


def _progress(c: Cylinder, n: int, of: int) -> None:
    """Say which of several is being drawn, on a terminal."""
    if of > 1 and sys.stderr.isatty():
        tell(f"{n} of {of}: {c.spec.file}")


def _written(done: Sequence[Drawing]) -> list[str]:
    names = ", ".join(d.cylinder.name for d in done)
    return [f"Written before it: {names}."] if names else []


def _show(folder: Path, drawing: Drawing) -> None:
    """Show the PDF, else what comes nearest."""
    for suffix in (".pdf", ".svg", ".dxf"):
        for name in drawing.files:
            if name.endswith(suffix):
                if wrong := show(folder / name):
                    tell(wrong)
                return
    tell("--open: nothing that was written can be looked at; add pdf to --formats")


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
        sys.stdout.flush()
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
    words = [w.lower().removeprefix(".") for w in re.split(r"[,;\s]+", text) if w]
    words = ["step" if w == "stp" else w for w in words]
    unknown = [w for w in words if w not in FORMATS]
    if unknown or not words:
        what = f'unknown format "{unknown[0]}"' if unknown else "no format"
        message = f"{what}; known: {', '.join(FORMATS)}"
        raise Refused([Fault("command line", 1, 1, "unknown-format", "--formats", message)])
    return tuple(dict.fromkeys(words))
