"""What lies in the folder already under a drawing's name: another's, older, or the same.

Every output carries the spec that it was made from. A file that carries another spec, or none, is
somebody else's and is not written over; one that this drawing wrote before and no longer does is
taken away, so that nothing stale lies beside the new.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.jobs.foreign import carried_text
from drafting.model.cylinder import Cylinder
from drafting.spec.bundle import unbundle
from drafting.told.meta import carried_text as carried_by

_QUICK = (".json", ".svg", ".step", ".glb", ".dxf", ".pdf")
"""Which of several files to ask first: the ones that are read fastest."""
_TITLE = re.compile(r"""^\s*title\s*=\s*(['"])(.*?)\1""", re.MULTILINE)


def lying_there(folder: Path, name: str) -> tuple[Path, ...]:
    """Give the files in a folder that bear a drawing's name as its outputs do."""
    own = re.compile(
        re.escape(name)
        + r"(?:-(?:sheet[1-9]\d{0,2}|retracted|extended|outline))?\.(?:dxf|svg|pdf|json|glb|step)"
    )
    try:
        return tuple(sorted(p for p in folder.iterdir() if own.fullmatch(p.name) and p.is_file()))
    except OSError:
        return ()


def refuse_foreign(folder: Path, cylinders: Iterable[Cylinder]) -> None:
    """Refuse to write over the files of another drawing; raises Refused with all of them."""
    faults = []
    for c in cylinders:
        for path, whose in _strangers(folder, c):
            message = (
                f"{path} {whose}; write elsewhere with -o, give this one a number of its own, or "
                "write over it with --force"
            )
            faults.append(Fault(c.spec.file, 1, 1, "foreign-output", "", message))
    if faults:
        raise Refused(faults)


def _strangers(folder: Path, c: Cylinder) -> list[tuple[Path, str]]:
    there = sorted(lying_there(folder, c.name), key=lambda p: _QUICK.index(p.suffix))
    if not there:
        return []
    first = there[0]  # outputs of one drawing are written together: one tells for all
    try:
        title = _title(unbundle(carried_text(first))[0])
    except Refused:
        return [
            (first, "was not made by a drawing of this number, or was saved by another program")
        ]
    own = c.spec.word("title") or ""
    return [] if title == own else [(first, f'is the drawing of "{title}"')]


def stale(folder: Path, c: Cylinder, written: Iterable[str], formats: Iterable[str]) -> list[Path]:
    """Give what this drawing wrote before and what no longer belongs to it.

    That is a further sheet that it has no more, and a file of a format not asked for now whose spec
    has changed since. A file that cannot be read is left.
    """
    new, wanted = set(written), set(formats)
    gone = []
    for path in lying_there(folder, c.name):
        if path.name in new:
            continue
        if "-sheet" in path.name and "svg" in wanted:
            gone.append(path)
            continue
        try:
            if carried_text(path) != carried_by(c.spec):
                gone.append(path)
        except Refused:
            continue
    return gone


def _title(text: str) -> str:
    found = _TITLE.search(text)
    return found[2] if found else ""
