"""``drafting request``: the package for a quote, and the forms that come back."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli.arguments import PARTS
from drafting.cli.folders import a_folder
from drafting.cli.say import print_json, say_why, tell, tell_findings
from drafting.cli.spec_files import specs_among
from drafting.errors import Fault, Refused
from drafting.files import write_all
from drafting.jobs.request import open_words, package, requests
from drafting.reports.why_exit import Outcome
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Write the package of one or several specs, or read the forms that came back."""
    folder = a_folder("--output", options.output)
    if options.answers:
        from drafting.cli.answers import read_answers

        return read_answers(options)
    if not options.specs:
        raise _wrong("no-spec", "SPEC", "no spec file is named; name one, or --answers FORM")
    cylinders = load_all(specs_among(options.specs), options.shop)
    made, outcomes, questions = [], [], []
    for drawing, files in requests(cylinders, left_out(options.without)):
        c = drawing.cylinder
        made.append((c.name, files))
        outcomes.append(Outcome(c.name, drawing.findings))
        questions += open_words(c)
        tell_findings(c.spec.file, drawing.findings)
    whole = package(made)
    inside = folder / whole.name.removesuffix(".zip")
    written = {folder / whole.name: whole.data}
    written |= {inside / name: data for name, data in whole.files.items()}
    before = _before(folder / whole.name, options.force)
    write_all(written)
    for name in before - set(whole.files):  # what an older package had and this one leaves out
        (inside / name).unlink(missing_ok=True)
    names = [p.as_posix() for p in written]
    if options.json:
        print_json({"schema": 1, "files": names, "package": names[0], "open": questions})
    else:
        print("\n".join(names))
        tell(f"{len(whole.files)} files in {names[0]}; send it, and read the answer with:")
        tell(f"  drafting request {' '.join(options.specs)} --answers FORM.pdf")
    return say_why(outcomes)


def left_out(text: str) -> tuple[str, ...]:
    """Read the parts that are left out; an unknown one is refused with the known."""
    words = [w.strip().lower() for w in text.split(",") if w.strip()]
    unknown = [w for w in words if w not in PARTS]
    if unknown:
        known = ", ".join(PARTS)
        raise _wrong("unknown-part", "--without", f'unknown part "{unknown[0]}"; known: {known}')
    return tuple(dict.fromkeys(words))


def _before(target: Path, force: bool) -> set[str]:
    """Give what an older package of this name has inside; refuse to write over another ZIP."""
    from zipfile import BadZipFile, ZipFile

    names: set[str] = set()
    if not target.exists():
        return names
    try:
        with ZipFile(target) as there:
            names = set(there.namelist())
    except (BadZipFile, OSError):
        pass
    safe = {n for n in names if not Path(n).is_absolute() and ".." not in Path(n).parts}
    if any(n.endswith("-cover.pdf") for n in names):
        return safe
    if force:
        return set()
    message = (
        f"{target.as_posix()} is no package of this tool; write elsewhere with -o, or over it "
        "with --force"
    )
    raise Refused([Fault("command line", 1, 1, "foreign-output", "--output", message)])


def _wrong(code: str, option: str, message: str) -> Refused:
    return Refused([Fault("command line", 1, 1, code, option, message)])
