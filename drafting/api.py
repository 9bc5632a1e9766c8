"""What script users call, beside ``read`` and ``load``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.checks.check import Check
from drafting.model.cylinder import Cylinder

if TYPE_CHECKING:
    from drafting.fitting.fit import Fit
    from drafting.fitting.machine import Machine
    from drafting.replacing.judge import Comparison
    from drafting.replacing.known import Subject
    from drafting.replacing.stock.matched import Matched


def draw(
    cylinder: Cylinder,
    formats: Sequence[str] = ("dxf", "svg", "pdf", "step", "json"),
    folder: str | Path = "output",
) -> tuple[Path, ...]:
    """Draw a cylinder and write its files, whole or not at all; gives their paths.

    ``formats`` are any of dxf, svg, pdf, step, glb and json. Raises OutputFailed.
    """
    from drafting.files import write_all
    from drafting.jobs.draw import How, draw_cylinder

    drawn = draw_cylinder(cylinder, How(tuple(formats)))
    files = {Path(folder) / name: data for name, data in drawn.files.items()}
    write_all(files)
    return tuple(files)


def solid(cylinder: Cylinder, extension: float = 0.0) -> Any:
    """Give a ``cadquery.Assembly`` of a cylinder, its rod moved out by ``extension`` mm."""
    from drafting.solids.assembly import assembly

    return assembly(cylinder.at(extension), cylinder.name)


def check(cylinder: Cylinder) -> tuple[Check, ...]:
    """Give every check of a cylinder with its verdict; ``ok`` is None where there is none."""
    from drafting.checks.of_cylinder import judge

    return judge(cylinder).checks


def compare(
    original: Cylinder | str | Path,
    candidate: Cylinder | str | Path,
    machine: str | Path | None = None,
) -> Comparison:
    """Compare a cylinder with one that is to take its place.

    Either is a loaded cylinder, or the path of a spec, of an output made from one, or of readings;
    ``machine`` is the path of a machine file. ``verdict`` is that on the whole, ``rows`` have one
    judgement each, ``jobs`` what is to be done. Raises Refused.
    """
    from drafting.jobs.compare import machine_known
    from drafting.replacing.judge import compare as judged

    old, new = (_subject(c) for c in (original, candidate))
    return judged(old, new, machine_known(str(machine) if machine else None))


def match(
    original: Cylinder | str | Path,
    stock: str | Path,
    columns: str | Path | None = None,
    machine: str | Path | None = None,
) -> Matched:
    """Rank a stock list (CSV, XLSX, XLS, ODS) against a cylinder; ``columns`` maps its headings.

    ``ranking.best(10)`` gives the ten best rows, ``ranking.wrong()`` those that could not be read;
    ``ranking.close()`` lets go of the file that they lie in. Raises Refused.
    """
    from drafting.jobs.compare import machine_known
    from drafting.jobs.match import match as matched

    known = machine_known(str(machine) if machine else None)
    told = Path(columns) if columns else None
    return matched(_subject(original), Path(stock), told, known)


def _subject(source: Cylinder | str | Path) -> Subject:
    from drafting.jobs.compare import taken
    from drafting.replacing.known import subject

    return subject(source) if isinstance(source, Cylinder) else taken(Path(source)).subject


def fit(cylinder: Cylinder, machine: Machine | str | Path) -> Fit:
    """Judge a cylinder in a machine: the path of a machine file, or one that was read.

    ``verdict`` is that on the whole, ``rows`` have one judgement each, ``jobs`` what is to be done,
    ``positions`` lengths (mm) and forces (N) over the travel, ``room`` the clearances where the
    file names a model. Raises Refused.
    """
    from drafting.fitting.fit import fit as judged
    from drafting.fitting.machine import Machine, read_machine

    where = machine if isinstance(machine, Machine) else read_machine(str(machine))
    return judged(cylinder, where)


def report(cylinder: Cylinder, full: bool = False) -> str:
    """Give the report that ``drafting check`` prints; ``full`` as with ``--full``."""
    from drafting.checks.of_cylinder import judge
    from drafting.reports.text import report as words

    return words(cylinder, judge(cylinder), full)
