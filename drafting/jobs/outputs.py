"""What lies in the folder already under a drawing's name: another's, older, or the same.

Every output carries the spec that it was made from. A file that carries another spec, or none, is
somebody else's: it is not written over and not taken away. One that this drawing wrote before and
no longer does is taken away, so that nothing stale lies beside the new.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.files import safe_name
from drafting.jobs.foreign import carried_texts
from drafting.jobs.recover import titled
from drafting.model.cylinder import Cylinder
from drafting.told.meta import carried_text as carried_by

_ENDINGS = {
    "dxf": r"\.dxf",
    "svg": r"(-sheet[1-9]\d{0,2})?\.svg",
    "pdf": r"\.pdf",
    "png": r"\.png",
    "csv": r"\.csv",
    "html": r"\.html",
    "json": r"\.json",
    "glb": r"\.glb",
    "step": r"-(retracted|extended|at-\d{1,6}(\.\d{1,3})?mm)\.step",
    "outline": r"-outline\.dxf",
    "plates": r"-plate-[a-z_.0-9]+\.dxf",
}
"""How the files of a format are called behind the drawing's name."""


def lying_there(folder: Path, name: str, formats: Iterable[str] = tuple(_ENDINGS)) -> list[Path]:
    """Give the files in a folder that bear a drawing's name as its outputs in some formats do."""
    own = re.compile(re.escape(name) + f"(?:{'|'.join(_ENDINGS[f] for f in formats)})")
    try:
        return sorted(p for p in folder.iterdir() if own.fullmatch(p.name) and p.is_file())
    except OSError:
        return []


def foreign(folder: Path, cylinders: Iterable[Cylinder], formats: Sequence[str]) -> list[Fault]:
    """Give a fault for each file of another drawing that would be written over."""
    faults = []
    for c in cylinders:
        for path, text in carried_texts(lying_there(folder, c.name, formats)).items():
            if _is_of(c, text):
                continue
            whose = (
                f'is the drawing of "{titled(text)[0]}"'
                if isinstance(text, str)
                else "was not made by a drawing of this number, or was saved by another program"
            )
            message = (
                f"{path} {whose}; write elsewhere with -o, give this one a number of its own, or "
                "write over it with --force"
            )
            faults.append(Fault(c.spec.file, 1, 1, "foreign-output", "", message))
    return faults


def stale(folder: Path, c: Cylinder, written: Iterable[str], formats: Iterable[str]) -> list[Path]:
    """Give what this drawing wrote before and what no longer belongs to it.

    That is a further sheet that it has no more, and a file of a format not asked for now whose spec
    has changed since. What carries another drawing, or cannot be read, is left.
    """
    new, sheets = (
        set(written),
        set(lying_there(folder, c.name, ["svg"]) if "svg" in formats else ()),
    )
    there = [p for p in lying_there(folder, c.name) if p.name not in new]
    return [
        path
        for path, text in carried_texts(there).items()
        if _is_of(c, text) and (path in sheets or text != carried_by(c.spec))
    ]


def _is_of(c: Cylinder, carried: str | Refused) -> bool:
    """Tell whether a file is of this drawing: it carries a spec of the same number and title."""
    if not isinstance(carried, str):
        return False
    title, number = titled(carried)
    return title == (c.spec.word("title") or "") and safe_name(number, c.name) == c.name
